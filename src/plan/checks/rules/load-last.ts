import { fullLoads } from '../../../shop/loads.ts';
import { type OperationSeen, once, pathOf } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** A last load of one where the others are full. */
export const loadLast: Rule = {
  code: 'load-last',
  severity: 'note',
  catches: 'Stated loads whose last one is smaller: the jaws grip it elsewhere, and it wants packing or a trial.',
  example: 'operation 30: 42 pieces in loads of 4 leave a last load of 2',
  find: (ask) =>
    once(
      ask.operations.flatMap((operation): readonly Hit[] => {
        const { resolved, work } = operation;
        const stated = work.plan['per load'] ?? work.setup?.['per load'];
        const size = stated ?? (isRowsAndColumns(operation) ? resolved.loadSize : undefined);
        if (size === undefined || size < 2 || resolved.setup === null) return [];
        const all = ask.resolved.variants.filter((variant) => resolved.variants.includes(variant.id));
        const spares = all.length === ask.resolved.variants.length ? ask.resolved.spares : 0;
        const pieces = all.reduce((sum, variant) => sum + variant.quantity, 0) + spares;
        const loads = fullLoads(pieces, size);
        if (!loads.ok || loads.value.lastLoad === size || loads.value.loads < 2) return [];
        return [
          {
            operation: resolved.number,
            path: pathOf(operation),
            message: `${pieces} pieces in loads of ${size} leave a last load of ${loads.value.lastLoad}`,
            tryThis: 'have packing of the same size at hand for the empty places',
          },
        ];
      }),
    ),
};

/** Does a load lie in rows and columns? A last one that is not whole rows leaves a column that the jaw does not reach. */
const isRowsAndColumns = ({ setup }: OperationSeen): boolean => {
  const places = setup?.hold === 'vice' ? setup.places : [];
  return new Set(places.map((place) => place.dx)).size > 1 && new Set(places.map((place) => place.dy)).size > 1;
};
