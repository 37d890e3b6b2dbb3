import type { Hit, Rule } from '../finding.ts';

/** Quantities that contradict one another. */
export const quantities: Rule = {
  code: 'quantities',
  severity: 'stop',
  catches: 'Quantities of the variants that do not add up to the quantity of the plan.',
  example: 'the variants order 20 + 20 = 40; the plan orders 45',
  find: ({ plan }): readonly Hit[] => {
    const variants = Object.values(plan.variants ?? {});
    if (plan.quantity === undefined || variants.length === 0) return [];
    const sum = variants.reduce((total, variant) => total + variant.quantity, 0);
    if (sum === plan.quantity) return [];
    const parts = variants.map((variant) => variant.quantity).join(' + ');
    return [
      {
        operation: null,
        path: ['quantity'],
        message: `the variants order ${variants.length > 1 ? `${parts} = ` : ''}${sum}; the plan orders ${plan.quantity}`,
        tryThis: `write "quantity: ${sum}" or leave it out, or put the quantities of the variants right`,
      },
    ];
  },
};
