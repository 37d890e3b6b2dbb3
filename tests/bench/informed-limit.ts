/** The informed limit of an invented run: the yardstick of the scores. */
import type { Quantiles } from '../../src/forecast/projection.ts';
import { courseOf, type Law, type TrueOperation } from './laws.ts';
import type { RunLine } from './line-session.ts';
import type { Random } from './random.ts';

export type Informed = { readonly remaining_s: Quantiles; readonly operation_remaining_s: Quantiles };

/** How far a run has come: the operation at hand, its pieces done, whether it is set up. */
export type Progress = { readonly op: number; readonly done: number; readonly setUp: boolean };

/**
 * What someone who knew every rate of the run, and the true level of each operation begun, would have said: 200 futures
 * drawn with sums of many loads taken as normal.
 */
export function informedLimit(
  law: Law,
  run: RunLine,
  truth: readonly TrueOperation[],
  mark: Progress,
  random: Random,
): Informed {
  const batch: number[] = [];
  const operation: number[] = [];
  for (let draw = 0; draw < 200; draw += 1) {
    let sum = 0;
    truth.forEach((entry, op) => {
      if (op < mark.op) return;
      const begun = op === mark.op && mark.setUp;
      const spent = futureOf(law, run, entry, op, begun ? mark.done : 0, begun, random);
      sum += spent;
      if (op === mark.op) operation.push(spent);
    });
    batch.push(sum);
  }
  return { remaining_s: quantilesOfDraws(batch), operation_remaining_s: quantilesOfDraws(operation) };
}

function futureOf(
  law: Law,
  run: RunLine,
  entry: TrueOperation,
  op: number,
  done: number,
  begun: boolean,
  random: Random,
): number {
  const planned = run.operations[op];
  if (planned === undefined) return 0;
  const loads = Math.ceil(run.quantity / entry.gang);
  const from = Math.floor(done / entry.gang);
  const level = begun
    ? entry.load_s
    : planned.cycle_est_s * entry.gang * Math.exp(law.factor + law.scatter * random.normal());
  let mean = 0;
  let square = 0;
  const stride = Math.max(1, Math.floor((loads - from) / 24));
  for (let j = from + 1; j <= loads; j += stride) {
    const times = Math.min(stride, loads - j + 1);
    const each = level * Math.exp(courseOf(law, entry, j + (times - 1) / 2, loads) + law.noise ** 2 / 2);
    mean += times * each;
    square += times * each * each;
  }
  const more = 1 + law.scrapRate;
  const correlated = (1 + law.memory) / (1 - law.memory);
  let spent = mean * more + Math.sqrt(square * Math.expm1(law.noise ** 2) * correlated) * random.normal();
  if (!begun && planned.setup_est_s > 0) {
    spent += planned.setup_est_s * Math.exp(law.setupFactor + law.setupScatter * random.normal());
  }
  const hiccups = random.poisson((loads - from) * law.hiccupRate);
  spent += (hiccups * law.hiccupSize * mean) / Math.max(1, loads - from);
  const away = random.poisson((law.perHour * Math.max(0, spent)) / 3600);
  if (away > 0) spent += law.away_s * (0.3 * away + (0.7 * random.gamma(1.3 * away)) / 1.3);
  return Math.max(0, spent);
}

function quantilesOfDraws(draws: number[]): Quantiles {
  draws.sort((a, b) => a - b);
  const at = (p: number): number => draws[Math.min(draws.length - 1, Math.floor(p * draws.length))] ?? 0;
  return { p10: at(0.1), p50: at(0.5), p90: at(0.9) };
}
