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

/**
 * A position on an axis as digits for the screen, rounded to what the axis shows, and small print that goes with it (the
 * coordinate behind a dial reading). Where the axis has no scale the length is shown in the plan's units.
 */
export function axisText(
  position: Mm,
  axis: AxisReading,
  units: Units,
): { readonly text: string; readonly below: string | null } {
  switch (axis.kind) {
    case 'readout': {
      const rounded = roundToResolution(position, axis.resolution);
      return { text: lengthText(asMm(rounded), units, decimalsOf(axis.resolution, units)), below: null };
    }
    case 'dial': {
      const coordinate = lengthText(position, units, units === 'inch' ? 4 : 3);
      const reading = dialText(position, axis);
      return reading === null ? { text: coordinate, below: null } : dialDigits(reading, coordinate);
    }
    case 'none':
      return { text: lengthText(position, units, usualDecimals(units)), below: null };
    default:
      return axis satisfies never;
  }
}

/**
 * A dial reading in characters that block digits have. Past zero the turns and divisions count back, and the small print
 * says what the scale itself shows: `1 + 30 below zero (scale 70)` is drawn as `-1 - 30`.
 */
function dialDigits(reading: string, coordinate: string): { readonly text: string; readonly below: string } {
  const past = /^(\d+) \+ ([\d.]+) below zero \(scale ([\d.]+)\)$/.exec(reading);
  if (past === null) return { text: reading, below: `turns + divisions, that is ${coordinate}` };
  const [, turns, divisions, scale] = past;
  return {
    text: `-${turns} - ${divisions}`,
    below: `below zero, the scale shows ${scale}; that is ${coordinate}`,
  };
}

/** Scale of one axis of a machine; none where the operation has no machine. */
export function axisOf(machine: ResolvedMachine | undefined, axis: 'x' | 'y' | 'z'): AxisReading {
  return machine?.[axis] ?? { kind: 'none' };
}
