/**
 * What is typed at a card: digits go straight into it, from keyboard, keypad or a gauge that types, and Enter hands them
 * over. An empty Enter passes the card; where a value was asked that is recorded as skipped.
 */
import type { Card } from '../../batch/cards.ts';
import type { CardAnswer } from '../../batch/commands.ts';
import type { Batch } from '../../batch/state.ts';
import { inchesToMm } from '../../shop/units.ts';
import { digitOf, parsePieces, parseTyped } from '../flow/flow.ts';
import { notWhole, type Typing, typeCharacter } from '../flow/typing.ts';
import { operationOf } from '../moments/place-names.ts';
import { type Key, typedText } from '../terminal/key.ts';

/** What a card takes besides the bare Enter. */
export type CardField = 'none' | 'length' | 'yes or no' | 'pieces';

export function fieldOf(card: Card, batch: Batch): CardField {
  switch (card.kind) {
    case 'check': {
      const check = operationOf(batch.plan, card.operation)?.checks.find((one) => one.id === card.check);
      return check?.what.kind === 'yes or no' ? 'yes or no' : 'length';
    }
    case 'correction':
      return 'yes or no';
    case 'recount':
    case 'away':
    case 'parting':
      return 'pieces';
    default:
      return 'none';
  }
}

const mostTyped = 12;

/** What is typed after one more key, or null when the key is none of the card's. */
export function typeAtCard(field: CardField, now: Typing, key: Key): Typing | null {
  if (field !== 'length' && field !== 'pieces') return null;
  // Rubbing out more than was typed must never take a count back: at a value card that is u, or - on a keypad.
  if (key.name === 'backspace') return { typed: now.typed.slice(0, -1), wrong: null };
  const character = digitOf(key);
  // On a keypad + answers and - takes back, also as plain characters; nothing that is measured here has a sign.
  if (character === undefined || character === '+' || character === '-') return null;
  return typeCharacter(now, character, field === 'length' ? 'number' : 'pieces', mostTyped);
}

/** What Enter leaves when the number typed at a card is not whole yet; null when it can be judged. */
export const notWholeAtCard = (now: Typing): Typing | null => notWhole(now, mostTyped);

/** A bare keypad has no Backspace: there - rubs out all that is typed, and takes back only when nothing is. */
export function rubsOut(field: CardField, typed: string, key: Key): boolean {
  return (field === 'length' || field === 'pieces') && typed !== '' && digitOf(key) === '-';
}

/** The answer that a key of its own gives: yes and no. */
export function answerByKey(field: CardField, key: Key): CardAnswer | null {
  if (field !== 'yes or no') return null;
  const text = digitOf(key) ?? typedText(key)?.toLowerCase();
  if (text === 'y' || text === '1') return { kind: 'yes or no', yes: true };
  if (text === 'n' || text === '0') return { kind: 'yes or no', yes: false };
  return null;
}

/** What Enter hands over: the value, a bare pass when nothing is typed, or what is wrong with it. */
export function answerOfTyped(field: CardField, typed: string, batch: Batch): CardAnswer | string {
  if (typed === '') return { kind: 'pass' };
  if (field === 'pieces') {
    const pieces = parsePieces(typed, 0, 10_000);
    return typeof pieces === 'string' ? pieces : { kind: 'pieces', pieces, reason: null };
  }
  const value = parseTyped(typed);
  if (typeof value === 'string') return value;
  return { kind: 'value', value: batch.plan.units === 'inch' ? inchesToMm(value) : value };
}
