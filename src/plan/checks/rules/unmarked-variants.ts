import { pathOf } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** Work on all variants after they have parted, told for what it is. */
export const unmarkedVariants: Rule = {
  code: 'unmarked-variants',
  severity: 'note',
  catches: 'Variants that go on together after they have parted without a marking that tells them apart.',
  example: 'operation 110 is done to all variants after they parted at 80; "clearance" has no marking',
  find: (ask): readonly Hit[] => {
    const { resolved } = ask;
    const parted = ask.operations.find((one) => one.resolved.variants.length < resolved.variants.length);
    const after = ask.operations.find(
      (one) => parted !== undefined && one.index > parted.index && one.resolved.variants.length > 1,
    );
    const unmarked = resolved.variants.filter((variant) => variant.marking === null);
    if (parted === undefined || after === undefined || unmarked.length < 2) return [];
    const names = unmarked.map((variant) => `"${variant.id}"`).join(' and ');
    return [
      {
        operation: after.resolved.number,
        path: pathOf(after),
        message: `is done to several variants after they parted at ${parted.resolved.number}; ${names} have no marking`,
        tryThis: `say how they are told apart, such as "marking: one punch dot" at ${unmarked
          .slice(1)
          .map((variant) => variant.id)
          .join(' and ')}`,
      },
    ];
  },
};
