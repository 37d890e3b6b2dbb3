import type { Mm } from '../../shop/quantities.ts';
import { generalTolerance } from '../resolve/checks.ts';
import type { CheckAsk } from './ask.ts';

/**
 * A size of the part in words, with its tolerance where the plan has a general one.
 *
 * Example: along Y of a part 30 mm wide at ISO 2768-m: `width, 30 mm +-0.2 mm`.
 */
export function sizeWords(ask: CheckAsk, axis: 'x' | 'y'): string {
  const key = axis === 'x' ? 'length' : 'width';
  const size: Mm = ask.plan.part[key];
  const resolving = { plan: ask.plan, positions: ask.positions, problems: [], computed: [] };
  const tolerance = generalTolerance(resolving, size, ['part', key]);
  return `${key}, ${ask.show(size)}${tolerance.ok ? ` +-${ask.show(tolerance.value.plusMinus)}` : ''}`;
}
