/** Pages of pictures to look at: every moment of a plan, each panel as large as it looks from so far away. */
import type { ResolvedPlan } from '../../../src/plan/resolved.ts';
import { proved, textOf } from '../../plan/plan-samples.ts';
import { drawLines } from '../frames/draw-frame.ts';
import { everyKindPlan } from '../frames/every-kind-plan.ts';
import { momentsOf, type Shown } from '../frames/moments.ts';
import { rareMoments } from '../frames/rare-moments.ts';
import { type PanelSize, panelSizes, pixelsFromAfar } from './panels.ts';
import { pictureOf } from './picture.ts';

/** Pictures on one page, so that none is scaled down again where it is looked at. */
const onePage = 24;

export type Sheet = { readonly name: string; readonly html: string };

/** The plan in a file, or the one that has every kind of work. */
export function planFor(path: string | undefined): ResolvedPlan {
  return path === undefined ? everyKindPlan : proved(textOf(path)).resolved;
}

/** The moments of a plan played through, and those of mishaps for the plan that has every kind of work. */
export const picturedMoments = (plan: ResolvedPlan): readonly Shown[] => [
  ...momentsOf(plan),
  ...(plan === everyKindPlan ? rareMoments() : []),
];

/** Pages of all moments on all panels; 0.6 m is the desk itself, where every word can be read. */
export function sheetsOf(plan: ResolvedPlan, metres: number): readonly Sheet[] {
  const moments = picturedMoments(plan);
  return panelSizes.flatMap((panel) => {
    const width = pixelsFromAfar(panel.wide_mm, metres);
    const figures = moments.map(({ name, ...shot }) => {
      const lines = drawLines({ ...shot, columns: panel.columns, rows: panel.rows });
      return `<figure>${pictureOf(lines, panel, width)}<figcaption>${name}</figcaption></figure>`;
    });
    const pages = Array.from({ length: Math.ceil(figures.length / onePage) }, (_, page) => page);
    return pages.map((page) => ({
      name: `${panel.name}-${page + 1}`,
      html: pageOf(panel, metres, width, figures.slice(page * onePage, (page + 1) * onePage)),
    }));
  });
}

function pageOf(panel: PanelSize, metres: number, width: number, figures: readonly string[]): string {
  return `<!doctype html><meta charset="utf-8"><title>${panel.name} from ${metres} m</title>
<style>body{margin:4px;background:#444;color:#fff;font:9px sans-serif;display:flex;flex-wrap:wrap;gap:4px}
figure{margin:0;width:${width}px}figcaption{height:11px;overflow:hidden;white-space:nowrap}svg{display:block}</style>
${figures.join('\n')}
`;
}
