/**
 * A cone over a hole that is there, on a pillar drill: what the hands use is the travel from the first touch of the rim, for
 * the depth of a tip that never touches anything cannot be found. Each top has its own.
 */
import { correctedBy } from '../../batch/questions/corrections.ts';
import type { Batch } from '../../batch/state.ts';
import type { ResolvedOperation, ResolvedPoint } from '../../plan/resolved.ts';
import { asMm, type Mm } from '../../shop/quantities.ts';
import { type Reading, secondReading } from '../panel/panel.ts';
import { lengthWithUnit } from './axis-text.ts';
import type { Where } from './work-facts.ts';

/** Holes that are opened alike: by one travel from the rim, to one top. */
type RimGroup = { readonly travel: Mm; readonly top: Mm; readonly points: readonly ResolvedPoint[] };

/** The groups of an operation with corrections, in working order; none unless every hole is opened from its rim. */
export function rimGroups(batch: Batch, operation: ResolvedOperation): readonly RimGroup[] {
  if (operation.station !== 'pillar drill') return [];
  const all = operation.cuts.flatMap((cut, at) => cut.points.map((point, hole) => ({ cut, at, point, hole })));
  if (all.some(({ point }) => point.rim === undefined)) return [];
  const groups = new Map<string, RimGroup>();
  for (const { cut, at, point, hole } of all) {
    if (point.rim === undefined) continue;
    const angle = batch.plan.tools.find((one) => one.id === cut.tool)?.pointAngle ?? 90;
    // A correction upwards travels less and opens less, by twice its own length at 45 degrees.
    const by = correctedBy(batch, operation.number, at, 'z', hole);
    const travel = asMm(point.rim.travel - by);
    const top = asMm(point.rim.top - 2 * by * Math.tan((angle * Math.PI) / 360));
    const key = `${travel.toFixed(4)} ${top.toFixed(4)}`;
    groups.set(key, { travel, top, points: [...(groups.get(key)?.points ?? []), point] });
  }
  return [...groups.values()];
}

/** The travel of the hole in hand, or of all in turn where a piece is counted whole, with what it makes across the top. */
export function rimReading({ batch, operation, target }: Where): Reading | null {
  const all = rimGroups(batch, operation);
  const { point } = target;
  const groups = target.stop.kind === 'point' && point !== null ? all.filter((one) => one.points.includes(point)) : all;
  if (groups.length === 0 || groups.length > 2) return null;
  const bare = (length: Mm): string => lengthWithUnit(length, batch.plan.units).split(' ')[0] ?? '';
  const travels = [...new Set(groups.map(({ travel }) => bare(travel)))].join(' / ');
  return secondReading(travels, 'FROM RIM', `makes ${groups.map(({ top }) => bare(top)).join(' / ')} across the top`);
}

/** One line for every top: which holes, how far from the rim, what it makes. */
export function rimFacts({ batch, operation }: Where): readonly string[] {
  const groups = rimGroups(batch, operation);
  if (groups.length === 0) return [];
  const say = (length: Mm): string => lengthWithUnit(length, batch.plan.units);
  const lines = groups.map(({ travel, top, points }) => {
    const [first, last] = [points[0]?.name ?? '', points.at(-1)?.name ?? ''];
    const names = points.length > 1 ? `${first} to ${last}` : first;
    return `${names}: ${say(travel)} from the rim makes ${say(top)} across the top.`;
  });
  return ['Touch the rim with the spindle standing; the stop stands so much lower.', ...lines];
}
