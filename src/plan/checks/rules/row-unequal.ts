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
        const { setup, machine, work, resolved } = operation;
        if (setup?.hold !== 'vice' || resolved.loadSize < 2 || work.setup?.packing !== undefined) return [];
        const places = setup.places.slice(0, resolved.loadSize);
        const columns = new Set(places.map((place) => place.dx)).size;
        const rows = new Set(places.map((place) => place.dy)).size;
        const jawsAlongX = !['left', 'right'].includes(machine?.vice?.fixedJaw ?? 'rear');
        // From jaw to jaw they press on each other, whatever their size; along the jaws the largest keeps the jaw off the rest.
        if ((jawsAlongX ? columns : rows) < 2) return [];
        const row = columns > 1 && rows > 1 ? 'both ways' : columns > 1 ? 'side by side' : 'front to back';
        return [
          {
            operation: resolved.number,
            path: pathOf(operation, 'setup'),
            message: `${resolved.loadSize} pieces lie ${row} under one jaw; unless they are equal the smaller ones are loose`,
            tryThis: `hold them in one row ("row: ${jawsAlongX ? 'front to back' : 'side by side'}"), or put something soft at the moving jaw ("packing: card at the moving jaw")`,
          },
        ];
      }),
    ),
};
