/** Where a place of a load lies, by what can be seen at the vice: the stop, the jaws, the ends of the row. */
import type { ResolvedPlan, ResolvedSetup } from '../../plan/resolved.ts';
import { placeCalled } from './place-names.ts';

/**
 * Where the place (from 1) of a load of `size` lies: as the plan calls it, else from the end of its row that can be seen.
 * '' where nothing is known.
 *
 * Example: three in a row from jaw to jaw, the fixed one at the rear: `at the fixed jaw`, `2nd from the fixed jaw`,
 * `at the moving jaw`.
 */
export function placeWhere(plan: ResolvedPlan, setup: ResolvedSetup | undefined, place: number, size: number): string {
  const called = placeCalled(setup, place);
  if (setup === undefined || called !== `piece ${place}`) return setup === undefined ? '' : called;
  const rows = (['x', 'y'] as const).map((axis) => alongAxis(plan, setup, axis, { place, size }));
  return rows.filter((words) => words !== '').join(', ');
}

function alongAxis(
  plan: ResolvedPlan,
  setup: ResolvedSetup,
  axis: 'x' | 'y',
  { place, size }: { readonly place: number; readonly size: number },
): string {
  const offsets = setup.places.slice(0, size).map(({ dx, dy }) => (axis === 'x' ? dx : dy));
  const own = offsets[place - 1];
  // From the end that is named first: the stop or the fixed jaw.
  const steps = [...new Set(offsets)].sort((a, b) => a - b);
  if (own === undefined || steps.length < 2) return '';
  const ends = endsOf(plan, setup, axis);
  const from = ends.firstIsHigh ? [...steps].reverse() : steps;
  const at = from.indexOf(own);
  if (at === 0) return `at the ${ends.first}`;
  return at === from.length - 1 && ends.last !== null
    ? `at the ${ends.last}`
    : `${ordinal(at + 1)} from the ${ends.first}`;
}

type Ends = { readonly first: string; readonly last: string | null; readonly firstIsHigh: boolean };

/** What stands at the ends of an axis: the jaws across, the stop along them; else the sides as one stands before them. */
function endsOf(plan: ResolvedPlan, setup: ResolvedSetup, axis: 'x' | 'y'): Ends {
  const fixed = plan.machines.find((one) => one.id === setup.machine)?.vice?.fixedJaw;
  const high = axis === 'x' ? 'right' : 'rear';
  const low = axis === 'x' ? 'left' : 'front';
  if (setup.hold === 'vice' && (fixed === high || fixed === low)) {
    return { first: 'fixed jaw', last: 'moving jaw', firstIsHigh: fixed === high };
  }
  const side = setup.stop?.side;
  if (side === high || side === low) return { first: 'stop', last: null, firstIsHigh: side === high };
  return { first: axis === 'x' ? 'left' : 'front', last: axis === 'x' ? 'right' : 'rear', firstIsHigh: false };
}

const ordinal = (number: number): string => `${number}${['st', 'nd', 'rd'][number - 1] ?? 'th'}`;
