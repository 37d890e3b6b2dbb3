import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  cardAppeared,
  defaultGuardMs,
  type Guard,
  guardAct,
  guardCard,
  guardCount,
  restingGuard,
  type Verdict,
} from '../../src/sitting/guard.ts';

const settings = { guardMs: defaultGuardMs };

/** Runs presses of one key through the count guard and gives what became of each. */
function counts(times: readonly number[], usualMs?: number, guardMs = defaultGuardMs): Verdict['kind'][] {
  let guard: Guard = restingGuard;
  return times.map((atMs) => {
    const judged = guardCount(
      guard,
      { guardMs },
      { key: 'enter', atMs, ...(usualMs === undefined ? {} : { usualMs }) },
    );
    guard = judged.guard;
    return judged.verdict.kind;
  });
}

const passed = (kinds: readonly string[]): number => kinds.filter((kind) => kind !== 'suppressed').length;

/** What a key held for `heldMs` sends: the press, the first repeat after `delayMs`, then one each `everyMs`. */
function held(heldMs: number, delayMs: number, everyMs: number): number[] {
  const times = [0];
  for (let at = delayMs; at <= heldMs; at += everyMs) times.push(at);
  return times;
}

/**
 * Auto-repeat of keyboards, delay and interval in ms: console 250 at 30 a second, X servers 660 at 25 and 500 at 30,
 * fastest and slowest of the kernel's table (250 to 1000 ms; 30 to 2 a second).
 */
const repeats = [
  [250, 33],
  [250, 91],
  [500, 33],
  [660, 40],
  [660, 91],
  [750, 100],
  [1000, 33],
  [1000, 500],
] as const;

describe('[P6] the guard before a count', () => {
  it.each(repeats)(
    'a pedal held for 4 s, for a minute, with delay %i and repeat every %i ms counts once',
    (delay, every) => {
      expect(passed(counts(held(4000, delay, every)))).toBe(1);
      expect(passed(counts(held(60_000, delay, every)))).toBe(1);
    },
  );

  it.each(repeats)('held twice with a rest of 1.3 s between counts twice (%i, %i)', (delay, every) => {
    const first = held(3000, delay, every);
    const second = held(3000, delay, every).map((at) => at + (first.at(-1) ?? 0) + 1300);
    expect(passed(counts([...first, ...second]))).toBe(2);
  });

  it('a bouncing contact counts once', () => {
    expect(counts([0, 3, 5, 9, 14])).toEqual(['pass', 'suppressed', 'suppressed', 'suppressed', 'suppressed']);
  });

  it('every suppressed press starts the guard anew', () => {
    expect(counts([0, 700, 1500, 2700])).toEqual(['pass', 'suppressed', 'suppressed', 'pass']);
  });

  it('another count key within the guard is the same piece', () => {
    const first = guardCount(restingGuard, settings, { key: 'enter', atMs: 0 });
    const second = guardCount(first.guard, settings, { key: 'kp-plus', atMs: 300 });
    expect(second.verdict).toEqual({ kind: 'suppressed', why: 'too soon', waitMs: 1200 });
  });

  it('real presses further apart than the guard all count', () => {
    expect(counts([0, 1200, 2400, 60_000])).toEqual(['pass', 'pass', 'pass', 'pass']);
  });

  it('within 40 % of the usual piece time a press counts and is quick; from there on it is not', () => {
    expect(counts([0, 23_999, 47_999], 60_000)).toEqual(['pass', 'quick', 'pass']);
    expect(counts([0, 2000], 4000)).toEqual(['pass', 'pass']);
  });

  it('a guard of 0 turns guard and quick marks off', () => {
    expect(counts([0, 1, 2, 3], 60_000, 0)).toEqual(['pass', 'pass', 'pass', 'pass']);
  });

  it('a key that passed a card and is still held counts nothing', () => {
    let guard = guardCard(cardAppeared(restingGuard, 0), { guardMs: 1200 }, { key: 'enter', atMs: 5000 }).guard;
    for (const at of [5250, 5300, 5350, 6300]) {
      const judged = guardCount(guard, settings, { key: 'enter', atMs: at });
      guard = judged.guard;
      expect(judged.verdict.kind).toBe('suppressed');
    }
  });

  it('whatever the presses, two counts are never closer than the guard', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 3000 }), { maxLength: 40 }),
        fc.integer({ min: 1, max: 5000 }),
        (gaps, guardMs) => {
          let at = 0;
          const times = gaps.map((gap) => {
            at += gap;
            return at;
          });
          const kinds = counts(times, undefined, guardMs);
          const counted = times.filter((_, index) => kinds[index] !== 'suppressed');
          for (const [index, time] of counted.entries())
            if (index > 0) expect(time - (counted[index - 1] ?? 0)).toBeGreaterThanOrEqual(guardMs);
          if (times.length > 0) expect(kinds[0]).toBe('pass');
        },
      ),
    );
  });
});

describe('[P6] the guard before a card', () => {
  it('takes no key for 400 ms after it appears', () => {
    const guard = cardAppeared(restingGuard, 1000);
    expect(guardCard(guard, { guardMs: 1200 }, { key: 'enter', atMs: 1399 }).verdict.kind).toBe('suppressed');
    expect(guardCard(guard, { guardMs: 1200 }, { key: 'enter', atMs: 1400 }).verdict).toEqual({
      kind: 'hasty',
      afterMs: 400,
    });
  });

  it('passed within 2 s it is hasty, later it is passed', () => {
    const guard = cardAppeared(restingGuard, 0);
    expect(guardCard(guard, { guardMs: 1200 }, { key: 'enter', atMs: 1999 }).verdict).toEqual({
      kind: 'hasty',
      afterMs: 1999,
    });
    expect(guardCard(guard, { guardMs: 1200 }, { key: 'enter', atMs: 2000 }).verdict).toEqual({ kind: 'pass' });
  });

  it.each(repeats)('the key whose count brought the card passes nothing while it is held (%i, %i)', (delay, every) => {
    let guard = cardAppeared(guardCount(restingGuard, settings, { key: 'enter', atMs: 0 }).guard, 5);
    for (const atMs of held(20_000, delay, every).slice(1)) {
      const judged = guardCard(guard, { guardMs: 1200 }, { key: 'enter', atMs });
      guard = judged.guard;
      expect(judged.verdict).toEqual({ kind: 'suppressed', why: 'held', waitMs: 1200 });
    }
    expect(guardCard(guard, { guardMs: 1200 }, { key: 'enter', atMs: 22_000 }).verdict.kind).toBe('pass');
  });

  it('a guard of 0 passes every key at once', () => {
    const guard = guardCard(cardAppeared(restingGuard, 0), { guardMs: 0 }, { key: 'enter', atMs: 0 }).guard;
    expect(guardCard(cardAppeared(guard, 1), { guardMs: 0 }, { key: 'enter', atMs: 1 }).verdict.kind).toBe('hasty');
  });

  it('a guard that is set shorter holds for cards as for counts; a guard of 0 lets all pass', () => {
    const card = cardAppeared(guardCount(restingGuard, { guardMs: 300 }, { key: 'enter', atMs: 0 }).guard, 0);
    expect(guardCard(card, { guardMs: 300 }, { key: 'enter', atMs: 660 }).verdict.kind).toBe('hasty');
    expect(guardCard(card, { guardMs: 300 }, { key: 'enter', atMs: 200 }).verdict.kind).toBe('suppressed');
    expect(guardCard(card, { guardMs: 0 }, { key: 'enter', atMs: 1 }).verdict.kind).toBe('hasty');
  });

  it('another key may answer at once after the 400 ms', () => {
    const guard = cardAppeared(guardCount(restingGuard, settings, { key: 'f9', atMs: 0 }).guard, 0);
    expect(guardCard(guard, { guardMs: 1200 }, { key: 'enter', atMs: 500 }).verdict.kind).toBe('hasty');
  });
});

describe('the guard before other acts', () => {
  it('a held take back takes back once, another key is free', () => {
    let guard = guardAct(restingGuard, settings, { key: 'kp-minus', atMs: 0 }).guard;
    for (const atMs of held(5000, 500, 33).slice(1)) {
      const judged = guardAct(guard, settings, { key: 'kp-minus', atMs });
      guard = judged.guard;
      expect(judged.verdict.kind).toBe('suppressed');
    }
    expect(guardAct(guard, settings, { key: 'p', atMs: 5001 }).verdict.kind).toBe('pass');
  });
});
