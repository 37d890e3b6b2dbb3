/**
 * The plain methods beside which the forecast must stand: mean and median of the operation at hand with the plan for the
 * rest, the plan alone, and the plan scaled by how the work has gone so far. Their bands are what such methods usually come
 * with: the scatter of the loads seen, and a tenth of the plan.
 */

import { fullLoads } from '../../src/forecast/job.ts';
import type { Quantiles } from '../../src/forecast/projection.ts';
import type { EventLine, RunLine } from './line-session.ts';

export const baselineNames = ['mean', 'median', 'plan', 'scaled plan'] as const;
export type BaselineName = (typeof baselineNames)[number];

/** What a plain method keeps of a run: its own bench clock knows marked pauses only. */
export class PlainMethods {
  private readonly run: RunLine;
  private readonly good: number[];
  private readonly times: number[] = [];
  private atHand = 0;
  private setUp = false;
  private bench_s = 0;
  private seen_s = 0;
  private paused = false;
  private pressed_s = 0;
  private plannedDone_s = 0;

  constructor(run: RunLine) {
    this.run = run;
    this.good = run.operations.map(() => 0);
  }

  take(line: EventLine): void {
    if (!this.paused) this.bench_s += line.t_s - this.seen_s;
    this.seen_s = line.t_s;
    if (line.kind === 'pause' || line.kind === 'resume') {
      this.paused = line.kind === 'pause';
      return;
    }
    const took_s = this.bench_s - this.pressed_s;
    const operation = this.run.operations[line.op];
    if (operation === undefined) return;
    if (line.kind === 'start') {
      this.atHand = line.op;
      this.setUp = false;
      this.times.length = 0;
      return;
    }
    this.pressed_s = this.bench_s;
    if (line.kind === 'setup_done') {
      this.setUp = true;
      this.plannedDone_s += operation.setup_est_s;
      return;
    }
    if (line.kind === 'scrap') return;
    this.good[line.op] = line.piece;
    this.times.push(took_s / line.n);
    this.plannedDone_s += operation.cycle_est_s * line.n;
  }

  /** Remaining bench seconds of the batch as one of the plain methods says. */
  remaining(name: BaselineName): Quantiles {
    const left = this.run.operations.map((operation, i) => this.plannedLeft(i, operation));
    const plan = left.reduce((sum, value) => sum + value, 0);
    if (name === 'plan') return band(plan, 0.1 * plan);
    if (name === 'scaled plan') {
      const scale = this.plannedDone_s > 0 ? this.pressed_s / this.plannedDone_s : 1;
      return band(plan * scale, 0.1 * plan * scale);
    }
    if (this.times.length === 0) return band(plan, 0.1 * plan);
    const each = name === 'mean' ? meanOf(this.times) : medianOf(this.times);
    const pieces = this.run.quantity - (this.good[this.atHand] ?? 0);
    const rest = plan - (left[this.atHand] ?? 0);
    const spread = Math.sqrt(pieces) * deviationOf(this.times) + 0.1 * rest;
    return band(each * pieces + rest, spread);
  }

  private plannedLeft(index: number, operation: RunLine['operations'][number]): number {
    const pieces = this.run.quantity - (this.good[index] ?? 0);
    const setup = index > this.atHand || (index === this.atHand && !this.setUp) ? operation.setup_est_s : 0;
    return setup + fullLoads(pieces, operation.gang) * operation.cycle_est_s * operation.gang;
  }
}

function band(middle: number, deviation: number): Quantiles {
  return { p10: Math.max(0, middle - 1.2816 * deviation), p50: middle, p90: middle + 1.2816 * deviation };
}

function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function medianOf(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? 0;
}

function deviationOf(values: readonly number[]): number {
  if (values.length < 2) return 0.3 * meanOf(values);
  const mean = meanOf(values);
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
}
