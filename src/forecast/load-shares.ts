/**
 * What a load's time most likely was: regular work, a hiccup (a few loads' time lost at the machine), an unmarked
 * interruption (minutes to an hour away) or a slip of the key; and the job-wide accounts of how often such things happen.
 * Only the regular share moves the filter bank; what the other shares will cost in future is added back by projection.ts.
 */
import { constants } from './constants.ts';

/** Counts and sizes of mishaps over the whole job: each rate is a count over what it was seen in. */
export type Accounts = {
  readonly hiccups: number;
  readonly hiccupLoads: number;
  readonly hiccupSizeSum: number;
  readonly hiccupSizeWeight: number;
  readonly interruptions: number;
  readonly interruptionHours: number;
  readonly interruptionSizeSum_s: number;
  readonly interruptionSizeWeight: number;
  readonly scrap: number;
  readonly scrapPieces: number;
};

/** Rates that past batches teach: happenings over what they were seen in. */
export type AccountsPrior = {
  readonly hiccups?: { readonly count: number; readonly loads: number };
  readonly interruptions?: { readonly count: number; readonly hours: number; readonly size_s: number };
};

/** The accounts before anything has been seen, from general experience or from the shop's own past batches. */
export function startAccounts(prior?: AccountsPrior): Accounts {
  const { scrap } = constants;
  const hiccups = { ...constants.hiccups, ...prior?.hiccups };
  const interruptions = { ...constants.interruptions, ...prior?.interruptions };
  return {
    hiccups: hiccups.count,
    hiccupLoads: hiccups.loads,
    hiccupSizeSum: hiccups.size * hiccups.sizeWeight,
    hiccupSizeWeight: hiccups.sizeWeight,
    interruptions: interruptions.count,
    interruptionHours: interruptions.hours,
    interruptionSizeSum_s: interruptions.size_s * interruptions.sizeWeight,
    interruptionSizeWeight: interruptions.sizeWeight,
    scrap: scrap.count,
    scrapPieces: scrap.pieces,
  };
}

/** How a load's time is shared between its explanations; the four sum to one. */
export type LoadShares = {
  readonly regular: number;
  readonly hiccup: number;
  readonly interruption: number;
  readonly slip: number;
};

export type LoadSeen = {
  readonly took_s: number;
  /** What it was expected to take: the bank's level, in seconds for this load. */
  readonly expected_s: number;
  /** Error on the log scale and the variance expected of it. */
  readonly error: number;
  readonly spread: number;
};

const slipDensity = 0.0009;

/** Shares a load between the four explanations. */
export function shareLoad(accounts: Accounts, { took_s, expected_s, error, spread }: LoadSeen): LoadShares {
  const excess_s = took_s - expected_s;
  const hiccupRate = Math.min(0.45, accounts.hiccups / accounts.hiccupLoads);
  const interruptionRate = Math.min(0.45, (accounts.interruptions / accounts.interruptionHours) * (expected_s / 3600));
  const regular = (1 - hiccupRate - interruptionRate) * normalDensity(error, 0, spread);
  const hiccup = hiccupRate * normalDensity(error, 1.5, 0.22 + spread);
  const interruption =
    excess_s > 60 ? interruptionRate * (took_s / excess_s) * normalDensity(Math.log(excess_s / 720), 0, 0.5) : 0;
  const total = regular + hiccup + interruption + slipDensity;
  return {
    regular: regular / total,
    hiccup: hiccup / total,
    interruption: interruption / total,
    slip: slipDensity / total,
  };
}

/**
 * Probability that a setup was interrupted, from the same weighing: `error` is ln(took / expected), `spread` its variance.
 */
export function setupInterruption(accounts: Accounts, { took_s, expected_s, error, spread }: LoadSeen): number {
  const excess_s = took_s - expected_s;
  if (excess_s <= 60) return 0;
  const rate = Math.min(0.45, (accounts.interruptions / accounts.interruptionHours) * (expected_s / 3600));
  const regular = (1 - rate) * normalDensity(error, 0, spread);
  const interruption = rate * (took_s / excess_s) * normalDensity(Math.log(excess_s / 720), 0, 0.5);
  return interruption / (regular + interruption);
}

/** The accounts after a setup that was interrupted with the given probability. */
export function accountSetup(accounts: Accounts, seen: LoadSeen, interrupted: number): Accounts {
  const sized = interrupted > 0.01 ? interrupted : 0;
  return {
    ...accounts,
    interruptions: accounts.interruptions + interrupted,
    interruptionHours: accounts.interruptionHours + seen.expected_s / 3600,
    interruptionSizeSum_s: accounts.interruptionSizeSum_s + sized * Math.max(0, seen.took_s - seen.expected_s),
    interruptionSizeWeight: accounts.interruptionSizeWeight + sized,
  };
}

/** The accounts after a load of `pieces` pieces that was shared so. */
export function accountLoad(accounts: Accounts, pieces: number, seen: LoadSeen, shares: LoadShares): Accounts {
  const slow = seen.error > 0;
  const excess_s = Math.max(0, seen.took_s - seen.expected_s);
  const hiccup = slow ? shares.hiccup : 0;
  const interruption = slow ? shares.interruption : 0;
  const sizedHiccup = hiccup > 0.01 ? hiccup : 0;
  const sizedInterruption = interruption > 0.01 ? interruption : 0;
  return {
    hiccups: accounts.hiccups + hiccup,
    hiccupLoads: accounts.hiccupLoads + 1,
    hiccupSizeSum: accounts.hiccupSizeSum + (sizedHiccup * excess_s) / seen.expected_s,
    hiccupSizeWeight: accounts.hiccupSizeWeight + sizedHiccup,
    interruptions: accounts.interruptions + interruption,
    interruptionHours: accounts.interruptionHours + seen.expected_s / 3600,
    interruptionSizeSum_s: accounts.interruptionSizeSum_s + sizedInterruption * excess_s,
    interruptionSizeWeight: accounts.interruptionSizeWeight + sizedInterruption,
    scrap: accounts.scrap,
    scrapPieces: accounts.scrapPieces + pieces,
  };
}

/** The accounts after `pieces` pieces were counted without a time. */
export function accountUntimed(accounts: Accounts, pieces: number): Accounts {
  return { ...accounts, scrapPieces: accounts.scrapPieces + pieces };
}

/**
 * The accounts after `pieces` pieces of scrap that took `took_s` seconds (0: thrown out without a cycle of its own),
 * where a load usually takes `usual_s`.
 */
export function accountScrap(accounts: Accounts, pieces: number, took_s: number, usual_s: number): Accounts {
  const scrapped = {
    ...accounts,
    scrap: accounts.scrap + pieces,
    scrapPieces: accounts.scrapPieces + pieces,
  };
  if (took_s <= 0) return scrapped;
  const hours = scrapped.interruptionHours + Math.min(took_s, usual_s) / 3600;
  const excess_s = took_s - usual_s;
  if (excess_s <= 240 || took_s <= 2.5 * usual_s) return { ...scrapped, interruptionHours: hours };
  return {
    ...scrapped,
    interruptionHours: hours,
    interruptions: scrapped.interruptions + 1,
    interruptionSizeSum_s: scrapped.interruptionSizeSum_s + excess_s,
    interruptionSizeWeight: scrapped.interruptionSizeWeight + 1,
  };
}

function normalDensity(x: number, mean: number, variance: number): number {
  return Math.exp((-(x - mean) * (x - mean)) / (2 * variance)) / Math.sqrt(2 * Math.PI * variance);
}
