/**
 * Invented runs in the line protocol, with the truth and the informed limit beside each ask. The laws are our own and kept
 * apart from what the forecaster assumes (learning by a power, sawtooth wear, skewed noise, noise that hangs together,
 * slow restarts), so that tuning on them cannot teach it one generator by heart. Nothing here was measured in a shop.
 */
import { type Informed, informedLimit, type Progress } from './informed-limit.ts';
import { courseOf, type Law, lawOf, type Regime, regimes, type TrueOperation } from './laws.ts';
import type { Line, RunLine } from './line-session.ts';
import { type Random, seededRandom } from './random.ts';

export type AskWithTruth = {
  readonly type: 'ask';
  readonly ask: number;
  readonly t_s: number;
  readonly label: string;
  readonly truth: { readonly remaining_s: number; readonly operation_remaining_s: number };
  readonly informed: Informed;
};

const days = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] as const;

function runOf(id: string, law: Law, random: Random): { run: RunLine; truth: readonly TrueOperation[] } {
  const { regime } = law;
  const quantity =
    regime === 'tiny'
      ? random.whole(5, 14)
      : regime === 'long'
        ? random.whole(200, 500)
        : Math.round(Math.exp(random.between(Math.log(15), Math.log(190))));
  const operations: RunLine['operations'][number][] = [];
  const truth: TrueOperation[] = [];
  const count = random.whole(regime === 'long' ? 2 : 3, regime === 'long' ? 7 : 12);
  for (let op = 0; op < count; op += 1) {
    const held = random.uniform() < (regime === 'gang' ? 0.75 : 0.12) ? random.whole(2, 8) : 1;
    const gang = Math.min(held, quantity);
    const piece_s = Math.exp(random.between(Math.log(10), Math.log(regime === 'long' ? 120 : 400)));
    const setup_s = random.uniform() < 0.08 ? 0 : Math.exp(random.between(Math.log(450), Math.log(2600)));
    operations.push({ op, setup_est_s: roundedGuess(setup_s), cycle_est_s: roundedGuess(piece_s), gang });
    truth.push({
      gang,
      load_s: piece_s * gang * Math.exp(law.factor + law.scatter * random.normal()),
      excess: Math.max(-0.1, law.excess * (1 + 0.35 * random.normal())),
      drift: law.drift * (1 + 0.5 * random.normal()),
      setup_s: setup_s * Math.exp(law.setupFactor),
    });
  }
  const calendar: Record<string, [string, string][]> = {};
  const whole = random.uniform() < 0.4;
  for (const day of days) {
    const open = random.uniform() < 0.7;
    calendar[day] = !open
      ? []
      : whole
        ? [
            ['08:00', '12:00'],
            ['13:00', '17:30'],
          ]
        : [['18:00', '21:30']];
  }
  calendar['wed'] = [['17:30', '21:30']];
  const run: RunLine = { type: 'run', id, quantity, start: '2025-03-05T17:30:00', calendar, operations, regime };
  return { run, truth };
}

/** People guess in round numbers. */
function roundedGuess(seconds: number): number {
  const step = seconds > 600 ? 60 : seconds > 90 ? 10 : seconds > 20 ? 5 : 1;
  return Math.round(seconds / step) * step;
}

/** The lines of one invented run. The same seed gives the same run. */
export function inventRun(regime: Regime, seed: number): readonly (Line | AskWithTruth)[] {
  const random = seededRandom(seed * 7919 + regimes.indexOf(regime) * 104729 + 17);
  const law = lawOf(regime, random);
  const { run, truth } = runOf(`${regime}-${seed}`, law, random);
  return new RunWriter(law, run, truth, random).write();
}

/** Marks within a run at which the forecast is asked. */
const early = [1, 3, 5];
const shares = [0.1, 0.25, 0.5, 0.75, 0.9];

type Mark = Progress & { readonly label: string; readonly line: number; readonly bench_s: number };

/** Writes one run: owns the growing list of lines and the two clocks. */
class RunWriter {
  private readonly lines: Line[] = [];
  private readonly marks: Mark[] = [];
  private readonly ends: number[] = [];
  private wall_s = 0;
  private bench_s = 0;
  private untilMarked_s: number;
  private presses = 0;
  private readonly law: Law;
  private readonly run: RunLine;
  private readonly truth: readonly TrueOperation[];
  private readonly random: Random;

  constructor(law: Law, run: RunLine, truth: readonly TrueOperation[], random: Random) {
    this.law = law;
    this.run = run;
    this.truth = truth;
    this.random = random;
    this.untilMarked_s = this.nextMarked();
  }

  write(): readonly (Line | AskWithTruth)[] {
    this.mark('0', 0, 0, false);
    const total = this.run.quantity * this.truth.length;
    let before = 0;
    this.truth.forEach((operation, op) => {
      this.lines.push({ type: 'event', kind: 'start', op, t_s: this.at() });
      const planned = this.run.operations[op]?.setup_est_s ?? 0;
      const took = planned > 0 ? operation.setup_s * Math.exp(this.law.setupScatter * this.random.normal()) : 0;
      this.work(took + this.interruptionsIn(took));
      this.lines.push({ type: 'event', kind: 'setup_done', op, t_s: this.at() });
      this.makePieces(operation, op, before, total);
      before += this.run.quantity;
      this.ends.push(this.bench_s);
    });
    return this.withAsks();
  }

  private makePieces(operation: TrueOperation, op: number, before: number, total: number): void {
    const { law, random, run } = this;
    const loads = Math.ceil(run.quantity / operation.gang);
    let good = 0;
    let hang = 0;
    let restart = 0;
    let owed_s = 0;
    for (let j = 1; good < run.quantity; j += 1) {
      const n = Math.min(operation.gang, run.quantity - good);
      const part = operation.gang > 1 ? 0.5 + (0.5 * n) / operation.gang : 1;
      hang = law.memory * hang + Math.sqrt(1 - law.memory ** 2) * random.normal();
      const noise = law.skewed
        ? Math.log(0.6 + 0.4 * random.gamma(1 / (6 * law.noise ** 2)) * 6 * law.noise ** 2)
        : law.noise * hang;
      const usual = operation.load_s * part * Math.exp(courseOf(law, operation, j, loads) + restart);
      let took = usual * Math.exp(noise);
      if (random.uniform() < law.hiccupRate)
        took += usual * Math.max(0.5, law.hiccupSize * (0.4 + 0.6 * random.gamma(1)));
      took += this.interruptionsIn(took);
      restart *= 0.5;
      if (this.work(took)) restart = law.restart * random.uniform();
      if (random.uniform() < law.scrapRate) {
        this.lines.push({ type: 'event', kind: 'scrap', op, piece: good, n: 1, t_s: this.at() });
        continue;
      }
      good += n;
      this.presses += 1;
      if (random.uniform() < law.slipRate && good < run.quantity && n === operation.gang) {
        owed_s = n;
        continue;
      }
      if (owed_s > 0) {
        this.lines.push({ type: 'event', kind: 'piece', op, piece: good - n, n: owed_s, t_s: this.at() });
        this.work(random.between(0.4, 2));
        owed_s = 0;
      }
      this.lines.push({ type: 'event', kind: 'piece', op, piece: good, n, t_s: this.at() });
      const share = (before + good) / total;
      for (const early_ of early) if (this.presses === early_ && op === 0) this.mark(String(early_), op, good, true);
      for (const wanted of shares) {
        const label = `${wanted * 100}%`;
        if (share >= wanted && share < 1 && !this.marks.some((entry) => entry.label === label))
          this.mark(label, op, good, true);
      }
    }
  }

  private at(): number {
    return Math.round(this.wall_s * 10) / 10;
  }

  private mark(label: string, op: number, done: number, setUp: boolean): void {
    this.marks.push({ label, line: this.lines.length, bench_s: this.bench_s, op, done, setUp });
  }

  private nextMarked(): number {
    return (-Math.log(this.random.uniform()) / this.law.markedPerHour) * 3600;
  }

  private interruptionsIn(took_s: number): number {
    const { random, law } = this;
    let sum = 0;
    for (let k = random.poisson((law.perHour * took_s) / 3600); k > 0; k -= 1)
      sum += law.away_s * (0.3 + (0.7 * random.gamma(1.3)) / 1.3);
    return sum;
  }

  /** Spends bench time; true when a marked pause fell after it. */
  private work(seconds: number): boolean {
    this.wall_s += seconds;
    this.bench_s += seconds;
    this.untilMarked_s -= seconds;
    if (this.untilMarked_s > 0 || seconds < 3) return false;
    this.untilMarked_s = this.nextMarked();
    if (this.random.uniform() < this.law.forgetsPause) return false;
    const night = this.random.uniform() < 0.3;
    const pause_s = night ? 75_600 : this.random.between(300, 3600);
    this.lines.push({ type: 'event', kind: 'pause', t_s: this.at(), why: night ? 'day' : 'break' });
    this.wall_s += pause_s;
    this.lines.push({ type: 'event', kind: 'resume', t_s: this.at() });
    return true;
  }

  private withAsks(): readonly (Line | AskWithTruth)[] {
    const out: (Line | AskWithTruth)[] = [this.run];
    let ask = 0;
    this.lines.forEach((line, i) => {
      for (const mark of this.marks)
        if (mark.line === i) out.push(this.askAt(mark, ask++, 't_s' in line ? line.t_s : 0));
      out.push(line);
    });
    for (const mark of this.marks) if (mark.line === this.lines.length) out.push(this.askAt(mark, ask++, this.at()));
    out.push({ type: 'end', id: this.run.id });
    return out;
  }

  private askAt(mark: Mark, ask: number, next_s: number): AskWithTruth {
    const previous = this.lines[mark.line - 1];
    const t_s = previous && 't_s' in previous ? previous.t_s : Math.min(0, next_s);
    const informed = informedLimit(this.law, this.run, this.truth, mark, this.random);
    return {
      type: 'ask',
      ask,
      t_s,
      label: mark.label,
      truth: {
        remaining_s: this.bench_s - mark.bench_s,
        operation_remaining_s: (this.ends[mark.op] ?? 0) - mark.bench_s,
      },
      informed,
    };
  }
}
