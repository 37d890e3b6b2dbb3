/**
 * The hole that a drill probably makes, which is a little larger than the drill: worth knowing beside the limits of a thread.
 */
import { asMm, type Mm } from './quantities.ts';
import { TOOL_DIAMETER } from './ranges.ts';
import { type Result, refuseOutside, whenSound } from './refusal.ts';
import { PROBABLE_HOLES_IN } from './tables/drilled-sizes.ts';
import { inchesToMm, mmToInches } from './units.ts';

/**
 * The probable diameter of a drilled hole.
 *
 * @param drill above 0, at most 250 mm; what is cut over lies on straight lines between the rows, in proportion to the
 * diameter below the first (.0469 in), level above the last (.4219 in)
 * @returns mm, unrounded; never smaller than the drill
 *
 * Source: common practice, a tapping-drill chart. Example: no. 29 (.136 in) cuts .1389 in; 5 mm cuts about 5.1 mm.
 */
export function probableHole(drill: Mm): Result<Mm> {
  return whenSound([refuseOutside(drill, TOOL_DIAMETER)], () =>
    asMm(drill + inchesToMm(cutsOverIn(mmToInches(drill)))),
  );
}

function cutsOverIn(drill: number): number {
  let [lastDrill, lastOver] = [0, 0];
  for (const [size, hole] of PROBABLE_HOLES_IN) {
    const over = hole - size;
    if (drill <= size) return lastOver + ((drill - lastDrill) / (size - lastDrill)) * (over - lastOver);
    [lastDrill, lastOver] = [size, over];
  }
  return lastOver;
}
