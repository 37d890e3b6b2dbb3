/**
 * A value typed where none is asked: a reading sent by a gauge, or typed one level of the menu too high. Its digits are keys
 * of the work (0 rejects, - takes back), so a number is told by its point: from there on it is swallowed, and what its
 * digits opened is closed again. Where the operation has one check that it can belong to, that check is opened with it.
 */
import { placeAt } from '../../batch/flow.ts';
import type { Batch } from '../../batch/state.ts';
import type { ResolvedCheck } from '../../plan/resolved.ts';
import { inchesToMm } from '../../shop/units.ts';
import type { Said } from '../../sitting/sitting.ts';
import { parseTyped } from '../flow/flow.ts';
import { takenBackWords } from './message.ts';
import type { AppState } from './state.ts';

/** Characters so far, when the first and the last came, and how the screen stood before the first. */
export type Stray = {
  readonly text: string;
  readonly first_ms: number;
  readonly last_ms: number;
  /** What the batch said to its keys before the point told it from keys. */
  readonly did: Said | null;
  readonly before: Pick<AppState, 'flow' | 'page' | 'lookAt' | 'ahead'>;
};

/** A hand that types a number does not rest longer than this between two digits: a choice of ours. */
const goesOn_ms = 2000;

/** The characters after one more: joined to those before it while a number can go on so, else begun anew. */
export function strayAfter(
  stray: Stray | null,
  { flow, page, lookAt, ahead }: AppState,
  character: string,
  mono_ms: number,
): Stray {
  const goesOn = stray !== null && isGoingOn(stray, mono_ms) && /^[+-]?\d*\.?\d*$/.test(stray.text + character);
  return goesOn
    ? { ...stray, text: stray.text + character, last_ms: mono_ms }
    : { text: character, first_ms: mono_ms, last_ms: mono_ms, did: null, before: { flow, page, lookAt, ahead } };
}

/** Whether the next key can still belong to the number. */
export const isGoingOn = (stray: Stray, mono_ms: number): boolean => mono_ms - stray.last_ms <= goesOn_ms;

/** Whether the characters can be nothing but a number: a point with a digit. */
export const isValue = ({ text }: Pick<Stray, 'text'>): boolean => text.includes('.') && /\d/.test(text);

/** The check that a value can belong to: the only measured one of the operation at hand whose size is near; else null. */
export function checkFor(batch: Batch, text: string): ResolvedCheck | null {
  const typed = parseTyped(text);
  if (typeof typed === 'string' || /^[+-]/.test(text)) return null;
  if (batch.current === null || batch.presence !== 'here' || batch.cards.length > 0) return null;
  const value = batch.plan.units === 'inch' ? inchesToMm(typed) : typed;
  const near = placeAt(batch, batch.current).operation.checks.filter(
    ({ what }) => what.kind === 'measured' && Math.abs(value - what.nominal) <= what.nominal / 2,
  );
  const [only] = near;
  return near.length === 1 && only !== undefined ? only : null;
}

/** That it was not taken, and what the keys before its point did, for that is not seen any more. */
export function swallowedWords(text: string, did: Said | null, batch: Batch | null): string {
  const before = did === null ? '' : didWords(did, batch);
  return before === ''
    ? `${text}: no value is asked for here, nothing was done`
    : `${text}: ${before}. No value is asked for here`;
}

function didWords(did: Said, batch: Batch | null): string {
  if (did.kind === 'counted') return 'its first key COUNTED: - takes that back';
  if (did.kind !== 'done') return '';
  if (did.command === 'takeBack') return `its minus HAS ${takenBackWords(batch).toUpperCase()}`;
  return did.command === 'reject' ? 'its digits REJECTED a piece: - takes that back' : '';
}
