/**
 * The same program in plain lines: the same controller and the same panels, said instead of drawn. For TERM=dumb, screen
 * readers, and whoever asks for it in the settings. Counts, cards, checks and the menu work as on the screen.
 */
import { openLineSession } from '../terminal/line-session.ts';
import { makePacer } from '../terminal/pacer.ts';
import { makeController } from './controller.ts';
import { panelOfApp } from './draw.ts';
import { makeLeaving } from './leaving.ts';
import type { RunOptions } from './run-options.ts';
import { nothingSpoken, speak } from './spoken.ts';
import { tellChanges } from './tell-changes.ts';

/** Changes that come together are said together. */
const tell_ms = 100;
/** Wide and high enough that nothing is left out for want of room. */
const room = { columns: 200, rows: 200 } as const;

/** Runs until the person leaves; the process then ends with the exit code. */
export async function runLines(options: RunOptions): Promise<void> {
  const { services, theme } = options;
  const leaving = makeLeaving(() => controller.read().stage);
  const controller = makeController({
    services,
    hand: options.hand,
    ownKeys: options.ownKeys,
    guardMs: options.guardMs,
    digitRows: options.digitRows,
    // There are no digits to be read from afar.
    mayTry: false,
    isBellOn: options.bell,
    bell: () => process.stdout.write('\u0007'),
    columns: () => process.stdout.columns ?? 80,
    leave: leaving.leave,
  });
  const say = openLineSession({
    stdin: process.stdin,
    stdout: process.stdout,
    onKey: (key) => {
      if (!leaving.isUnderWay()) controller.press(key);
    },
    lastWords: leaving.lastWords,
    exit: leaving.exit,
  });
  say('millside in plain lines. Enter counts and answers, ? says the keys, q leaves.');
  let spoken = nothingSpoken;
  const changed = makePacer(() => {
    const panel = panelOfApp({ app: controller.read(), services, now: services.now(), theme, ...room });
    const next = speak(spoken, panel);
    spoken = next.spoken;
    for (const line of next.lines) say(line);
  }, tell_ms);
  tellChanges(controller, changed, options.onSecond);
  await controller.start(options.target);
  await new Promise<void>(() => {});
}
