import { fitInJaws } from '../../resolve/loads.ts';
import { type CheckAsk, type OperationSeen, once, pathOf } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** A load that the jaws do not take. */
export const loadFit: Rule = {
  code: 'load-fit',
  severity: 'stop',
  catches: 'More pieces in a load than fit the jaws.',
  example: 'operation 30: 4 pieces of 30 mm are held front to back; the vice opens 100 mm and takes 3',
  find: (ask) => once(ask.operations.flatMap((operation) => judge(ask, operation))),
};

function judge(ask: CheckAsk, operation: OperationSeen): readonly Hit[] {
  const { setup, machine, work, resolved } = operation;
  if (setup?.hold !== 'vice' || machine?.vice == null || work.setup?.places !== undefined) return [];
  const stated = work.plan['per load'] ?? work.setup?.['per load'];
  if (stated === undefined) return [];
  const fit = fitInJaws({ plan: ask.plan, positions: ask.positions, problems: [], computed: [] }, work);
  if (fit === undefined || stated <= fit) return [];
  const row = work.setup?.row ?? 'front to back';
  const message = `${stated} pieces of ${ask.show(work.size.x)} x ${ask.show(work.size.y)} are held ${row}; the vice (${ask.show(machine.vice.jawWidth)} wide, opening ${ask.show(machine.vice.opening)}) takes ${fit}`;
  const path = work.plan['per load'] === undefined ? ['setups', setup.id, 'per load'] : pathOf(operation, 'per load');
  return [
    {
      operation: resolved.number,
      path,
      message,
      tryThis: fit < 1 ? 'take a larger vice' : `hold ${fit} at once: "per load: ${fit}"`,
    },
  ];
}
