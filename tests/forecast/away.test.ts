import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Batch } from '../../src/batch/state.ts';
import { backWords, finishesOf } from '../../src/forecast/away.ts';
import { followBatch } from '../../src/forecast/batch-forecast.ts';
import { civilText, daysLater, finishTimes, instantOf } from '../../src/forecast/calendar.ts';
import { byTime, groundLines, outlookAt, paceLines } from '../../src/forecast/outlook.ts';
import type { ShopHours } from '../../src/forecast/shop-hours.ts';
import { supposeAt, supposedLines } from '../../src/forecast/suppose.ts';
import type { ResolvedOperation } from '../../src/plan/resolved.ts';
import { instantAt, type Played, play } from '../batch/playing.ts';
import { anOperation, aVariant, samplePlan } from '../batch/sample-plan.ts';

const zone = 'Europe/Berlin';
const evening: [string, string] = ['18:30', '21:30'];
const hours: ShopHours = {
  zone,
  week: Object.fromEntries(['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'].map((day) => [day, [evening]])),
};
const friday = instantOf(zone, '2027-03-05T19:00:00');

const plating = (days: number | null): ResolvedOperation =>
  anOperation(20, {
    title: 'Plate',
    kind: 'away',
    away: days === null ? { to: 'the plater', changes: [] } : { to: 'the plater', changes: [], days },
  });
const platedPlan = (days: number | null) =>
  samplePlan({ variants: [aVariant('plate', 4)], operations: [anOperation(10), plating(days), anOperation(30)] });

/** The end of two hours before and half an hour behind the plater, from Friday 19:00. */
function endOf(batch: Batch): string {
  const [end] = finishesOf(batch, [7200, 0, 1800], { hours, now_ms: friday, work_s: [9000] });
  return civilText(zone, end ?? 0);
}

describe('the calendar', () => {
  it('goes to the same time of day so many days on, over the change of the clocks too', () => {
    const said = (from: string, days: number) => civilText(zone, daysLater(zone, instantOf(zone, from), days));
    expect(said('2027-03-05T21:00:00', 5)).toBe('2027-03-10T21:00:00');
    // Summer time begins on 28 March 2027.
    expect(said('2027-03-26T21:00:00', 5)).toBe('2027-03-31T21:00:00');
    expect(said('2027-12-30T07:15:00', 5)).toBe('2028-01-04T07:15:00');
    expect(said('2027-03-05T21:00:00', 0)).toBe('2027-03-05T21:00:00');
  });
});

describe('what is said to whoever sends pieces away', () => {
  const said = (days: number | undefined, sent: string, now = sent) =>
    backWords(zone, days, instantOf(zone, sent), instantOf(zone, now));

  it('is how long, and on which day they are back; nothing without days', () => {
    // 28 November 2026 is a Saturday.
    expect(said(5, '2026-11-28T19:00:00')).toBe('5 days, back about Thu 3 Dec');
    expect(said(1, '2026-11-28T19:00:00')).toBe('1 day, back about Sun 29 Nov');
    expect(said(5, '2026-12-30T19:00:00')).toBe('5 days, back about Mon 4 Jan 2027');
    expect(said(undefined, '2026-11-28T19:00:00')).toBe('');
  });

  it('stays the same day however long one waits', () => {
    expect(said(5, '2026-11-28T19:00:00', '2026-12-02T19:00:00')).toBe('5 days, back about Thu 3 Dec');
  });
});

describe('days away', () => {
  it('are waited for: out on Friday at nine, back on Wednesday at nine, half an hour more', () => {
    expect(endOf(play(platedPlan(5)).batch())).toBe('2027-03-10T21:30:00');
  });

  it('are in no finish where the plan gives none', () => {
    expect(endOf(play(platedPlan(null)).batch())).toBe(
      civilText(zone, finishTimes(hours, friday, [9000])[0] ?? Number.NaN),
    );
  });

  it('leave time for the other variant, which is made meanwhile', () => {
    const only = (number: number, variant: string, more: Partial<ResolvedOperation> = {}) =>
      anOperation(number, { variants: [variant], ...more });
    const away: Partial<ResolvedOperation> = { kind: 'away', away: { to: 'the plater', changes: [], days: 5 } };
    const plan = samplePlan({
      variants: [aVariant('zinc', 2), aVariant('bright', 2)],
      operations: [only(10, 'zinc'), only(20, 'zinc', away), only(30, 'zinc'), only(40, 'bright')],
    });
    const batch = play(plan).batch();
    // Two hours, then five days in which an hour for the bright ones finds its place, then half an hour.
    const [end] = finishesOf(batch, [7200, 0, 1800, 3600], { hours, now_ms: friday, work_s: [12_600] });
    expect(civilText(zone, end ?? 0)).toBe('2027-03-10T21:30:00');
    // Twenty hours for them take seven evenings: they end last, and the plated ones are taken when they are back.
    const [long] = finishesOf(batch, [7200, 0, 1800, 72_000], { hours, now_ms: friday, work_s: [81_000] });
    expect(long).toBe(finishTimes(hours, friday, [81_000])[0]);
  });

  it('run from when the last pieces went, and one that is overdue is taken as back now', () => {
    const played = play(platedPlan(5));
    played.count(4, 60);
    sendAway(played);
    const sent = played.batch().cells[1]?.outSince?.wall_ms ?? Number.NaN;
    const now_ms = sent + 2 * 86_400_000;
    const open: ShopHours = { zone, week: { ...hours.week, sat: [['00:00', '24:00']], mon: [['00:00', '24:00']] } };
    const at = (now: number) =>
      finishesOf(played.batch(), [0, 0, 60], { hours: open, now_ms: now, work_s: [60] })[0] ?? Number.NaN;
    // Sent on a Monday morning: back on Saturday at that time, and done a minute later.
    expect(at(now_ms)).toBe(daysLater(zone, sent, 5) + 60_000);
    const overdue = sent + 7 * 86_400_000;
    expect(at(overdue)).toBe(overdue + 60_000);
    played.act({ kind: 'takeBack' });
    expect(played.batch().cells[1]).toMatchObject({ out: 0, outSince: null });
  });

  it('are said beside the finish and on the page of its grounds, in what-if too', () => {
    const played = play(platedPlan(5));
    const now = instantAt(played.now());
    const followed = followBatch(null, played.batch());
    const outlook = outlookAt(followed, played.batch(), now);
    expect(paceLines(outlook, now)[1]).toMatch(/ with 5 days away$/);
    expect(groundLines(followed, outlook, now)).toContain('Operation 20: 5 days at the plater, as given in the plan.');
    expect(byTime(followed, outlook, now, now.wall_ms + 3_600_000)).not.toContain('chance');
    const supposed = supposeAt(followed, played.batch(), outlook, { now, question: { more: 3 } });
    expect(supposedLines(followed, supposed, now).at(-1)).toMatch(/ with 5 days away$/);
    const unknown = outlookAt(followBatch(null, play(platedPlan(null)).batch()), play(platedPlan(null)).batch(), now);
    expect((outlook.batch?.p50_ms ?? 0) - (unknown.batch?.p50_ms ?? 0)).toBeGreaterThanOrEqual(4 * 86_400_000);
  });

  it('keep a band in its order and never end before the work alone', () => {
    const batch = play(platedPlan(5)).batch();
    const work = fc.tuple(fc.nat(80_000), fc.nat(80_000), fc.nat(80_000));
    fc.assert(
      fc.property(
        fc.tuple(fc.nat(9000), fc.constant(0), fc.nat(9000)),
        work,
        fc.nat(604_800),
        (means, given, later) => {
          const work_s = [...given].sort((a, b) => a - b);
          const now_ms = friday + later * 1000;
          const ends = finishesOf(batch, means, { hours, now_ms, work_s }).map((end) => end ?? Number.NaN);
          expect([...ends].sort((a, b) => a - b)).toEqual(ends);
          finishTimes(hours, now_ms, work_s).forEach((alone, i) => {
            expect(ends[i]).toBeGreaterThanOrEqual(means[0] + means[2] > 0 ? (alone ?? 0) : now_ms);
          });
        },
      ),
    );
  });
});

/** Passes cards until the one that sends pieces out is answered. */
function sendAway(played: Played): void {
  for (let card = 0; card < 20 && (played.batch().cells[1]?.out ?? 0) === 0; card += 1) played.pass();
}
