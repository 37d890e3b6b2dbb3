/**
 * Stands between a press and what it does. Pure: the monotonic time of each press is an argument.
 *
 * P6: one press is one piece at most. A count is passed only when no count or card press came within the guard before
 * it, and every suppressed press starts the guard anew, so that a key held for minutes, a bouncing pedal or a burst
 * counts once. A card takes no key for 400 ms after it appears and never one that is being held. What passes a
 * card within 2 s of its appearing is hasty (recorded as not proved); what counts within 40 % of the usual piece time
 * is quick (counted, marked, take back offered). A guard of 0 turns count guard, card guard and quick marks off: for a
 * program that drives this one, never for a person.
 */

/** `guardMs` from 0 (off) up; see `defaultGuardMs`. */
export type GuardSettings = { readonly guardMs: number };

/** Longest first repeat of a held key is 1000 ms (the slowest console setting); 1200 ms outlasts it. */
export const defaultGuardMs = 1200;

/** What the guard remembers; start from `restingGuard` and pass on what each function returns. */
export type Guard = {
  /** Last press that was meant to count or to answer a card, passed or suppressed. */
  readonly pressedMs: number;
  /** Last press of all that came here, and its key. */
  readonly lastKey: string;
  readonly lastKeyMs: number;
  readonly countedMs: number | undefined;
  readonly cardMs: number;
};

/** A press: its key (see `keyId`), its monotonic time, and for counts the usual time of a piece if one is known. */
export type Press = { readonly key: string; readonly atMs: number; readonly usualMs?: number };

export type Verdict =
  | { readonly kind: 'pass' }
  /** Counted, `afterMs` from the count before: mark it and offer to take it back. */
  | { readonly kind: 'quick'; readonly afterMs: number }
  /** The card is passed, but read in `afterMs`: record it as not proved. */
  | { readonly kind: 'hasty'; readonly afterMs: number }
  /** Not passed; a press after `waitMs` of rest would be. */
  | { readonly kind: 'suppressed'; readonly why: 'held' | 'too soon' | 'card is new'; readonly waitMs: number };

export type Guarded = { readonly guard: Guard; readonly verdict: Verdict };

const longAgo = Number.NEGATIVE_INFINITY;

/** Before the first press. */
export const restingGuard: Guard = {
  pressedMs: longAgo,
  lastKey: '',
  lastKeyMs: longAgo,
  countedMs: undefined,
  cardMs: longAgo,
};

const QUICK_SHARE = 0.4;
const CARD_DEAF_MS = 400;
const CARD_HASTY_MS = 2000;

/** Says that a card has appeared at `atMs`. */
export function cardAppeared(guard: Guard, atMs: number): Guard {
  return { ...guard, cardMs: atMs };
}

/**
 * Judges a press that would count a piece, a load or a point.
 * Example with 1200 ms: presses at 0, 700, 1500 and 2700 ms give pass, suppressed, suppressed, pass.
 */
export function guardCount(guard: Guard, settings: GuardSettings, press: Press): Guarded {
  const afterMs = press.atMs - guard.pressedMs;
  const next = pressed(guard, press);
  if (afterMs < settings.guardMs) {
    const why = press.key === guard.lastKey ? 'held' : 'too soon';
    return { guard: next, verdict: { kind: 'suppressed', why, waitMs: settings.guardMs } };
  }
  const sinceCount = guard.countedMs === undefined ? Number.POSITIVE_INFINITY : press.atMs - guard.countedMs;
  const isQuick = settings.guardMs > 0 && press.usualMs !== undefined && sinceCount < press.usualMs * QUICK_SHARE;
  return {
    guard: { ...next, countedMs: press.atMs },
    verdict: isQuick ? { kind: 'quick', afterMs: sinceCount } : { kind: 'pass' },
  };
}

/**
 * Judges a press that would answer or pass a card. The same key must have rested for the guard's time (1200 ms for a
 * person, outlasting every held key); another key only has to come 400 ms after the card.
 * Example: a card at 0; Enter at 300 suppressed, Enter at 1700 hasty, another card at 1800, Enter at 4000 passes.
 */
export function guardCard(guard: Guard, settings: GuardSettings, press: Press): Guarded {
  const afterMs = press.atMs - guard.cardMs;
  const next = pressed(guard, press);
  const restMs = settings.guardMs;
  if (isHeld(guard, press, restMs)) {
    return { guard: next, verdict: { kind: 'suppressed', why: 'held', waitMs: restMs } };
  }
  if (afterMs < Math.min(CARD_DEAF_MS, restMs)) {
    return { guard: next, verdict: { kind: 'suppressed', why: 'card is new', waitMs: restMs } };
  }
  return { guard: next, verdict: afterMs < CARD_HASTY_MS ? { kind: 'hasty', afterMs } : { kind: 'pass' } };
}

/**
 * Judges a press of any other key that does something (take back, reject, pause, next operation): held down it acts
 * once. Keys that only look or type a value need no guard.
 */
export function guardAct(guard: Guard, settings: GuardSettings, press: Press): Guarded {
  const next = { ...guard, lastKey: press.key, lastKeyMs: press.atMs };
  if (isHeld(guard, press, settings.guardMs)) {
    return { guard: next, verdict: { kind: 'suppressed', why: 'held', waitMs: settings.guardMs } };
  }
  return { guard: next, verdict: { kind: 'pass' } };
}

function isHeld(guard: Guard, press: Press, restMs: number): boolean {
  return press.key === guard.lastKey && press.atMs - guard.lastKeyMs < restMs;
}

function pressed(guard: Guard, press: Press): Guard {
  return { ...guard, pressedMs: press.atMs, lastKey: press.key, lastKeyMs: press.atMs };
}
