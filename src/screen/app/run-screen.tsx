/**
 * Takes the terminal and runs the screen until the person leaves: session, painter, Ink, controller and clock tied together.
 *
 * P10: whatever the way out, the sitting is ended and the terminal given back. P3: a slow or failed flush is on the screen
 * within a second, because the screen is drawn anew at least that often.
 */
import { render } from 'ink';
import { Frame } from '../frame.tsx';
import { ansiOf } from '../parts/ansi.ts';
import { makePacer } from '../terminal/pacer.ts';
import { openSession } from '../terminal/session.ts';
import { makeBurstReader } from '../terminal/typed-burst.ts';
import { makeController } from './controller.ts';
import { drawApp } from './draw.ts';
import { makeLeaving } from './leaving.ts';
import { nextChange } from './message.ts';
import type { RunOptions } from './run-options.ts';
import { tellChanges } from './tell-changes.ts';

/** About thirty changes a second are told to React, the first at once. */
const tell_ms = 33;
/** Frames drawn unseen at the start, so that the first counts do not pay for a cold machine. */
const warmUps = 20;

/** Runs until the person leaves; the process then ends with the exit code. */
export async function runScreen(options: RunOptions): Promise<void> {
  const { services, theme } = options;
  const leaving = makeLeaving(() => controller.read().stage);
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
    leave: leaving.leave,
  });
  const ifStaying = (then: () => void): void => {
    if (!leaving.isUnderWay()) then();
  };
  const keys = makeBurstReader(
    (key) => ifStaying(() => controller.press(key)),
    (typed) => ifStaying(() => controller.typeValue(typed)),
  );
  const session = openSession({
    stdin: process.stdin,
    stdout: process.stdout,
    onKey: keys.take,
    onResume: () => changed(),
    lastWords: leaving.lastWords,
    exit: leaving.exit,
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
  session.painter.stream.on('resize', changed);

  tellChanges(controller, changed, options.onSecond);
  await controller.start(options.target);
  await new Promise<void>(() => {});
}
