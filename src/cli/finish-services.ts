/**
 * What the screen asks about the end of a batch: outlook, what-if, and the line it comes to. Follows the batch from state to
 * state, so that a redraw costs nothing when nothing changed; the history is read beside it when a batch is opened.
 */

import type { Instant } from '../batch/instant.ts';
import type { Batch, BatchState } from '../batch/state.ts';
import { type Followed, followBatch } from '../forecast/batch-forecast.ts';
import { groundLines, outlookAt, paceLines } from '../forecast/outlook.ts';
import { supposeAt, supposedLines } from '../forecast/suppose.ts';
import { batchEndLine, operationEndLine } from '../report/end-lines.ts';
import { makeReport } from '../report/make-report.ts';
import type { ReportModel } from '../report/model.ts';
import type { ReportSettings } from '../report/settings.ts';
import type { Services } from '../screen/app/services.ts';
import {
  lastTimeOf,
  medianLastTime,
  noPastBatches,
  type PastBatches,
  readPastBatchesOrNone,
  workLastTime,
} from '../sitting/history.ts';
import type { World } from '../sitting/world.ts';
import { wordsOr } from './never-stopping.ts';

export type FinishServices = Pick<Services, 'outlook' | 'suppose' | 'endLine'> & {
  /** Reads the history beside the opening of batch `id`; until it is there the forecast does without. */
  readonly readHistory: (id: string) => void;
};

/** The outlook is reckoned again at most this often while nothing happens. */
const outlookEvery_ms = 5000;

/** The services about the end, over one batch at a time. */
export function makeFinishServices(world: World, settings: ReportSettings): FinishServices {
  let history: PastBatches = noPastBatches;
  let id = '';
  let followed: Followed | null = null;
  let reported: { readonly of: Batch; readonly report: ReportModel } | null = null;
  const follow = (batch: Batch): Followed => {
    followed = followBatch(followed, batch, history.past);
    return followed;
  };
  return neverStopping({
    readHistory: (opened) => {
      id = opened;
      void readPastBatchesOrNone(world).then((read) => {
        history = read;
      });
    },
    outlook: rememberedOutlook(follow, () => history),
    suppose: (state, now, question) => {
      if (state.kind !== 'open') return [];
      const known = follow(state);
      return supposedLines(known, supposeAt(known, state, outlookAt(known, state, now), { now, question }), now);
    },
    endLine: (state, cell, now) => {
      if (state.kind === 'none') return '';
      if (reported?.of !== state) reported = { of: state, report: makeReport(state, now, { batch: id, settings }) };
      const { report } = reported;
      const then = lastTimeOf(history.summaries, report.plan.id, id);
      if (cell === null) return batchEndLine(report, workLastTime(then));
      const row = report.operations.find((one) => one.operation === cell.operation && one.lane === cell.lane);
      return row === undefined ? '' : operationEndLine(row, medianLastTime(then, cell.operation, cell.lane));
    },
  });
}

const noFinish = 'no finish can be told: a fault of the program itself; counting goes on';

/** The same services, each of which says in its own words that it failed instead of ending the screen. */
function neverStopping(services: FinishServices): FinishServices {
  return {
    readHistory: services.readHistory,
    outlook: (state, now) =>
      wordsOr(
        () => {
          const outlook = services.outlook(state, now);
          return {
            pace: outlook.pace,
            get grounds() {
              return wordsOr(
                () => outlook.grounds,
                (why) => [noFinish, why],
              );
            },
          };
        },
        (why) => ({ pace: [noFinish], grounds: [noFinish, why] }),
      ),
    suppose: (state, now, question) =>
      wordsOr(
        () => services.suppose(state, now, question),
        (why) => [noFinish, why],
      ),
    endLine: (state, cell, now) =>
      wordsOr(
        () => services.endLine(state, cell, now),
        () => '',
      ),
  };
}

/** The words of the outlook, kept while state and history stay and the last ones are fresh. */
function rememberedOutlook(follow: (batch: Batch) => Followed, history: () => PastBatches): Services['outlook'] {
  let known: { readonly of: Batch; readonly with: PastBatches; readonly at_ms: number } | null = null;
  let answer: ReturnType<Services['outlook']> = { pace: [], grounds: [] };
  return (state: BatchState, now: Instant) => {
    if (state.kind !== 'open') return { pace: [], grounds: [] };
    const isFresh = known !== null && now.mono_ms - known.at_ms < outlookEvery_ms;
    if (known?.of === state && known.with === history() && isFresh) return answer;
    const followed = follow(state);
    const outlook = outlookAt(followed, state, now);
    let grounds: readonly string[] | null = null;
    answer = {
      pace: paceLines(outlook, now),
      // Only the page behind a key asks for them, and they cost as much again.
      get grounds() {
        grounds ??= groundLines(followed, outlook, now);
        return grounds;
      },
    };
    known = { of: state, with: history(), at_ms: now.mono_ms };
    return answer;
  };
}
