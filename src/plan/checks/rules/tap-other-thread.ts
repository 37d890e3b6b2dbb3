import { parseThread } from '../../../shop/thread-names.ts';
import { allCuts, once } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** A tap that cuts another thread than the operation wants. */
export const tapOtherThread: Rule = {
  code: 'tap-other-thread',
  severity: 'stop',
  catches: 'A tap whose thread is not the thread of the operation.',
  example: 'operation 80: M6 is wanted and the tap cuts M6x0.75',
  find: (ask) =>
    once(
      allCuts(ask).flatMap(({ operation, cut }): readonly Hit[] => {
        const [wanted, own] = [cut.work.plan.thread, cut.work.tool?.thread];
        if (cut.kind !== 'tap' || wanted === undefined || own === undefined) return [];
        const [a, b] = [parseThread(wanted), parseThread(own)];
        if (!a.ok || !b.ok || a.value.name === b.value.name) return [];
        return [
          {
            operation: operation.resolved.number,
            path: [...cut.path, 'thread'],
            message: `${a.value.name} is wanted and the tap cuts ${b.value.name}`,
            tryThis: `take a tap with "thread: ${a.value.name}", or write "thread: ${b.value.name}" here`,
          },
        ];
      }),
    ),
};
