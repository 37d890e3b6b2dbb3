import { asNumber, numberAfter } from '../advice.ts';
import { type CheckAsk, type OperationSeen, once, pathOf } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** A setup that is left and set up again. */
export const orderSetups: Rule = {
  code: 'order-setups',
  severity: 'note',
  catches: 'A setup that is taken down and set up again although the operations could follow one another.',
  example:
    'operation 90 comes back to the setup of operations 60 and 70; done before operation 80 it would save a setup',
  find: (ask) => once(ask.operations.flatMap((operation) => judge(ask, operation))),
};

function judge(ask: CheckAsk, operation: OperationSeen): readonly Hit[] {
  const { setup, machine } = operation.resolved;
  if (setup === null) return [];
  const earlier = ask.operations.filter((one) => one.index < operation.index && one.resolved.machine === machine);
  const last = earlier.at(-1);
  const before = earlier.filter((one) => one.resolved.setup === setup);
  const first = earlier.find((one) => one.index > (before.at(-1)?.index ?? 0));
  const home = before.at(-1);
  if (last === undefined || last.resolved.setup === setup || home === undefined || first === undefined) return [];
  if (needsBetween(ask, operation, home.index)) return [];
  const message = `comes back to the setup of operation ${home.resolved.number}; done before operation ${first.resolved.number} it would save setting up again`;
  return [
    {
      operation: operation.resolved.number,
      path: pathOf(operation, 'setup'),
      message,
      tryThis: `put it after operation ${home.resolved.number}${asNumber(numberAfter(ask, home))}`,
    },
  ];
}

/** Does anything done between make a hole that this operation works in, or away work that it follows? */
function needsBetween(ask: CheckAsk, operation: OperationSeen, from: number): boolean {
  const between = ask.operations.filter((one) => one.index > from && one.index < operation.index);
  if (between.some((one) => one.resolved.kind === 'away')) return true;
  const own = ask.visits.filter((visit) => visit.operation === operation);
  return own.some((visit) => ask.visitsAt(visit.drawn).some((other) => between.includes(other.operation)));
}
