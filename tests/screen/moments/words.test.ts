import { describe, expect, it } from 'vitest';
import type { AxisReading } from '../../../src/plan/resolved.ts';
import { backOutBrief, backOutWords } from '../../../src/screen/moments/back-out.ts';
import { cardFace } from '../../../src/screen/moments/card-panel.ts';
import { windBrief, windWords } from '../../../src/screen/moments/dial-words.ts';
import { placeForms } from '../../../src/screen/moments/place-names.ts';
import { asMm } from '../../../src/shop/quantities.ts';
import { play } from '../../batch/playing.ts';
import { aCheck, aCut, aMachine, anOperation, aVariant, samplePlan, twoVariantPlan } from '../../batch/sample-plan.ts';

const inch = 25.4;
const yDial: AxisReading = {
  kind: 'dial',
  perTurn: asMm(0.2 * inch),
  divisions: 200,
  clockwiseCounts: 'up',
  clockwiseMoves: '-',
  backlash: asMm(0.008 * inch),
};

describe('winding a dial', () => {
  // The example of shop/dials.ts: Y dial counting up towards the user, .200 in a turn, touched moving away from the user.
  it('goes past on the wrong side, with the way the handle turns and how far', () => {
    // From 1 + 50 to 6 + 100 are 5 turns and 50 divisions.
    expect(windWords('Y', asMm(-0.25 * inch), asMm(-1.25 * inch), yDial, '+')).toBe(
      'Y: clockwise 5 + 50, past to 6 + 100, then anticlockwise back to 6 + 50',
    );
  });

  it('goes straight on the right side, and stays where it stands', () => {
    expect(windWords('Y', asMm(-1.25 * inch), asMm(-0.25 * inch), yDial, '+')).toBe('Y: anticlockwise 5 + 0 to 1 + 50');
    expect(windWords('Y', asMm(-0.25 * inch), asMm(-0.25 * inch), yDial, '+')).toBe('Y stays at 1 + 50');
  });

  it('from a place that nobody knows it says how the reading is come to, which holds on either side of it', () => {
    expect(windWords('Y', null, asMm(-1.25 * inch), yDial, '+')).toBe(
      'Y: come anticlockwise to 6 + 50, from 6 + 100 or beyond',
    );
    expect(windBrief(true, 'Y', null, asMm(-1.25 * inch), yDial, '+')).toBe('Y acw from 100');
    // Set by an indicator, no side of approach is known.
    expect(windWords('Y', null, asMm(-1.25 * inch), yDial, null)).toBeNull();
    expect(windBrief(true, 'Y', null, asMm(0.125 * inch), yDial, '+')).toBe('Y acw from 125 to scale 75');
  });

  it('is said in the fewest words where there is no room: which way, and what the scale shows where it turns back', () => {
    expect(windBrief(false, 'Y', asMm(-0.25 * inch), asMm(-1.25 * inch), yDial, '+')).toBe('Y cw past 100');
    expect(windBrief(true, 'Y', asMm(-0.25 * inch), asMm(-1.25 * inch), yDial, '+')).toBe('Y cw 5+50 past 100');
    expect(windBrief(false, 'Y', asMm(-1.25 * inch), asMm(-0.25 * inch), yDial, '+')).toBe('Y acw');
    expect(windBrief(true, 'Y', asMm(-0.25 * inch), asMm(-0.25 * inch), yDial, '+')).toBe('Y stays');
  });

  it('below zero is said with what the scale shows, where the large number counts from zero', () => {
    // .125 in on the far side of the jaw: 125 divisions below zero, the scale at 200 - 125.
    expect(windBrief(false, 'Y', asMm(-0.25 * inch), asMm(0.125 * inch), yDial, '+')).toBe('Y acw to scale 75');
  });

  it('says nothing of a readout', () => {
    expect(windWords('X', asMm(0), asMm(5), { kind: 'readout', resolution: asMm(0.01) }, '+')).toBeNull();
  });
});

describe('backing out a tap', () => {
  const plan = samplePlan();
  const cut = aCut('tap', 80, {
    thread: { name: 'M6', pitch: 1, tapDrill: 5, turns: null, byHand: false, fullThread: null },
  });

  // 80 rpm x 1 mm / 60 x 2 s = 2.67 mm.
  it.each([
    ['at once', 'To back out: reverse at the depth.'],
    ['after stopping', 'To back out: stop, let the spindle come to rest, then reverse; it runs on by up to 2.67 mm.'],
    ['never', 'This spindle never reverses: stop short; it runs on by up to 2.67 mm, then turn it back by hand.'],
  ] as const)('on a spindle that reverses %s', (reverse, words) => {
    expect(backOutWords(plan, aMachine('mill', { reverse, stoppingTime: 2 }), cut)).toBe(words);
  });

  it.each([
    ['at once', 'TAP: reverse at the depth'],
    ['after stopping', 'TAP: stop first, then reverse'],
    ['never', 'TAP: stop short, it never reverses'],
  ] as const)('is said in one line where nothing else has room: %s', (reverse, words) => {
    expect(backOutBrief(aMachine('mill', { reverse }), cut)).toBe(words);
    expect(backOutBrief(aMachine('mill', { reverse }), aCut('drill', 80))).toBe('');
  });

  it('by hand', () => {
    expect(backOutWords(plan, undefined, cut)).toContain('turn the wrench back');
  });
});

it('a place is said in fewer and fewer words', () => {
  const plan = twoVariantPlan({ threaded: 1, clearance: 1 });
  expect(placeForms(plan, 10, '*')).toEqual(['Op 10']);
  expect(placeForms(plan, 30, 'threaded')).toEqual(['Op 30 THREADED', '30 THREADED']);
});

describe('a check that wanders', () => {
  it('shows the last values, where they drift, and what the control rule says', () => {
    const played = play(
      samplePlan({
        variants: [aVariant('plate', 20)],
        operations: [anOperation(10, { checks: [aCheck('length', { every: 1 })] })],
      }),
    );
    for (const value of [2.98, 2.99, 3.0, 3.02, 3.03]) {
      played.act({ kind: 'count', quick: false }, 30);
      played.pass({ kind: 'value', value });
    }
    played.act({ kind: 'count', quick: false }, 30);
    const batch = played.batch();
    const card = batch.cards[0];
    if (card === undefined) throw new Error('no check is due');
    const { facts } = cardFace(card, { batch, typed: '', ascii: false, warnings: [], endLine: '', now: batch.last });
    expect(facts).toContain('Last values, newest last: 2.98  2.99  3.00  3.02  3.03');
    expect(facts.join(' ')).toMatch(/DRIFTS toward 3\.05: there at about piece \d+/);
    expect(facts).toContain('Trend rule: 5 in a row going up; chance alone does that once in 60.');
  });
});

describe('the setup card', () => {
  it('says what the checks of the plan warn of', () => {
    const played = play(twoVariantPlan({ threaded: 1, clearance: 1 }));
    for (let i = 0; i < 20 && played.batch().cards[0]?.kind !== 'setup'; i += 1) {
      if (played.batch().cards.length > 0) played.pass();
      else played.act({ kind: 'count', quick: false });
    }
    const batch = played.batch();
    const card = batch.cards[0];
    if (card === undefined) throw new Error('no setup');
    const face = cardFace(card, {
      batch,
      typed: '',
      ascii: false,
      warnings: ['grip of 3 mm is shallow'],
      endLine: '',
      now: batch.last,
    });
    expect(face.facts).toContain('Look out: grip of 3 mm is shallow');
    expect(face.cautions.length).toBeLessThanOrEqual(3);
    expect(face.cautions.length).toBeGreaterThan(0);
  });
});
