/** The laws that rule the invented runs, by regime: our own, and other than what the forecaster assumes. Nothing here was measured. */
import type { Random } from './random.ts';

export const regimes = [
  'steady',
  'learning',
  'drift',
  'interruptions',
  'gang',
  'sloppy',
  'tiny',
  'long',
  'bad_estimates',
  'good_estimates',
  'power_learning',
  'tool_wear',
  'skewed_noise',
  'hanging_together',
  'restarts',
] as const;
export type Regime = (typeof regimes)[number];

/** What rules a run; the informed limit knows it, the forecaster does not. */
export type Law = {
  readonly regime: Regime;
  readonly factor: number;
  readonly scatter: number;
  readonly setupFactor: number;
  readonly setupScatter: number;
  readonly noise: number;
  readonly skewed: boolean;
  readonly memory: number;
  readonly excess: number;
  readonly learningLoads: number;
  readonly power: boolean;
  readonly drift: number;
  readonly wearLoads: number;
  readonly wear: number;
  readonly restart: number;
  readonly perHour: number;
  readonly away_s: number;
  readonly hiccupRate: number;
  readonly hiccupSize: number;
  readonly slipRate: number;
  readonly scrapRate: number;
  readonly markedPerHour: number;
  readonly forgetsPause: number;
};

export type TrueOperation = {
  readonly load_s: number;
  readonly excess: number;
  readonly drift: number;
  readonly gang: number;
  readonly setup_s: number;
};

/** Draws the law of a run. */
export function lawOf(regime: Regime, random: Random): Law {
  const { between } = random;
  const is = (...names: Regime[]): boolean => names.includes(regime);
  return {
    regime,
    factor: 0.15 + (is('bad_estimates') ? 0.45 : is('good_estimates') ? 0.08 : 0.27) * random.normal(),
    scatter: is('bad_estimates') ? between(0.35, 0.7) : is('good_estimates') ? between(0.03, 0.12) : between(0.1, 0.32),
    setupFactor: 0.12 + 0.2 * random.normal(),
    setupScatter: is('good_estimates') ? 0.2 : between(0.2, 0.45),
    noise: is('sloppy') ? between(0.2, 0.45) : is('steady') ? between(0.06, 0.13) : between(0.08, 0.24),
    skewed: is('skewed_noise') || random.uniform() < 0.2,
    memory: is('hanging_together') ? between(0.5, 0.85) : between(0, 0.25),
    excess: is('learning', 'power_learning') ? between(0.3, 1.1) : is('steady') ? between(0, 0.1) : between(0, 0.4),
    learningLoads: between(3, is('learning') ? 25 : 14),
    power: is('power_learning'),
    drift: is('drift') ? between(-0.15, 0.4) : 0.04 * random.normal(),
    wearLoads: random.whole(15, 60),
    wear: is('tool_wear') ? between(0.15, 0.5) : 0,
    restart: is('restarts') ? between(0.3, 1) : between(0, 0.25),
    perHour: is('interruptions') ? between(0.5, 1.6) : is('steady') ? between(0, 0.15) : between(0.05, 0.5),
    away_s: between(480, is('interruptions') ? 1300 : 1000),
    hiccupRate: is('interruptions') ? between(0.01, 0.05) : is('steady') ? 0.003 : between(0.003, 0.03),
    hiccupSize: between(2, 5),
    slipRate: is('sloppy') ? between(0.03, 0.08) : between(0, 0.012),
    scrapRate: is('sloppy') ? between(0.02, 0.08) : between(0, 0.025),
    markedPerHour: between(0.2, 0.8),
    forgetsPause: is('sloppy') ? 0.3 : 0.05,
  };
}

/** Lasting part of ln(load time) of load `j` (from 1) beside the level: learning, drift and wear. */
export function courseOf(law: Law, operation: TrueOperation, j: number, loads: number): number {
  const learning = law.power ? j ** -0.35 : Math.exp(-(j - 1) / law.learningLoads);
  const wear = law.wear > 0 ? law.wear * (((j - 1) % law.wearLoads) / law.wearLoads) : 0;
  return operation.excess * learning + (operation.drift * j) / loads + wear;
}
