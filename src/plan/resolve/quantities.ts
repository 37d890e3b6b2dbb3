/** Variants, spares and stock of a plan, resolved. */
import { asMm, type Mm } from '../../shop/quantities.ts';
import { startsFor } from '../../shop/spares.ts';
import { blankLength } from '../../shop/stock.ts';
import { suggestName } from '../../shop/suggest-name.ts';
import { neutral } from '../read/problem.ts';
import type { ResolvedPlan, ResolvedVariant } from '../resolved.ts';
import { MAX_PIECES } from '../schema/plan.ts';
import { addProblem, inUnits, noteComputed, operationPath, type Resolving, take } from './context.ts';

/** Certainty that is wanted where a plan gives its scrap but not how sure it wants to be. */
const USUAL_CERTAINTY = 90;
/** Key of the one variant of a plan that names none. */
const ONLY_VARIANT = 'part';

/** The variants of a plan; a plan without any has one, of `quantity` pieces. */
export function resolveVariants(resolving: Resolving): ResolvedVariant[] {
  const { variants, quantity, job } = resolving.plan;
  const named = Object.entries(variants ?? {});
  if (quantity === undefined && named.length === 0) {
    addProblem(resolving, [], {
      found: 'no quantity',
      wanted: '"quantity", or "variants" with theirs',
      message: 'the plan does not say how many pieces are ordered',
      tryThis: 'add "quantity:"',
    });
  }
  const resolved =
    named.length === 0
      ? [{ id: ONLY_VARIANT, title: job, marking: null, quantity: quantity ?? 1 }]
      : named.map(([id, variant]) => ({
          id,
          title: variant.title ?? id,
          marking: variant.marking ?? null,
          quantity: variant.quantity,
        }));
  const total = ordered(resolved);
  if (total > MAX_PIECES) {
    addProblem(resolving, ['variants'], {
      found: `${total} pieces`,
      wanted: `at most ${MAX_PIECES}`,
      message: `${total} pieces are too many for one batch; wanted at most ${MAX_PIECES}`,
      tryThis: 'make several batches of it',
    });
  }
  return resolved;
}

/** Good pieces ordered of all variants. */
export const ordered = (variants: readonly ResolvedVariant[]): number =>
  variants.reduce((sum, variant) => sum + variant.quantity, 0);

/** Pieces started above the order. */
export function resolveSpares(resolving: Resolving, total: number): number {
  const spares = resolving.plan.spares;
  if (spares === undefined) return 0;
  if (spares.kind === 'pieces') return spares.pieces;
  const sure = spares.sure ?? USUAL_CERTAINTY;
  const starts = take(resolving, ['spares'], startsFor(total, spares.scrap / 100, sure / 100));
  if (starts === undefined) return 0;
  const because = `${total} good at ${spares.scrap} % scrap, ${sure} % sure; one fewer would be ${Math.round(starts.chanceOneFewer * 100)} %`;
  noteComputed(resolving, null, 'spares', `${starts.spares}: start ${starts.start}`, because);
  return starts.spares;
}

/** The stock of a plan, with the length of its blanks. */
export function resolveStock(resolving: Resolving): ResolvedPlan['stock'] {
  const { stock, part } = resolving.plan;
  if (stock === undefined) return null;
  const blank =
    stock.blank ?? take(resolving, ['stock'], blankLength(part.length, stock.facing ?? asMm(0))) ?? part.length;
  if (stock.blank === undefined)
    noteComputed(
      resolving,
      null,
      'blank',
      inUnits(resolving, blank),
      'length of the part and twice the facing allowance',
    );
  return {
    section: stock.section,
    barLengths: [...stock.bars],
    blank,
    kerf: stock.kerf,
    endTrim: stock['end trim'] ?? asMm(0),
    grip: stock.grip ?? asMm(0),
  };
}

/** The variants that an operation is done to: those it names, else all. */
export function variantsOf(resolving: Resolving, variants: readonly ResolvedVariant[], index: number): string[] {
  const names = resolving.plan.operations[index]?.variants;
  const all = variants.map((variant) => variant.id);
  if (names === undefined) return all;
  for (const [at, name] of names.entries()) {
    if (all.includes(name)) continue;
    const near = suggestName(name, all);
    addProblem(resolving, operationPath(index, 'variants', at), {
      found: `"${neutral(name)}"`,
      wanted: `one of: ${all.map((one) => neutral(one)).join(', ')}`,
      message: `there is no variant "${neutral(name)}"`,
      tryThis: near === undefined ? 'add it under "variants"' : `did you mean "${neutral(near)}"?`,
    });
  }
  const found = all.filter((id) => names.includes(id));
  return found.length === 0 ? all : found;
}

/** Length of a blank, or of the finished part where the plan tells nothing of its stock. */
export const startLength = (stock: ResolvedPlan['stock'], part: { readonly length: Mm }): Mm =>
  stock?.blank ?? part.length;
