/**
 * How many pieces to start so that enough good ones come out.
 *
 * Pieces fail one by one with the same chance, independent of each other. The number of starts needed for the last good
 * piece then follows the negative binomial distribution: P(enough from n) = sum over j = 0 .. n - good of
 * C(good - 1 + j, j) (1 - p)^good p^j. Summed exactly (in logarithms, so that large batches do not underflow). A run of bad
 * luck with one cause (a dull tap, a knocked stop) is not independent: the answer does not cover it.
 */
import { type Range, type Result, refuseOutside, whenSound } from './refusal.ts';
import { refuseUnlessWhole } from './whole.ts';

/** How many to start and how sure that is. */
export interface Starts {
  readonly start: number;
  readonly spares: number;
  /** Chance that so many starts give enough good pieces, 0 to 1. */
  readonly chance: number;
  /** The same with one start fewer; 0 when there would be fewer starts than good pieces wanted. */
  readonly chanceOneFewer: number;
}

const GOOD: Range = {
  what: 'good pieces wanted',
  unit: '',
  from: 1,
  upTo: 10_000,
  remedy: 'give the whole number of good pieces wanted',
};
const SCRAP: Range = {
  what: 'scrap rate',
  unit: '%',
  from: 0,
  upTo: 90,
  remedy: 'give the share of pieces that fail, such as 2 %',
};
const SURE: Range = {
  what: 'wanted certainty',
  unit: '%',
  above: 0,
  upTo: 99.99,
  remedy: 'give a percentage such as 90 %; nothing is certain above 99.99 %',
};

/**
 * The fewest starts that give the wanted good pieces with the wanted chance.
 *
 * @param good 1 to 10,000. @param scrapShare 0 to 0.9 (2 % is 0.02). @param sureShare above 0, at most 0.9999.
 *
 * Example: 60 good at 2 % scrap, 90 % sure: start 63 (chance .962; 62 would give .872).
 */
export function startsFor(good: number, scrapShare: number, sureShare: number): Result<Starts> {
  const checks = [
    refuseUnlessWhole(good, GOOD),
    refuseOutside(scrapShare * 100, SCRAP),
    refuseOutside(sureShare * 100, SURE),
  ];
  return whenSound(checks, () => {
    let start = good;
    let logTerm = good * Math.log1p(-scrapShare);
    let chance = Math.exp(logTerm);
    let chanceOneFewer = 0;
    while (chance < sureShare) {
      start += 1;
      logTerm += Math.log((start - 1) / (start - good)) + Math.log(scrapShare);
      chanceOneFewer = chance;
      chance = Math.min(1, chance + Math.exp(logTerm));
    }
    return { start, spares: start - good, chance, chanceOneFewer };
  });
}

/**
 * The chance that a number of starts gives at least the wanted good pieces.
 *
 * @param starts 0 to 100,000. Fewer starts than good pieces: 0.
 *
 * Example: 60 good of 62 at 2 % scrap: .872.
 */
export function chanceOfEnough(starts: number, good: number, scrapShare: number): Result<number> {
  const checks = [
    refuseUnlessWhole(starts, { ...GOOD, what: 'pieces started', from: 0, upTo: 100_000 }),
    refuseUnlessWhole(good, GOOD),
    refuseOutside(scrapShare * 100, SCRAP),
  ];
  return whenSound(checks, () => {
    if (starts < good) return 0;
    let logTerm = good * Math.log1p(-scrapShare);
    let chance = Math.exp(logTerm);
    for (let start = good + 1; start <= starts && scrapShare > 0; start += 1) {
      logTerm += Math.log((start - 1) / (start - good)) + Math.log(scrapShare);
      chance += Math.exp(logTerm);
    }
    return Math.min(1, chance);
  });
}
