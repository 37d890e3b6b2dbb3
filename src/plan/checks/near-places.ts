/** When two places of the drawing must be one: no further apart than the tolerance. */
import { asMm } from '../../shop/quantities.ts';
import { linearTolerance, parseToleranceClass } from '../../shop/tolerances.ts';
import type { CheckAsk } from './ask.ts';

/** What two names for one place may be apart where the plan states no tolerance: a choice of ours. */
const USUAL_MM = 0.1;
/** Of the tool: holes further apart than this part of it are two, whatever the tolerance. */
const PART_OF_TOOL = 1 / 4;

/** The general tolerance of the largest coordinate, the finest of an inch drawing's block, or the usual. */
export function samePlaceTolerance({ plan }: Pick<CheckAsk, 'plan'>): number {
  const { tolerance, part } = plan;
  if (tolerance === undefined) return USUAL_MM;
  if (tolerance.kind === 'class') {
    const named = parseToleranceClass(tolerance.text);
    const general = named.ok ? linearTolerance(asMm(Math.max(part.length, part.width)), named.value) : undefined;
    return general?.ok === true ? general.value.plusMinus : USUAL_MM;
  }
  const { kind: _, ...places } = tolerance;
  return Math.min(USUAL_MM, ...Object.values(places).filter((within) => within !== undefined));
}

/**
 * Are holes so far apart, the smaller made by a tool of that diameter, one place under two names?
 *
 * @param tolerance of `samePlaceTolerance`
 */
export const isOnePlace = (tolerance: number, apart: number, tool: number): boolean =>
  apart <= Math.min(tolerance, tool * PART_OF_TOOL);
