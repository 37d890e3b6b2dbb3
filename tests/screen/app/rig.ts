/**
 * A controller over a batch in memory, with a clock of its own: keys in, batch and frames out, no terminal, no disk. The
 * sitting is a small one that decides and folds at once.
 */
import type { Command } from '../../../src/batch/commands.ts';
import type { Amendment } from '../../../src/batch/decide/amending.ts';
import { decide } from '../../../src/batch/decide.ts';
import { type BatchLine, foldLine } from '../../../src/batch/evolve.ts';
import { type Batch, type BatchState, noBatch } from '../../../src/batch/state.ts';
import type { ResolvedPlan } from '../../../src/plan/resolved.ts';
import { type Controller, makeController } from '../../../src/screen/app/controller.ts';
import type { ControllerOptions } from '../../../src/screen/app/desk.ts';
import { panelOfApp } from '../../../src/screen/app/draw.ts';
import type { ScreenPatch, Services } from '../../../src/screen/app/services.ts';
import type { OwnKeys } from '../../../src/screen/keys/binding-table.ts';
import type { Panel } from '../../../src/screen/panel/panel.ts';
import type { Key, KeyName } from '../../../src/screen/terminal/key.ts';
import type { Said, Sitting } from '../../../src/sitting/sitting.ts';
import { instantAt, openingOf } from '../../batch/playing.ts';
import { digitBefore, type MenuLine } from '../../menu-lines.ts';
import { boxTheme, stillServices } from '../frames/draw-frame.ts';

export type Rig = {
  readonly controller: Controller;
  readonly batch: () => Batch;
  /** Presses keys with `everyS` seconds (3) before each: names, single characters, or the digit before a line of a menu. */
  readonly press: (keys: readonly (string | MenuLine)[], everyS?: number) => Promise<void>;
  /** Presses one key as the decoder gave it. */
  readonly pressKey: (key: Key, everyS: number) => Promise<void>;
  /** Seconds since the morning. */
  readonly now: () => number;
  /** The journal so far. */
  readonly lines: () => readonly BatchLine[];
  readonly wait: (seconds: number) => void;
  readonly panel: () => Panel;
  readonly commands: readonly Command[];
  readonly saved: readonly ScreenPatch[];
  readonly savedKeys: readonly OwnKeys[];
  readonly leftWith: () => number | null;
};

/** A key by its name, or the character that it types. */
export function keyOf(name: string): Key {
  if (name === ' ') return { name: 'space', text: ' ' };
  if (name.length === 1) return { name: 'char', text: name };
  const text = keypadTexts[name] ?? /^kp-(\d)$/.exec(name)?.[1];
  return { name: name as KeyName, ...(text === undefined ? {} : { text }) };
}

const keypadTexts: Readonly<Record<string, string>> = {
  'kp-plus': '+',
  'kp-minus': '-',
  'kp-multiply': '*',
  'kp-divide': '/',
  'kp-decimal': '.',
};

function digitOfLine({ facts }: Panel, wanted: MenuLine): string {
  const digit = digitBefore(facts, wanted);
  if (digit === undefined) throw new Error(`no line "${wanted.line}" in ${facts.join(' | ')}`);
  return digit;
}

/** A batch of the plan, opened, with the controller at its stage. */
export async function makeRig(
  plan: ResolvedPlan,
  options: Partial<ControllerOptions> = {},
  beside: { readonly services?: Partial<Services>; readonly amendment?: Amendment } = {},
): Promise<Rig> {
  let seconds = 0;
  let state: BatchState = noBatch;
  let said: Said | null = null;
  let left: number | null = null;
  const commands: Command[] = [];
  const lines: BatchLine[] = [];
  const saved: ScreenPatch[] = [];
  const savedKeys: OwnKeys[] = [];
  const listeners = new Set<() => void>();
  const tell = (now: Said): Said => {
    said = now;
    for (const listener of listeners) listener();
    return now;
  };
  const carry = (command: Command): Said => {
    const at = instantAt(seconds);
    const amendment = beside.amendment === undefined ? {} : { amendment: beside.amendment };
    const opening = command.kind === 'openBatch' ? { opening: openingOf(plan) } : {};
    const outcome = decide(state, command, { at, ...amendment, ...opening });
    if (outcome.kind === 'refused') return tell({ kind: 'refused', reason: outcome.reason, mono_ms: at.mono_ms });
    lines.push({ at, events: outcome.events });
    state = foldLine(state, { at, events: outcome.events });
    const counted = outcome.events.some((event) => event.kind === 'LoadCounted');
    return tell(
      counted
        ? { kind: 'counted', events: outcome.events, mono_ms: at.mono_ms }
        : { kind: 'done', command: command.kind, mono_ms: at.mono_ms },
    );
  };
  carry({ kind: 'openBatch' });
  carry({ kind: 'beginSitting', by: null, host: 'shop' });
  const sitting: Sitting = {
    read: () => ({ state, said, savingSince: null }),
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    send: async (command) => {
      commands.push(command);
      return carry(command);
    },
    refuse: (reason) => {
      tell({ kind: 'refused', reason, mono_ms: instantAt(seconds).mono_ms });
    },
    close: async () => undefined,
  };
  const services: Services = {
    ...stillServices(),
    now: () => instantAt(seconds),
    open: async () => ({ kind: 'opened', id: 'k3v9', sitting, damage: undefined, leave: async () => undefined }),
    saveScreenSettings: async (patch) => {
      saved.push(patch);
      return null;
    },
    saveKeys: async (keys) => {
      savedKeys.push(keys);
      return null;
    },
    ...beside.services,
  };
  const controller = makeController({
    services,
    hand: 'right',
    ownKeys: {},
    guardMs: 1200,
    digitRows: 5,
    mayTry: false,
    isBellOn: false,
    bell: () => undefined,
    columns: () => 80,
    leave: (code) => {
      left = code;
    },
    ...options,
  });
  await controller.start({ kind: 'batch', id: 'k3v9' });
  const panel = (): Panel =>
    panelOfApp({ app: controller.read(), services, now: instantAt(seconds), theme: boxTheme, columns: 80, rows: 24 });
  const pressKey = async (key: Key, everyS: number): Promise<void> => {
    seconds += everyS;
    controller.press(key);
    // Everything that a key sets off settles in a turn of the loop: no disk, no timer.
    await new Promise((done) => setImmediate(done));
  };
  return {
    controller,
    batch: () => {
      if (state.kind === 'none') throw new Error('no batch is open');
      return state;
    },
    press: async (keys, everyS = 3) => {
      for (const key of keys) await pressKey(keyOf(typeof key === 'string' ? key : digitOfLine(panel(), key)), everyS);
    },
    pressKey,
    now: () => seconds,
    lines: () => lines,
    wait: (passing) => {
      seconds += passing;
    },
    panel,
    commands,
    saved,
    savedKeys,
    leftWith: () => left,
  };
}
