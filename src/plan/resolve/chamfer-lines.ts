/** Chamfers along lines: the leg that the plan states, where the axis of the cone runs for it, and how deep its tip stands. */
import { edgeChamfer, legOfSide } from '../../shop/edge-chamfers.ts';
import { asDegrees, asMm, type Mm } from '../../shop/quantities.ts';
import { formatTrimmed } from '../../shop/units.ts';
import type { PlanLine } from '../schema/places.ts';
import { runOutOf } from './assumptions.ts';
import { addProblem, inUnits, noteComputed, take } from './context.ts';
import { type LineAsk, lineProblem, runOut } from './line-ask.ts';
import { type LineWork, passDepths, type SetupLine } from './lines.ts';

/** The angle of a cone that states none. */
const USUAL_ANGLE = asDegrees(90);

/** The work of a chamfer along a line; `undefined` after a problem was added. */
export function chamferLine(ask: LineAsk, name: string, line: PlanLine, inSetup: SetupLine): LineWork | undefined {
  const { resolving, operation, cut, tool, cutter } = ask;
  const cone = { angle: tool?.pointAngle ?? USUAL_ANGLE, tip: tool?.tipFlat ?? asMm(0), largest: cutter };
  const leg = legOf(ask, cone);
  if (leg === undefined) return undefined;
  const middle = line.kind === 'slot' ? asMm((line.width ?? cutter) / 2) : undefined;
  // Over an edge nothing lies below the tip; a step and a slot have a floor.
  const floor = line.kind === 'edge' ? undefined : line.depth;
  const air = runOutOf(resolving.plan.units);
  const found = take(resolving, [...cut.path, 'leg'], edgeChamfer({ leg, cone, air, floor, middle }));
  if (found === undefined) return undefined;
  const depths = chamferDepths(ask, name, line, found.depth);
  if (depths === undefined) return undefined;
  const words = legWords(ask, leg, found.side);
  noteComputed(
    resolving,
    operation.plan.number,
    `depth of "${name}"`,
    inUnits(resolving, round(found.depth)),
    `${words}; cone ${formatTrimmed(cone.angle, 1)} deg, tip ${inUnits(resolving, cone.tip)}, its axis ${inUnits(resolving, round(found.axis))} from the wall`,
  );
  const both = middle !== undefined && found.axis >= middle - 1e-9;
  const out = inSetup.side === '-' ? -found.axis : found.axis;
  const offsets = middle === undefined ? [out] : both ? [0] : [middle - found.axis, found.axis - middle];
  return {
    line: { ...inSetup, name: `${name}, ${words}` },
    kind: line.kind,
    width: line.width,
    cutter: asMm(2 * found.reach),
    runOut: runOut(resolving),
    depths,
    lay: { offsets, short: middle ?? cutter / 2 },
  };
}

const round = (length: Mm): Mm => asMm(Math.round(length * 1000) / 1000);

function legWords({ resolving }: LineAsk, leg: Mm, side: Mm): string {
  const down = Math.abs(side - leg) < 1e-6 ? '' : `, ${inUnits(resolving, side)} down the side`;
  return `leg ${inUnits(resolving, leg)}${down}`;
}

/** The leg along the top: as stated, else from how far the chamfer goes down the side. */
function legOf({ resolving, operation, cut }: LineAsk, cone: Parameters<typeof legOfSide>[1]): Mm | undefined {
  const { leg, depth, top } = cut.plan;
  const side = depth?.kind === 'length' ? legOfSide(depth.mm, cone) : undefined;
  const agree = leg === undefined || side === undefined || Math.abs(leg - side) < 0.01;
  if (agree && top === undefined && depth?.kind !== 'through') {
    const known = leg ?? side;
    if (known !== undefined) return known;
  }
  const [found, why] =
    top !== undefined
      ? ['"top"', 'a top diameter belongs to a hole']
      : depth?.kind === 'through'
        ? ['"depth: through"', 'a chamfer has a leg']
        : agree
          ? ['neither leg nor depth', 'nothing tells its size']
          : ['"leg" and "depth"', 'with this cone they are not those of one chamfer'];
  addProblem(resolving, cut.path, {
    found,
    wanted: '"leg": what the chamfer takes along the top face',
    message: `operation ${operation.plan.number} (chamfer along a line) does not say how large it is: ${why}`,
    tryThis:
      'write "leg:" with what it takes along the top face, or "depth:" with how far it goes down the side, one of the two',
  });
  return undefined;
}

/** Tip depths: one, or as many equal ones as the line says; a list of depths is that of another cut. */
function chamferDepths(ask: LineAsk, name: string, line: PlanLine, depth: Mm): readonly Mm[] | undefined {
  if (!Array.isArray(line.passes)) return passDepths(depth, line.passes, undefined);
  return lineProblem(ask, name, 'passes', {
    found: 'the depth of every pass',
    wanted: 'a number of passes, or none',
    message: `"${name}" says the depths of its passes; a chamfer goes as deep as its leg wants`,
    tryThis: 'name a line of its own for the chamfer, without "passes:"',
  });
}
