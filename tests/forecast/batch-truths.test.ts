import { describe, expect, it } from 'vitest';
import type { Batch } from '../../src/batch/state.ts';
import { forecastAskOf } from '../../src/forecast/batch-ask.ts';
import { followBatch } from '../../src/forecast/batch-forecast.ts';
import { hoursOf, openUntil } from '../../src/forecast/batch-hours.ts';
import { noPastWork, type PastWork, pastWorkFrom, plannedTotal } from '../../src/forecast/batch-job.ts';
import { closingTime } from '../../src/forecast/calendar.ts';
import { explainForecast } from '../../src/forecast/explain.ts';
import type { Lesson } from '../../src/forecast/history.ts';
import { groundLines, type Outlook, outlookAt, paceLines } from '../../src/forecast/outlook.ts';
import { type Supposition, supposeAt, supposedLines } from '../../src/forecast/suppose.ts';
import { instantAt, type Played, play } from '../batch/playing.ts';
import { aCut, aMachine, anOperation, aSetup, aTool, aVariant, samplePlan, somePoints } from '../batch/sample-plan.ts';

const drilling = { setup: 'V1', machine: 'mill', station: 'mill' as const, counting: 'point' as const };

/** Twenty plates: bench work, four holes on the mill, a slot on the same mill in another setup. */
const plan = samplePlan({
  variants: [aVariant('plate', 20)],
  machines: [aMachine('mill')],
  setups: [aSetup('V1', 'mill'), aSetup('V2', 'mill')],
  tools: [aTool('drill')],
  operations: [
    anOperation(10),
    anOperation(20, {
      ...drilling,
      kind: 'drill',
      cuts: [aCut('drill', null, { points: somePoints(4) })],
      estimate: { setup: 600, piece: 120, from: 'plan' },
    }),
    anOperation(30, { ...drilling, setup: 'V2', counting: 'piece', estimate: { setup: 600, piece: 90, from: 'plan' } }),
  ],
});

const follow = (batch: Batch, past: PastWork = noPastWork) => followBatch(null, batch, past);
const outlook = (played: Played, later = 0, past: PastWork = noPastWork): Outlook =>
  outlookAt(follow(played.batch(), past), played.batch(), instantAt(played.now() + later));
const median = (played: Played, later = 0): number => outlook(played, later).remaining_s.p50;

/** At the mill, its setup card up, bench work done. */
function atTheMill(): Played {
  const played = play(plan);
  played.count(20, 60);
  while (played.batch().cards[0]?.kind !== 'setup') played.pass();
  return played;
}

describe('a setup in the forecast', () => {
  it('runs while its cards are up and shrinks as they are worked through', () => {
    const played = atTheMill();
    expect(follow(played.batch()).forecast.operations[1]?.setup).toBe('running');
    const shrunk = median(played) - median(played, 300);
    expect(shrunk).toBeGreaterThan(200);
    expect(shrunk).toBeLessThan(320);
  });

  it('is done with the time its account holds, before and after the first load alike', () => {
    const played = atTheMill();
    played.pass({ kind: 'pass' }, 400);
    played.passAll();
    const reading = follow(played.batch()).forecast.operations[1]?.setupReading;
    expect(reading).not.toBeNull();
    for (let point = 0; point < 4; point += 1) played.act({ kind: 'count', quick: false }, 30);
    expect(follow(played.batch()).forecast.operations[1]?.setupReading?.value).toBeCloseTo(reading?.value ?? 0, 6);
  });

  it('is ahead again when other work has taken the machine', () => {
    const played = atTheMill();
    played.passAll();
    for (let point = 0; point < 8; point += 1) played.act({ kind: 'count', quick: false }, 30);
    const ahead = (): (boolean | undefined)[] =>
      forecastAskOf(played.batch(), instantAt(played.now())).left.map((entry) => entry.setupAhead);
    expect(ahead()).toEqual([false, false, true]);
    played.act({ kind: 'goTo', operation: 30, lane: '*' });
    played.passAll();
    played.act({ kind: 'count', quick: false }, 90);
    expect(ahead()).toEqual([false, true, false]);
  });
});

describe('the load in hand', () => {
  const begun = (): Played => {
    const played = atTheMill();
    played.passAll();
    for (let point = 0; point < 16; point += 1) played.act({ kind: 'count', quick: false }, 30);
    return played;
  };

  it('is shorter by the points that are done', () => {
    const played = begun();
    const before = median(played);
    played.act({ kind: 'count', quick: false }, 30);
    played.act({ kind: 'count', quick: false }, 30);
    // Two of four points of a piece of about 120 s.
    expect(before - median(played)).toBeGreaterThan(45);
    expect(before - median(played)).toBeLessThan(75);
  });

  it('moves from second to second without a jump, and never up while it is within its time', () => {
    const played = begun();
    const medians = Array.from({ length: 25 }, (_, second) => median(played, second));
    medians.slice(1).forEach((value, i) => {
      expect(value).toBeLessThanOrEqual((medians[i] ?? 0) + 1e-9);
      expect((medians[i] ?? 0) - value).toBeLessThan(3);
    });
  });

  it('stands still during a pause and after leaving', () => {
    for (const kind of ['pause', 'endSitting'] as const) {
      const played = begun();
      played.act(kind === 'pause' ? { kind, reason: null } : { kind, why: 'left' }, 20);
      expect(median(played, 3000)).toBeCloseTo(median(played), 6);
    }
  });

  it('grows again when it overruns by far', () => {
    const played = begun();
    expect(median(played, 1500)).toBeGreaterThan(median(played, 115));
  });
});

describe('counts in the forecast', () => {
  it('scrap found after the count raises the scrap that is reckoned with', () => {
    const played = play(plan);
    played.count(10, 60);
    const before = explainForecast(follow(played.batch()).forecast).scrapPerHundred;
    played.act({ kind: 'reject', place: null, pieces: 1, counted: true, reason: 'scored' });
    expect(explainForecast(follow(played.batch()).forecast).scrapPerHundred).toBeGreaterThan(before);
    played.act({ kind: 'takeBack' });
    expect(explainForecast(follow(played.batch()).forecast).scrapPerHundred).toBe(before);
  });

  it('a recount by hand moves what is left and times nothing', () => {
    const played = play(plan);
    played.count(5, 60);
    played.act({ kind: 'recount', good: 9, reason: 'made at the other bench' });
    expect(forecastAskOf(played.batch(), instantAt(played.now())).left[0]?.pieces).toBe(11);
    expect(explainForecast(follow(played.batch()).forecast).loadsTimed).toBe(5);
  });

  it('rework comes back to be made again', () => {
    const played = atTheMill();
    const before = forecastAskOf(played.batch(), instantAt(played.now())).left[0]?.pieces ?? 0;
    played.act({ kind: 'rework', to: 10, pieces: 2, reason: 'burr' });
    expect(forecastAskOf(played.batch(), instantAt(played.now())).left[0]?.pieces).toBe(before + 2);
  });

  it('one piece more takes longer, and as long as it was supposed to', () => {
    const played = play(plan);
    played.count(10, 60);
    const followed = follow(played.batch());
    const now = instantAt(played.now() + 1);
    const supposed = supposeAt(followed, played.batch(), outlook(played, 1), { now, question: { more: 4 } });
    played.act({ kind: 'makeMore', pieces: 4, lane: '*', reason: 'for stock' });
    const after = outlook(played);
    expect(Math.abs(supposed.outlook.remaining_s.p50 / after.remaining_s.p50 - 1)).toBeLessThan(0.02);
  });

  it('a night on which nobody pressed pause is no work', () => {
    const played = play(plan);
    played.passAll();
    const open = { week: { mon: [['08:00', '17:00']], tue: [['08:00', '17:00']] }, daysOff: [], changes: [] };
    played.act({ kind: 'changeHours', hours: open as never });
    played.count(10, 60);
    const before = explainForecast(follow(played.batch()).forecast);
    // From shortly after nine on Monday to half past eight on Tuesday.
    played.count(1, 23 * 3600);
    const after = explainForecast(follow(played.batch()).forecast);
    expect(after.loadsTimed).toBe(11);
    expect(after.interruption_s).toBeLessThan(before.interruption_s + 8 * 3600);
  });

  it('time away is left out and said', () => {
    const away = samplePlan({
      operations: [
        anOperation(10),
        anOperation(20, { title: 'Plate', kind: 'away', away: { to: 'the plater', changes: [] } }),
        anOperation(30),
      ],
    });
    const played = play(away);
    played.count(1, 60);
    expect(outlook(played).away).toEqual([{ operation: 20, to: 'the plater', days: null, since_ms: null }]);
    expect(paceLines(outlook(played), instantAt(played.now()))[1]).toContain('and the time away');
    expect(forecastAskOf(played.batch(), instantAt(played.now())).left[1]).toEqual({ pieces: 0, setupAhead: false });
    expect(plannedTotal(played.batch())).toBe(2 * 3 * 60);
  });
});

describe('past batches in the forecast', () => {
  const lesson: Lesson = {
    cycleFactor: 0.4,
    setupFactor: 0.1,
    interruptions: 2,
    benchHours: 10,
    interruption_s: 600,
    hiccups: 1,
    loads: 100,
    bandMisses: [],
    operations: [{ kind: 'drill', tool: 'drill', material: 'mild steel', planned_s: 100, actual_s: 300, loads: 50 }],
  };
  const past = pastWorkFrom([lesson, lesson, lesson, lesson]);

  it('move it and are named with their number', () => {
    const played = play(plan);
    expect(outlook(played, 0, past).remaining_s.p50).toBeGreaterThan(1.1 * outlook(played).remaining_s.p50);
    const followed = follow(played.batch(), past);
    const lines = groundLines(followed, outlook(played, 0, past), instantAt(played.now())).join('\n');
    expect(lines).toContain('4 past batches taken in, with a weight of 50 %.');
    // ln(300/100) - 0.4 = 0.70; half of it: 120 s x exp(0.35) = 170 s.
    expect(lines).toContain(
      'Operation 20: 2 min 50 s a piece where the plan says 2 min, from 4 past batches (same kind, tool and material).',
    );
  });
});

describe('shop hours and what if', () => {
  const evenings = { week: { mon: [['08:00', '11:00']] }, daysOff: [], changes: [] };
  const opened = (): Played => {
    const played = play(plan);
    played.act({ kind: 'changeHours', hours: evenings as never });
    played.count(10, 60);
    return played;
  };

  it('"tonight until 22:30" is a command of its own and moves today alone', () => {
    const played = opened();
    const now_ms = instantAt(played.now()).wall_ms;
    const closes = (): number => (closingTime(hoursOf(played.batch()), now_ms) ?? 0) - now_ms;
    const before = closes();
    played.act(openUntil(played.batch(), now_ms, 12 * 60 + 30));
    expect(closes() - before).toBe(90 * 60_000);
    expect(hoursOf(played.batch()).week.mon).toEqual([['08:00', '11:00']]);
  });

  it('a shop without hours can be given an end for today', () => {
    const played = play(plan);
    const now_ms = instantAt(0).wall_ms;
    played.act(openUntil(played.batch(), now_ms, 12 * 60));
    expect(closingTime(hoursOf(played.batch()), now_ms)).toBe(now_ms + 3 * 3_600_000);
  });

  const ask = (played: Played, question: Supposition) => {
    const now = instantAt(played.now());
    const followed = follow(played.batch());
    const supposed = supposeAt(followed, played.batch(), outlook(played), { now, question });
    return { supposed, lines: supposedLines(followed, supposed, now) };
  };

  it('stopping earlier puts the finish off, never forward, and says how many more by then', () => {
    const played = opened();
    const early = ask(played, { until: '09:30' });
    expect(early.supposed.outlook.batch?.p50_ms ?? 0).toBeGreaterThan(outlook(played).batch?.p50_ms ?? 0);
    expect(early.supposed.doneBy?.high).toBeLessThanOrEqual(10);
    expect(early.lines[0]).toMatch(
      /^by 09:30: \d+( to \d+)? more of this operation; the whole batch with under 1 % chance$/,
    );
    const late = ask(played, { until: '16:00' });
    expect(late.supposed.doneBy?.batchChance).toBeGreaterThan(early.supposed.doneBy?.batchChance ?? 1);
  });

  it('a text that is no time of day is a bug of the caller', () => {
    expect(() => ask(opened(), { until: 'late' })).toThrow('no time of day');
  });
});
