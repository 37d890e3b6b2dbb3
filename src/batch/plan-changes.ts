/**
 * What differs between two resolved plans, one sentence a change, for the list that an amendment shows and keeps. Parts
 * that have an identity (operations, variants, tools, setups, checks) are compared with their own likeness, so that one
 * inserted operation is one change and not a shift of all that follow.
 */
import type { ResolvedPlan } from '../plan/resolved.ts';
import { formatTrimmed, MM_PER_INCH } from '../shop/units.ts';

/** Most sentences in a list; what is over is counted in the last one. */
const mostChanges = 200;

type Units = ResolvedPlan['units'];
type Parts = Readonly<Record<string, unknown>>;

/** What a list of the plan is called in the singular, and by what its items are told apart. */
const lists: Readonly<Record<string, { readonly word: string; readonly by: string | null }>> = {
  operations: { word: 'operation', by: 'number' },
  variants: { word: 'variant', by: 'id' },
  machines: { word: 'machine', by: 'id' },
  setups: { word: 'setup', by: 'id' },
  tools: { word: 'tool', by: 'id' },
  checks: { word: 'check', by: 'id' },
  cuts: { word: 'cut', by: null },
  points: { word: 'point', by: null },
  passes: { word: 'pass', by: null },
  loadPasses: { word: 'pass of the load', by: null },
  places: { word: 'place', by: null },
};

/** Lists and parts that a plan leaves out where it has none. */
const leftOut: Readonly<Record<string, unknown>> = { loadPasses: [], beyondJaws: {} };

/** Fields that hold a length in millimetres; shown in the plan's units. */
const lengths = new Set(
  [
    'length width thickness x y z x0 x1 y0 y1 dx dy height nominal lower upper diameter tipFlat lead tip ground stopLength',
    'blank kerf endTrim grip jawWidth jawHeight opening perTurn backlash resolution feedPerTurn topDiameter tapDrill pitch',
    'fullThread peck by',
  ]
    .join(' ')
    .split(' '),
);

/** Words for fields whose name in the file does not read well. */
const words: Readonly<Record<string, string>> = {
  loadSize: 'pieces held at once',
  stopLength: 'stop length',
  beyondJaws: 'beyond the jaws',
  firstOff: 'first-off check',
  every: 'check every',
  topDiameter: 'top diameter',
  pointAngle: 'point angle',
  barLengths: 'bar lengths',
  sharpenAfter: 'holes between sharpenings',
};

/**
 * The changes from one plan to another, in the order of the plan; empty when nothing differs.
 *
 * Example: point 2 of operation 20 made deeper: `operation 20, cut 1, point 2, z: -6 mm becomes -6.2 mm`.
 */
export function planChanges(before: ResolvedPlan, after: ResolvedPlan): readonly string[] {
  const changes = changesOfParts(before, after, [], after.units);
  if (changes.length <= mostChanges) return changes;
  return [...changes.slice(0, mostChanges - 1), `and ${changes.length - mostChanges + 1} more`];
}

function changesOfParts(before: Parts, after: Parts, path: readonly string[], units: Units): string[] {
  const keys = [...new Set([...Object.keys(after), ...Object.keys(before)])];
  return keys.flatMap((key) => changesOf(before[key] ?? leftOut[key], after[key] ?? leftOut[key], key, path, units));
}

function changesOf(before: unknown, after: unknown, key: string, path: readonly string[], units: Units): string[] {
  if (JSON.stringify(before) === JSON.stringify(after)) return [];
  const list = lists[key];
  if (list !== undefined && Array.isArray(before) && Array.isArray(after) && [...before, ...after].every(isParts)) {
    return changesOfList(before, after, list, path, units);
  }
  const here = [...path, words[key] ?? key];
  if (isParts(before) && isParts(after)) return changesOfParts(before, after, here, units);
  return [
    `${here.join(', ')}: ${formatValue(before, key, path, units)} becomes ${formatValue(after, key, path, units)}`,
  ];
}

function changesOfList(
  before: readonly Parts[],
  after: readonly Parts[],
  list: { readonly word: string; readonly by: string | null },
  path: readonly string[],
  units: Units,
): string[] {
  const nameOf = (item: Parts, at: number) => `${list.word} ${list.by === null ? at + 1 : String(item[list.by])}`;
  const old = new Map(before.map((item, at) => [nameOf(item, at), item]));
  const now = new Map(after.map((item, at) => [nameOf(item, at), item]));
  const added = [...now].flatMap(([name, item]) => {
    const was = old.get(name);
    const here = [...path, name];
    return was === undefined ? [`${here.join(', ')} is new`] : changesOfParts(was, item, here, units);
  });
  const gone = [...old.keys()].filter((name) => !now.has(name)).map((name) => `${[...path, name].join(', ')} is gone`);
  const order = (items: ReadonlyMap<string, Parts>, others: ReadonlyMap<string, Parts>) =>
    [...items.keys()].filter((name) => others.has(name)).join();
  const moved =
    order(old, now) === order(now, old) ? [] : [`${[...path, `the order of each ${list.word}`].join(', ')} changes`];
  return [...added, ...gone, ...moved];
}

const isParts = (value: unknown): value is Parts =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

function formatValue(value: unknown, key: string, path: readonly string[], units: Units): string {
  if (value === null || value === undefined) return 'nothing';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'number') return formatAmount(value, key, path, units);
  if (typeof value === 'string') return `"${value}"`;
  return JSON.stringify(value);
}

function formatAmount(value: number, key: string, path: readonly string[], units: Units): string {
  const isZeroSet = key === 'set' && path.at(-1) !== 'speed';
  if (!lengths.has(key) && !isZeroSet) return formatTrimmed(value, 3);
  return units === 'inch' ? `${formatTrimmed(value / MM_PER_INCH, 4)} in` : `${formatTrimmed(value, 3)} mm`;
}
