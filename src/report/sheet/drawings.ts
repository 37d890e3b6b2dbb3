import { drawSetup } from '../../plan/drawing.ts';
import { drawAsSvg } from '../../plan/drawing-svg.ts';
import type { ResolvedPlan } from '../../plan/resolved.ts';
import { asMm } from '../../shop/quantities.ts';
import { formatLength } from '../../shop/units.ts';

/** Width of a drawing on the sheet, in CSS pixels: it fits the text width of A4 and of a phone held upright. */
const WIDTH = 560;

/** The drawing of every setup by the setup's id, for `SheetOptions`. */
export function sheetDrawings(plan: ResolvedPlan): Record<string, string> {
  const drawn = plan.setups.flatMap((setup) => {
    const drawing = drawSetup(plan, setup.id, null);
    if (drawing === null) return [];
    const title = `Setup ${setup.id}: ${setup.title}`;
    const svg = drawAsSvg(drawing, { width: WIDTH, title, formatLength: (mm) => formatLength(asMm(mm), plan.units) });
    return [[setup.id, svg] as const];
  });
  return Object.fromEntries(drawn);
}
