/** From the state of the screen to its lines: which panel, laid out in the room there is. */
import type { Instant } from '../../batch/instant.ts';
import type { Batch, BatchState } from '../../batch/state.ts';
import { stepOf } from '../flow/flow.ts';
import { listInSight } from '../panel/fitted-lines.ts';
import { bodyRows, layoutPanel } from '../panel/layout.ts';
import { mainReading, type Panel } from '../panel/panel.ts';
import type { Line } from '../parts/lines.ts';
import type { Theme } from '../theme.ts';
import { batchPanel } from './batch-panel.ts';
import { hintsOf } from './hints.ts';
import type { AsksOfBatch } from './looking.ts';
import type { Services } from './services.ts';
import type { AppState } from './state.ts';
import { trialLines } from './trial.ts';

export type DrawInput = {
  readonly app: AppState;
  readonly services: Services;
  readonly now: Instant;
  readonly theme: Theme;
  readonly columns: number;
  readonly rows: number;
};

/** The lines of the whole screen: exactly `rows`, each at most `columns` wide. */
export function drawApp(input: DrawInput): readonly Line[] {
  const { columns, rows, app, theme } = input;
  if (app.isTrial) return trialLines(columns, rows, theme.ascii);
  return layoutPanel(panelOfApp(input), { columns, rows, digitRows: app.digitRows, ascii: theme.ascii });
}

/** The panel that is up, with its hints. */
export function panelOfApp(input: DrawInput): Panel {
  return { ...panelOf(input), hints: hintsOf(input.app, input.columns) };
}

type Bare = Omit<Panel, 'hints'>;

function panelOf(input: DrawInput): Bare {
  const { app, services, now } = input;
  const state = app.stage.kind === 'batch' ? app.stage.opened.sitting.read().state : null;
  const title = state !== null && state.kind !== 'none' ? state.plan.job : 'millside';
  const base = basePanel(title, services.clockText(now), app.wrong);
  if (app.flow !== null) return flowPanel(input, base);
  const { page } = app;
  if (page === null) return stagePanel(input, base);
  const more = page.lines.length - page.from;
  return {
    ...base,
    headline: { text: page.title, role: 'strong' },
    facts: page.lines.slice(page.from, page.from + Math.max(1, Math.min(more, input.rows))),
  };
}

const whichJob = 'WHICH JOB';

function stagePanel(input: DrawInput, base: Bare): Bare {
  const { app, services, now, theme } = input;
  const { stage } = app;
  switch (stage.kind) {
    case 'loading':
      return { ...base, facts: [stage.about] };
    case 'choose':
      return { ...base, headline: { text: whichJob, role: 'strong' }, facts: offerLines(stage, input) };
    case 'batch': {
      const view = stage.opened.sitting.read();
      const outlook = services.outlook(view.state, now);
      const asks = asksOf(services, view.state, now);
      return batchPanel({ view, app, outlook, now, clock: services.clockText(now), ascii: theme.ascii, asks });
    }
    case 'look':
      return lookPanel(input, base, stage);
    case 'ask to take':
      return {
        ...base,
        headline: { text: 'ANOTHER COMPUTER HAS THIS BATCH', role: 'alarm' },
        facts: [`It was last opened by ${stage.who}.`, 'Take it over only when nobody works on it there.'],
      };
    case 'stopped':
      return { ...base, headline: { text: stage.title, role: 'alarm' }, facts: stage.lines };
    case 'fault':
      return {
        ...base,
        headline: { text: 'IT CANNOT GO ON', role: 'alarm' },
        facts: [stage.fault.what, `Where: ${stage.fault.where}`, `Try: ${stage.fault.tryThis}`],
      };
    default:
      return stage satisfies never;
  }
}

function asksOf(services: Services, state: BatchState, now: Instant): AsksOfBatch {
  return {
    warnings: (operation) => services.warnings(state, operation),
    endLine: (cell) => services.endLine(state, cell, now),
    planNote: services.planNote,
  };
}

/** The offers around the chosen one, so that it is always in sight. */
function offerLines(stage: Extract<AppState['stage'], { kind: 'choose' }>, input: DrawInput): readonly string[] {
  const lines = stage.offers.map(
    (offer, index) => `${index === stage.chosen ? '>' : ' '} ${offer.title}   ${offer.about}`,
  );
  return listInSight([], lines, stage.chosen, {
    columns: input.columns,
    rows: bodyRows(input.columns, input.rows, whichJob),
  });
}

function lookPanel(input: DrawInput, base: Bare, stage: Extract<AppState['stage'], { kind: 'look' }>): Bare {
  const { state } = stage;
  if (state === null || state.kind === 'none') return { ...base, facts: [heldWords(stage.who, null)] };
  const { services, now, theme, app } = input;
  const panel = batchPanel({
    view: { state, said: null, savingSince: null },
    app,
    outlook: services.outlook(state, now),
    now,
    clock: services.clockText(now),
    ascii: theme.ascii,
    asks: asksOf(services, state, now),
  });
  return {
    ...panel,
    banner: { ...panel.banner, right: 'LOOKING ON' },
    message: { text: app.wrong ?? heldWords(stage.who, state), role: 'alarm' },
  };
}

/** Who has the batch that is looked at, or that it is free or at its end. */
function heldWords(who: string, batch: Batch | null): string {
  if (batch !== null && batch.kind !== 'open') return `${who} has ended this batch.`;
  if (batch?.presence === 'left') return `${who} has left this batch: Enter goes on with it here.`;
  const by = batch?.by == null ? '' : `${batch.by}, `;
  return `${by}${who}, has this batch; here it can only be looked at.`;
}

function flowPanel(input: DrawInput, base: Bare): Bare {
  const flow = input.app.flow;
  const step = flow === null ? undefined : stepOf(flow);
  if (flow === null || step === undefined) return base;
  const message = flow.wrong === null ? base.message : ({ text: flow.wrong, role: 'alarm' } as const);
  const headline = { text: step.prompt, role: 'strong' } as const;
  switch (step.kind) {
    case 'press':
      return { ...base, headline, facts: step.about, message };
    case 'choice': {
      const lines = step.options.map(
        (option, index) => `${index === flow.chosen ? '>' : ' '} ${index < 9 ? index + 1 : ' '}  ${option.label}`,
      );
      const room = { columns: input.columns, rows: bodyRows(input.columns, input.rows, step.prompt) };
      return { ...base, headline, facts: listInSight(step.about, lines, flow.chosen, room), message };
    }
    case 'entry': {
      const isNumber = step.entry !== 'text';
      const typed = isNumber && flow.typed !== '' ? [mainReading(flow.typed)] : [];
      return {
        ...base,
        headline,
        readings: typed,
        facts: [...(isNumber ? [] : [`> ${flow.typed}_`]), ...step.about],
        message,
      };
    }
    default:
      return step satisfies never;
  }
}

function basePanel(title: string, clock: string, wrong: string | null): Bare {
  return {
    banner: { place: [title], title: '', counts: '', right: clock },
    headline: null,
    weight: 'words',
    readings: [],
    facts: [],
    cautions: [],
    pace: [],
    message: wrong === null ? null : { text: wrong, role: 'alarm' },
    picture: null,
  };
}
