import { entryOf } from '../../resolve/context.ts';
import { once } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** A mirror where the part itself is turned. */
export const mirroredHand: Rule = {
  code: 'mirrored-hand',
  severity: 'warn',
  catches: 'Mirrored points in a setup that turns the part over: turned twice, they make a part of the other hand.',
  example: 'operation 90: "far holes" is mirrored about X and the part lies over about Y: this makes the other hand',
  find: (ask) =>
    once(
      ask.operations.flatMap((operation) =>
        operation.cuts.flatMap((cut) =>
          (cut.work.plan.points ?? []).flatMap((use, at): readonly Hit[] => {
            const points = entryOf(ask.plan.points, use.at);
            const lies = operation.work.setup?.lies ?? 'as drawn';
            if (points?.kind !== 'mirrored' || lies === 'as drawn' || lies === 'on edge' || lies === 'on end')
              return [];
            return [
              {
                operation: operation.resolved.number,
                path: [...cut.path, 'points', at],
                message: `"${use.at}" is mirrored on the drawing, and the part lies ${lies} here: turned twice, the holes come out at the other hand`,
                tryThis: `name ${points.points.map((name) => `"${name}"`).join(', ')} instead, as drawn; the setup turns them by itself`,
              },
            ];
          }),
        ),
      ),
    ),
};
