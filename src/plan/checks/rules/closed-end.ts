import { entryOf } from '../../resolve/context.ts';
import { allCuts, once } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** A closed end of a line cut. */
export const closedEnd: Rule = {
  code: 'closed-end',
  severity: 'note',
  catches: 'A closed end of a line cut: the axis stops one radius short of the end that the drawing gives.',
  example: 'operation 80: "slot" ends at 1.750 in; the axis stops at 1.875 in',
  find: (ask) =>
    once(
      allCuts(ask).flatMap(({ operation, cut }) =>
        (cut.work.plan.lines ?? []).flatMap((name): readonly Hit[] => {
          const line = entryOf(ask.plan.lines, name);
          const ofSlot = cut.kind === 'chamfer' && line?.kind === 'slot' ? line.width : undefined;
          const radius = (ofSlot ?? cut.tool?.diameter ?? 0) / 2;
          if (line === undefined || radius === 0) return [];
          const short = ofSlot === undefined ? 'one radius' : "half the slot's width";
          const closed = (['from', 'to'] as const).filter((end) => line.ends?.[end] === 'closed');
          return closed.map((end): Hit => {
            const inward = line[end] < line[end === 'from' ? 'to' : 'from'] ? radius : -radius;
            const message = `"${name}" ends at ${ask.show(line[end])}; the axis stops at ${ask.show(line[end] + inward)}, ${short} before it`;
            return { operation: operation.resolved.number, path: ['lines', name, end], message, tryThis: '' };
          });
        }),
      ),
    ),
};
