import { type CheckAsk, once } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** A tool that will be due for sharpening within the batch. */
export const sharpenDue: Rule = {
  code: 'sharpen-due',
  severity: 'note',
  catches: 'A tool that comes to its sharpening within the batch, counting what it cut since the last one.',
  example: 'the tool "drill-5" cuts 84 times in this batch and 150 before; it is sharpened after 200',
  find: (ask): readonly Hit[] =>
    once(
      Object.entries(ask.plan.tools ?? {}).flatMap(([key, tool]): readonly Hit[] => {
        const after = tool['sharpen after'];
        if (after === undefined) return [];
        const before = tool['since sharpening'] ?? 0;
        const cuts = cutsOf(ask, key);
        if (cuts === 0 || before + cuts <= after) return [];
        return [
          {
            operation: null,
            path: ['tools', key, 'sharpen after'],
            message: `the tool "${key}" cuts ${cuts} times in this batch and ${before} before; it is sharpened after ${after}`,
            tryThis: 'have a sharp one of the same size ready; a measured diameter may change',
          },
        ];
      }),
    ),
};

/** How often a tool cuts in the whole batch: points and passes of every piece. */
function cutsOf(ask: CheckAsk, key: string): number {
  return ask.operations.reduce((sum, operation) => {
    const own = operation.cuts.filter((cut) => cut.work.toolKey === key);
    const places = own.reduce((count, { resolved }) => count + resolved.points.length + resolved.passes.length, 0);
    return sum + places * piecesOf(ask, operation.resolved.variants);
  }, 0);
}

function piecesOf({ resolved }: CheckAsk, variants: readonly string[]): number {
  const own = resolved.variants.filter((variant) => variants.includes(variant.id));
  const spares = own.length === resolved.variants.length ? resolved.spares : 0;
  return own.reduce((sum, variant) => sum + variant.quantity, spares);
}
