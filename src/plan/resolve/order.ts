/**
 * A better order of points on dials: every point is reached from the side from which the zero was touched, so an order with
 * fewer windings past is quicker and safer. Only a suggestion: the plan's own order stands.
 */
import { approachFromTouch } from '../../shop/dials.ts';
import { countWindings, visitingOrder } from '../../shop/visiting-order.ts';
import type { ResolvedMachine, ResolvedOperation, ResolvedSetup } from '../resolved.ts';
import { noteComputed, type Resolving } from './context.ts';

/** More points than this are not worth the search at the reading of a plan. */
const MOST_POINTS = 12;

/** Notes a better order of points for each operation on a machine with dials. */
export function suggestOrders(
  resolving: Resolving,
  operations: readonly ResolvedOperation[],
  setups: readonly ResolvedSetup[],
  machines: readonly ResolvedMachine[],
): void {
  for (const operation of operations) {
    const machine = machines.find((one) => one.id === operation.machine);
    const setup = setups.find((one) => one.id === operation.setup);
    if (setup === undefined || machine?.x.kind !== 'dial' || machine.y.kind !== 'dial') continue;
    for (const cut of operation.cuts) suggestOrder(resolving, operation.number, cut.points, setup);
  }
}

function suggestOrder(
  resolving: Resolving,
  operation: number,
  points: ResolvedOperation['cuts'][number]['points'],
  setup: ResolvedSetup,
): void {
  if (points.length < 3 || points.length > MOST_POINTS) return;
  const side = (going: '+' | '-' | null | undefined) => (going === '+' ? 'plus' : going === '-' ? 'minus' : 'none');
  const sides = approachFromTouch(side(setup.x?.touchedGoing), side(setup.y?.touchedGoing));
  const best = visitingOrder(points, sides);
  const asStated = countWindings(points, sides);
  if (!best.ok || best.value.windings >= asStated) return;
  const names = best.value.order.flatMap((index) => points[index]?.name ?? []).join(', ');
  const because = `${best.value.windings} windings past instead of ${asStated}; every point is reached as the zero was touched`;
  noteComputed(resolving, operation, 'order of points', names, because);
}
