import { allCuts, once } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** Tools of one clamping that share a speed. */
export const sharedSpeed: Rule = {
  code: 'shared-speed',
  severity: 'note',
  catches: 'Tools of one clamping that share the speed of the slowest because another speed means moving a belt.',
  example: 'operation 100: 23/64 in drill turns 950: 1600 alone, 950 in one clamping with the slower tool',
  find: (ask) =>
    once(
      allCuts(ask).flatMap(({ operation, cut }): readonly Hit[] => {
        const remark = cut.resolved.speed.remark;
        if (remark === null || !remark.includes('one clamping')) return [];
        const message = `${cut.tool?.name ?? 'the tool'} turns ${cut.resolved.speed.set}: ${remark}`;
        return [{ operation: operation.resolved.number, path: cut.path, message, tryThis: '' }];
      }),
    ),
};
