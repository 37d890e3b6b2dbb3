/**
 * A flow asks for what a command needs before it can be sent: a value, a line of text, one of a few choices, in turn. It is
 * local to the screen and may be lost in a power cut; only the command at its end is an event. Escape goes one step back
 * and never sends anything; on a bare keypad / does.
 */
import type { Command } from '../../batch/commands.ts';
import type { Supposition } from '../../forecast/suppose.ts';
import type { OwnKeys } from '../keys/binding-table.ts';
import { type Key, keyId, typedText } from '../terminal/key.ts';
import { type NumberKind, notWhole, typeCharacter } from './typing.ts';

export type Step =
  | {
      readonly kind: 'entry';
      readonly prompt: string;
      /** Lines under the prompt: limits, the last values. */
      readonly about: readonly string[];
      readonly entry: NumberKind | 'text';
      /** What an empty Enter does: nothing is asked twice, so it always leads somewhere. */
      readonly onEmpty: Next;
      /** Judges the text; a string says what is wrong with it. */
      readonly take: (text: string) => Next | string;
    }
  | {
      readonly kind: 'choice';
      readonly prompt: string;
      readonly about: readonly string[];
      readonly options: readonly Choice[];
      /** Nothing is chosen beforehand, so that Enter alone, pressed by habit or by a gauge, cannot answer. */
      readonly isGrave?: true;
    }
  /** The next key itself is the answer; Escape goes back. */
  | {
      readonly kind: 'press';
      readonly prompt: string;
      readonly about: readonly string[];
      readonly take: (key: Key) => Next | string;
    };

export type Choice = { readonly label: string; readonly next: Next };

export type Next =
  | { readonly kind: 'step'; readonly step: Step }
  | { readonly kind: 'send'; readonly command: Command }
  | { readonly kind: 'do'; readonly action: Action }
  /** Worked out only when it is taken, for it costs something. */
  | { readonly kind: 'later'; readonly next: () => Next }
  | { readonly kind: 'close' };

/** What a flow ends in beside a command: a page, other keys, a plan begun at one's word. */
export type Action =
  | { readonly kind: 'page'; readonly page: 'keys' | 'cautions' | 'report' | 'finish' }
  /** Lines of an answer, to be leafed through. */
  | { readonly kind: 'lines'; readonly title: string; readonly lines: readonly string[] }
  | { readonly kind: 'suppose'; readonly question: Supposition }
  /** The shop stays open today until so many minutes after midnight. */
  | { readonly kind: 'open until'; readonly minutes: number }
  /** Another person takes over; null: nobody is named any more. */
  | { readonly kind: 'hand over'; readonly by: string | null }
  /** Shows what the changed plan file would change, and asks. */
  | { readonly kind: 'changed plan' }
  | { readonly kind: 'amend'; readonly sha256: string }
  | { readonly kind: 'own keys'; readonly ownKeys: OwnKeys }
  | { readonly kind: 'hand'; readonly hand: 'right' | 'left' }
  | { readonly kind: 'distance trial' }
  | { readonly kind: 'leave' }
  | { readonly kind: 'begin'; readonly path: string; readonly word: string };

/** Where a flow stands: the steps gone through, the newest last, what is typed, and what was wrong with it. */
export type FlowState = {
  readonly steps: readonly Step[];
  readonly typed: string;
  readonly wrong: string | null;
  /** The option that Enter takes; moved by arrows and 8 and 2. */
  readonly chosen: number;
};

export type FlowAnswer = {
  readonly flow: FlowState | null;
  readonly next: Exclude<Next, { kind: 'step' } | { kind: 'later' }> | null;
};

const mostCharacters = { number: 16, pieces: 6, range: 13, time: 5, text: 60 } as const;

export function startFlow(step: Step): FlowState {
  return standing([step]);
}

const standing = (steps: readonly Step[]): FlowState => ({
  steps,
  typed: '',
  wrong: null,
  chosen: firstChosen(steps.at(-1)),
});

/** The option that Enter takes at first; -1: none. */
function firstChosen(step: Step | undefined): number {
  return step?.kind === 'choice' && step.isGrave === true ? -1 : 0;
}

/** The step in hand. */
export function stepOf(flow: FlowState): Step | undefined {
  return flow.steps.at(-1);
}

/** One key into a flow: the flow as it goes on (null: closed), and what to send or do. */
export function pressInFlow(flow: FlowState, key: Key): FlowAnswer {
  const step = stepOf(flow);
  if (step === undefined) return { flow: null, next: null };
  if (key.name === 'paste') return went({ ...flow, wrong: 'a paste is not taken' });
  if (key.name === 'escape' || isKeypadBack(step, key)) return stepBack(flow);
  if (keyId(key) === 'ctrl-c' && step.kind !== 'press') {
    return { flow: { ...flow, wrong: 'Esc goes back (keypad: /); Ctrl-C leaves once this is closed' }, next: null };
  }
  switch (step.kind) {
    case 'entry':
      return pressInEntry(flow, step, key);
    case 'choice':
      return pressInChoice(flow, step, key);
    case 'press':
      return answered(flow, step.take(key));
    default:
      return step satisfies never;
  }
}

/** Goes on with an answer, or says what is wrong with it. */
function answered(flow: FlowState, next: Next | string): FlowAnswer {
  return typeof next === 'string' ? { flow: { ...flow, wrong: next }, next: null } : follow(flow, next);
}

/** On a bare keypad / goes back; as a plain character only where it could not be meant as text. */
function isKeypadBack(step: Step, key: Key): boolean {
  if (step.kind === 'press') return false;
  const isText = step.kind === 'entry' && step.entry === 'text';
  return key.name === 'kp-divide' || (!isText && typedText(key) === '/');
}

function stepBack(flow: FlowState): FlowAnswer {
  const steps = flow.steps.slice(0, -1);
  return { flow: steps.length === 0 ? null : standing(steps), next: null };
}

function pressInEntry(flow: FlowState, step: Extract<Step, { kind: 'entry' }>, key: Key): FlowAnswer {
  const most = mostCharacters[step.entry];
  if (isEnter(key) || isKeypadTake(flow, step, key)) {
    const stays = step.entry === 'text' ? null : notWhole(flow, most);
    if (stays !== null) return went({ ...flow, ...stays });
    const text = flow.typed.trim();
    const next = text === '' ? step.onEmpty : step.take(text);
    // A number that was refused is typed anew; a text is put right.
    return answered(step.entry === 'text' ? flow : { ...flow, typed: '' }, next);
  }
  if (key.name === 'backspace' || (key.name === 'delete' && step.entry === 'text')) {
    return went({ ...flow, typed: [...flow.typed].slice(0, -1).join(''), wrong: null });
  }
  if (isRubOut(flow, step, key)) return went({ ...flow, typed: '', wrong: null });
  if (step.entry !== 'text') {
    const character = digitOf(key) ?? markOfTime(step.entry, key);
    return went(character === undefined ? flow : { ...flow, ...typeCharacter(flow, character, step.entry, most) });
  }
  const text = typedText(key);
  if (text === undefined) return went(flow);
  if (flow.typed.length + text.length > most) return went({ ...flow, wrong: `at most ${most} characters` });
  return went({ ...flow, typed: flow.typed + text, wrong: null });
}

/** On a keypad + takes a number as it takes a count; before the first digit of a length it is its sign. */
function isKeypadTake({ typed }: FlowState, { entry }: Extract<Step, { kind: 'entry' }>, key: Key): boolean {
  return entry !== 'text' && digitOf(key) === '+' && (entry !== 'number' || typed !== '');
}

/** A bare keypad has no Backspace: as at a card, a minus that means nothing here rubs out all that is typed. */
function isRubOut({ typed }: FlowState, { entry }: Extract<Step, { kind: 'entry' }>, key: Key): boolean {
  const isMark = typed === '' || (entry === 'range' && !typed.includes('-'));
  return entry !== 'text' && !isMark && digitOf(key) === '-';
}

const went = (flow: FlowState): FlowAnswer => ({ flow, next: null });

function markOfTime(entry: string, key: Key): string | undefined {
  return entry === 'time' && typedText(key) === ':' ? ':' : undefined;
}

function pressInChoice(flow: FlowState, step: Extract<Step, { kind: 'choice' }>, key: Key): FlowAnswer {
  if (isEnter(key) || typedText(key) === '+') {
    if (flow.chosen < 0) return went({ ...flow, wrong: 'Enter alone chooses nothing here: press the digit of a line' });
    return followChoice(flow, step, flow.chosen);
  }
  const last = step.options.length - 1;
  const moved = (chosen: number): FlowAnswer => ({ flow: { ...flow, chosen, wrong: null }, next: null });
  // With NumLock off 8 and 2 arrive as arrows: in a list they move. With it on, - goes down and round, to reach every line.
  if (key.name === 'up') return moved(Math.max(0, flow.chosen - 1));
  if (key.name === 'down') return moved(Math.min(last, flow.chosen + 1));
  if (typedText(key) === '-') return moved(flow.chosen >= last ? 0 : flow.chosen + 1);
  const digit = Number(digitOf(key) ?? 'NaN');
  if (Number.isInteger(digit) && digit >= 1 && digit <= step.options.length) return followChoice(flow, step, digit - 1);
  return { flow, next: null };
}

function followChoice(flow: FlowState, step: Extract<Step, { kind: 'choice' }>, index: number): FlowAnswer {
  const option = step.options[index];
  return option === undefined ? { flow, next: null } : follow(flow, option.next);
}

function follow(flow: FlowState, next: Next): FlowAnswer {
  if (next.kind === 'later') return follow(flow, next.next());
  if (next.kind === 'step') {
    return { flow: standing([...flow.steps, next.step]), next: null };
  }
  return { flow: null, next: next.kind === 'close' ? null : next };
}

function isEnter(key: Key): boolean {
  return key.name === 'enter' || key.name === 'kp-enter';
}

/** A digit, sign or point, from the main keys or the keypad, whatever NumLock says: in a value field they are digits. */
export function digitOf(key: Key): string | undefined {
  const byName = keypadDigits[key.name];
  if (byName !== undefined) return byName;
  const text = typedText(key);
  if (text === undefined) return undefined;
  if (/^[0-9.+-]$/.test(text)) return text;
  return text === ',' ? ',' : undefined;
}

const keypadDigits: Readonly<Record<string, string | undefined>> = {
  delete: '.',
  insert: '0',
  end: '1',
  down: '2',
  'page-down': '3',
  left: '4',
  begin: '5',
  right: '6',
  home: '7',
  up: '8',
  'page-up': '9',
  'kp-minus': '-',
  'kp-plus': '+',
};

/**
 * A typed number: a point is the decimal sign, a comma is refused by name, so that 3,06 is never read as 306.
 * Example: `parseTyped('3.06')` is `3.06`; `parseTyped('3,06')` says to use a point.
 */
export function parseTyped(text: string): number | string {
  if (text.includes(',')) return 'use a point for decimals, not a comma';
  if (!/^[+-]?(\d+\.?\d*|\.\d+)$/.test(text)) return `"${text}" is not a number`;
  const value = Number(text);
  return Number.isFinite(value) && Math.abs(value) < 1e6 ? value : `"${text}" is too large`;
}

/** A typed whole number of pieces from `least` to `most`. */
export function parsePieces(text: string, least: number, most: number): number | string {
  if (!/^\d+$/.test(text)) return `"${text}" is not a number of pieces`;
  const value = Number(text);
  return value >= least && value <= most ? value : `from ${least} to ${most} pieces`;
}
