import { asMm } from '../../../shop/quantities.ts';
import { entryOf } from '../../resolve/context.ts';
import { lineInSetup, linePasses } from '../../resolve/lines.ts';
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
    if (line?.feed === undefined) return [];
    const stated = lineInSetup(name, line, operation.work.frame);
    const cutter = cut.tool?.diameter ?? asMm(1);
    const work = { kind: line.kind, width: line.width, cutter, runOut: asMm(0), depths: [asMm(1)] };
    const free = linePasses({ ...work, line: { ...stated, feed: undefined } });
    const inSlot = line.kind === 'slot' && free.length === 1;
    if (inSlot || free.every((pass) => pass.feedTowards === stated.feed)) return [];
    return [
      {
        operation: operation.resolved.number,
        path: ['lines', name, 'feed'],
        message: `"${name}" is fed ${line.feed}, inward (the work on the right of the cutter's way); ${operation.machine?.name ?? 'the machine'} is not said to be fit for it`,
        tryThis: `write "feed: ${OTHER_WAY[line.feed]}", or say "inward feed: yes" of a machine whose screws have no play`,
      },
    ];
  });
}
