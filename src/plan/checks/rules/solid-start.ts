import { entryOf } from '../../resolve/context.ts';
import { namedLine } from '../../resolve/line-works.ts';
import { linePasses } from '../../resolve/lines.ts';
import type { ResolvedPass } from '../../resolved.ts';
import { type CheckAsk, type CutSeen, hole, type OperationSeen, once } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** An end mill that goes down into solid metal. */
export const solidStart: Rule = {
  code: 'solid-start',
  severity: 'note',
  catches: 'An end mill that begins in solid metal, at a closed end or as a drill: not every one cuts at its centre.',
  example: 'operation 120: "slot" begins at its closed end, X 28 mm, in solid metal',
  find: (ask) =>
    once(
      ask.operations.flatMap((operation) =>
        operation.cuts.flatMap((cut) => [...ofLines(ask, operation, cut), ...ofPoints(ask, operation, cut)]),
      ),
    ),
};

const tryThis = 'have a mill that cuts at its centre (most of two flutes do), or drill the place first';

function ofLines(ask: CheckAsk, operation: OperationSeen, cut: CutSeen): readonly Hit[] {
  const { tool } = cut;
  if ((cut.kind !== 'slot' && cut.kind !== 'step') || tool?.diameter == null) return [];
  const cutter = tool.diameter;
  return (cut.work.plan.lines ?? []).flatMap((name): readonly Hit[] => {
    const line = entryOf(ask.plan.lines, name);
    if (line?.ends === undefined) return [];
    const resolving = { plan: ask.plan, positions: ask.positions, problems: [], computed: [] };
    const work = namedLine({ resolving, operation: operation.work, cut: cut.work, tool, cutter }, name, line);
    const pass = work === undefined ? undefined : linePasses(work)[0];
    if (work === undefined || pass === undefined) return [];
    const [low, high] =
      work.line.from.at <= work.line.to.at ? [work.line.from, work.line.to] : [work.line.to, work.line.from];
    const begins = pass.feedTowards === '+' ? low : high;
    if (begins.end === 'open' || isDrilled(ask, operation, pass)) return [];
    const where = `${pass.feedAxis.toUpperCase()} ${ask.show(pass.from[pass.feedAxis])}`;
    const message = `"${name}" begins at its closed end, ${where}, in solid metal`;
    return [{ operation: operation.resolved.number, path: ['lines', name, 'ends'], message, tryThis }];
  });
}

/** Was a hole drilled before, in the same setup, that takes the cutter's centre? */
function isDrilled(ask: CheckAsk, operation: OperationSeen, pass: ResolvedPass): boolean {
  return ask.visits.some(
    (visit) =>
      visit.cut.kind === 'drill' &&
      visit.operation.index <= operation.index &&
      visit.operation.resolved.setup === operation.resolved.setup &&
      Math.hypot(visit.point.x - pass.from.x, visit.point.y - pass.from.y) <= (visit.cut.tool?.diameter ?? 0) / 2,
  );
}

function ofPoints(ask: CheckAsk, operation: OperationSeen, cut: CutSeen): readonly Hit[] {
  if (cut.kind !== 'drill' || cut.tool?.kind !== 'end mill') return [];
  const solid = ask.visits.filter(
    (visit) => visit.cut === cut && hole(ask, visit).before.every(({ cut: other }) => other.kind !== 'drill'),
  );
  if (solid.length === 0) return [];
  const message = `${cut.tool.name} goes down into solid metal as a drill does`;
  return [{ operation: operation.resolved.number, path: cut.path, message, tryThis }];
}
