import type { ResolvedOperation } from '../../resolved.ts';
import { numberBefore } from '../advice.ts';
import { type CheckAsk, type OperationSeen, once, pathOf } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

const CUTS: ReadonlySet<string> = new Set([
  'saw',
  'face',
  'mill to length',
  'mill edge',
  'slot',
  'step',
  'drill',
  'ream',
]);
const CLEARS: ReadonlySet<string> = new Set(['deburr', 'chamfer', 'hand work', 'round corners']);

/** Burrs that come under the next seat. */
export const burrSeat: Rule = {
  code: 'burr-seat',
  severity: 'warn',
  also: ['note'],
  catches: 'Burrs of one operation that come under the next seat or against the next stop without a deburr between.',
  example: 'operation 20: the burrs of operation 10 (saw) come into this setup; nothing deburrs them before',
  find: (ask) => once(ask.resolved.variants.flatMap((variant) => alongRoute(ask, variant.id))),
};

/** One variant's way through the operations. */
function alongRoute(ask: CheckAsk, variant: string): readonly Hit[] {
  const hits: Hit[] = [];
  let burred: OperationSeen | undefined;
  for (const operation of ask.operations.filter((one) => one.resolved.variants.includes(variant))) {
    const { resolved } = operation;
    if (CLEARS.has(resolved.kind)) burred = undefined;
    if (burred !== undefined && resolved.setup !== null && resolved.setup !== burred.resolved.setup) {
      hits.push(hitFor(ask, burred.resolved, operation));
      burred = undefined;
    }
    if (CUTS.has(resolved.kind)) burred = operation;
  }
  return hits;
}

/** One end milled, then the other: the burr only meets the stop, and a stroke of the file is usual; no more than a note. */
function hitFor(ask: CheckAsk, burred: ResolvedOperation, operation: OperationSeen): Hit {
  const bothEnds = burred.kind === 'mill to length' && operation.resolved.kind === 'mill to length';
  return {
    operation: operation.resolved.number,
    path: pathOf(operation, 'setup'),
    severity: bothEnds ? 'note' : 'warn',
    message: `the burrs of operation ${burred.number} (${burred.kind}) come into this setup; nothing deburrs them before`,
    tryThis: bothEnds
      ? 'stroke a file over the milled edges before they go to the stop'
      : `add before it: "- { number: ${numberBefore(ask, operation) ?? '…'}, title: Deburr, kind: deburr }"`,
  };
}
