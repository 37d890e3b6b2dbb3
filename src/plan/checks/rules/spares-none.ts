import { once, pathOf } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** Words by which a check tells that its piece is lost. */
const DESTROYS =
  /\b(?:destroy\w*|sacrific\w*|sectioned|section (?:the|one|a|it|this)|(?:sawn|sawed|saw|cut) (?:it )?(?:open|apart|in two|in half))\b/iu;

/** A check that costs a piece, and none to spare. */
export const sparesNone: Rule = {
  code: 'spares-none',
  severity: 'warn',
  catches: 'A check that destroys its piece in a batch that starts no spare.',
  example: 'operation 80: "Section the thread" costs the piece, and no spare is started',
  find: (ask) =>
    once(
      ask.operations.flatMap((operation) =>
        operation.resolved.checks.flatMap((check, at): readonly Hit[] => {
          const words = `${check.title} ${check.what.kind === 'yes or no' ? check.what.question : ''}`;
          if (ask.resolved.spares > 0 || !DESTROYS.test(words)) return [];
          return [
            {
              operation: operation.resolved.number,
              path: pathOf(operation, 'checks', at),
              message: `"${check.title}" costs the piece, and no spare is started`,
              tryThis: 'start one more: "spares: 1"',
            },
          ];
        }),
      ),
    ),
};
