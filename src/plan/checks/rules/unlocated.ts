import { isUpright, once } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** A hole on the pillar drill of which nobody says where it comes. */
export const unlocated: Rule = {
  code: 'unlocated',
  severity: 'warn',
  catches:
    'An operation on the pillar drill that does not say what locates the tool, or that follows a hole which nothing has made.',
  example: 'operation 70: nothing says what locates the tool on the pillar drill',
  find: (ask) =>
    once(
      ask.visits.flatMap((visit): readonly Hit[] => {
        const { work, resolved } = visit.operation;
        if (work.station !== 'pillar drill' || visit.operation.setup !== undefined) return [];
        const base = { operation: resolved.number, path: [...visit.path.slice(0, 2)] };
        if (resolved.located === null) {
          return [
            {
              ...base,
              message: 'nothing says what locates the tool on the pillar drill',
              tryThis: 'add "located by:" with "punch mark", "jig", "fence and stop" or "follows the hole"',
            },
          ];
        }
        if (resolved.located !== 'follows the hole' || visit.cut.kind === 'spot') return [];
        const made = ask.visitsAt(visit.drawn).some((other) => other.order < visit.order && !isUpright(ask, other));
        if (made) return [];
        return [
          {
            ...base,
            path: [...base.path, 'located by'],
            message: `the tool is to follow the hole at "${visit.point.name}", and nothing has made one before`,
            tryThis: 'say "punch mark", "jig" or "fence and stop", or make the hole in an operation before',
          },
        ];
      }),
    ),
};
