import { writeLength } from '../advice.ts';
import { type CheckAsk, type OperationSeen, once, pathOf, thicknessAt } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** An earlier cut that takes away what a later setup grips. */
export const seatCutAway: Rule = {
  code: 'seat-cut-away',
  severity: 'warn',
  catches:
    'A step along an edge that a later setup grips in the vice or lays on a parallel, or across an end that it puts to the stop.',
  example: 'operation 80: the step of operation 50 takes 4 mm off the rear edge that the jaw grips here',
  find: (ask) =>
    once([
      ...ask.operations.flatMap((operation) => operation.cuts.flatMap((cut) => endHits(ask, operation, cut))),
      ...ask.operations.flatMap((operation) =>
        operation.cuts
          .filter((cut) => cut.kind === 'step' && cut.resolved.passes.some((pass) => pass.feedAxis === 'x'))
          .flatMap((cut) => {
            const deep = Math.max(...cut.resolved.passes.map((pass) => -pass.z));
            return edgesCut(operation, cut).flatMap((drawnRear) =>
              ask.operations
                .filter((later) => later.index > operation.index)
                .flatMap((later) => judge(ask, operation, later, deep, drawnRear)),
            );
          }),
      ),
    ]),
};

/** A step across an end, lying below in a later setup: the stop must reach above it. */
function endHits(ask: CheckAsk, operation: OperationSeen, cut: OperationSeen['cuts'][number]): readonly Hit[] {
  const outline = operation.setup?.outline;
  const across = cut.resolved.passes.filter((pass) => pass.feedAxis === 'y');
  if (cut.kind !== 'step' || outline === undefined || across.length === 0 || isUpright(operation)) return [];
  const deep = Math.max(...across.map((pass) => -pass.z));
  const radius = (cut.tool?.diameter ?? 0) / 2;
  const left = across.some((pass) => pass.from.x - radius <= outline.x0 + 1e-6);
  const right = across.some((pass) => pass.from.x + radius >= outline.x1 - 1e-6);
  const turned = operation.work.frame.signX === -1;
  const ends = [...(left ? [turned] : []), ...(right ? [!turned] : [])];
  return ask.operations
    .filter((later) => later.index > operation.index && !isUpright(later) && isOver(later) !== isOver(operation))
    .flatMap((later): readonly Hit[] => {
      const stop = later.setup?.stop;
      if (stop?.height == null) return [];
      const drawnRight = (stop.side === 'right') === (later.work.frame.signX === 1);
      const low = (later.setup?.parallels?.height ?? 0) + deep;
      if (!ends.includes(drawnRight) || stop.height > low + 1e-6) return [];
      return [
        {
          operation: later.resolved.number,
          path: pathOf(later, 'setup'),
          message: `the step of operation ${operation.resolved.number} takes ${ask.show(deep)} off the lower part of the end at the stop, which is ${ask.show(stop.height)} high: it touches nothing below ${ask.show(low)}`,
          tryThis: `make the stop higher than that ("height: ${writeLength(ask, low + 1, 'up')}"), or put the other end to it`,
        },
      ];
    });
}

/** The long edges that a step opens: true for the edge that is at the rear on the drawing. */
function edgesCut(operation: OperationSeen, cut: OperationSeen['cuts'][number]): readonly boolean[] {
  const outline = operation.setup?.outline;
  const radius = (cut.tool?.diameter ?? 0) / 2;
  if (outline === undefined) return [];
  const rearHere = cut.resolved.passes.some((pass) => pass.from.y + radius >= outline.y1 - 1e-6);
  const frontHere = cut.resolved.passes.some((pass) => pass.from.y - radius <= outline.y0 + 1e-6);
  const turned = operation.work.frame.signY === -1;
  return [...(rearHere ? [!turned] : []), ...(frontHere ? [turned] : [])];
}

function judge(
  ask: CheckAsk,
  operation: OperationSeen,
  later: OperationSeen,
  deep: number,
  drawnRear: boolean,
): readonly Hit[] {
  const { setup, work } = later;
  const jaw = later.machine?.vice?.fixedJaw ?? 'rear';
  if (setup?.hold !== 'vice' || !['rear', 'front'].includes(jaw) || isUpright(later)) return [];
  const edge = drawnRear === (work.frame.signY === 1) ? 'rear' : 'front';
  const sameFace = isOver(operation) === isOver(later);
  const above = work.setup?.['above jaws'];
  // The same face up: the jaws grip below what the step took, as long as the part stands that much above them.
  if (sameFace && (above === undefined || above >= deep - 1e-6)) return [];
  const grip = ask.show(Math.min(deep, thicknessAt(later)));
  const message = `the step of operation ${operation.resolved.number} takes ${grip} off the ${edge} edge that is gripped${sameFace ? '' : ' and seated'} here`;
  return [
    {
      operation: later.resolved.number,
      path: pathOf(later, 'setup'),
      message,
      tryThis: `do this before operation ${operation.resolved.number}, or hold the part another way ("hold: plate" or "hold: fixture")`,
    },
  ];
}

const isUpright = (operation: OperationSeen): boolean =>
  ['on edge', 'on end'].includes(operation.work.setup?.lies ?? '');
const isOver = (operation: OperationSeen): boolean =>
  ['over about X', 'over about Y'].includes(operation.work.setup?.lies ?? '');
