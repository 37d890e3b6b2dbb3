/**
 * Finished batches compared: the same plan's batches side by side, and what past batches say of each kind of work, tool
 * and material, with how many batches it rests on. Works on the summaries that the one history reader delivers; format 1
 * is `batches --json` of the history.
 */
import { median } from '../forecast/statistics.ts';
import { trendOf } from './statistics.ts';
import type { BatchSummary } from './summary.ts';

/** Which batches are wanted; an empty filter takes all. */
export interface BatchFilter {
  /** Id of the plan, whole. */
  readonly plan?: string;
  readonly state?: 'running' | 'finished' | 'given up';
  /** ISO dates or instants: opened at or after, opened before. */
  readonly since?: string;
  readonly before?: string;
  /** Part of the job's name, in either case. */
  readonly job?: string;
}

/** Does a batch pass the filter? Compares instants by their text, so dates of one zone sort as they should. */
export function isWanted(
  batch: { readonly plan: string; readonly state: string; readonly opened: string; readonly job: string },
  filter: BatchFilter,
): boolean {
  return (
    (filter.plan === undefined || batch.plan === filter.plan) &&
    (filter.state === undefined || batch.state === filter.state) &&
    (filter.since === undefined || batch.opened >= filter.since) &&
    (filter.before === undefined || batch.opened < filter.before) &&
    (filter.job === undefined || batch.job.toLowerCase().includes(filter.job.toLowerCase()))
  );
}

type Falling = 'quicker' | 'slower' | 'steady' | 'too few';

/** The batches of one plan, oldest first. */
export interface PlanHistory {
  readonly plan: string;
  readonly job: string;
  readonly batches: readonly {
    readonly batch: string;
    readonly opened: string;
    readonly good: number;
    readonly scrap: number;
    readonly worked_s: number;
    /** Work for one good piece; null when none came out. */
    readonly per_good_s: number | null;
  }[];
  /** Is the work for a good piece falling from batch to batch? */
  readonly per_good_trend: Falling;
  /** Medians in the order of `batches`; null where an operation was not timed. */
  readonly operations: readonly {
    readonly operation: number;
    readonly lane: string;
    readonly name: string;
    readonly medians_s: readonly (number | null)[];
    readonly trend: Falling;
  }[];
}

/**
 * The batches of a plan side by side, oldest first; `null` when there is none.
 *
 * Example: three batches with 130, 120 and 110 s a piece: the trend of that operation is `quicker`.
 */
export function comparePlan(summaries: readonly BatchSummary[], plan: string): PlanHistory | null {
  const batches = summaries
    .filter((one) => one.plan === plan)
    .sort((a, b) => (a.opened === b.opened ? (a.batch < b.batch ? -1 : 1) : a.opened < b.opened ? -1 : 1));
  const newest = batches.at(-1);
  if (newest === undefined) return null;
  const rows = batches.map((one) => ({
    batch: one.batch,
    opened: one.opened,
    good: one.good,
    scrap: one.scrap,
    worked_s: one.worked_s,
    per_good_s: one.good === 0 ? null : one.worked_s / one.good,
  }));
  return {
    plan,
    job: newest.job,
    batches: rows,
    per_good_trend: falling(rows.map((row) => row.per_good_s)),
    operations: newest.operations.map(({ operation, lane, name }) => {
      const medians_s = batches.map((one) => medianIn(one, operation, lane));
      return { operation, lane, name, medians_s, trend: falling(medians_s) };
    }),
  };
}

const medianIn = (summary: BatchSummary, operation: number, lane: string): number | null =>
  summary.operations.find((row) => row.operation === operation && row.lane === lane)?.median_s ?? null;

/** Three batches or more have a trend when its slope is off zero at 95 % confidence. */
function falling(values: readonly (number | null)[]): Falling {
  const trend = trendOf(values.filter((value) => value !== null));
  if (trend === null) return 'too few';
  if (trend.high < 0) return 'quicker';
  return trend.low > 0 ? 'slower' : 'steady';
}

/** What past batches say of one kind of work. */
export interface WorkEstimate {
  readonly kind: string;
  /** Names of the tools used together; empty for work without one. */
  readonly tools: string;
  readonly material: string;
  readonly batches: number;
  readonly timed_pieces: number;
  /** Median of the batches' medians of a piece, and the least and greatest of them. */
  readonly piece_s: number;
  readonly least_s: number;
  readonly greatest_s: number;
  /** Actual over planned, median over the operations that had a plan; null when none had. */
  readonly over_plan: number | null;
}

/**
 * Estimates by operation kind, tools and material, from every operation in which pieces were timed, the work that most
 * batches know first. Different parts take different times: `over_plan` carries over better than `piece_s`.
 */
export function workEstimates(summaries: readonly BatchSummary[]): WorkEstimate[] {
  const groups = new Map<string, { batch: string; work: Timed }[]>();
  for (const summary of summaries) {
    for (const work of timedWork(summary)) {
      const key = JSON.stringify([work.kind, work.tools, work.material]);
      groups.set(key, [...(groups.get(key) ?? []), { batch: summary.batch, work }]);
    }
  }
  return [...groups.values()]
    .map(estimateOf)
    .filter((one) => one !== null)
    .sort((a, b) => b.batches - a.batches || (a.kind < b.kind ? -1 : 1));
}

interface Timed {
  readonly kind: string;
  readonly tools: string;
  readonly material: string;
  readonly pieces: number;
  readonly median_s: number;
  readonly plan_s: number;
}

const timedWork = (summary: BatchSummary): Timed[] =>
  summary.operations.flatMap((row) =>
    row.median_s === null
      ? []
      : [
          {
            kind: row.kind,
            tools: row.tools.join(' + '),
            material: summary.material,
            pieces: row.timed_pieces,
            median_s: row.median_s,
            plan_s: row.plan_piece_s,
          },
        ],
  );

function estimateOf(group: readonly { readonly batch: string; readonly work: Timed }[]): WorkEstimate | null {
  const first = group[0];
  const medians = group.map((one) => one.work.median_s);
  const piece_s = median(medians);
  if (first === undefined || piece_s === null) return null;
  const { kind, tools, material } = first.work;
  return {
    kind,
    tools,
    material,
    batches: new Set(group.map((one) => one.batch)).size,
    timed_pieces: group.reduce((sum, one) => sum + one.work.pieces, 0),
    piece_s,
    least_s: Math.min(...medians),
    greatest_s: Math.max(...medians),
    over_plan: median(group.flatMap(({ work }) => (work.plan_s > 0 ? [work.median_s / work.plan_s] : []))),
  };
}
