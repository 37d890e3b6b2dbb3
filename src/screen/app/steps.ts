/** Makers of the steps that a flow asks: a choice, a text, a number of pieces, a reason. */
import type { Command } from '../../batch/commands.ts';
import { type Choice, type Next, parsePieces, type Step } from '../flow/flow.ts';

export const close: Next = { kind: 'close' };
export const send = (command: Command): Next => ({ kind: 'send', command });
export const open = (step: Step): Next => ({ kind: 'step', step });

export function choice(
  prompt: string,
  options: readonly Choice[],
  about: readonly string[] = [],
): Extract<Step, { kind: 'choice' }> {
  return { kind: 'choice', prompt, about, options };
}

export function textEntry(
  prompt: string,
  take: (text: string) => Next,
  onEmpty: Next = close,
  about: readonly string[] = [],
): Step {
  return { kind: 'entry', prompt, about, entry: 'text', onEmpty, take };
}

export function piecesEntry(
  prompt: string,
  most: number,
  take: (pieces: number) => Next,
  about: readonly string[] = [],
): Step {
  return {
    kind: 'entry',
    prompt,
    about,
    entry: 'pieces',
    onEmpty: close,
    take: (text) => {
      const pieces = parsePieces(text, 0, most);
      return typeof pieces === 'string' ? pieces : take(pieces);
    },
  };
}

const reasons = [
  'size out',
  'surface or burr',
  'wrong place',
  'tool broke',
  'material',
  'wrong setup',
  'dropped or knocked',
] as const;

/** A choice that Enter alone does not make. */
const graveChoice = (prompt: string, options: readonly Choice[], about: readonly string[] = []): Step => ({
  ...choice(prompt, options, about),
  isGrave: true,
});

/** Reasons of one's own for a question, by digit on a bare keypad, and one that is typed. */
export function ownReasonStep(
  prompt: string,
  own: readonly string[],
  take: (reason: string) => Next,
  about: readonly string[] = [],
): Step {
  const typed: Choice = { label: 'other: type it', next: open(textEntry('REASON', take)) };
  return graveChoice(prompt, [...own.map((reason) => ({ label: reason, next: take(reason) })), typed], about);
}

export function reasonStep(prompt: string, take: (reason: string) => Next): Step {
  return graveChoice(prompt, becauseOptions(take));
}

/** The usual reasons, and one of one's own. */
export function becauseOptions(take: (reason: string) => Next): readonly Choice[] {
  return [
    ...reasons.map((reason) => ({ label: reason, next: take(reason) })),
    { label: 'other: type it', next: open(textEntry('REASON', take, take('not said'))) },
  ];
}
