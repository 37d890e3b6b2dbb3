import { once, pathOf } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** The sawn end at the stop. */
export const sawnEnd: Rule = {
  code: 'sawn-end',
  severity: 'note',
  catches: 'The first end milled while a sawn end lies at the stop: no dimension may be taken from there.',
  example: 'operation 30: the sawn end lies at the stop; it carries no dimension',
  find: (ask) =>
    once(
      ask.operations
        .filter(({ resolved }) => resolved.kind === 'mill to length')
        .slice(0, 1)
        .filter(({ setup }) => setup?.stop !== null && ask.operations.some((one) => one.resolved.kind === 'saw'))
        .map(
          (operation): Hit => ({
            operation: operation.resolved.number,
            path: pathOf(operation),
            message: 'the sawn end lies at the stop; it carries no dimension, only the end that is milled here does',
            tryThis: '',
          }),
        ),
    ),
};
