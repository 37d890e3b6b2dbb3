/** Values to set, in as many decimals as the readout shows on which they are set. */
import type { Mm } from '../../shop/quantities.ts';
import { formatInches, formatMm, type LengthUnit, mmToInches } from '../../shop/units.ts';
import type { PlanMachine } from '../schema/machines.ts';

/** The resolution of an axis's readout; undefined where it has a dial or nothing. */
export function readoutOf(machine: PlanMachine | undefined, axis: 'x' | 'y' | 'z'): Mm | undefined {
  const own = machine?.[axis];
  if (own !== undefined) return 'readout' in own ? own.readout : undefined;
  return axis === 'z' ? undefined : machine?.readout;
}

/**
 * A length as it is set: hundredths of a millimetre or thousandths of an inch, one decimal more on a finer readout.
 *
 * Example: 3 mm is `3.00`, on a readout of 0.005 mm `3.000`; 2.54 mm in inches `.100`, on a readout of .0005 `.1000`.
 */
export function setText(unit: LengthUnit, length: Mm, readout: Mm | undefined): string {
  if (unit === 'mm') return formatMm(length, readout !== undefined && readout < 0.00999 ? 3 : 2);
  return formatInches(length, readout !== undefined && mmToInches(readout) < 0.00099 ? 4 : 3);
}
