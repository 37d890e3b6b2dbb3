/**
 * Which cautions are shown at an operation: at most three, injury first, those of the kind of work before those of the
 * material, then the general ones. Always followed by the line that defers to manual, training and local rules.
 */
import { CAUTION_TABLE, type CautionRow, type Concern } from './cautions-table.ts';
import type { OperationKind, Station } from './resolved.ts';

export type { CautionRow } from './cautions-table.ts';
export { DEFERRING_LINE } from './cautions-table.ts';

/** Most cautions on one card. */
const MOST_CAUTIONS = 3;

type Topic = keyof typeof CAUTION_TABLE;

/** What the choice depends on. */
export interface CautionAsk {
  readonly kind: OperationKind;
  readonly station: Station;
  /** The tap is turned by hand. */
  readonly byHand: boolean;
  /** Material as the plan names it. */
  readonly material: string;
  /** Keys of cautions that the plan itself wants first. */
  readonly wanted?: readonly string[];
}

/** Moments beside the operations at which cautions are due. */
export type CautionMoment = 'vice-setup' | 'tool-change' | 'edge-find' | 'coolant' | 'clean-down' | 'after-break';

const RANK: Readonly<Record<Concern, number>> = { injury: 0, both: 1, part: 2 };

/**
 * The cautions of an operation, at most three.
 *
 * Example: tapping under power begins with "Hands off the holder: a stuck tap swings it or the work."
 */
export function cautionsFor(ask: CautionAsk): readonly CautionRow[] {
  const wanted = (ask.wanted ?? []).flatMap((id) => cautionById(id) ?? []);
  const own = topicOf(ask).flatMap((topic) => ranked(CAUTION_TABLE[topic]));
  const material = materialTopic(ask).flatMap((topic) => ranked(CAUTION_TABLE[topic]));
  const general = ask.station === 'bench' ? [] : ranked(CAUTION_TABLE.general);
  const all = [...wanted, ...byConcern([...own, ...material]), ...general];
  return all.filter((row, at) => all.findIndex((other) => other.id === row.id) === at).slice(0, MOST_CAUTIONS);
}

/** The cautions of a moment, at most three, injury first. */
export const cautionsAt = (moment: CautionMoment): readonly CautionRow[] =>
  ranked(CAUTION_TABLE[moment]).slice(0, MOST_CAUTIONS);

/** The caution of that key, or undefined. */
export function cautionById(id: string): CautionRow | undefined {
  const rows: readonly (readonly CautionRow[])[] = Object.values(CAUTION_TABLE);
  return rows.flat().find((row) => row.id === id);
}

/** All keys, for telling the nearest one. */
export const cautionIds = (): readonly string[] =>
  Object.values(CAUTION_TABLE).flatMap((rows) => rows.map((row) => row.id));

/** Injury first, then both, then part; within these what is due at the start comes first. */
const byConcern = (rows: readonly CautionRow[]): readonly CautionRow[] =>
  [...rows].sort((a, b) => RANK[a.concerns] - RANK[b.concerns]);

const ranked = (rows: readonly CautionRow[]): readonly CautionRow[] =>
  [...rows].sort(
    (a, b) => RANK[a.concerns] - RANK[b.concerns] || Number(a.when !== 'start') - Number(b.when !== 'start'),
  );

function topicOf(ask: CautionAsk): readonly Topic[] {
  const pillar = ask.station === 'pillar drill';
  switch (ask.kind) {
    case 'saw':
      return [ask.station === 'saw' ? 'saw-power' : 'saw-hand'];
    case 'face':
      return ['mill-face'];
    case 'mill to length':
    case 'mill edge':
    case 'slot':
    case 'step':
      return ['mill-profile'];
    case 'spot':
      return ['spot', pillar ? 'drill-pillar' : 'drill-mill'];
    case 'drill':
    case 'counterbore':
      return [pillar ? 'drill-pillar' : 'drill-mill'];
    case 'ream':
      return ['ream', pillar ? 'drill-pillar' : 'drill-mill'];
    case 'countersink':
    case 'chamfer':
      return [pillar ? 'countersink-pillar' : 'chamfer'];
    case 'tap':
      return [ask.byHand ? 'tap-hand' : 'tap-machine'];
    case 'deburr':
    case 'round corners':
    case 'hand work':
      return ['deburr-hand'];
    case 'inspect':
      return ['inspect'];
    case 'away':
      return [];
  }
}

/** Cautions of a material go with work that makes chips. */
function materialTopic(ask: CautionAsk): readonly Topic[] {
  if (['inspect', 'away', 'hand work'].includes(ask.kind)) return [];
  const name = ask.material.toLowerCase();
  if (/magnesium|az\d\d/u.test(name)) return ['material-magnesium'];
  if (/brass|bronze|cz\d|cw\d/u.test(name)) return ['material-brass'];
  if (/alumin|6061|6082|2014|7075/u.test(name)) return ['material-aluminium'];
  if (/steel|stainless|iron|en\d|1018|silver/u.test(name)) return ['material-steel'];
  return /acetal|nylon|plastic|acrylic/u.test(name) ? ['material-plastic'] : [];
}
