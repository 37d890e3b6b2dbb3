/** Positions as they are set at the handle: what the readout shows, or the dial in turns and divisions from zero. */
import { dialAxisOf, dialText } from '../../plan/dial-axis.ts';
import type { AxisReading, ResolvedSetup } from '../../plan/resolved.ts';
import { countingAtTouch, formatDialReading, windMove } from '../../shop/dials.ts';
import { asMm, type Mm } from '../../shop/quantities.ts';
import {
  formatInches,
  formatMm,
  type LengthUnit,
  MM_PER_INCH,
  mmToInches,
  roundToResolution,
} from '../../shop/units.ts';

/**
 * A coordinate as the readout shows it, rounded once to its resolution, with its sign; without a readout to a thousandth
 * of a millimetre or a ten-thousandth of an inch.
 *
 * Example: 12.3456 mm on a readout of 0.005 is `+12.345`; -12.7 mm in inches is `-.5000`.
 */
export function readoutText(position: Mm, axis: AxisReading, units: LengthUnit): string {
  const resolution = axis.kind === 'readout' ? axis.resolution : units === 'mm' ? 0.001 : MM_PER_INCH / 10_000;
  const shown = asMm(roundToResolution(position, resolution));
  const text =
    units === 'mm' ? formatMm(shown, decimalsFor(resolution)) : formatInches(shown, inchDecimals(resolution));
  return Number(text) > 0 ? `+${text}` : text;
}

const decimalsFor = (resolution: number): number => (resolution >= 0.0999 ? 1 : resolution >= 0.00999 ? 2 : 3);
const inchDecimals = (resolution_mm: number): number => (mmToInches(asMm(resolution_mm)) >= 0.00099 ? 3 : 4);

/**
 * How to wind from one point to the next on a dial: `7 + 33`, or with a wind-past, `7 + 33, past it to 7 + 83 first` where
 * the point lies on the wrong side of the touch; `null` without a dial.
 */
export function windText(
  from: Mm,
  to: Mm,
  axis: AxisReading,
  touchedGoing: NonNullable<ResolvedSetup['x']>['touchedGoing'],
): string | null {
  const dial = dialAxisOf(axis);
  if (dial === null) return null;
  const touch = touchedGoing === null ? 'none' : touchedGoing === '+' ? 'plus' : 'minus';
  const move = windMove(from, to, dial, countingAtTouch(touch, dial));
  if (!move.ok) return dialText(to, axis);
  const reading = formatDialReading(move.value.reading);
  return move.value.kind === 'past' ? `${reading}; first past it to ${formatDialReading(move.value.past)}` : reading;
}
