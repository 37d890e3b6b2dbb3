/** Topics about holes: drill points and depths, reaming, counterbores. */

import { capHead, judgeCounterbore } from '../../shop/counterbores.ts';
import { drillName } from '../../shop/drill-sizes.ts';
import {
  BREAKTHROUGH_ALLOWANCE,
  blindHole,
  pointLength,
  throughTravel,
  tipDepth,
  USUAL_POINT_ANGLE,
} from '../../shop/drilling.ts';
import { type GrabRisk, grabRisks } from '../../shop/grabbing.ts';
import { findMaterial } from '../../shop/materials.ts';
import type { Mm } from '../../shop/quantities.ts';
import { judgeReamingStock, reamingDrill } from '../../shop/reaming.ts';
import { andThen, answer, type Result } from '../../shop/refusal.ts';
import { countersink } from './countersink-topic.ts';
import { allowance, diameter, pointAngle, positiveLength } from './readers.ts';
import { sayTapDrill } from './thread-words.ts';
import { type Asked, type Field, read, readIf, readOr, type Topic, type TopicAnswer, withAll } from './topic.ts';
import { sayBoth, sayLength, sayNumber } from './words.ts';

const drill: Topic = {
  name: 'drill',
  summary: 'point length, travel for a through hole, tip depth and floor of a blind one',
  flags: [
    { name: 'diameter', value: 'LENGTH', meaning: 'diameter of the drill, or its name: "no. 7", "letter F"' },
    { name: 'angle', value: 'ANGLE', meaning: 'included angle of the point; 118 deg when left out' },
    { name: 'through', value: 'LENGTH', meaning: 'thickness to drill through' },
    {
      name: 'allowance',
      value: 'LENGTH',
      meaning: 'with --through: past the point; 1 mm when left out',
      with: ['through'],
    },
    { name: 'depth', value: 'LENGTH', meaning: 'blind: depth of full diameter' },
    { name: 'thickness', value: 'LENGTH', meaning: 'with --depth: of the part, gives the floor', with: ['depth'] },
    { name: 'material', value: 'NAME', meaning: 'says where a drill grabs in it' },
    { name: 'hole', value: 'LENGTH', meaning: 'a hole already there, to be opened: says when the drill grabs' },
  ],
  needs: [['diameter']],
  apart: [['through', 'depth']],
  example: 'drill --diameter "10 mm" --angle 118 --through "6 mm"',
  run: (asked) =>
    withAll(
      {
        size: read(asked, 'diameter', diameter),
        angle: readOr(asked, 'angle', pointAngle, USUAL_POINT_ANGLE),
        through: readIf(asked, 'through', positiveLength),
        past: readOr(asked, 'allowance', allowance, BREAKTHROUGH_ALLOWANCE),
        depth: readIf(asked, 'depth', positiveLength),
        thickness: readIf(asked, 'thickness', positiveLength),
        material: readIf(asked, 'material', findMaterial),
        hole: readIf(asked, 'hole', diameter),
      },
      ({ size, angle, through, past, depth, thickness, material, hole }) => {
        const tool = { diameter: size, angle };
        const place = {
          drill: tool,
          ...(material && { material }),
          ...(through && { thickness: through }),
          ...(hole && { hole }),
        };
        return withAll({ point: pointLength(size, angle), risks: grabRisks(place) }, ({ point, risks }) => {
          const base = {
            point,
            fields: { point_length_mm: point, diameter_mm: size, angle_deg: angle, grabs: risks },
            risks: risks.map((risk) => GRABS[risk]),
            sum: `point ${sayLength(point, asked.unit)} = d/2 / tan(${sayNumber(angle)}/2 deg)`,
          };
          if (through !== undefined) return throughAnswer(asked, base, tool, through, past);
          if (depth !== undefined) return blindAnswer(asked, base, tool, depth, thickness);
          return answer({
            text: `point ${sayLength(point, asked.unit)} long`,
            working: [base.sum, ...base.risks],
            fields: base.fields,
          });
        });
      },
    ),
};

interface DrillBase {
  readonly point: Mm;
  readonly fields: { readonly [name: string]: Field };
  readonly sum: string;
  /** Why the drill may grab there, in words. */
  readonly risks: readonly string[];
}

const GRABS: Readonly<Record<GrabRisk, string>> = {
  'thin stock':
    'thin stock: the point is longer than the stock is thick, so the drill grabs: clamp, back with scrap, ease the feed',
  brass: 'brass: dull the lips to no rake, or the drill pulls itself in; clamp the part (common practice)',
  'opening a hole':
    'the hole is only slightly smaller: such a drill grabs most; clamp the part, hold the feed back (common practice)',
};

type Tool = Parameters<typeof throughTravel>[1];

const throughAnswer = (asked: Asked, base: DrillBase, tool: Tool, thickness: Mm, past: Mm): Result<TopicAnswer> =>
  andThen(throughTravel(thickness, tool, past), (travel) =>
    answer({
      text: `wind ${sayLength(travel, asked.unit)} from touching the top`,
      working: [
        base.sum,
        `${sayLength(thickness, asked.unit)} thickness + ${sayLength(base.point, asked.unit)} point + ${sayLength(past, asked.unit)} past it`,
        ...base.risks,
      ],
      fields: {
        ...base.fields,
        travel_mm: travel,
        thickness_mm: thickness,
        allowance_mm: past,
        thin_stock: base.point > thickness,
      },
    }),
  );

function blindAnswer(
  asked: Asked,
  base: DrillBase,
  tool: Tool,
  depth: Mm,
  thickness: Mm | undefined,
): Result<TopicAnswer> {
  return withAll(
    {
      tip: tipDepth(depth, tool),
      hole: thickness === undefined ? answer(undefined) : blindHole(thickness, depth, tool),
    },
    ({ tip, hole }) => {
      const floor =
        hole === undefined
          ? []
          : hole.kind === 'blind'
            ? [`floor under the tip ${sayLength(hole.floor, asked.unit)}`]
            : [`breaks through: the tip comes out by ${sayLength(hole.pastFarFace, asked.unit)}`];
      return answer({
        text: [`tip at ${sayLength(tip, asked.unit)}`, ...floor].join('; '),
        working: [base.sum, `full diameter to ${sayLength(depth, asked.unit)}, the point beyond it`, ...base.risks],
        fields: {
          ...base.fields,
          tip_depth_mm: tip,
          depth_mm: depth,
          ...(hole === undefined
            ? {}
            : hole.kind === 'blind'
              ? { floor_mm: hole.floor, breaks_through: false }
              : { past_far_face_mm: hole.pastFarFace, breaks_through: true }),
        },
      });
    },
  );
}

const ream: Topic = {
  name: 'ream',
  summary: 'the drill before a reamer, or whether a drill leaves the right stock',
  flags: [
    { name: 'reamer', value: 'LENGTH', meaning: 'diameter of the reamer' },
    { name: 'drill', value: 'LENGTH', meaning: 'a drill to judge' },
  ],
  needs: [['reamer']],
  example: 'ream --reamer "3/8 in" --drill "23/64 in"',
  run: (asked) =>
    withAll(
      { reamer: read(asked, 'reamer', diameter), tried: readIf(asked, 'drill', diameter) },
      ({ reamer, tried }) => {
        if (tried !== undefined) return reamingVerdict(asked, reamer, tried);
        return andThen(reamingDrill(reamer), ({ smallest, largest }) =>
          answer({
            text: `drill ${sayLength(smallest, asked.unit)} to ${sayLength(largest, asked.unit)}`,
            working: [
              'undersize of a trainees course on manual reaming, for steel, with 0.05 mm that the drill cuts over',
            ],
            fields: { drill_smallest_mm: smallest, drill_largest_mm: largest, reamer_mm: reamer },
          }),
        );
      },
    ),
};

const reamingVerdict = (asked: Asked, reamer: Mm, tried: Mm): Result<TopicAnswer> =>
  andThen(judgeReamingStock(reamer, tried), (verdict) =>
    answer({
      text:
        verdict.kind === 'sound'
          ? `sound: leaves ${sayLength(verdict.stock, asked.unit)} on the diameter`
          : `${verdict.kind}: leaves ${sayLength(verdict.stock, asked.unit)}; ${sayLength(verdict.wanted.least, asked.unit)} to ${sayLength(verdict.wanted.most, asked.unit)} is wanted`,
      working: [`${sayLength(reamer, asked.unit)} - ${sayTapDrill(tried, drillName(tried), asked)}, common practice`],
      fields: { stock_on_diameter_mm: verdict.stock, verdict: verdict.kind, reamer_mm: reamer, drill_mm: tried },
    }),
  );

const counterbore: Topic = {
  name: 'counterbore',
  summary: 'counterbore for a cap screw that clears its knurled head',
  flags: [
    { name: 'screw', value: 'SIZE', meaning: 'M5, "no. 8", 1/4' },
    { name: 'bore', value: 'LENGTH', meaning: 'a counterbore to judge, with --depth' },
    { name: 'depth', value: 'LENGTH', meaning: "its depth; the standard's when left out" },
  ],
  needs: [['screw']],
  example: 'counterbore --screw M3 --bore "6 mm"',
  run: (asked) =>
    withAll(
      {
        cap: read(asked, 'screw', capHead),
        bore: readIf(asked, 'bore', diameter),
        depth: readIf(asked, 'depth', positiveLength),
      },
      ({ cap, bore, depth }) =>
        andThen(judgeCounterbore(cap, bore ?? cap.counterbore, depth ?? cap.counterboreDepth), (verdict) => {
          const cleared =
            verdict.kind === 'clears'
              ? `clears the head by ${sayLength(verdict.aSide, asked.unit)} a side, head ${sayLength(verdict.below, asked.unit)} below the face`
              : verdict.kind === 'too small'
                ? `too small: the head may measure ${sayLength(verdict.head, asked.unit)}`
                : `too shallow: the head stands out by ${sayLength(verdict.by, asked.unit)}`;
          const size = sayBoth(bore ?? cap.counterbore, asked.unit);
          return answer({
            text: `${size}, ${sayLength(depth ?? cap.counterboreDepth, asked.unit)} deep: ${cleared}`,
            working: [
              `knurled head up to ${sayLength(cap.head, asked.unit)}, ${sayLength(cap.height, asked.unit)} high (${cap.source}${cap.confirmed ? '' : ', common practice'})`,
            ],
            fields: {
              counterbore_mm: bore ?? cap.counterbore,
              depth_mm: depth ?? cap.counterboreDepth,
              head_mm: cap.head,
              head_height_mm: cap.height,
              clears: verdict.kind === 'clears',
              standard_counterbore_mm: cap.counterbore,
              standard_depth_mm: cap.counterboreDepth,
            },
          });
        }),
    ),
};

export const holeTopics: readonly Topic[] = [drill, ream, countersink, counterbore];
