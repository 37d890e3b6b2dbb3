/** Hands the terminal to the screen, with what the environment and the settings say of it. */
import type { Target } from '../screen/app/services.ts';
import type { OwnKeys } from '../screen/keys/binding-table.ts';
import { makePlanWatch } from '../sitting/plan-watch.ts';
import type { Settings } from '../sitting/settings.ts';
import { readShopMachines } from '../sitting/shop-machines.ts';
import type { World } from '../sitting/world.ts';
import { type ClockReading, clockJump } from '../store/clock.ts';
import type { OpenedSettings } from '../store/settings.ts';
import type { Io } from './io.ts';
import { makeServices } from './services.ts';

export type TakeOptions = {
  readonly world: World;
  readonly target: Target;
  readonly settings: OpenedSettings<Settings>;
  readonly plans: readonly string[];
  readonly io: Io;
};

const usualGuard_ms = 1200;

/** Runs the screen; the process ends inside it. */
export async function takeTerminal({ world, target, settings, plans, io }: TakeOptions): Promise<number> {
  const { screen } = settings.values;
  const wishes = {
    ...(screen.colour === undefined ? {} : { colour: screen.colour }),
    ...(screen.glyphs === undefined ? {} : { glyphs: screen.glyphs }),
    ...(screen.ground === undefined ? {} : { ground: screen.ground }),
  };
  const { detectTheme } = await import('../screen/theme.ts');
  const theme = detectTheme(io.env, io.isTerminal, {}, wishes);
  // Ink decides on colour when it is loaded, and knows nothing of NO_COLOR; attributes are written by hand.
  process.env['FORCE_COLOR'] = '0';
  const run =
    theme.view === 'lines'
      ? (await import('../screen/app/run-lines.ts')).runLines
      : (await import('../screen/app/run-screen.tsx')).runScreen;
  const plan = makePlanWatch(world.disk, () => {}, readShopMachines(settings.values.machines));
  let before: ClockReading = world.clock.read();
  await run({
    services: makeServices({ world, settings: settings.values, plans, plan }),
    target,
    theme,
    guardMs: guardOf(io.env['MILLSIDE_GUARD_MS']),
    digitRows: screen.digit_rows,
    // Driven from outside, nobody stands there who could say what can be read.
    mayTry: io.env['MILLSIDE_GUARD_MS'] === undefined,
    bell: screen.sound,
    hand: screen.hand,
    ownKeys: settings.values.keys as OwnKeys,
    onSecond: (state, send) => {
      const after = world.clock.read();
      const jump = clockJump(before, after);
      before = after;
      if (state.kind !== 'open') return;
      plan.look(state, after.mono_ms);
      if (jump.slept_ms > 0) send({ kind: 'noteSuspend', ms: jump.slept_ms });
      if (jump.set_ms !== 0) send({ kind: 'noteClockStep', ms: jump.set_ms });
    },
  });
  return 0;
}

/** The guard in milliseconds: a whole number from 0 (off) to a minute, else the usual one. */
function guardOf(text: string | undefined): number {
  if (text === undefined || !/^\d{1,5}$/.test(text)) return usualGuard_ms;
  return Math.min(Number(text), 60_000);
}
