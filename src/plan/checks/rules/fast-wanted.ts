import { allCuts, once } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** A tool that would take more speed than there is. */
export const fastWanted: Rule = {
  code: 'fast-wanted',
  severity: 'note',
  catches:
    'A tool that would take more than twice the fastest speed of the machine: it cuts, but slowly; feed it gently.',
  example: 'operation 70: no. 29 drill would take 5617 rpm; 2700 is the fastest',
  find: (ask) =>
    once(
      allCuts(ask).flatMap(({ operation, cut }): readonly Hit[] => {
        const { remark, computed, set } = cut.resolved.speed;
        if (remark === null || computed === null || set === null || !remark.startsWith('fastest')) return [];
        const message = `${cut.tool?.name ?? 'the tool'} would take ${Math.round(computed)} rpm; ${set} is the fastest: feed it gently`;
        return [{ operation: operation.resolved.number, path: cut.path, message, tryThis: '' }];
      }),
    ),
};
