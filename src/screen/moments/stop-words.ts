/** Which stop of a load is in hand, in a few words: the piece, its place, the hole or pass. */
import { inHandAt } from '../../batch/flow.ts';
import type { Batch } from '../../batch/state.ts';
import type { Stop } from '../../batch/stops.ts';
import type { ResolvedOperation } from '../../plan/resolved.ts';
import { asMm } from '../../shop/quantities.ts';
import { axisOf, axisText } from './axis-text.ts';
import { placeCalled } from './place-names.ts';
import { placeTargets } from './targets.ts';
import type { Where } from './work-facts.ts';

/**
 * The stop in hand. Where one piece is held: its point or pass and how many there are. In a load: which piece, the name of
 * its place where that says more than its number, and the point or pass of it.
 *
 * Example: `holes 1, 1 of 2`; `piece 2 of 3 (middle), holes 1`; `piece 2 of 3, pass 1 of 2`; `pass 1 of 2, over all`.
 */
export function stopWords(where: Where): string {
  const { target, position, stops } = where;
  const { stop, point } = target;
  if (stop.kind === 'whole') return '';
  const piece = pieceWords(where.batch, where.at, where.operation, stop);
  if (stop.kind === 'point') {
    const name = point?.name ?? 'point';
    return piece === null ? `${name}, ${position + 1} of ${stops}` : `${piece}, ${name}`;
  }
  if (piece === null && stop.place !== null) return `pass ${position + 1} of ${stops}`;
  const alike = inHandAt(where.batch, where.at).stops.filter(
    (one) => one.kind === 'pass' && one.cut === stop.cut && one.place === stop.place,
  );
  const pass = `pass ${alike.findIndex((one) => one.index === stop.index) + 1} of ${alike.length}`;
  if (piece === null) return `${pass}, over several pieces`;
  return alike.length === 1 ? piece : `${piece}, ${pass}`;
}

/** The same where there is room for no more than this: `piece 2, 4 of 6`; `4 of 6` where one piece is held. */
export function shortStopWords({ batch, at, operation, target, position, stops }: Where): string {
  const piece = pieceWords(batch, at, operation, target.stop) === null ? '' : `piece ${target.stop.place}, `;
  return `${piece}${position + 1} of ${stops}`;
}

/** `4 of 6`: the stop among those of a load, in no more words. */
export const shortestStopWords = ({ position, stops }: Where): string => `${position + 1} of ${stops}`;

/** `piece 2 of 3 (middle)`: the piece of a load at a stop; null where one is held, or the stop goes over several. */
function pieceWords(batch: Batch, at: number, operation: ResolvedOperation, stop: Stop): string | null {
  const { size } = inHandAt(batch, at);
  if (size < 2 || stop.place === null) return null;
  const setup = batch.plan.setups.find((one) => one.id === operation.setup);
  const called = placeCalled(setup, stop.place);
  return `piece ${stop.place} of ${size}${called === `piece ${stop.place}` ? '' : ` (${called})`}`;
}

/**
 * Where the holes of a load lie that is counted at once: a line for every place. Nothing where nothing is wound to.
 *
 * Example: `Middle: a X 90.00 Y -15.00, b X 130.00 Y -15.00.`
 */
export function placeFacts({ batch, at, machine, operation, target }: Where): readonly string[] {
  if (target.stop.kind !== 'whole' || operation.station !== 'mill' || operation.loadSize < 2) return [];
  const text = (axis: 'x' | 'y', value: number) =>
    `${axis.toUpperCase()} ${axisText(asMm(value), axisOf(machine, axis), batch.plan.units).words}`;
  return placeTargets(batch, at, target.stop.cut).map(({ place, points }) => {
    const words = points.map((point) => `${point.name} ${text('x', point.x)} ${text('y', point.y)}`);
    return `${place.charAt(0).toUpperCase()}${place.slice(1)}: ${words.join(', ')}.`;
  });
}
