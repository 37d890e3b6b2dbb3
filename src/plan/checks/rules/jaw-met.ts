import type { ResolvedPass } from '../../resolved.ts';
import { writeLength } from '../advice.ts';
import { type CheckAsk, type CutSeen, type OperationSeen, once, pathOf, thicknessAt } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';
import { standingOf } from '../jaws.ts';

/** What a Z zero set by eye may be out by, so that less room over the jaws is none: common practice. */
const BY_EYE_MM = 0.3;
/** Where less would be left between the jaws, higher parallels are no advice. */
const LEAST_HELD_MM = 1;

/** A cutter that runs into the jaws. */
export const jawMet: Rule = {
  code: 'jaw-met',
  severity: 'stop',
  also: ['warn'],
  catches:
    'A milling pass or a face that is deeper than the part stands above the jaws and runs over them, as it does over a part sunk between them; or one that clears them by less than a zero set by eye is true to.',
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
  const { setup, work } = operation;
  const above = standingOf(ask, operation)?.above;
  if (setup === undefined || above === undefined) return [];
  const radius = (cut.tool?.diameter ?? 0) / 2;
  const room = above + pass.z;
  const byEye = cut.resolved.zZero?.how === 'by eye' && room < BY_EYE_MM - 1e-6;
  if ((room >= -1e-6 && !byEye) || !runsOverJaws(operation, pass, radius)) return [];
  const beyond = work.setup?.['beyond jaws'];
  const along = alongJaws(operation);
  const [low, high] = [
    Math.min(pass.from[along], pass.to[along]) - radius,
    Math.max(pass.from[along], pass.to[along]) + radius,
  ];
  const [left, right] = extentOf(operation, along);
  const clearRight = beyond !== undefined && low >= right - beyond - 1e-6;
  const clearLeft = beyond !== undefined && high <= left + beyond + 1e-6;
  if (clearRight || clearLeft) return [];
  const base = { operation: operation.resolved.number, path: pathOf(operation) };
  if (room >= -1e-6) {
    const message = `the pass clears the jaws by ${ask.show(Math.max(0, room))}, and its Z zero is set by eye, which may be ${ask.show(BY_EYE_MM)} out (common practice)`;
    const less = above - BY_EYE_MM;
    const shallower = less > 0 ? `, or cut at most "depth: ${writeLength(ask, less, 'down')}"` : '';
    return [{ ...base, severity: 'warn', message, tryThis: `set it with "how: feeler" or "how: touch"${shallower}` }];
  }
  const message = `the pass is ${ask.show(-pass.z)} deep and runs over the jaws; ${standsWords(ask, above)}${beyond === undefined ? '' : ` and ${ask.show(beyond)} beyond their end`}`;
  return [{ ...base, message, tryThis: advice(ask, operation, pass, Math.min(right - low, high - left)) }];
}

/** The axis along which the jaws run: a fixed jaw at the left or right has them run away from the user. */
const alongJaws = ({ machine }: OperationSeen): 'x' | 'y' =>
  ['left', 'right'].includes(machine?.vice?.fixedJaw ?? '') ? 'y' : 'x';

/** From end to end of the part, or of the row of parts, along an axis. */
function extentOf({ setup }: OperationSeen, axis: 'x' | 'y'): readonly [low: number, high: number] {
  const { outline, places } = setup ?? { outline: { x0: 0, x1: 0, y0: 0, y1: 0 }, places: [] };
  const offsets = places.map((place) => (axis === 'x' ? place.dx : place.dy));
  const [low, high] = axis === 'x' ? [outline.x0, outline.x1] : [outline.y0, outline.y1];
  return [low + Math.min(0, ...offsets), high + Math.max(0, ...offsets)];
}

/** An end may stand out further, as long as most of the part stays in the jaws; lower than the jaws nothing can be cut. */
function advice(ask: CheckAsk, operation: OperationSeen, pass: ResolvedPass, beyond: number): string {
  const above = standingOf(ask, operation)?.above ?? 0;
  const further = beyond < operation.work.size[alongJaws(operation)] / 2;
  const held = thicknessAt(operation) + pass.z > LEAST_HELD_MM;
  const ways = [
    ...(further ? [`let the end stand further out ("beyond jaws: ${writeLength(ask, beyond, 'up')}")`] : []),
    ...(held ? ['put higher parallels under it'] : []),
    ...(above > 0.01 ? [`cut at most "depth: ${writeLength(ask, above, 'down')}"`] : []),
  ];
  return [
    ...ways,
    ...(further || held ? [] : ['turn the part so that this side stands out at an end of the jaws']),
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
  const across = alongJaws(operation) === 'x' ? 'y' : 'x';
  const [low, high] = extentOf(operation, across);
  const [from, to] = [pass.from[across], pass.to[across]];
  return Math.min(from, to) - radius < low - 1e-6 || Math.max(from, to) + radius > high + 1e-6;
}
