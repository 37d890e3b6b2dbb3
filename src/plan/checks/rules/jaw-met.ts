import type { ResolvedPass } from '../../resolved.ts';
import { writeLength } from '../advice.ts';
import { type CheckAsk, type CutSeen, type OperationSeen, once, pathOf } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';
import { standingOf } from '../jaws.ts';

/** A cutter that runs into the jaws. */
export const jawMet: Rule = {
  code: 'jaw-met',
  severity: 'stop',
  also: ['warn'],
  catches:
    'A milling pass or a face that is deeper than the part stands above the jaws and runs over them, as it does over a part sunk between them.',
  example: 'operation 40: the pass is 8.5 mm deep and runs over the jaws; the part stands 3 mm above them',
  find: (ask) =>
    once(
      ask.operations.flatMap((operation) =>
        operation.cuts.flatMap((cut) => [
          ...(cut.resolved.loadPasses ?? cut.resolved.passes).flatMap((pass) => judge(ask, operation, cut, pass)),
          ...judgeFace(ask, operation, cut),
        ]),
      ),
    ),
};

function judge(ask: CheckAsk, operation: OperationSeen, cut: CutSeen, pass: ResolvedPass): readonly Hit[] {
  const { setup, machine, work } = operation;
  const above = standingOf(ask, operation)?.above;
  if (setup === undefined || above === undefined || !['rear', 'front'].includes(machine?.vice?.fixedJaw ?? ''))
    return [];
  const radius = (cut.tool?.diameter ?? 0) / 2;
  if (-pass.z <= above + 1e-6 || !runsOverJaws(operation, pass, radius)) return [];
  const beyond = work.setup?.['beyond jaws'];
  const [low, high] = [Math.min(pass.from.x, pass.to.x) - radius, Math.max(pass.from.x, pass.to.x) + radius];
  const offsets = setup.places.map((place) => place.dx);
  const [left, right] = [setup.outline.x0 + Math.min(0, ...offsets), setup.outline.x1 + Math.max(0, ...offsets)];
  const clearRight = beyond !== undefined && low >= right - beyond - 1e-6;
  const clearLeft = beyond !== undefined && high <= left + beyond + 1e-6;
  if (clearRight || clearLeft) return [];
  const message = `the pass is ${ask.show(-pass.z)} deep and runs over the jaws; ${standsWords(ask, above)}${beyond === undefined ? '' : ` and ${ask.show(beyond)} beyond their end`}`;
  return [
    {
      operation: operation.resolved.number,
      path: pathOf(operation),
      message,
      tryThis: advice(ask, operation, above, Math.min(right - low, high - left)),
    },
  ];
}

/** An end may stand out further, as long as most of the part stays in the jaws; lower than the jaws nothing can be cut. */
function advice(ask: CheckAsk, operation: OperationSeen, above: number, beyond: number): string {
  const further = beyond < operation.work.size.x / 2;
  return [
    ...(further ? [`let the end stand further out ("beyond jaws: ${writeLength(ask, beyond, 'up')}")`] : []),
    'put higher parallels under it',
    ...(above > 0.01 ? [`cut at most "depth: ${writeLength(ask, above, 'down')}"`] : []),
  ].join(', or ');
}

const standsWords = (ask: CheckAsk, above: number): string => {
  if (above > 1e-6) return `the part stands ${ask.show(above)} above them`;
  return above < -1e-6 ? `the part lies ${ask.show(-above)} below their top` : 'the part does not stand above them';
};

/** A face is cut from edge to edge: below the top of the jaws there is no room for the cutter. */
function judgeFace(ask: CheckAsk, operation: OperationSeen, cut: CutSeen): readonly Hit[] {
  const standing = standingOf(ask, operation);
  const deep = -(cut.resolved.z ?? 0);
  if (cut.kind !== 'face' || standing === undefined || deep <= standing.above + 1e-6) return [];
  const { setup, machine } = operation;
  const higher = (setup?.parallels?.height ?? 0) + deep - standing.above;
  const unsaid = standing.from === 'nothing' ? '; the plan names no parallels' : '';
  const less = standing.above > 1e-6 ? `, or face at most "depth: ${writeLength(ask, standing.above, 'down')}"` : '';
  const how = standing.from === 'stated' ? `hold it "above jaws: ${writeLength(ask, deep, 'up')}" or more` : undefined;
  return [
    {
      operation: operation.resolved.number,
      path: pathOf(operation),
      severity: standing.from === 'nothing' ? 'warn' : 'stop',
      message: `the face is cut ${ask.show(deep)} deep and ${machine?.vice == null ? 'the jaws' : `the jaws of ${ask.show(machine.vice.jawHeight)}`} stand in its way; ${standsWords(ask, standing.above)}${unsaid}`,
      tryThis: `${how ?? `put parallels of "height: ${writeLength(ask, higher, 'up')}" or more under it`}${less}`,
    },
  ];
}

/** Does the cutter leave the part, or the row of parts, towards a jaw? */
function runsOverJaws(operation: OperationSeen, pass: ResolvedPass, radius: number): boolean {
  const { outline, places } = operation.setup ?? { outline: { y0: 0, y1: 0 }, places: [] };
  const low = outline.y0 + Math.min(0, ...places.map((place) => place.dy));
  const high = outline.y1 + Math.max(0, ...places.map((place) => place.dy));
  return (
    Math.min(pass.from.y, pass.to.y) - radius < low - 1e-6 || Math.max(pass.from.y, pass.to.y) + radius > high + 1e-6
  );
}
