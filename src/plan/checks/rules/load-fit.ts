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
  if (setup?.hold !== 'vice' || machine?.vice == null) return [];
  if (work.setup?.places !== undefined) return outsideJaws(ask, operation);
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

/** Stated places that lie further apart than the jaws open: along the jaws the outer pieces may stand out beyond them. */
function outsideJaws(ask: CheckAsk, { setup, machine, resolved }: OperationSeen): readonly Hit[] {
  const vice = machine?.vice;
  if (setup === undefined || vice == null || resolved.loadSize < 2) return [];
  const acrossIsY = vice.fixedJaw === 'rear' || vice.fixedJaw === 'front';
  const places = setup.places.slice(0, resolved.loadSize);
  const offsets = places.map((place) => (acrossIsY ? place.dy : place.dx));
  const { x0, x1, y0, y1 } = setup.outline;
  const across = (acrossIsY ? y1 - y0 : x1 - x0) + Math.max(...offsets) - Math.min(...offsets);
  if (across <= vice.opening + 1e-6) return [];
  const message = `the ${places.length} places reach over ${ask.show(across)} from jaw to jaw; the vice opens ${ask.show(vice.opening)}`;
  const tryThis = 'leave "places" out, so that they follow from the size of the part, or take a larger vice';
  return [{ operation: resolved.number, path: ['setups', setup.id, 'places'], message, tryThis }];
}
