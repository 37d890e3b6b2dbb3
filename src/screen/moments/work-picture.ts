/** The part in its setup with the hole or pass in hand marked, those before it done. */
import { inHandAt } from '../../batch/flow.ts';
import type { Batch } from '../../batch/state.ts';
import { drawSetup, type Shape } from '../../plan/drawing.ts';
import { drawAsText, type HoleState } from '../../plan/drawing-text.ts';
import type { ResolvedOperation } from '../../plan/resolved.ts';
import type { Picture } from '../panel/panel.ts';
import type { Target } from './targets.ts';

/** The picture of the stop at `position` of cell `at`; null where there is no setup to draw. */
export function workPicture(
  batch: Batch,
  at: number,
  operation: ResolvedOperation,
  { target, position, ascii }: { readonly target: Target; readonly position: number; readonly ascii: boolean },
): Picture | null {
  if (operation.setup === null) return null;
  const drawing = drawSetup(batch.plan, operation.setup, operation.number);
  if (drawing === null) return null;
  // A pass of a load is known by its number alone; it may go over several places.
  const placeOfPass = ({ cut, index, place }: { cut: number; index: number; place: number | null }): number =>
    (operation.cuts[cut]?.loadPasses?.[index]?.places[0] ?? place ?? 1) - 1;
  const places = new Map(
    inHandAt(batch, at).stops.map((stop, index) => [
      `${stop.cut}/${stop.kind === 'pass' ? placeOfPass(stop) : (stop.place ?? 1) - 1}/${stop.kind}/${stop.index}`,
      index,
    ]),
  );
  const stateOf = (cut: number, place: number, kind: string, index: number): HoleState => {
    const found = places.get(`${cut}/${place}/${kind}/${index}`);
    if (found === undefined) return cut === target.stop.cut ? 'now' : 'todo';
    return found === position ? 'now' : found < position ? 'done' : 'todo';
  };
  const spots = new Map<string, HoleState>();
  for (const shape of drawing.shapes) {
    if (shape.kind !== 'hole') continue;
    const own = stateOf(shape.cut, shape.place, 'point', shape.point);
    spots.set(spotOf(shape), mostUrgent(own, spots.get(spotOf(shape)) ?? 'done'));
  }
  return (columns, rows) =>
    drawAsText(drawing, {
      columns,
      rows,
      ascii,
      leaveOutCrowded: true,
      stateOf: (shape) =>
        shape.kind === 'hole'
          ? (spots.get(spotOf(shape)) ?? 'todo')
          : stateOf(shape.cut, shape.place, 'pass', shape.pass),
    });
}

const spotOf = ({ x, y }: Extract<Shape, { kind: 'hole' }>): string => `${x}/${y}`;

/** Two tools at one hole are drawn over each other: it is in hand when one of them is, and done when both are. */
const mostUrgent = (one: HoleState, other: HoleState): HoleState =>
  (['now', 'todo'] as const).find((state) => state === one || state === other) ?? 'done';
