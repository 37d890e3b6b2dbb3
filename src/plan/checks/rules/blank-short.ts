import { writeLength } from '../advice.ts';
import type { CheckAsk } from '../ask.ts';
import { pathOf } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

const HAIR_MM = 0.005;

/** Lengths that do not follow from one another. */
export const blankShort: Rule = {
  code: 'blank-short',
  severity: 'stop',
  also: ['warn'],
  catches:
    'A blank shorter than the part, an end milled longer than what comes to it, or a last length that is not that of the part.',
  example: 'operation 30: 62.5 mm are to be left of a blank of 62 mm: nothing is cut',
  find: (ask) => [...blankHits(ask), ...lengthHits(ask)],
};

function blankHits(ask: CheckAsk): readonly Hit[] {
  const { resolved, plan, show } = ask;
  const stock = resolved.stock;
  if (stock === null || stock.blank >= plan.part.length - HAIR_MM) return [];
  const message = `the blank of ${show(stock.blank)} is shorter than the part, ${show(plan.part.length)}`;
  return [
    {
      operation: null,
      path: ['stock', 'blank'],
      message,
      tryThis: `saw the part and what both ends are faced by: "blank: ${writeLength(ask, plan.part.length + 2 * (plan.stock?.facing ?? 0))}"`,
    },
  ];
}

/** Half of what is there to take off, or all of it at the last end. */
function lengthAdvice(ask: CheckAsk, operation: CheckAsk['operations'][number], now: number): string {
  const part = ask.plan.part.length;
  const isLast = !ask.operations.some(
    (later) => later.index > operation.index && later.resolved.kind === 'mill to length',
  );
  if (now <= part + HAIR_MM) return `saw blanks longer than ${writeLength(ask, part)}`;
  return `write "length: ${writeLength(ask, isLast ? part : (now + part) / 2)}", or saw longer blanks`;
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
      hits.push({
        ...base,
        severity: 'warn',
        message,
        tryThis: `write "length: ${writeLength(ask, resolved.stock.blank)}" here, or "blank: ${writeLength(ask, length)}" in the stock`,
      });
    }
    if (operation.resolved.kind === 'saw') now = length;
    if (operation.resolved.kind !== 'mill to length') continue;
    if (now !== undefined && length > now - HAIR_MM) {
      const message = `${show(length)} are to be left of ${show(now)}: nothing is cut`;
      hits.push({ ...base, message, tryThis: lengthAdvice(ask, operation, now) });
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
      tryThis: `write "length: ${writeLength(ask, plan.part.length)}" here, or put the length of the part right`,
    });
  }
  const sawn = last === undefined ? leftSawn(ask, now) : undefined;
  if (sawn !== undefined) hits.push(sawn);
  return hits;
}

/** Kinds that can bring a sawn piece to its length in ways that the plan does not put into numbers. */
const SHORTENING = new Set(['mill to length', 'face', 'mill edge', 'step', 'round corners', 'hand work']);

/** A part that is sawn to another length than its own and never brought to it. */
function leftSawn(ask: CheckAsk, now: number | undefined): Hit | undefined {
  const { plan, show } = ask;
  const saw = ask.operations.find((one) => one.resolved.kind === 'saw' && one.work.plan.length !== undefined);
  if (saw === undefined || now === undefined || Math.abs(now - plan.part.length) <= HAIR_MM) return undefined;
  if (ask.operations.some((one) => SHORTENING.has(one.resolved.kind))) return undefined;
  return {
    operation: saw.resolved.number,
    path: pathOf(saw, 'length'),
    severity: 'warn',
    message: `${show(now)} are sawn and nothing brings them to the length of the part, ${show(plan.part.length)}`,
    tryThis: `add an operation "kind: mill to length" with "length: ${writeLength(ask, plan.part.length)}", or saw to that length`,
  };
}
