import { barsNeeded, blanksPerBar } from '../../../shop/stock.ts';
import type { Hit, Rule } from '../finding.ts';

/** Bars that do not yield the blanks. */
export const barsShort: Rule = {
  code: 'bars-short',
  severity: 'stop',
  catches: 'Bars that do not yield the blanks that the batch starts with.',
  example: '2 bars of 72 in give 52 blanks; 63 are started: short of 11',
  find: ({ plan, resolved, show }): readonly Hit[] => {
    const stock = resolved.stock;
    const bar = stock?.barLengths[0];
    if (stock === null || bar === undefined) return [];
    const start = resolved.variants.reduce((sum, variant) => sum + variant.quantity, 0) + resolved.spares;
    const best = Math.max(...stock.barLengths) as typeof bar;
    const yielded = blanksPerBar(best, stock.blank, stock);
    if (!yielded.ok) return [];
    if (yielded.value.blanks < 1) {
      const message = `a bar of ${show(best)} gives no blank of ${show(stock.blank)} (${show(stock.grip)} cannot be held by the saw, ${show(stock.endTrim)} is cropped off)`;
      return [{ operation: null, path: ['stock', 'bars'], message, tryThis: 'take longer bars, or shorter blanks' }];
    }
    const onHand = plan.stock?.['on hand'];
    const needed = barsNeeded(start, best, stock.blank, stock);
    if (onHand === undefined || !needed.ok || needed.value.bars <= onHand) return [];
    const given = onHand * yielded.value.blanks;
    const message = `${onHand} ${onHand === 1 ? 'bar' : 'bars'} of ${show(best)} give ${given} blanks; ${start} are started: short of ${start - given}`;
    return [
      {
        operation: null,
        path: ['stock', 'on hand'],
        message,
        tryThis: `get ${needed.value.bars - onHand} more ("on hand: ${needed.value.bars}"), or start no more than ${given}`,
      },
    ];
  },
};
