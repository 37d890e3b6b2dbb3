/**
 * Holds back digits for a moment, to tell a number that a gauge types from keys that a hand presses: a gauge is faster than any
 * hand and ends with Enter. Everything else passes at once, and what was held passes as single keys when nothing follows.
 */
import { type Key, typedText } from './key.ts';

/** A gauge sends a character every 1 to 40 ms; two presses of one finger lie 100 ms and more apart. */
const gap_ms = 60;

export type BurstReader = { readonly take: (key: Key) => void };

/** Hands on single keys by `onKey`, and a number typed at a gauge's pace by `onBurst`, its Enter with it if it came. */
export function makeBurstReader(onKey: (key: Key) => void, onBurst: (keys: readonly Key[]) => void): BurstReader {
  let held: readonly Key[] = [];
  let timer: NodeJS.Timeout | undefined;

  const release = (): void => {
    clearTimeout(timer);
    const keys = held;
    held = [];
    for (const key of keys) onKey(key);
  };
  const burst = (keys: readonly Key[]): void => {
    clearTimeout(timer);
    held = [];
    onBurst(keys);
  };
  const rest = (): void => (textOf(held).includes('.') && isNumber(textOf(held)) ? burst(held) : release());

  const take = (key: Key): void => {
    clearTimeout(timer);
    const isEnd = key.name === 'enter' || key.name === 'kp-enter';
    if (isEnd && isNumber(textOf(held))) return burst([...held, key]);
    const character = characterOf(key);
    if (character === undefined) {
      release();
      return onKey(key);
    }
    if (!canGoOn(textOf(held) + character)) release();
    held = [...held, key];
    timer = setTimeout(rest, gap_ms);
  };
  return { take };
}

/** Only what types a character: arrows and the like of a keypad without NumLock are no gauge's. */
function characterOf(key: Key): string | undefined {
  const text = typedText(key);
  return text !== undefined && /^[0-9.+-]$/.test(text) ? text : undefined;
}

const textOf = (keys: readonly Key[]): string => keys.map(characterOf).join('');

/** The beginning of a number; three times the same digit is a key that is held. */
function canGoOn(text: string): boolean {
  return /^[+-]?\d*\.?\d*$/.test(text) && !/^(\d)\1\1$/.test(text);
}

/** Two characters or more, a digit among them, and not one key twice. */
function isNumber(text: string): boolean {
  return text.length >= 2 && /\d/.test(text) && new Set(text).size > 1;
}
