import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  blindTapTurns,
  blindThreadDrillDepth,
  tapLead,
  tapThroughTravel,
  threadRunOut,
  threadTurns,
} from '../../src/shop/blind-threads.ts';
import {
  judgePowerTapping,
  type TappingRun,
  tappingSpeed,
  tapRunOn,
  USUAL_STOPPING_TIME,
} from '../../src/shop/power-tapping.ts';
import { asMm, asRpm, asSeconds } from '../../src/shop/quantities.ts';
import { sureOf } from '../../src/shop/refusal.ts';
import { inchesToMm, mmToInches } from '../../src/shop/units.ts';
import leads from './fixtures/tap-leads.json' with { type: 'json' };
import runOut from './fixtures/thread-runout.json' with { type: 'json' };

const blind = (fullThread: number, pitch: number, leadThreads: number, clearance: number) => ({
  fullThread: asMm(fullThread),
  pitch: asMm(pitch),
  leadThreads,
  clearance: asMm(clearance),
});
const run = (over: Partial<TappingRun> = {}): TappingRun => ({
  speed: asRpm(90),
  pitch: asMm(1),
  reverse: 'after stopping',
  stoppingTime: asSeconds(1),
  runOutLeft: asMm(3),
  ...over,
});
const judge = (over: Partial<TappingRun> = {}) => sureOf(judgePowerTapping(run(over)));
const withoutRoom = ({ runOutLeft: _, ...rest }: TappingRun): TappingRun => rest;

describe('blind threads', () => {
  // DIN 76-1, e1 normal.
  it.each(runOut.rows.map((row) => [row.pitch_mm, row] as const))('pitch %f mm has its run-out', (pitch, row) => {
    expect(sureOf(threadRunOut(asMm(pitch)))).toBe(row.drill_beyond_full_thread_e1_mm);
    expect(row.drill_beyond_full_thread_e1_mm / pitch).toBeCloseTo(row.e1_in_pitches, 1);
  });
  it('a pitch between rows takes the larger, a pitch beyond them is refused', () => {
    expect(sureOf(threadRunOut(inchesToMm(1 / 32)))).toBe(4.2);
    for (const pitch of [0, -1, 3.5, Number.NaN]) expect(threadRunOut(asMm(pitch)).ok).toBe(false);
  });

  // DIN 2197; ANSI chamfers.
  it.each(leads.rows.map((row) => [row.tap, row] as const))('%s has its lead', (tap, row) => {
    const found = sureOf(tapLead(tap.replace('DIN 2197 ', '').replace(' (inch)', '')));
    expect(found.threads).toEqual([row.lead_low_threads, row.lead_high_threads]);
  });
  it('a form is found by its letter alone; an unknown one is refused', () => {
    expect(sureOf(tapLead('C')).form).toBe('form C');
    expect(tapLead('spiral').ok).toBe(false);
  });

  it('M8 with 16 mm of thread is drilled 22.2 mm by DIN 76-1', () => {
    expect(16 + sureOf(threadRunOut(asMm(1.25)))).toBeCloseTo(22.2, 9);
  });
  it('M6 with 12 mm of thread, 3 threads of lead and 1 mm below is drilled 16 mm', () => {
    expect(sureOf(blindThreadDrillDepth(blind(12, 1, 3, 1)))).toBe(16);
  });

  // Worked batch of our own: no. 8-32, plug tap of 5 threads, one thread of clearance.
  it('no. 8-32 with .375 in of thread is drilled .5625 in, stops at 17 turns and bottoms at 18', () => {
    const hole = blind(inchesToMm(0.375), inchesToMm(1 / 32), 5, inchesToMm(1 / 32));
    expect(mmToInches(sureOf(blindThreadDrillDepth(hole)))).toBeCloseTo(0.5625, 9);
    const turns = sureOf(blindTapTurns(hole));
    expect(turns.stopAt).toBeCloseTo(17, 9);
    expect(turns.bottomsAt).toBeCloseTo(18, 9);
  });
  it('12 mm of M6 is 12 turns; through 10 mm with a lead of 5 threads is 15 mm', () => {
    expect(sureOf(threadTurns(asMm(12), asMm(1)))).toBe(12);
    expect(sureOf(tapThroughTravel(asMm(10), asMm(1), 5))).toBe(15);
  });

  it('turns at the bottom are the drilled depth over the pitch, never fewer than where to stop', () => {
    const positive = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        positive(1, 50),
        positive(0.2, 5),
        positive(0, 10),
        positive(0, 10),
        (full, pitch, lead, clearance) => {
          const hole = blind(full, pitch, lead, clearance);
          const { stopAt, bottomsAt } = sureOf(blindTapTurns(hole));
          expect(sureOf(threadTurns(sureOf(blindThreadDrillDepth(hole)), asMm(pitch)))).toBeCloseTo(bottomsAt, 6);
          expect(bottomsAt).toBeGreaterThanOrEqual(stopAt);
        },
      ),
    );
  });

  it.each([
    [0, 1, 3, 1],
    [-5, 1, 3, 1],
    [12, 0, 3, 1],
    [12, 1, -1, 1],
    [12, 1, 3, -1],
    [Number.NaN, 1, 3, 1],
    [12, 1, Number.NaN, 1],
    [12, 1, 50, 1],
  ])('%f mm, pitch %f, lead %f, clearance %f is refused', (full, pitch, lead, clearance) => {
    expect(blindThreadDrillDepth(blind(full, pitch, lead, clearance)).ok).toBe(false);
    expect(blindTapTurns(blind(full, pitch, lead, clearance)).ok).toBe(false);
  });
  it('bad travel and thickness are refused', () => {
    expect(threadTurns(asMm(0), asMm(1)).ok).toBe(false);
    expect(threadTurns(asMm(5), asMm(0)).ok).toBe(false);
    expect(tapThroughTravel(asMm(-1), asMm(1), 3).ok).toBe(false);
    expect(tapThroughTravel(asMm(5), asMm(1), 99).ok).toBe(false);
  });
});

describe('tapping under power', () => {
  it('a tap runs on by speed x pitch / 60 x stopping time', () => {
    expect(sureOf(tapRunOn(asRpm(200), asMm(1), asSeconds(1.5)))).toBe(5);
  });

  it('fits when it runs on less than is left, else says the highest speed that would', () => {
    expect(judge()).toEqual({ kind: 'fits', runsOn: 1.5, left: 3 });
    const far = judge({ speed: asRpm(200), stoppingTime: asSeconds(1.5) });
    expect(far).toEqual({ kind: 'runs too far', runsOn: 5, left: 3, highestSpeed: 120 });
    expect(judge({ speed: asRpm(120), stoppingTime: asSeconds(1.5) }).kind).toBe('runs too far');
    expect(judge({ speed: asRpm(119), stoppingTime: asSeconds(1.5) }).kind).toBe('fits');
    expect(judge({ runOutLeft: asMm(0) })).toEqual({ kind: 'runs too far', runsOn: 1.5, left: 0 });
  });

  it('a through hole has room, and a spindle that reverses at once is reversed', () => {
    expect(sureOf(judgePowerTapping(withoutRoom(run())))).toEqual({ kind: 'fits', runsOn: 1.5 });
    expect(judge({ reverse: 'at once', speed: asRpm(500) })).toEqual({ kind: 'reverses at once' });
  });

  // Common practice: backed out by hand. Run-out of DIN 76-1 less the lead of a form C tap: 2.8 - 2.5 x 0.5 mm.
  it('M3 in brass at 170 rpm on a spindle that never reverses is sound, through or with the usual run-out', () => {
    const m3 = { speed: asRpm(170), pitch: asMm(0.5), reverse: 'never', stoppingTime: USUAL_STOPPING_TIME } as const;
    expect(sureOf(judgePowerTapping(m3)).kind).toBe('back out by hand');
    expect(sureOf(judgePowerTapping({ ...m3, runOutLeft: asMm(1.55) })).kind).toBe('back out by hand');
  });

  // Worked batch of our own: belt mill whose slowest speed is 200 rpm, one thread below the tap.
  it('no. 8-32 blind at 200 rpm on a spindle that never reverses is tapped by hand', () => {
    const pitch = inchesToMm(1 / 32);
    expect(judge({ speed: asRpm(200), pitch, reverse: 'never', runOutLeft: pitch }).kind).toBe('by hand');
    expect(sureOf(judgePowerTapping({ ...withoutRoom(run()), speed: asRpm(950), reverse: 'never' })).kind).toBe(
      'by hand',
    );
  });

  it('a slower spindle or a quicker stop never makes it worse', () => {
    const positive = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        positive(20, 2000),
        positive(0.2, 5),
        positive(0.1, 10),
        positive(0.1, 20),
        (speed, pitch, time, left) => {
          const given = {
            speed: asRpm(speed),
            pitch: asMm(pitch),
            stoppingTime: asSeconds(time),
            runOutLeft: asMm(left),
          };
          if (judge(given).kind === 'fits') {
            expect(judge({ ...given, speed: asRpm(speed / 2) }).kind).toBe('fits');
            expect(judge({ ...given, stoppingTime: asSeconds(time / 2) }).kind).toBe('fits');
          }
        },
      ),
    );
  });

  it.each([
    { speed: asRpm(0) },
    { speed: asRpm(1e9) },
    { pitch: asMm(0) },
    { pitch: asMm(Number.NaN) },
    { stoppingTime: asSeconds(-1) },
    { stoppingTime: asSeconds(0) },
    { stoppingTime: asSeconds(1e6) },
    { runOutLeft: asMm(-1) },
    { runOutLeft: asMm(Number.NaN) },
  ])('%o is refused', (over) => expect(judgePowerTapping(run(over)).ok).toBe(false));
  it('a bad run-on is refused', () => expect(tapRunOn(asRpm(-1), asMm(1), asSeconds(1)).ok).toBe(false));

  const speeds = { kind: 'steps', steps: [90, 150, 400].map(asRpm) } as const;
  it('the slowest speed is the one to tap at, unless the spindle reverses at once', () => {
    expect(sureOf(tappingSpeed(asRpm(1200), speeds, 'after stopping'))).toMatchObject({ rpm: 90, muchBelow: false });
    expect(sureOf(tappingSpeed(asRpm(1200), speeds, 'never'))).toMatchObject({ rpm: 90 });
    expect(sureOf(tappingSpeed(asRpm(1200), speeds, 'at once'))).toMatchObject({ rpm: 400 });
    expect(sureOf(tappingSpeed(asRpm(50), speeds, 'after stopping'))).toMatchObject({ kind: 'slowest-too-fast' });
    expect(tappingSpeed(asRpm(0), speeds, 'never').ok).toBe(false);
  });
});
