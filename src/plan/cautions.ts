/**
 * Which cautions are shown at an operation: at most three, injury first, those of the kind of work before those of the
 * material, then the general ones. Always followed by the line that defers to manual, training and local rules.
 */
import { cautionFits } from './caution-fits.ts';
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
  /** False when every hole of the operation is blind; what is not known may go through. */
  readonly through?: boolean;
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
  if (ask.kind === 'away') return wanted.slice(0, MOST_CAUTIONS);
  const first = firstOf(ask).flatMap((id) => cautionById(id) ?? []);
  const own = topicOf(ask).flatMap((topic) => ranked(CAUTION_TABLE[topic]));
  const material = materialTopic(ask).flatMap((topic) => ranked(CAUTION_TABLE[topic]));
  const general = ask.station === 'bench' ? [] : ranked(CAUTION_TABLE.general);
  const fitting = [...own, ...material].filter((row) => cautionFits(row.id, ask));
  const all = [...wanted, ...first, ...byConcern(fitting), ...general];
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

/** What stands before all else: what belongs to just this work at just this station. */
function firstOf({ kind, station, material }: CautionAsk): readonly string[] {
  switch (kind) {
    case 'drill':
      return materialTopic({ kind, material }).includes('material-brass') ? ['mb.grab'] : [];
    case 'inspect':
      return station === 'saw' ? ['sw.stop'] : station === 'pillar drill' ? ['dp.change'] : [];
    case 'deburr':
    case 'round corners':
    case 'hand work':
      return station === 'mill' || station === 'pillar drill' ? ['db.off'] : [];
    default:
      return [];
  }
}

function topicOf(ask: CautionAsk): readonly Topic[] {
  const { station } = ask;
  const atBench = station === 'bench';
  switch (ask.kind) {
    case 'saw':
      return [station === 'saw' ? 'saw-power' : 'saw-hand'];
    case 'face':
      return milling(station, 'mill-face');
    case 'mill to length':
    case 'mill edge':
    case 'slot':
    case 'step':
      return milling(station, 'mill-profile');
    case 'spot':
    case 'counterbore':
      return ['spot', ...drilling(station)];
    case 'drill':
      return drilling(station);
    case 'ream':
      return ['ream', 'spot', ...(atBench ? (['deburr-hand'] as const) : drilling(station))];
    case 'countersink':
    case 'chamfer':
      return [atBench ? 'deburr-hand' : station === 'pillar drill' ? 'countersink-pillar' : 'chamfer'];
    case 'tap':
      if (atBench) return ['tap-hand', 'deburr-hand'];
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

/** A mill's work elsewhere than on a mill: with the file at the bench, else only what is general. */
function milling(station: Station, topic: 'mill-face' | 'mill-profile'): readonly Topic[] {
  if (station === 'bench') return ['deburr-hand'];
  return station === 'mill' ? [topic] : [];
}

/** A hand drill at the bench shares what is said of small parts with the pillar drill. */
const drilling = (station: Station): readonly Topic[] => [station === 'mill' ? 'drill-mill' : 'drill-pillar'];

/** Cautions of a material go with work that makes chips. */
function materialTopic(ask: Pick<CautionAsk, 'kind' | 'material'>): readonly Topic[] {
  if (['inspect', 'away', 'hand work'].includes(ask.kind)) return [];
  const name = ask.material.toLowerCase();
  if (/magnesium|az\d\d/u.test(name)) return ['material-magnesium'];
  if (/brass|bronze|cz\d|cw\d/u.test(name)) return ['material-brass'];
  if (/alumin|6061|6082|2014|7075/u.test(name)) return ['material-aluminium'];
  if (/steel|stainless|iron|en\d|1018|silver/u.test(name)) return ['material-steel'];
  return /acetal|nylon|plastic|acrylic/u.test(name) ? ['material-plastic'] : [];
}
