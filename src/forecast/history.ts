/**
 * What finished batches teach the next one: the factor between plan and truth, how often the work is interrupted, and how
 * kinds of work, tools and materials differ from the planner's usual factor. Everything is shrunk by the number of batches
 * n that it rests on, with weight n / (n + 4): one batch moves the next a fifth of the way, twelve three quarters.
 * Whoever stores batches keeps the lesson of each; a lesson is plain data and follows from the batch's journal alone.
 */
import * as z from 'zod';
import { constants } from './constants.ts';
import type { ForecastPrior } from './job.ts';
import { settledLevel } from './load-filter.ts';
import { startAccounts } from './load-shares.ts';
import type { Quantiles } from './projection.ts';
import { currentFactor, currentSetupFactor, type ForecastState } from './state.ts';
import { quantile } from './statistics.ts';

/** What one finished operation taught. */
const operationLessonSchema = z.strictObject({
  kind: z.string().max(100),
  tool: z.string().max(200).optional(),
  material: z.string().max(200).optional(),
  /** Id of its plan and its number there. */
  plan: z.string().max(200).optional(),
  operation: z.number().int().positive().optional(),
  /** Planned seconds per piece as given or computed, 0 where the plan gave none. */
  planned_s: z.number().nonnegative(),
  /** Settled seconds per piece as timed. */
  actual_s: z.number().positive(),
  loads: z.number().int().nonnegative(),
});

/** What one finished batch taught; kept in its summary. */
export const lessonSchema = z.strictObject({
  /** ln(true/plan) of its operations together and of its setups. */
  cycleFactor: z.number(),
  setupFactor: z.number(),
  /** Unmarked interruptions seen in so many bench hours, and their mean length. */
  interruptions: z.number().nonnegative(),
  benchHours: z.number().nonnegative(),
  interruption_s: z.number().nonnegative(),
  hiccups: z.number().nonnegative(),
  loads: z.number().nonnegative(),
  /** Where the truth fell in the forecast's band at 25, 50 and 75 %: 0 the middle, 1.28 an end of the band. */
  bandMisses: z.array(z.number()).max(10),
  operations: z.array(operationLessonSchema).max(500),
});

export type Lesson = z.infer<typeof lessonSchema>;
type OperationLesson = z.infer<typeof operationLessonSchema>;

/** What an operation is known by in the history; by plan and number it is the same one again. */
export type WorkKind = {
  readonly kind: string;
  readonly tool?: string;
  readonly material?: string;
  readonly plan?: string;
  readonly operation?: number;
};

/** Weight of what `n` batches say against what is believed without them: n / (n + 4). Example: historyWeight(12) = 0.75. */
export function historyWeight(n: number): number {
  return n / (n + 4);
}

/**
 * The lesson of a finished batch. `work` names each operation's kind, tool and material in the job's order; operations
 * without timed loads teach nothing. `bandMisses` from `bandMiss` at 25, 50 and 75 % of the batch, or empty.
 */
export function lessonOf(state: ForecastState, work: readonly WorkKind[], bandMisses: readonly number[] = []): Lesson {
  const factor = currentFactor(state);
  const { accounts } = state;
  const start = startAccounts(state.job.prior);
  return {
    cycleFactor: factor.mean,
    setupFactor: currentSetupFactor(state, factor).mean,
    interruptions: Math.max(0, accounts.interruptions - start.interruptions),
    benchHours: Math.max(0, accounts.interruptionHours - start.interruptionHours),
    interruption_s: accounts.interruptionSizeSum_s / accounts.interruptionSizeWeight,
    hiccups: Math.max(0, accounts.hiccups - start.hiccups),
    loads: Math.max(0, accounts.hiccupLoads - start.hiccupLoads),
    bandMisses: [...bandMisses],
    operations: state.operations.flatMap((operation, i) => {
      const named = work[i];
      const planned = state.job.operations[i];
      const prepared = state.prepared[i];
      if (!operation.bank || operation.tally.timed === 0 || !named || !planned || !prepared) return [];
      const actual_s = Math.exp(settledLevel(operation.bank).mean) / prepared.piecesPerLoad;
      return [{ ...named, planned_s: Math.max(0, planned.piece_s), actual_s, loads: operation.tally.timed }];
    }),
  };
}

/**
 * Where a truth fell in a forecast's band, in standard deviations: 0 at the median, 1.28 at an end; null for a band without
 * width or a truth of nothing.
 */
export function bandMiss(truth_s: number, said: Quantiles): number | null {
  const width = (Math.log(said.p90) - Math.log(said.p10)) / 2.563;
  if (!(truth_s > 0) || !(width > 0) || !Number.isFinite(width)) return null;
  return (Math.log(truth_s) - Math.log(said.p50)) / width;
}

/**
 * What the next job begins with after these finished batches; undefined without any. Factors and rates stand between
 * general experience and the shop's own, with weight n / (n + 4) on the shop's own.
 */
export function priorFrom(lessons: readonly Lesson[]): ForecastPrior | undefined {
  const n = lessons.length;
  if (n === 0) return undefined;
  const weight = historyWeight(n);
  const shrunk = (before: number, own: number): number => (1 - weight) * before + weight * own;
  const total = (of: (lesson: Lesson) => number): number => lessons.reduce((sum, lesson) => sum + of(lesson), 0);
  const { hiccups, interruptions } = constants;
  // Seen counts join the general ones, so that a shop never interrupted in 20 h is not held to be never interrupted.
  const perHour =
    (interruptions.count + total((l) => l.interruptions)) / (interruptions.hours + total((l) => l.benchHours));
  const perLoad = (hiccups.count + total((l) => l.hiccups)) / (hiccups.loads + total((l) => l.loads));
  const hours = interruptions.hours * (1 + weight);
  const loads = hiccups.loads * (1 + weight);
  return {
    batches: n,
    cycle: shrunk(constants.cycleFactor, total((lesson) => lesson.cycleFactor) / n),
    setup: shrunk(constants.setupFactor, total((lesson) => lesson.setupFactor) / n),
    interruptions: {
      hours,
      count: hours * shrunk(interruptions.count / interruptions.hours, perHour),
      size_s: shrunk(interruptions.size_s, total((lesson) => lesson.interruption_s) / n),
    },
    hiccups: { loads, count: loads * shrunk(hiccups.count / hiccups.loads, perLoad) },
    bandWidth: bandWidthFrom(lessons),
  };
}

/** Batches before the width of the band is judged by how past forecasts fared. */
const batchesForWidth = 20;

/** Factor on the band's log width: 80 % of past truths should have fallen inside; moved half way there. */
function bandWidthFrom(lessons: readonly Lesson[]): number {
  const misses = lessons.flatMap((lesson) => lesson.bandMisses.map(Math.abs));
  const seen = lessons.length >= batchesForWidth ? quantile(misses, 0.8) : null;
  if (seen === null) return 1;
  return Math.max(0.5, Math.min(2, (1 + seen / 1.2816) / 2));
}

/** How much a past operation and one to come have in common, the closest first. */
type Match = 'operation' | 'kind, tool and material' | 'kind and tool' | 'kind';

export type EstimateFromHistory = {
  /** Seconds per piece to plan with. */
  readonly piece_s: number;
  /** Batches that it rests on, and what they have in common with the operation. */
  readonly batches: number;
  readonly match: Match;
  /** True where the plan gave no time and the history's own stands in for it. */
  readonly replacesMissing: boolean;
};

/**
 * The plan's time per piece put right by what the same kind of work took before, beyond the factor that all work shares
 * (that one is the forecaster's own business). The closest match that has any batches is used; where the plan has no time
 * (0), the geometric mean of past times stands in. Null when nothing matches. Example: kind `tap` came out 30 % dearer
 * than the rest in each of 4 batches: 60 s becomes 60 x 1.3^(4/8) = 68.4 s.
 */
export function estimateFrom(
  lessons: readonly Lesson[],
  work: WorkKind,
  planned_s: number,
): EstimateFromHistory | null {
  const past = closestPast(lessons, work, { planned_s, least: 1, without: ({ cycleFactor }) => cycleFactor });
  return past === null ? null : { ...past, replacesMissing: planned_s <= 0 };
}

/** Batches before a time that was only computed gives way to theirs: a single one may have been the odd one. */
const batchesForTime = 2;

/**
 * The whole time per piece that past batches give to work without a stated one: what was computed, times how far past
 * batches were from what was computed for theirs, the factor that all work shares included, with the weight of their
 * number. Kinds alone are too wide for it. Null where fewer than two batches match. Example: the same operation of the same
 * plan took 90 s in each of 2 batches where 60 s are computed: 60 x 1.5^(2/3) = 78.6 s.
 */
export function pastTimeFrom(
  lessons: readonly Lesson[],
  work: WorkKind,
  computed_s: number,
): Omit<EstimateFromHistory, 'replacesMissing'> | null {
  const past = closestPast(lessons, work, { planned_s: computed_s, least: batchesForTime, without: () => 0 });
  return past?.match === 'kind' ? null : past;
}

type PastAsk = {
  readonly planned_s: number;
  /** Batches below which a match says nothing. */
  readonly least: number;
  /** ln of the factor that is to be left out. */
  readonly without: (lesson: Lesson) => number;
};

function closestPast(lessons: readonly Lesson[], work: WorkKind, ask: PastAsk) {
  const sameKind = (past: OperationLesson): boolean => past.kind === work.kind;
  const sameTool = (past: OperationLesson): boolean =>
    sameKind(past) && work.tool !== undefined && past.tool === work.tool;
  const sameMaterial = (past: OperationLesson): boolean =>
    work.material !== undefined && past.material === work.material;
  const sameOperation = (past: OperationLesson): boolean =>
    sameKind(past) &&
    past.tool === work.tool &&
    past.material === work.material &&
    work.operation !== undefined &&
    past.plan === work.plan &&
    past.operation === work.operation;
  return (
    pastOver(lessons, sameOperation, 'operation', ask) ??
    pastOver(lessons, (past) => sameTool(past) && sameMaterial(past), 'kind, tool and material', ask) ??
    pastOver(lessons, sameTool, 'kind and tool', ask) ??
    pastOver(lessons, sameKind, 'kind', ask)
  );
}

function pastOver(
  lessons: readonly Lesson[],
  matches: (past: OperationLesson) => boolean,
  match: Match,
  { planned_s, least, without }: PastAsk,
): Omit<EstimateFromHistory, 'replacesMissing'> | null {
  const perBatch = lessons.flatMap((lesson) => {
    const past = lesson.operations.filter((entry) => matches(entry) && (planned_s <= 0 || entry.planned_s > 0));
    if (past.length === 0) return [];
    const logs = past.map((entry) =>
      planned_s > 0 ? Math.log(entry.actual_s / entry.planned_s) - without(lesson) : Math.log(entry.actual_s),
    );
    return [logs.reduce((sum, value) => sum + value, 0) / logs.length];
  });
  const n = perBatch.length;
  if (n < least) return null;
  const average = perBatch.reduce((sum, value) => sum + value, 0) / n;
  const piece_s = planned_s > 0 ? planned_s * Math.exp(weightOf(match, n) * average) : Math.exp(average);
  return { piece_s, batches: n, match };
}

/**
 * Weight of `n` batches of a match. The same operation again is no guess from likeness: from batch to batch it differs by
 * no more than its estimate was off, so one batch weighs as much as the estimate: n / (n + 1).
 */
function weightOf(match: Match, n: number): number {
  return match === 'operation' ? n / (n + 1) : historyWeight(n);
}
