/**
 * Takes the terminal and runs the screen until the person leaves: session, painter, Ink, controller and clock tied together.
 *
 * P10: whatever the way out, the sitting is ended and the terminal given back. P3: a slow or failed flush is on the screen
 * within a second, because the screen is drawn anew at least that often.
 */
import { render } from 'ink';
import type { BatchState } from '../../batch/state.ts';
import type { Fault } from '../../store/fault.ts';
import { Frame } from '../frame.tsx';
import type { OwnKeys } from '../keys/binding-table.ts';
import { ansiOf } from '../parts/ansi.ts';
import { makePacer } from '../terminal/pacer.ts';
import { openSession } from '../terminal/session.ts';
import type { Theme } from '../theme.ts';
import { lastWordsOf } from './batch-panel.ts';
import { makeController } from './controller.ts';
import { drawApp } from './draw.ts';
import { nextChange } from './message.ts';
import type { Services, Target } from './services.ts';

export type ScreenOptions = {
  readonly services: Services;
  readonly target: Target;
  readonly theme: Theme;
  readonly guardMs: number;
  /** Null when nobody has chosen yet. */
  readonly digitRows: number | null;
  /** Whether the distance trial may stand before the first screen. */
  readonly mayTry: boolean;
  readonly bell: boolean;
  readonly hand: 'right' | 'left';
  readonly ownKeys: OwnKeys;
  /** Called each second, for what must be noticed without a key: sleep, a clock step, a changed plan. */
  readonly onSecond: (state: BatchState, send: (command: SecondCommand) => void) => void;
};

export type SecondCommand = { readonly kind: 'noteSuspend' | 'noteClockStep'; readonly ms: number };

/** About thirty changes a second are told to React, the first at once. */
const tell_ms = 33;
/** Exit code when the batch was another's and could only be looked at. */
const heldByAnother = 75;
/** How long a last write may take when the program is told to end. */
const lastWrite_ms = 2000;
/** Frames drawn unseen at the start, so that the first counts do not pay for a cold machine. */
const warmUps = 20;

/** Runs until the person leaves; the process then ends with the exit code. */
export async function runScreen(options: ScreenOptions): Promise<void> {
  const { services, theme } = options;
  let leaving: Promise<void> | null = null;
  let unsaved: Fault | undefined;
  let isToldToEnd = false;

  const leaveSitting = async (why: 'left' | 'signal' | 'hang-up'): Promise<void> => {
    const { stage } = controller.read();
    if (stage.kind === 'batch') unsaved = await stage.opened.leave(why);
  };
  const leave = (code: number): void => {
    if (leaving !== null) return;
    leaving = leaveSitting('left');
    const { kind } = controller.read().stage;
    const asked = code === 0 && (kind === 'look' || kind === 'ask to take') ? heldByAnother : code;
    void leaving.finally(() => process.exit(asked === 0 && unsaved !== undefined ? unsaved.code : asked));
  };

  const controller = makeController({
    services,
    hand: options.hand,
    ownKeys: options.ownKeys,
    guardMs: options.guardMs,
    digitRows: options.digitRows,
    mayTry: options.mayTry,
    isBellOn: options.bell,
    bell: () => session.painter.bell(),
    columns: () => session.painter.stream.columns,
    leave,
  });
  const session = openSession({
    stdin: process.stdin,
    stdout: process.stdout,
    onKey: (key) => {
      if (leaving === null) controller.press(key);
    },
    onResume: () => changed(),
    lastWords: () => {
      const { stage } = controller.read();
      if (stage.kind !== 'batch') return '';
      return lastWordsOf(stage.opened.sitting.read().state, stage.opened.id, unsaved?.what ?? null);
    },
    exit: ((code: number) => {
      // A bug may have hurt the sitting: then nothing more is written. Every other way out ends it with its own event.
      if (code === 70) process.exit(code);
      // A closed window says so several times over; only the first may end the sitting, none may cut that short.
      if (isToldToEnd) return;
      isToldToEnd = true;
      setTimeout(() => process.exit(code), lastWrite_ms);
      leaving ??= leaveSitting(code === 129 ? 'hang-up' : 'signal');
      void leaving.finally(() => process.exit(code));
    }) as (code: number) => never,
  });

  const draw = (): readonly string[] => {
    const { columns, rows } = session.painter.stream;
    const lines = drawApp({
      app: controller.read(),
      services,
      now: services.now(),
      theme,
      columns,
      rows,
    });
    return lines.map((line) => ansiOf(line, theme.colour && theme.ground === 'dark'));
  };

  let frame: readonly string[] = draw();
  const listeners = new Set<() => void>();
  let timer: NodeJS.Timeout | undefined;
  const redraw = (): void => {
    frame = draw();
    for (const listener of listeners) listener();
    clearTimeout(timer);
    const { stage } = controller.read();
    const soon = stage.kind === 'batch' ? nextChange(stage.opened.sitting.read(), services.now().mono_ms) : null;
    if (soon !== null) timer = setTimeout(() => changed(), soon);
  };
  const changed = makePacer(redraw, tell_ms);

  const source = {
    subscribe: (listener: () => void) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    read: () => frame,
  };
  const app = render(<Frame source={source} />, {
    stdout: session.painter.stream,
    debug: true,
    exitOnCtrlC: false,
    patchConsole: false,
  });
  for (let count = 0; count < warmUps; count += 1) app.rerender(<Frame source={source} />);
  controller.subscribe(changed);
  session.painter.stream.on('resize', changed);

  let watched: unknown = null;
  const watch = (): void => {
    const { stage } = controller.read();
    if (stage.kind !== 'batch' || watched === stage.opened) return;
    watched = stage.opened;
    stage.opened.sitting.subscribe(changed);
  };
  controller.subscribe(watch);
  setInterval(() => {
    const { stage } = controller.read();
    if (stage.kind === 'batch') {
      const { sitting } = stage.opened;
      options.onSecond(sitting.read().state, (command) => void sitting.send(command));
    }
    changed();
  }, 1000);
  await controller.start(options.target);
  await new Promise<void>(() => {});
}
