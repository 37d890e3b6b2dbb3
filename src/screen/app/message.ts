/** What was last said, as the line above the keys: a fault, a refusal, a count, what a failed check asks for. */

import { leftByCell } from '../../batch/expected.ts';
import { cellAt } from '../../batch/flow.ts';
import type { Instant } from '../../batch/instant.ts';
import type { Batch } from '../../batch/state.ts';
import type { Said, SittingView } from '../../sitting/sitting.ts';
import { failedWords, suspectPieces } from '../moments/suspect-words.ts';
import type { Panel } from '../panel/panel.ts';
import type { AppState } from './state.ts';

/** How long a new count stands reversed. */
const justCounted_ms = 500;
/** After so long without a flush the screen says that it is saving; the number stays as it was. */
const slow_ms = 100;
/** How long words of what went well stand. */
const goodWords_ms = 5000;
/** How long the reason of a refusal stands: long enough to come back from the machine and read it. */
const refusedWords_ms = 15_000;

type Message = Panel['message'];

export type MessageInput = {
  readonly view: SittingView;
  readonly app: Pick<AppState, 'wrong' | 'refusal' | 'heard_ms'>;
  readonly now: Instant;
  readonly asks: { readonly planNote: () => string | null };
};

/** The line, or null when nothing needs saying. */
export function messageOf({ view, app, now, asks }: MessageInput): Message {
  if (app.wrong !== null) return { text: app.wrong, role: 'alarm' };
  if (view.savingSince !== null && now.mono_ms - view.savingSince >= slow_ms) return { text: 'SAVING', role: 'alarm' };
  const batch = view.state.kind === 'none' ? null : view.state;
  const refusal = laterRefusal(app.refusal, view.said);
  const said = refusal ?? view.said;
  const words = said === null || isOver(said, app.heard_ms) ? null : saidWords(said, now.mono_ms, batch);
  if (words !== null) return words;
  const note = view.roomNote ?? asks.planNote();
  return note === null ? null : { text: note, role: 'strong' };
}

/** The last refusal, unless something was said to a later key. A fault is never covered. */
function laterRefusal(refusal: AppState['refusal'], said: Said | null): Said | null {
  if (refusal === null || said?.kind === 'fault') return null;
  return said === null || refusal.mono_ms >= said.mono_ms ? { kind: 'refused', ...refusal } : null;
}

/** Said to a key before the last one that was taken. A fault stands, and so does what a check out of limits asks for. */
function isOver(said: Said, heard_ms: number | null): boolean {
  const stands = said.kind === 'fault' || (said.kind === 'done' && said.command === 'passCard');
  return !stands && heard_ms !== null && said.mono_ms < heard_ms;
}

function saidWords(said: Said, mono_ms: number, batch: Batch | null): Message {
  const isNew = mono_ms - said.mono_ms < goodWords_ms;
  switch (said.kind) {
    case 'fault':
      return {
        text: `NOT COUNTED: ${said.fault.what.replace(/^not counted[:,] /, '')}. ${said.fault.tryThis}`,
        role: 'alarm',
      };
    case 'refused':
      return mono_ms - said.mono_ms < refusedWords_ms ? { text: said.reason, role: 'alarm' } : null;
    case 'counted': {
      if (!hasGood(said)) return isNew ? { text: rejectedWords(batch), role: 'good' } : null;
      const isQuick = said.events.some((event) => event.kind === 'LoadCounted' && event.quick);
      if (isQuick) return { text: 'QUICK: counted; - takes it back if it was not meant', role: 'alarm' };
      return isNew ? { text: 'counted   - takes back', role: 'good' } : null;
    }
    case 'done':
      if (said.command === 'passCard') return outOfLimits(batch);
      if (said.command === 'reject') return isNew ? { text: rejectedWords(batch), role: 'good' } : null;
      if (said.command === 'takeBack') return isNew ? { text: takenBackWords(batch), role: 'good' } : null;
      return isNew && doneWords[said.command] !== undefined
        ? { text: doneWords[said.command] ?? '', role: 'good' }
        : null;
    default:
      return said satisfies never;
  }
}

const doneWords: Readonly<Partial<Record<Extract<Said, { kind: 'done' }>['command'], string>>> = {
  correct: 'the target is changed from now on; - takes it back',
  note: 'noted',
  trial: 'trial piece counted apart',
  recount: 'the count is set; - takes it back',
  changeCounting: 'the count key counts otherwise now',
  giveInitials: 'noted who works',
  takeSkip: 'noted: the first-off is left at that',
  clearSuspects: 'cleared; - takes it back',
  scrapSuspects: 'scrapped; - takes it back',
  makeMore: 'more are started; - takes it back',
  amend: 'the batch goes on by the changed plan',
  declineAmendment: 'the batch keeps its plan; this change is not mentioned again',
  changeHours: 'the hours of today are changed for this batch',
};

/** What was taken back is named: the newest thing need not be the count that one had in mind. */
export function takenBackWords(batch: Batch | null): string {
  const event = batch?.remarks?.item.event;
  if (batch === null || event?.kind !== 'TakenBack') return 'taken back';
  const what = takenBackNames[event.what];
  if (what === undefined) return 'taken back';
  const { of } = event;
  if (of === undefined) return `taken back: ${what}`;
  const pieces = of.from === of.to ? `piece ${of.from}` : `pieces ${of.from} to ${of.to}`;
  const here = batch.current === null ? null : cellAt(batch, batch.current);
  const isHere = here?.operation === of.operation && here.lane === of.lane;
  return `taken back: ${what} of ${pieces}${isHere ? '' : ` at op ${of.operation}`}`;
}

/** Why it was rejected, and how many are left to make here. */
function rejectedWords(batch: Batch | null): string {
  const event = batch?.remarks?.item.event;
  const reason =
    event?.kind === 'PieceRejected' || event?.kind === 'CountedScrapped'
      ? event.reason
      : event?.kind === 'LoadCounted'
        ? event.scrap.at(-1)?.reason
        : undefined;
  const left = batch === null || batch.current === null ? undefined : leftByCell(batch)[batch.current];
  const why = reason === undefined ? '' : `: ${reason}`;
  return `rejected${why}; ${left === undefined ? '' : `${Math.max(0, left)} left; `}- takes it back`;
}

const takenBackNames: Readonly<Record<string, string | undefined>> = {
  PointDone: 'the point',
  LoadCounted: 'the count',
  PieceRejected: 'the rejection',
  CountedScrapped: 'the rejection',
  SuspectsSettled: 'what became of the suspects',
  SentToRework: 'the rework',
  Recounted: 'the recount',
  TargetCorrected: 'the correction',
  SentAway: 'the sending out',
  CameBack: 'the coming back',
  MoreStarted: 'the pieces made more',
  PoolAllotted: 'the parting',
};

/** What a check that has just failed asks for. */
function outOfLimits(batch: Batch | null): Message {
  const at = batch?.current ?? null;
  const entry = at === null ? undefined : batch?.cells[at]?.checkLog?.item;
  if (batch === null || entry === undefined || entry.void) return null;
  const { result } = entry;
  const isBad = (result.kind === 'measured' && !result.within) || (result.kind === 'yes or no' && !result.yes);
  const isFresh = batch.last.mono_ms === entry.at.mono_ms;
  if (!isBad || !isFresh) return null;
  const newest = batch.suspects.at(-1);
  if (newest === undefined) return null;
  const failed = failedWords(batch, newest);
  const by = failed === '' ? '' : ` ${failed};`;
  return { text: `NOT GOOD:${by} ${suspectPieces(newest)} suspect. Stop, correct (/ 2).`, role: 'alarm' };
}

/** Whether good pieces were counted: a load that is rejected whole is told as a rejection, with no bell. */
export const hasGood = (said: Said): boolean =>
  said.kind === 'counted' && !said.events.some((event) => event.kind === 'LoadCounted' && event.good === 0);

/** Whether a count stands reversed now. */
export function justCounted(said: Said | null, mono_ms: number): boolean {
  return said !== null && hasGood(said) && mono_ms - said.mono_ms < justCounted_ms;
}

/** When the screen will look otherwise without anything happening: the end of "just counted". Null when not. */
export function nextChange(view: SittingView, mono_ms: number): number | null {
  if (justCounted(view.said, mono_ms) && view.said !== null) return view.said.mono_ms + justCounted_ms - mono_ms;
  if (view.savingSince !== null) return Math.max(slow_ms - (mono_ms - view.savingSince), slow_ms);
  return null;
}
