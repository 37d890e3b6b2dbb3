/** Draws the screen of a played batch as text: the same panel, layout and hints as at the machine, without a terminal. */
import type { BatchState } from '../../../src/batch/state.ts';
import { drawApp, panelOfApp } from '../../../src/screen/app/draw.ts';
import type { Services } from '../../../src/screen/app/services.ts';
import type { AppState } from '../../../src/screen/app/state.ts';
import { keyMapFor } from '../../../src/screen/keys/key-map.ts';
import type { Panel } from '../../../src/screen/panel/panel.ts';
import type { Line } from '../../../src/screen/parts/lines.ts';
import type { Theme } from '../../../src/screen/theme.ts';
import { restingGuard } from '../../../src/sitting/guard.ts';
import type { Said } from '../../../src/sitting/sitting.ts';
import { instantAt } from '../../batch/playing.ts';

export const boxTheme: Theme = { view: 'screen', colour: true, ascii: false, ground: 'dark' };
export const asciiTheme: Theme = { ...boxTheme, colour: false, ascii: true };

/** Sizes that are drawn and looked at: a large console font, two small panels, a laptop. */
export const usualSizes = [
  [50, 15],
  [80, 24],
  [100, 30],
  [170, 48],
] as const;

export type Shot = {
  readonly state: BatchState;
  readonly columns: number;
  readonly rows: number;
  readonly theme?: Theme;
  readonly said?: Said | null;
  readonly app?: Partial<AppState>;
  /** Seconds since the test's morning at which it is drawn. */
  readonly now_s?: number;
};

/** What the screen asks of below, with fixed words for clock and finish. */
export const stillServices = (now_s = 0): Services => ({
  now: () => instantAt(now_s),
  offers: async () => [],
  open: async () => {
    throw new Error('not opened in a drawing');
  },
  begin: async () => {
    throw new Error('not begun in a drawing');
  },
  planNote: () => null,
  planChange: () => null,
  warnings: () => [],
  look: async (): Promise<BatchState> => ({ kind: 'none' }),
  report: () => ['one line of the report'],
  endLine: () => '42.0 s a piece; 3.0 s quicker than the plan',
  saveScreenSettings: async () => null,
  saveKeys: async () => null,
  outlook: () => ({
    pace: ['operation ends 21:05 (20:50 to 21:20)', 'batch ends Thu 20:10 (19:50 to 20:40)'],
    grounds: ['It rests on the plan.'],
  }),
  suppose: () => ['by 21:30: 14 to 17 more of this operation'],
  clockText: () => '19:42',
});

/** The screen's own state over a batch that was opened. */
function appOver(state: BatchState, said: Said | null, parts: Partial<AppState> = {}): AppState {
  const sitting = {
    read: () => ({ state, said, savingSince: null }),
    subscribe: () => () => {},
    send: async () => {
      throw new Error('a drawing sends nothing');
    },
    refuse: () => {},
    close: async () => undefined,
  };
  return {
    stage: {
      kind: 'batch',
      opened: { kind: 'opened', id: 'k3v9', sitting, damage: undefined, leave: async () => undefined },
    },
    flow: null,
    page: null,
    typed: '',
    wrong: null,
    refusal: null,
    heard_ms: null,
    ahead: 0,
    guard: restingGuard,
    card: null,
    digitRows: 5,
    bell: false,
    isTrial: false,
    lookAt: null,
    table: keyMapFor('right'),
    ownKeys: {},
    ...parts,
  };
}

export type AppShot = {
  readonly app: AppState;
  readonly columns: number;
  readonly rows: number;
  readonly theme?: Theme;
  /** Seconds since the test's morning at which it is drawn. */
  readonly now_s?: number;
};

/** The lines of the screen in a state of its own, with their roles. */
export function drawAppLines({ app, columns, rows, theme = boxTheme, now_s = 0 }: AppShot): readonly Line[] {
  return drawApp({ app, services: stillServices(now_s), now: instantAt(now_s), theme, columns, rows });
}

/** The lines of one drawing with their roles. */
export function drawLines(shot: Shot): readonly Line[] {
  const { state, columns, rows, theme = boxTheme } = shot;
  const now_s = shot.now_s ?? (state.kind === 'none' ? 0 : (state.last.mono_ms - 1_000_000) / 1000);
  return drawAppLines({ app: appOver(state, shot.said ?? null, shot.app), columns, rows, theme, now_s });
}

/** The panel of one drawing, before it is laid out. */
export function panelOf(shot: Pick<Shot, 'state' | 'said' | 'app'>): Panel {
  const app = appOver(shot.state, shot.said ?? null, shot.app);
  const now_s = shot.state.kind === 'none' ? 0 : (shot.state.last.mono_ms - 1_000_000) / 1000;
  const services = stillServices(now_s);
  return panelOfApp({ app, services, now: instantAt(now_s), theme: boxTheme, columns: 80, rows: 24 });
}

/** Reversed blanks as '#', so that block digits can be seen in text; trailing blanks cut. */
function pictureOf(lines: readonly Line[]): string {
  return lines
    .map((line) =>
      line
        .map(({ text, role }) => (role === 'reverse' && /^ +$/.test(text) ? '#'.repeat(text.length) : text))
        .join('')
        .trimEnd(),
    )
    .join('\n');
}

/** A drawing as text. */
export const drawFrame = (shot: Shot): string => pictureOf(drawLines(shot));

/** The screen in a state of its own as text. */
export const drawAppText = (shot: AppShot): string => pictureOf(drawAppLines(shot));
