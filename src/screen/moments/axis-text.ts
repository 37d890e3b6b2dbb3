/**
 * Positions as the machine shows them: digits of a readout, or turns and divisions of a dial. The one place where a
 * millimetre becomes what stands on the screen; inches only change the text.
 */

import { dialText } from '../../plan/dial-axis.ts';
import type { AxisReading, ResolvedMachine, ResolvedPlan } from '../../plan/resolved.ts';
import { asMm, type Mm } from '../../shop/quantities.ts';
import { formatFixed, formatInches, mmToInches, roundToResolution } from '../../shop/units.ts';

type Units = ResolvedPlan['units'];

/** Decimals that a resolution needs in the units shown: 0.01 mm two, 0.005 mm three, .0005 in four; at most four. */
function decimalsOf(resolution: Mm, units: Units): number {
  const step = units === 'inch' ? mmToInches(resolution) : resolution;
  for (let decimals = 0; decimals < 4; decimals += 1) {
    const scaled = step * 10 ** decimals;
    if (Math.abs(scaled - Math.round(scaled)) < 1e-6 && Math.round(scaled) > 0) return decimals;
  }
  return 4;
}

/** A length in the plan's units, to so many decimals; never "-0.00". */
export function lengthText(length: Mm, units: Units, decimals: number): string {
  return units === 'inch' ? formatInches(length, decimals) : formatFixed(length, decimals);
}

/** Usual decimals where no scale says otherwise: two in mm, three in inches. */
function usualDecimals(units: Units): number {
  return units === 'inch' ? 3 : 2;
}

/** A length with its unit, for running text. */
export function lengthWithUnit(length: Mm, units: Units): string {
  return `${lengthText(length, units, usualDecimals(units))} ${units === 'inch' ? 'in' : 'mm'}`;
}

/** A position as it stands on the screen. */
export type AxisText = {
  /** In characters that block digits have. */
  readonly text: string;
  /** Small print that goes with it: the coordinate behind a dial reading. */
  readonly below: string | null;
  /** The same for running text. */
  readonly words: string;
  /** What the scale of a dial shows where that is not the reading's own divisions: below zero. */
  readonly scale: string | null;
};

/** Small print that no number below zero goes without: what the scale shows there. Null where it shows the number itself. */
export const scaleNote = ({ scale }: AxisText): string | null =>
  scale === null ? null : `below zero: the scale shows ${scale}`;

/**
 * A position on an axis as digits for the screen, rounded to what the axis shows. Where the axis has no scale the length is
 * shown in the plan's units.
 */
export function axisText(position: Mm, axis: AxisReading, units: Units): AxisText {
  switch (axis.kind) {
    case 'readout': {
      const rounded = roundToResolution(position, axis.resolution);
      return plainText(lengthText(asMm(rounded), units, decimalsOf(axis.resolution, units)));
    }
    case 'dial': {
      const coordinate = lengthText(position, units, units === 'inch' ? 4 : 3);
      const reading = dialText(position, axis);
      return reading === null ? plainText(coordinate) : dialDigits(reading, coordinate);
    }
    case 'none':
      return plainText(lengthText(position, units, usualDecimals(units)));
    default:
      return axis satisfies never;
  }
}

const plainText = (text: string): AxisText => ({ text, below: null, words: text, scale: null });

/**
 * A dial reading in characters that block digits have. Below zero the word stands before turns and divisions: a minus
 * between two numbers would be taken for a dash. `1 + 30 below zero (scale 70)` is drawn as `BELOW 1 + 30`.
 */
function dialDigits(reading: string, coordinate: string): AxisText {
  const past = /^(\d+ \+ [\d.]+) below zero \(scale ([\d.]+)\)$/.exec(reading);
  if (past === null)
    return { text: reading, below: `turns + divisions, that is ${coordinate}`, words: reading, scale: null };
  const [, count = '', scale = ''] = past;
  return {
    text: `BELOW ${count}`,
    below: `below zero: the scale shows ${scale}, that is ${coordinate}`,
    words: reading,
    scale,
  };
}

/** Scale of one axis of a machine; none where the operation has no machine. */
export function axisOf(machine: ResolvedMachine | undefined, axis: 'x' | 'y' | 'z'): AxisReading {
  return machine?.[axis] ?? { kind: 'none' };
}
