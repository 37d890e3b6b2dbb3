import { entryOf } from '../../resolve/context.ts';
import { namedLine } from '../../resolve/line-works.ts';
import { conventionalFeeds } from '../../resolve/lines.ts';
import { type CheckAsk, type CutSeen, type OperationSeen, once } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** Feed that pulls the work into the cutter. */
export const inwardFeed: Rule = {
  code: 'inward-feed',
  severity: 'warn',
  catches: 'A stated feed that goes inward (climb): the cutter pulls the work, and play in the screw lets it.',
  example: 'operation 50: "front edge" is fed left, inward; Bench mill is not said to be fit for it',
  find: (ask) =>
    once(ask.operations.flatMap((operation) => operation.cuts.flatMap((cut) => judge(ask, operation, cut)))),
};

const OTHER_WAY = { right: 'left', left: 'right', away: 'towards', towards: 'away' } as const;

function judge(ask: CheckAsk, operation: OperationSeen, cut: CutSeen): readonly Hit[] {
  if (operation.machine === undefined || operation.machine.climbFeed) return [];
  return (cut.work.plan.lines ?? []).flatMap((name): readonly Hit[] => {
    const line = entryOf(ask.plan.lines, name);
    const cutter = cut.tool?.diameter;
    if (line?.feed === undefined || cutter == null) return [];
    const resolving = { plan: ask.plan, positions: ask.positions, problems: [], computed: [] };
    const work = namedLine({ resolving, operation: operation.work, cut: cut.work, tool: cut.tool, cutter }, name, line);
    if (work === undefined) return [];
    // Cut full, or both edges at once, there is work on both sides and no way is better.
    const wanted = conventionalFeeds(work).filter((way) => way !== undefined);
    if (wanted.every((way) => way === work.line.feed)) return [];
    const bothWays = new Set(wanted).size > 1;
    return [
      {
        operation: operation.resolved.number,
        path: ['lines', name, 'feed'],
        message: `"${name}" is fed ${line.feed}, inward (the work on the right of the cutter's way); ${operation.machine?.name ?? 'the machine'} is not said to be fit for it`,
        tryThis: `${bothWays ? 'leave "feed:" out, each wall is then fed its own way' : `write "feed: ${OTHER_WAY[line.feed]}"`}, or say "inward feed: yes" of a machine whose screws have no play`,
      },
    ];
  });
}
