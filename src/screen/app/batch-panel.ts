/** The panel of a batch at this moment: the card that is up, the pause, the work in hand, or the end. */

import { leftByCell } from '../../batch/expected.ts';
import { goodOf } from '../../batch/finished-pieces.ts';
import { cellAt, waitingAt } from '../../batch/flow.ts';
import { durationBetween, type Instant } from '../../batch/instant.ts';
import { orderedIn } from '../../batch/lanes.ts';
import { suspectCount, suspectsAround } from '../../batch/questions/suspects.ts';
import type { Batch } from '../../batch/state.ts';
import { median } from '../../forecast/statistics.ts';
import { drawSetup } from '../../plan/drawing.ts';
import { drawAsText } from '../../plan/drawing-text.ts';
import type { SittingView } from '../../sitting/sitting.ts';
import { cardFace } from '../moments/card-panel.ts';
import { operationOf, placeForms } from '../moments/place-names.ts';
import { durationText, stopwatchText } from '../moments/time-words.ts';
import { workFace } from '../moments/work-panel.ts';
import { type Banner, mainReading, type Panel, type Picture, secondReading } from '../panel/panel.ts';
import { type AsksOfBatch, lookingFace } from './looking.ts';
import { justCounted, messageOf } from './message.ts';
import type { Outlook } from './services.ts';
import type { AppState } from './state.ts';

export type BatchPanelInput = {
  readonly view: SittingView;
  readonly app: AppState;
  readonly outlook: Outlook;
  readonly now: Instant;
  readonly clock: string;
  readonly ascii: boolean;
  readonly asks: AsksOfBatch;
};

type Around = Pick<Panel, 'banner' | 'pace' | 'message'>;
type Inner = Omit<Panel, 'hints' | keyof Around>;

/** The panel without its hints. */
export function batchPanel(input: BatchPanelInput): Omit<Panel, 'hints'> {
  const { view } = input;
  const batch = view.state;
  if (batch.kind === 'none') return { ...emptyInner, ...plainAround('millside', input) };
  return {
    ...innerOf(batch, input),
    banner: bannerOf(batch, input),
    pace: paceOf(batch, input),
    message: messageOf(input),
  };
}

const emptyInner: Inner = { headline: null, weight: 'words', readings: [], facts: [], cautions: [], picture: null };

function plainAround(title: string, input: BatchPanelInput): Around {
  const banner = { place: [title], title: '', counts: '', right: input.clock };
  return { banner, pace: [], message: messageOf(input) };
}

function innerOf(batch: Batch, input: BatchPanelInput): Inner {
  const { app } = input;
  if (batch.kind !== 'open') return endFace(batch, input);
  if (app.lookAt !== null) return lookingFace(batch, app.lookAt, input.ascii);
  if (batch.presence === 'paused') return pauseFace(batch, input);
  if (batch.current !== null && justCounted(input.view.said, input.now.mono_ms))
    return countedFace(batch, batch.current, input);
  const card = batch.cards[0];
  if (card !== undefined) {
    const endLine =
      card.kind === 'batch ended'
        ? input.asks.endLine(null)
        : card.kind === 'operation ended'
          ? input.asks.endLine(card)
          : '';
    const warnings = card.kind === 'setup' ? input.asks.warnings(card.operation) : [];
    const { ascii, now } = input;
    const face = cardFace(card, { batch, typed: app.typed, ascii, warnings, endLine, now });
    const needed = face.warnsAfter === undefined ? {} : { warnsAfter: Math.max(0, face.warnsAfter - app.ahead) };
    return {
      ...face,
      ...needed,
      facts: leafed(face.facts, app.ahead),
      picture: pictureOf(batch, face.drawing, input.ascii),
    };
  }
  if (batch.current === null) return { ...emptyInner, headline: { text: batch.plan.job, role: 'strong' } };
  return workFace(batch, batch.current, app.ahead, input.ascii);
}

/** Facts from the one that Down leafed to; the last one never goes away. */
function leafed(facts: readonly string[], ahead: number): readonly string[] {
  return facts.slice(Math.max(0, Math.min(ahead, facts.length - 1)));
}

/** The new count reversed for half a second, also before a card that it brought. */
function countedFace(batch: Batch, at: number, input: BatchPanelInput): Inner {
  return {
    ...emptyInner,
    headline: { text: 'COUNTED', role: 'good' },
    weight: 'digits',
    readings: [{ ...mainReading(String(cellAt(batch, at).good)), fresh: true }],
    facts: workFace(batch, at, 0, input.ascii).facts,
  };
}

function bannerOf(batch: Batch, { app, clock }: BatchPanelInput): Banner {
  const at = app.lookAt ?? batch.current;
  const isLooking = app.lookAt !== null || (app.ahead !== 0 && batch.cards.length === 0);
  const right = isLooking ? 'LOOKING' : batch.presence === 'paused' ? 'PAUSED' : clock;
  const all = batch.plan.variants.reduce((sum, variant) => sum + variant.quantity, 0);
  if (at === null || batch.kind !== 'open')
    return { place: [batch.plan.job], title: '', counts: `${goodOf(batch)} of ${all} good`, right };
  const cell = cellAt(batch, at);
  const left = leftByCell(batch)[at] ?? waitingAt(batch, at);
  const scrap = cell.scrap > 0 ? `, ${cell.scrap} scrap` : '';
  const doubtful = suspectCount(suspectsAround(batch, at));
  const suspect = doubtful > 0 ? `, ${doubtful} SUSPECT` : '';
  return {
    place: placeForms(batch.plan, cell.operation, cell.lane),
    title: operationOf(batch.plan, cell.operation)?.title ?? '',
    counts: `${cell.good} of ${orderedIn(batch.plan, cell.lane)} good, ${left} left${suspect}${scrap}`,
    right,
  };
}

function paceOf(batch: Batch, input: BatchPanelInput): readonly string[] {
  const at = batch.current;
  if (batch.kind !== 'open' || at === null) return [];
  const cell = cellAt(batch, at);
  const isWork = batch.presence === 'here' && batch.cards.length === 0;
  const ends = input.outlook.pace.map((line) => line.replace(/^operation ends/, 'op ends'));
  if (!isWork) return ends;
  const running = cell.loadRun_ms + durationBetween(batch.last, input.now).ms;
  const usual = usualOf(batch, at);
  const own = `this piece ${stopwatchText(running)}${usual === null ? '' : `, usual ${stopwatchText(usual)}`}`;
  return [own, ...ends];
}

/** Median of the loads timed at this cell, or null before the third. */
export function usualOf(batch: Batch, at: number): number | null {
  const times: number[] = [];
  for (let link = cellAt(batch, at).loads; link !== null && times.length < 99; link = link.older) {
    if (link.item.ms !== null && link.item.leftOut === null) times.push(link.item.ms);
  }
  return times.length < 3 ? null : median(times);
}

function pauseFace(batch: Batch, input: BatchPanelInput): Inner {
  const paused = batch.pause === null ? 0 : durationBetween(batch.pause.since, input.now).ms;
  const reason = batch.pause?.reason ?? null;
  return {
    ...emptyInner,
    headline: reason === null ? null : { text: reason.toUpperCase(), role: 'alarm' },
    readings: [mainReading('PAUSED'), secondReading(stopwatchText(paused))],
    facts: ['Nothing is timed now.', 'On coming back: look whether vice, stop and speed stand as they did.'],
  };
}

function endFace(batch: Batch, input: BatchPanelInput): Inner {
  const ordered = batch.plan.variants.reduce((sum, variant) => sum + variant.quantity, 0);
  const { run, setup, check } = batch.accounts;
  return {
    ...emptyInner,
    headline: { text: batch.kind === 'finished' ? 'BATCH FINISHED' : 'BATCH GIVEN UP', role: 'strong' },
    readings: [mainReading(String(goodOf(batch)), 'GOOD', `good of ${ordered} ordered`)],
    facts: [
      input.asks.endLine(null),
      `Run ${durationText(run)}, setup ${durationText(setup)}, checks ${durationText(check)}.`,
      'The report: Down or 2 here, or millside report later. Enter leaves.',
    ],
  };
}

function pictureOf(
  batch: Batch,
  drawing: { readonly setup: string; readonly operation: number } | null,
  ascii: boolean,
): Picture | null {
  if (drawing === null) return null;
  const drawn = drawSetup(batch.plan, drawing.setup, drawing.operation);
  if (drawn === null) return null;
  return (columns, rows) => drawAsText(drawn, { columns, rows, ascii, leaveOutCrowded: true, stateOf: () => 'todo' });
}
