import { once, pathOf } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** Unequal pieces under one jaw. */
export const rowUnequal: Rule = {
  code: 'row-unequal',
  severity: 'warn',
  catches: 'Several pieces side by side under one jaw without soft packing: the widest is held, the others are loose.',
  example: 'operation 30: 4 pieces lie side by side in the vice; unless they are equal the smaller ones are loose',
  find: (ask) =>
    once(
      ask.operations.flatMap((operation): readonly Hit[] => {
        const { setup, work, resolved } = operation;
        const row = work.setup?.row ?? 'front to back';
        if (setup?.hold !== 'vice' || row === 'front to back' || resolved.loadSize < 2) return [];
        if (work.setup?.packing !== undefined) return [];
        return [
          {
            operation: resolved.number,
            path: pathOf(operation, 'setup'),
            message: `${resolved.loadSize} pieces lie ${row} under one jaw; unless they are equal the smaller ones are loose`,
            tryThis:
              'hold them in one row ("row: front to back"), or put something soft at the moving jaw ("packing: card at the moving jaw")',
          },
        ];
      }),
    ),
};
