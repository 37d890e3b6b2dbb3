/**
 * What tolerances add up to along a chain of dimensions, against dimensions that all start from one datum.
 *
 * Two sums, always named: worst case (every link at its limit; nothing can lie outside) and root-sum-square (independent
 * links centred in their limits; common practice for chains of many links made by a steady process, not for a batch whose
 * links share one cause). Source: arithmetic; ISO 2768-1 for general tolerances.
 */
import { asMm, type Mm } from './quantities.ts';
import { ALLOWANCE, LENGTH } from './ranges.ts';
import { type Range, type Refusal, type Result, refuseOutside, whenSound } from './refusal.ts';
import { refuseUnlessWhole } from './whole.ts';

/** One dimension of a chain: nominal (signed: negative where the chain goes back), and how far it may be over and under. */
export interface Link {
  readonly nominal: Mm;
  /** Amount over, 0 or more. */
  readonly plus: Mm;
  /** Amount under, 0 or more, written without its sign. */
  readonly minus: Mm;
}

/** Limits of a sum about its nominal. */
export interface StackLimits {
  readonly lowest: Mm;
  readonly highest: Mm;
  /** Half the width of the limits. */
  readonly plusMinus: Mm;
}

/** What a chain adds up to. */
export interface Stack {
  readonly nominal: Mm;
  readonly worstCase: StackLimits;
  readonly rootSumSquare: StackLimits;
}

/** A chain set against the same distance held by one absolute dimension. */
export interface ChainAgainstAbsolute {
  readonly chain: Stack;
  readonly absolute: StackLimits;
  /** Worst case of the chain divided by that of the absolute dimension; above 1 the chain is the looser. */
  readonly ratio: number;
}

const LINKS: Range = {
  what: 'links of the chain',
  unit: '',
  from: 1,
  upTo: 200,
  remedy: 'give one link for each dimension',
};

/**
 * Adds up a chain of dimensions.
 *
 * @param links 1 to 200; nominal within 20 m; plus and minus 0 to 1000 mm. A link that goes back (negative nominal) adds its
 * tolerance like any other, its plus and minus changing places.
 *
 * Example: four spacings of 20 +-0.2: 80 mm, worst case +-0.8, root-sum-square +-0.4.
 */
export function stackOf(links: readonly Link[]): Result<Stack> {
  const checks = [refuseUnlessWhole(links.length, LINKS), ...links.flatMap(refuseLink)];
  return whenSound(checks, () => addUp(links));
}

/**
 * A chain against one absolute dimension over the same distance.
 *
 * @param absolute how far the absolute dimension may be over and under, above 0 in all.
 *
 * Example: four spacings of 20 +-0.2 drift by +-0.8 in the worst case, 80 +-0.3 by +-0.3: the chain is 2.7 times looser.
 */
export function chainAgainstAbsolute(
  links: readonly Link[],
  absolute: { readonly plus: Mm; readonly minus: Mm },
): Result<ChainAgainstAbsolute> {
  const checks = [
    refuseUnlessWhole(links.length, LINKS),
    ...links.flatMap(refuseLink),
    refuseOutside(absolute.plus, { ...ALLOWANCE, what: 'plus of the absolute dimension' }),
    refuseOutside(absolute.minus, { ...ALLOWANCE, what: 'minus of the absolute dimension' }),
    refuseOutside(absolute.plus + absolute.minus, { ...ALLOWANCE, what: 'absolute tolerance', above: 0, upTo: 2000 }),
  ];
  return whenSound(checks, () => {
    const chain = addUp(links);
    const held = limitsAbout(chain.nominal, absolute.plus, absolute.minus);
    return { chain, absolute: held, ratio: chain.worstCase.plusMinus / held.plusMinus };
  });
}

function addUp(links: readonly Link[]): Stack {
  const nominal = sumOf(links.map((link) => link.nominal));
  const over = links.map((link) => (link.nominal < 0 ? link.minus : link.plus));
  const under = links.map((link) => (link.nominal < 0 ? link.plus : link.minus));
  const middle = nominal + (sumOf(over) - sumOf(under)) / 2;
  const half = Math.sqrt(sumOf(links.map((link) => ((link.plus + link.minus) / 2) ** 2)));
  return {
    nominal: asMm(nominal),
    worstCase: limitsAbout(nominal, sumOf(over), sumOf(under)),
    rootSumSquare: limitsAbout(middle, half, half),
  };
}

const sumOf = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0);

const limitsAbout = (nominal: number, plus: number, minus: number): StackLimits => ({
  lowest: asMm(nominal - minus),
  highest: asMm(nominal + plus),
  plusMinus: asMm((plus + minus) / 2),
});

function refuseLink(link: Link, index: number): readonly (Refusal | undefined)[] {
  const name = `link ${index + 1}`;
  return [
    refuseOutside(link.nominal, { ...LENGTH, what: `nominal of ${name}` }),
    refuseOutside(link.plus, { ...ALLOWANCE, what: `plus of ${name}` }),
    refuseOutside(link.minus, { ...ALLOWANCE, what: `minus of ${name}` }),
  ];
}
