/** Keys that are part of a value where none is asked (stray-value.ts), as a hand or a gauge types them. */
import type { Said } from '../../sitting/sitting.ts';
import { digitOf, stepOf } from '../flow/flow.ts';
import type { Key } from '../terminal/key.ts';
import { fieldOf } from './card-answer.ts';
import type { Desk } from './desk.ts';
import { batchOf, cardOf } from './key-moments.ts';
import type { AppState } from './state.ts';
import { checkFor, isGoingOn, isValue, type Stray, strayAfter, swallowedWords } from './stray-value.ts';

export type StrayKeys = {
  /** Whether a key that a hand pressed was swallowed as part of a value; else it is what it always is. */
  readonly takes: (key: Key) => boolean;
  /** Whether a number at a gauge's pace was dealt with; else its keys go into the field that asks for one. */
  readonly typed: (keys: readonly Key[]) => boolean;
};

/** Watches the keys of a desk for values that nothing asks for. */
export function makeStrayKeys(desk: Desk): StrayKeys {
  const { read, set, refuse } = desk;
  const now_ms = (): number => desk.options.services.now().mono_ms;
  let stray: Stray | null = null;

  const tell = (text: string, did: Said | null): void => {
    const { flow } = read();
    const words = swallowedWords(text, did, batchOf(read()));
    if (flow === null) refuse(words);
    else set({ flow: { ...flow, wrong: words } });
  };

  /** The number is whole: it opens the check that it can belong to, or is told and forgotten. */
  const end = (text: string, did: Said | null): void => {
    const batch = batchOf(read());
    const check = batch === null || read().flow !== null ? null : checkFor(batch, text);
    if (check === null) return tell(text, did);
    void desk.send({ kind: 'askCheck', check: check.id }).then(() => {
      const card = cardOf(read());
      if (card?.kind === 'check' && card.check === check.id) set({ typed: text });
    });
  };

  const takes = (key: Key): boolean => {
    const before = stray;
    stray = null;
    if (read().stage.kind !== 'batch' || asksForValue(read())) return false;
    const isWhole = before !== null && isGoingOn(before, now_ms()) && isValue(before);
    if (isWhole && (key.name === 'enter' || key.name === 'kp-enter' || key.name === 'kp-plus')) {
      end(before.text, before.did);
      return true;
    }
    const character = digitOf(key);
    if (character === undefined || character === ',') return false;
    const next = strayAfter(before, read(), character, now_ms());
    // Once it is told, what is said is of the telling itself.
    stray = isWhole ? next : { ...next, did: saidSince(read(), next.first_ms) };
    if (!isValue(stray)) return false;
    set(stray.before);
    tell(stray.text, stray.did);
    return true;
  };

  const typed = (keys: readonly Key[]): boolean => {
    const text = keys.map((key) => digitOf(key) ?? '').join('');
    // In a list plain digits may be its line and what is typed behind it, from quick fingers.
    const isOfList = read().flow !== null && /^\d+$/.test(text);
    if (read().isTrial || asksForValue(read()) || isOfList) return false;
    stray = null;
    end(text, null);
    return true;
  };

  return { takes, typed };
}

/** What the batch has said since a moment; null when nothing. */
function saidSince({ stage }: AppState, first_ms: number): Said | null {
  const said = stage.kind === 'batch' ? stage.opened.sitting.read().said : null;
  return said !== null && said.mono_ms >= first_ms ? said : null;
}

/** Whether what is typed goes into a field, of a flow or of the card that is up. */
function asksForValue(app: AppState): boolean {
  const step = app.flow === null ? undefined : stepOf(app.flow);
  if (step !== undefined) return step.kind !== 'choice';
  const batch = batchOf(app);
  const card = cardOf(app);
  if (app.page !== null || app.lookAt !== null || batch === null || card === undefined) return false;
  const field = fieldOf(card, batch);
  return field === 'length' || field === 'pieces';
}
