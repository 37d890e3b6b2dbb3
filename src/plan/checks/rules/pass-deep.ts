import { entryOf } from '../../resolve/context.ts';
import { passDepths } from '../../resolve/lines.ts';
import type { PlanLine } from '../../schema/places.ts';
import { allCuts, type CheckAsk, type OperationSeen, once } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** A cutter in metal all round is not sunk deeper than its diameter at once; half is usual: common practice. */
const MOST_DIAMETERS = 1;
const USUAL_DIAMETERS = 0.5;
/** From this part of its width on, a cutter in a step counts as being in metal all round: a choice of ours. */
const FULL_WIDTH = 0.75;

/** A pass that is too deep for its cutter. */
export const passDeep: Rule = {
  code: 'pass-deep',
  severity: 'warn',
  catches: 'A pass in a slot or full-width step deeper than the cutter is wide: it is deflected, clogs, and breaks.',
  example: 'operation 120: "slot" is cut 12 mm deep in one pass with a cutter of 6 mm',
  find: (ask) =>
    once(
      allCuts(ask).flatMap(({ operation, cut }) =>
        (cut.work.plan.lines ?? []).flatMap((name): readonly Hit[] => {
          const line = entryOf(ask.plan.lines, name);
          const cutter = cut.tool?.diameter;
          const isFull =
            line?.kind === 'slot' ||
            (line?.kind === 'step' && (line.width ?? cutter ?? 0) >= (cutter ?? 0) * FULL_WIDTH);
          if (
            line === undefined ||
            cutter == null ||
            !isFull ||
            isOpened(ask, operation, line) ||
            (cut.kind !== 'slot' && cut.kind !== 'step')
          )
            return [];
          const deepest = Math.max(
            0,
            ...cut.resolved.passes.filter((pass) => isOf(pass.name, name)).map((pass) => -pass.z),
          );
          const depths = passDepths((line.depth ?? deepest) as typeof cutter, line.passes, line['last pass']);
          const once = Math.max(0, ...depths.map((depth, at) => depth - (depths[at - 1] ?? 0)));
          if (once <= cutter * MOST_DIAMETERS + 1e-6) return [];
          const passes = Math.ceil(deepest / (cutter * USUAL_DIAMETERS) - 1e-9);
          return [
            {
              operation: operation.resolved.number,
              path: ['lines', name, ...(line.passes === undefined ? [] : ['passes'])],
              message: `"${name}" is cut ${ask.show(once)} deep in one pass with a cutter of ${ask.show(cutter)}; half its diameter is usual where it has metal on both sides (common practice)`,
              tryThis: `take it in more: "passes: ${passes}"`,
            },
          ];
        }),
      ),
    ),
};

/** Was it milled before with a smaller cutter, so that this one only takes the walls? */
function isOpened(ask: CheckAsk, operation: OperationSeen, line: PlanLine): boolean {
  const before = ask.operations.filter((one) => one.index < operation.index).flatMap((one) => one.cuts);
  const names = before.filter(({ kind }) => kind === line.kind).flatMap((cut) => cut.work.plan.lines ?? []);
  return names.some((name) => {
    const other = entryOf(ask.plan.lines, name);
    return other?.along === line.along && Math.abs(other.at - line.at) < (line.width ?? 0) / 2;
  });
}

const isOf = (pass: string, line: string): boolean => pass === line || pass.startsWith(`${line}, pass `);
