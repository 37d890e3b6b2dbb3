import { once, pathOf } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** Work that is sent out with threads or fitted holes and no word on them. */
export const awayUnsaid: Rule = {
  code: 'away-unsaid',
  severity: 'note',
  catches:
    'Threads or reamed holes that go out for plating or hardening without a word on what changes: plugged, masked, allowed for.',
  example: 'operation 130: threads and reamed holes go out to the anodiser, and nothing is said of what changes',
  find: (ask) =>
    once(
      ask.operations.flatMap((operation): readonly Hit[] => {
        if (operation.resolved.kind !== 'away' || (operation.resolved.away?.changes.length ?? 0) > 0) return [];
        const before = ask.operations.filter((one) => one.index < operation.index);
        const kinds = new Set(before.flatMap((one) => one.cuts.map((cut) => cut.kind)));
        const fitted = [kinds.has('tap') ? 'threads' : null, kinds.has('ream') ? 'reamed holes' : null];
        const words = fitted.filter((word) => word !== null);
        if (words.length === 0) return [];
        const to = operation.resolved.away?.to;
        return [
          {
            operation: operation.resolved.number,
            path: pathOf(operation),
            message: `${words.join(' and ')} go out${to === undefined ? '' : ` to ${to}`}, and nothing is said of what changes`,
            tryThis: `say so for the person at the other end: "changes: [${words.join(' and ')} plugged]"`,
          },
        ];
      }),
    ),
};
