/** A setup's drawing as lines of text with its size and its legend, for `steps` and other plain text. */
import { asMm } from '../shop/quantities.ts';
import { formatLength } from '../shop/units.ts';
import { drawSetup } from './drawing.ts';
import { drawAsText, legendOf } from './drawing-text.ts';
import type { ResolvedPlan } from './resolved.ts';

/** With the indent of the text of `steps` it fits 80 columns. */
const COLUMNS = 74;
const ROWS = 18;

/**
 * The setup seen from above with all that is cut in it: the drawing, then the size of the part as it lies and what the signs
 * mean. Nothing for a setup that the plan does not have.
 */
export function setupPicture(plan: ResolvedPlan, setup: string): readonly string[] {
  const drawing = drawSetup(plan, setup, null);
  if (drawing === null) return [];
  const drawn = drawAsText(drawing, {
    columns: COLUMNS,
    rows: ROWS,
    ascii: false,
    parallels: true,
    stateOf: () => 'todo',
  });
  const part = drawing.shapes.find((shape) => shape.kind === 'part');
  const size =
    part?.kind === 'part'
      ? [
          `${formatLength(asMm(part.x1 - part.x0), plan.units)} x ${formatLength(asMm(part.y1 - part.y0), plan.units)}, seen from above`,
        ]
      : [];
  return [
    ...drawn.map((line) =>
      line
        .map((cell) => cell.text)
        .join('')
        .trimEnd(),
    ),
    ...size,
    legendOf(drawing, drawn, { ascii: false }),
  ];
}
