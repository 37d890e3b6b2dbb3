/** The depth of a stop as its scale shows it, to stand beside what is larger. */
import type { Mm } from '../../shop/quantities.ts';
import { type Reading, secondReading } from '../panel/panel.ts';
import { type AxisText, axisOf, axisText } from './axis-text.ts';
import type { Where } from './work-facts.ts';

/** `Z -3.50` with what it is for, below zero with what the scale shows; none where no depth is given. */
export function depthReading(where: Where): readonly Reading[] {
  const { target } = where;
  if (target.z === null) return [];
  const shown = depthOf(where, target.z);
  const notes = [target.point?.note ?? null, shown.scale === null ? null : `scale ${shown.scale}`];
  const below = notes.filter((note) => note !== null).join('; ');
  return [secondReading(shown.text, 'Z', below === '' ? null : `(${below})`)];
}

/** A depth as the scale of the machine shows it, in characters that block digits have. */
export const depthText = (where: Where, z: Mm): string => depthOf(where, z).text;

const depthOf = ({ machine, batch }: Where, z: Mm): AxisText => axisText(z, axisOf(machine, 'z'), batch.plan.units);
