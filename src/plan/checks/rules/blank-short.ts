import type { CheckAsk } from '../ask.ts';
import { pathOf } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

const HAIR_MM = 0.005;

/** Lengths that do not follow from one another. */
export const blankShort: Rule = {
  code: 'blank-short',
  severity: 'stop',
  catches:
    'A blank shorter than the part, an end milled longer than what comes to it, or a last length that is not that of the part.',
  example: 'operation 30: 62.5 mm are to be left of a blank of 62 mm: nothing is cut',
  find: (ask) => [...blankHits(ask), ...lengthHits(ask)],
};

function blankHits({ resolved, plan, show }: CheckAsk): readonly Hit[] {
  const stock = resolved.stock;
  if (stock === null || stock.blank >= plan.part.length - HAIR_MM) return [];
  const message = `the blank of ${show(stock.blank)} is shorter than the part, ${show(plan.part.length)}`;
  return [
    {
      operation: null,
      path: ['stock', 'blank'],
      message,
      tryThis: `saw ${show(plan.part.length)} and the facing allowance`,
    },
  ];
}

function lengthHits(ask: CheckAsk): readonly Hit[] {
  const { plan, resolved, show } = ask;
  const hits: Hit[] = [];
  let now: number | undefined = resolved.stock?.blank;
  let last: { readonly operation: CheckAsk['operations'][number]; readonly length: number } | undefined;
  for (const operation of ask.operations) {
    const length = operation.work.plan.length;
    if (length === undefined) continue;
    const base = { operation: operation.resolved.number, path: pathOf(operation, 'length') };
    if (
      operation.resolved.kind === 'saw' &&
      resolved.stock !== null &&
      Math.abs(length - resolved.stock.blank) > HAIR_MM
    ) {
      const message = `${show(length)} is sawn; the stock says blanks of ${show(resolved.stock.blank)}`;
      hits.push({ ...base, severity: 'warn', message, tryThis: 'put one of them right' });
    }
    if (operation.resolved.kind === 'saw') now = length;
    if (operation.resolved.kind !== 'mill to length') continue;
    if (now !== undefined && length > now - HAIR_MM) {
      const message = `${show(length)} are to be left of ${show(now)}: nothing is cut`;
      hits.push({ ...base, message, tryThis: 'leave less, or saw longer blanks' });
    }
    now = length;
    last = { operation, length };
  }
  if (last !== undefined && Math.abs(last.length - plan.part.length) > HAIR_MM) {
    const message = `the last length milled is ${show(last.length)}; the part is ${show(plan.part.length)} long`;
    hits.push({
      operation: last.operation.resolved.number,
      path: pathOf(last.operation, 'length'),
      severity: 'warn',
      message,
      tryThis: 'put the length of the operation or of the part right',
    });
  }
  return hits;
}
