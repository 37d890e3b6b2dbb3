/** From the state of the screen to its lines: which panel, laid out in the room there is, with the attributes of the theme. */
import type { Instant } from '../../batch/instant.ts';
import { stepOf } from '../flow/flow.ts';
import { type BindingTable, hintsFor } from '../keys/binding-table.ts';
import type { KeyCommand, Moment } from '../keys/key-map.ts';
import { layoutPanel } from '../panel/layout.ts';
import type { Panel } from '../panel/panel.ts';
import type { Line } from '../parts/lines.ts';
import type { Theme } from '../theme.ts';
import { batchPanel } from './batch-panel.ts';
import type { Services } from './services.ts';
import type { AppState } from './state.ts';

export type DrawInput = {
  readonly app: AppState;
  readonly moment: Moment;
  readonly table: BindingTable<Moment, KeyCommand>;
  readonly services: Services;
  readonly now: Instant;
  readonly theme: Theme;
  readonly columns: number;
  readonly rows: number;
};

/** The lines of the whole screen. */
export function drawApp(input: DrawInput): Line[] {
  const { columns, rows, app, theme } = input;
  const room = { columns, rows, digitRows: app.digitRows, ascii: theme.ascii };
  return layoutPanel({ ...panelOf(input), hints: hintsOf(input) }, room);
}

function hintsOf({ app, table, moment, columns }: DrawInput): readonly string[] {
  const step = app.flow === null ? undefined : stepOf(app.flow);
  if (step !== undefined)
    return step.kind === 'entry' ? ['Enter take', 'Esc back'] : ['digit choose', 'Enter take', 'Esc back'];
  if (app.page !== null) return ['Up Down move', 'Esc back'];
  switch (app.stage.kind) {
    case 'ask to take':
      return ['y take it over', 'Enter only look', 'q leave'];
    case 'look':
      return ['Enter try again', 'q leave'];
    case 'stopped':
    case 'fault':
      return ['Enter leave'];
    default:
      return hintsFor(table, moment, columns);
  }
}

function panelOf(input: DrawInput): Omit<Panel, 'hints'> {
  const { app, services, now, theme } = input;
  const clock = services.clockText(now);
  const around = app.stage.kind === 'batch' ? app.stage.opened.sitting.read().state : null;
  const title = around !== null && around.kind !== 'none' ? around.plan.job : 'millside';
  const base = basePanel(title, clock, app.wrong);
  if (app.flow !== null) return flowPanel(input, base);
  if (app.page !== null) {
    return { ...base, headline: { text: app.page.title, role: 'strong' }, facts: app.page.lines.slice(app.page.from) };
  }
  return stagePanel(input, base, theme.ascii, clock);
}

function stagePanel(input: DrawInput, base: Omit<Panel, 'hints'>, ascii: boolean, clock: string): Omit<Panel, 'hints'> {
  const { app, services, now } = input;
  const { stage } = app;
  switch (stage.kind) {
    case 'loading':
      return { ...base, facts: [stage.about] };
    case 'choose':
      return {
        ...base,
        headline: { text: 'WHICH JOB', role: 'strong' },
        facts: stage.offers.flatMap((offer, index) => [
          `${index === stage.chosen ? '> ' : '  '}${offer.title}   ${offer.about}`,
        ]),
      };
    case 'batch': {
      const view = stage.opened.sitting.read();
      const outlook = services.outlook(view.state, now);
      return batchPanel({ view, app, outlook, now, clock, ascii });
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

function lookPanel(
  input: DrawInput,
  base: Omit<Panel, 'hints'>,
  stage: Extract<AppState['stage'], { kind: 'look' }>,
): Omit<Panel, 'hints'> {
  const held = `${stage.who} has this batch; here it can only be looked at.`;
  if (stage.state === null || stage.state.kind === 'none') return { ...base, facts: [held] };
  const view = { state: stage.state, said: null, savingSince: null };
  const outlook = input.services.outlook(stage.state, input.now);
  const clock = input.services.clockText(input.now);
  const panel = batchPanel({ view, app: input.app, outlook, now: stage.state.last, clock, ascii: input.theme.ascii });
  return { ...panel, banner: { ...panel.banner, right: 'LOOKING ON' }, message: { text: held, role: 'alarm' } };
}

function flowPanel(input: DrawInput, base: Omit<Panel, 'hints'>): Omit<Panel, 'hints'> {
  const flow = input.app.flow;
  const step = flow === null ? undefined : stepOf(flow);
  if (flow === null || step === undefined) return base;
  const wrong = flow.wrong === null ? base.message : ({ text: flow.wrong, role: 'alarm' } as const);
  const headline = { text: step.prompt, role: 'strong' } as const;
  if (step.kind === 'choice') {
    const lines = step.options.map((option, index) => {
      const digit = index < 9 ? `${index + 1}` : ' ';
      return `${index === flow.chosen ? '>' : ' '} ${digit}  ${option.label}`;
    });
    const from = Math.max(0, flow.chosen - 8);
    return { ...base, headline, facts: [...step.about, ...lines.slice(from)], message: wrong };
  }
  const isNumber = step.entry !== 'text';
  return {
    ...base,
    headline,
    readings: isNumber && flow.typed !== '' ? [{ label: '', text: flow.typed, below: null, fresh: false }] : [],
    facts: [...(isNumber ? [] : [`> ${flow.typed}_`]), ...step.about],
    message: wrong,
  };
}

function basePanel(title: string, clock: string, wrong: string | null): Omit<Panel, 'hints'> {
  return {
    banner: { left: title, right: clock },
    headline: null,
    readings: [],
    facts: [],
    cautions: [],
    pace: [],
    message: wrong === null ? null : { text: wrong, role: 'alarm' },
    picture: null,
  };
}
