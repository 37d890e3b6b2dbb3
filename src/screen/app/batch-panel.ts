/** The panel of a batch at this moment: the card that is up, the pause, the work in hand, or the end. */

import { leftByCell } from '../../batch/expected.ts';
import { goodOf } from '../../batch/finished-pieces.ts';
import { cellAt, waitingAt } from '../../batch/flow.ts';
import { durationBetween, type Instant } from '../../batch/instant.ts';
import { orderedIn } from '../../batch/lanes.ts';
import type { Batch, BatchState } from '../../batch/state.ts';
import { drawSetup } from '../../plan/drawing.ts';
import { drawAsText } from '../../plan/drawing-text.ts';
import type { Said, SittingView } from '../../sitting/sitting.ts';
import { cardFace } from '../moments/card-panel.ts';
import { placeName } from '../moments/place-names.ts';
import { durationText, stopwatchText } from '../moments/time-words.ts';
import { workFace } from '../moments/work-panel.ts';
import type { Panel, Picture } from '../panel/panel.ts';
import type { Outlook } from './services.ts';
import type { AppState } from './state.ts';

/** How long a new count stands reversed. */
const justCounted_ms = 500;
/** After so long without a flush the screen says that it is saving; the number stays as it was. */
const slow_ms = 100;

export type BatchPanelInput = {
  readonly view: SittingView;
  readonly app: AppState;
  readonly outlook: Outlook;
  readonly now: Instant;
  readonly clock: string;
  readonly ascii: boolean;
};

export function batchPanel(input: BatchPanelInput): Omit<Panel, 'hints'> {
  const { view, app } = input;
  const batch = view.state;
  if (batch.kind === 'none') return plainPanel('millside', [], input);
  const around = { banner: bannerOf(batch, input), pace: paceOf(batch, input), message: messageOf(input) };
  if (batch.kind !== 'open') return { ...endFace(batch), ...around };
  if (batch.presence === 'paused') return { ...pauseFace(batch, input), ...around };
  const card = batch.cards[0];
  if (card !== undefined) {
    const face = cardFace(card, batch);
    const typed = app.typed === '' ? [] : [{ label: '', text: app.typed, below: null, fresh: true }];
    const readings = typed.length > 0 ? typed : face.readings;
    return { ...face, readings, ...around, picture: pictureOf(batch, face.drawing, input.ascii) };
  }
  if (batch.current === null) return plainPanel(batch.plan.job, [], input);
  const counted = justCounted(view.said, input.now.mono_ms);
  const face = workFace(batch, batch.current, app.ahead, input.ascii);
  if (!counted) return { ...face, ...around, cautions: [] };
  const good = String(cellAt(batch, batch.current).good);
  return {
    headline: { text: 'COUNTED', role: 'good' },
    readings: [{ label: '', text: good, below: null, fresh: true }],
    facts: face.facts,
    cautions: [],
    picture: null,
    ...around,
  };
}

function justCounted(said: Said | null, mono_ms: number): boolean {
  return said?.kind === 'counted' && mono_ms - said.mono_ms < justCounted_ms;
}

/** When the screen will look otherwise without anything happening: the end of "just counted". Null when not. */
export function nextChange(view: SittingView, mono_ms: number): number | null {
  if (justCounted(view.said, mono_ms) && view.said !== null) return view.said.mono_ms + justCounted_ms - mono_ms;
  if (view.savingSince !== null) return Math.max(slow_ms - (mono_ms - view.savingSince), slow_ms);
  return null;
}

function bannerOf(batch: Batch, input: BatchPanelInput): Panel['banner'] {
  const at = batch.current;
  const right = batch.presence === 'paused' ? 'PAUSED' : input.clock;
  if (at === null) return { left: batch.plan.job, right };
  const cell = cellAt(batch, at);
  const left = leftByCell(batch)[at] ?? waitingAt(batch, at);
  const scrap = cell.scrap > 0 ? `, ${cell.scrap} scrap` : '';
  const counts = `${cell.good} of ${orderedIn(batch.plan, cell.lane)} good${scrap}, ${left} left`;
  const look = input.app.ahead === 0 ? '' : '   LOOKING ';
  return { left: `${placeName(batch.plan, cell.operation, cell.lane)}   ${counts}${look}`, right };
}

function paceOf(batch: Batch, input: BatchPanelInput): readonly string[] {
  const at = batch.current;
  if (batch.kind !== 'open' || at === null) return [];
  const cell = cellAt(batch, at);
  const isWork = batch.presence === 'here' && batch.cards.length === 0;
  const running = cell.loadRun_ms + (isWork ? durationBetween(batch.last, input.now).ms : 0);
  const usual = usualOf(batch, at);
  const own = isWork
    ? [`this piece ${stopwatchText(running)}${usual === null ? '' : `   usual ${stopwatchText(usual)}`}`]
    : [];
  const [first, ...rest] = input.outlook.pace;
  return [[...own, ...(first === undefined ? [] : [first])].join('   '), ...rest];
}

/** Median of the loads timed at this cell, or null before the third. */
export function usualOf(batch: Batch, at: number): number | null {
  const times: number[] = [];
  for (let link = cellAt(batch, at).loads; link !== null && times.length < 99; link = link.older) {
    if (link.item.ms !== null && link.item.leftOut === null) times.push(link.item.ms);
  }
  if (times.length < 3) return null;
  times.sort((a, b) => a - b);
  return times[Math.floor(times.length / 2)] ?? null;
}

function messageOf(input: BatchPanelInput): Panel['message'] {
  const { view, app } = input;
  const { mono_ms } = input.now;
  if (app.wrong !== null) return { text: app.wrong, role: 'alarm' };
  if (view.savingSince !== null && mono_ms - view.savingSince >= slow_ms) return { text: 'SAVING', role: 'alarm' };
  const said = view.said;
  if (said === null) return null;
  switch (said.kind) {
    case 'fault':
      return { text: `NOT COUNTED: ${said.fault.what}. ${said.fault.tryThis}`, role: 'alarm' };
    case 'refused':
      return { text: said.reason, role: 'alarm' };
    case 'counted': {
      const isQuick = said.events.some((event) => event.kind === 'LoadCounted' && event.quick);
      if (isQuick) return { text: 'QUICK: counted; - takes back if it was not meant', role: 'alarm' };
      return mono_ms - said.mono_ms < 5000 ? { text: 'counted   - takes back', role: 'good' } : null;
    }
    case 'done':
      return said.command === 'takeBack' && mono_ms - said.mono_ms < 5000 ? { text: 'taken back', role: 'good' } : null;
    default:
      return said satisfies never;
  }
}

function pauseFace(
  batch: Batch,
  input: BatchPanelInput,
): Pick<Panel, 'headline' | 'readings' | 'facts' | 'cautions' | 'picture'> {
  const paused = batch.pause === null ? 0 : durationBetween(batch.pause.since, input.now).ms;
  return {
    headline: { text: `PAUSED${batch.pause?.reason == null ? '' : `: ${batch.pause.reason}`}`, role: 'alarm' },
    readings: [{ label: '', text: stopwatchText(paused), below: null, fresh: false }],
    facts: ['Nothing is timed now.', 'On coming back: look whether vice, stop and speed stand as they did.'],
    cautions: [],
    picture: null,
  };
}

function endFace(batch: Batch): Pick<Panel, 'headline' | 'readings' | 'facts' | 'cautions' | 'picture'> {
  const good = goodOf(batch);
  const ordered = batch.plan.variants.reduce((sum, variant) => sum + variant.quantity, 0);
  return {
    headline: { text: batch.kind === 'finished' ? 'BATCH FINISHED' : 'BATCH GIVEN UP', role: 'strong' },
    readings: [{ label: '', text: `${good}/${ordered}`, below: 'good of ordered', fresh: false }],
    facts: [
      `Run ${durationText(batch.accounts.run)}, setup ${durationText(batch.accounts.setup)}, checks ${durationText(batch.accounts.check)}.`,
      'Enter leaves; the report: millside report',
    ],
    cautions: [],
    picture: null,
  };
}

function plainPanel(title: string, facts: readonly string[], input: BatchPanelInput): Omit<Panel, 'hints'> {
  return {
    banner: { left: title, right: input.clock },
    headline: null,
    readings: [],
    facts,
    cautions: [],
    pace: [],
    message: messageOf(input),
    picture: null,
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
  return (columns, rows) => drawAsText(drawn, { columns, rows, ascii, stateOf: () => 'todo' });
}

/** One line for the normal screen when the program is left: where the batch stands. */
export function lastWordsOf(state: BatchState, id: string): string {
  if (state.kind === 'none') return '';
  if (state.kind === 'finished')
    return `millside: ${state.plan.job} is finished; millside report ${id} shows its times.`;
  if (state.kind === 'given up') return `millside: ${state.plan.job} was given up; everything is kept.`;
  const at = state.current;
  if (at === null) return `millside: ${state.plan.job} (${id}) is open; nothing is counted yet.`;
  const cell = cellAt(state, at);
  const where = placeName(state.plan, cell.operation, cell.lane).replace(/ +/g, ' ');
  return `millside: ${state.plan.job} (${id}) stands at ${where}, ${cell.good} good; all is saved.`;
}
