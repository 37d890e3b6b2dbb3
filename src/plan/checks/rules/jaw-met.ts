import type { ResolvedPass } from '../../resolved.ts';
import { writeLength } from '../advice.ts';
import { type CheckAsk, type CutSeen, type OperationSeen, once, pathOf, thicknessAt } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** A cutter that runs into the jaws. */
export const jawMet: Rule = {
  code: 'jaw-met',
  severity: 'stop',
  catches: 'A milling pass that is deeper than the part stands above the jaws and runs over them.',
  example: 'operation 40: the pass is 8.5 mm deep and runs over the jaws; the part stands 3 mm above them',
  find: (ask) =>
    once(
      ask.operations.flatMap((operation) =>
        operation.cuts.flatMap((cut) => cut.resolved.passes.flatMap((pass) => judge(ask, operation, cut, pass))),
      ),
    ),
};

function judge(ask: CheckAsk, operation: OperationSeen, cut: CutSeen, pass: ResolvedPass): readonly Hit[] {
  const { setup, machine, work } = operation;
  if (setup?.hold !== 'vice' || machine?.vice == null || !['rear', 'front'].includes(machine.vice.fixedJaw)) return [];
  const above =
    work.setup?.['above jaws'] ?? (setup.parallels?.height ?? 0) + thicknessAt(operation) - machine.vice.jawHeight;
  const radius = (cut.tool?.diameter ?? 0) / 2;
  if (-pass.z <= above + 1e-6 || !runsOverJaws(operation, pass, radius)) return [];
  const beyond = work.setup?.['beyond jaws'];
  const [low, high] = [Math.min(pass.from.x, pass.to.x) - radius, Math.max(pass.from.x, pass.to.x) + radius];
  const clearRight = beyond !== undefined && low >= setup.outline.x1 - beyond - 1e-6;
  const clearLeft = beyond !== undefined && high <= setup.outline.x0 + beyond + 1e-6;
  if (clearRight || clearLeft) return [];
  const stands = above > 0 ? `the part stands ${ask.show(above)} above them` : 'the part does not stand above them';
  const message = `the pass is ${ask.show(-pass.z)} deep and runs over the jaws; ${stands}${beyond === undefined ? '' : ` and ${ask.show(beyond)} beyond their end`}`;
  return [
    {
      operation: operation.resolved.number,
      path: pathOf(operation),
      message,
      tryThis: `let the end stand further out ("beyond jaws: ${writeLength(ask, Math.min(setup.outline.x1 - low, high - setup.outline.x0), 'up')}"), put higher parallels under it, or cut at most "depth: ${writeLength(ask, Math.max(0, above), 'down')}"`,
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
