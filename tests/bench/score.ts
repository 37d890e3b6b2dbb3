/**
 * Scoring of forecasts against the truth: pinball loss beside the informed limit (what someone who knew every rate of
 * the run would have said), coverage of the 80 % band, median absolute error of the remaining time.
 */
import type { Quantiles } from '../../src/forecast/projection.ts';

export type Scored = {
  readonly regime: string;
  readonly label: string;
  readonly truth: number;
  readonly said: Quantiles;
  readonly informed: Quantiles;
};

export type Score = {
  readonly asks: number;
  /** Pinball loss over that of the informed limit, both relative to the truth. */
  readonly pinball: number;
  /** Share of truths inside p10 to p90. */
  readonly coverage: number;
  /** Median of |p50 - truth| / truth. */
  readonly medianError: number;
};

/** Pinball loss of three quantiles, averaged. */
export function pinballLoss(said: Quantiles, truth: number): number {
  const at = (quantile: number, p: number): number =>
    truth >= quantile ? p * (truth - quantile) : (1 - p) * (quantile - truth);
  return (at(said.p10, 0.1) + at(said.p50, 0.5) + at(said.p90, 0.9)) / 3;
}

/** The score of a list of forecasts; those whose truth is zero are left out. */
export function scoreOf(list: readonly Scored[]): Score {
  const scored = list.filter((entry) => entry.truth > 0);
  const mean = (of: (entry: Scored) => number): number =>
    scored.reduce((sum, entry) => sum + of(entry), 0) / scored.length;
  const errors = scored.map((entry) => Math.abs(entry.said.p50 - entry.truth) / entry.truth).sort((a, b) => a - b);
  return {
    asks: scored.length,
    pinball:
      mean((entry) => pinballLoss(entry.said, entry.truth) / entry.truth) /
      mean((entry) => pinballLoss(entry.informed, entry.truth) / entry.truth),
    coverage: mean((entry) => (entry.said.p10 <= entry.truth && entry.truth <= entry.said.p90 ? 1 : 0)),
    medianError: errors[Math.floor(errors.length / 2)] ?? 0,
  };
}
