// Cards and work by whose numbers metal would be scrapped: what is biggest on them, and what they say to do.
import { describe, expect, it } from 'vitest';
import type { Batch } from '../../../src/batch/state.ts';
import type { Panel } from '../../../src/screen/panel/panel.ts';
import { type Played, play } from '../../batch/playing.ts';
import { proved, textOf } from '../../plan/plan-samples.ts';
import { panelOf } from '../frames/draw-frame.ts';

/** Plays a bundled job with Enter alone until the batch stands at an operation as asked. */
function standAt(job: string, operation: number, is: (batch: Batch) => boolean): Played {
  const played = play(proved(textOf(`jobs/${job}.yaml`)).resolved);
  for (let keys = 0; keys < 6000 && played.batch().kind === 'open'; keys += 1) {
    const batch = played.batch();
    const here = batch.current === null ? undefined : batch.cells[batch.current]?.operation;
    if (here === operation && is(batch)) return played;
    if (batch.cards.length > 0) played.pass();
    else played.act({ kind: 'count', quick: false }, 20);
  }
  throw new Error(`never at operation ${operation} so`);
}

const shown = (played: Played): Panel => panelOf({ state: played.state() });
const cardAt = (job: string, operation: number, kind: string): Panel =>
  shown(standAt(job, operation, (batch) => batch.cards[0]?.kind === kind));
const workAt = (job: string, operation: number, stop = 0): Panel =>
  shown(
    standAt(
      job,
      operation,
      ({ cards, current, cells }) => cards.length === 0 && cells[current ?? -1]?.load.stop === stop,
    ),
  );
const biggest = ({ readings }: Panel) =>
  readings.filter((one) => one.rank === 'main').map((one) => `${one.label} ${one.text}`);

describe('the Z zero', () => {
  it('shows the value to set largest on a readout', () => {
    expect(biggest(cardAt('keeper-plates', 60, 'z zero'))).toEqual(['Z +0.05']);
  });

  // latch-bars: the knee counts up as the tool goes down, 100 divisions of .001 in: .002 above zero the scale shows 98.
  it('shows what the scale of a dial shows, which counts the other way', () => {
    const panel = cardAt('latch-bars', 30, 'z zero');
    expect(biggest(panel)).toEqual(['Z 98']);
    expect(panel.facts).toContain('Then set Z to top of the part .000 + feeler .002 = +.002; the dial then reads 98.');
    expect(panel.facts).toContain('Prove the sign: lower the knee (anticlockwise): the dial must count down.');
  });

  // hinge-blocks 70: 22 thick, to 21, target -1: what measures 21.30 stands 0.30 above the target, at -0.70.
  it('writes the sum of a skimmed face, which agrees with the target that comes next', () => {
    const panel = cardAt('hinge-blocks', 70, 'z zero');
    expect(biggest(panel)).toEqual(['Z -1.00']);
    expect(panel.facts).toContain(
      'Set Z to what it measures less 22.00 mm: 21.00 mm gives -1.00, 21.30 mm gives -0.70.',
    );
    expect(biggest(workAt('hinge-blocks', 70))).toEqual(['Z -1.00']);
  });
});

describe('the zero of X and Y', () => {
  const proofOf = (job: string, operation: number, axis: 'x' | 'y') => {
    const played = standAt(job, operation, ({ cards: [card] }) => card?.kind === 'zero' && card.axis === axis);
    return shown(played).facts.find((fact) => fact.startsWith('Prove the sign'));
  };

  // Fixed jaws at the rear; the stop of hinge-blocks "bottom" is on the right; latch-bars Y: clockwise towards, counts up.
  it.each([
    ['keeper-plates', 60, 'x', 'wind it right: X must grow.'],
    ['keeper-plates', 60, 'y', 'wind it towards you: Y must fall.'],
    ['hinge-blocks', 130, 'x', 'wind it left: X must fall.'],
    ['latch-bars', 70, 'y', 'wind it towards you (clockwise): Y falls, the dial must count up.'],
  ] as const)('%s %i %s is proved off the face that was touched', (job, operation, axis, words) => {
    expect(proofOf(job, operation, axis)).toBe(`Prove the sign: tool raised clear, ${words}`);
  });

  // latch-bars Y: -.100 in from a dial of .001 in that counts up towards the user: 100.
  it('shows on a dial what the scale must be set to', () => {
    const y = standAt('latch-bars', 70, ({ cards: [card] }) => card?.kind === 'zero' && card.axis === 'y');
    expect(biggest(shown(y))).toEqual(['Y 100']);
  });
});

describe('coming back', () => {
  it('names the piece and the hole in hand and every value to set', () => {
    const played = standAt('keeper-plates', 60, ({ cards, current, cells }) => {
      const cell = cells[current ?? -1];
      return cards.length === 0 && cell?.good === 12 && cell.load.stop === 1;
    });
    played.wait(60);
    played.act({ kind: 'beginSitting', by: null, host: 'shop' });
    const { facts } = shown(played);
    expect(facts[0]).toBe('You were at Op 60 Spot both holes: piece 13, holes 2, 2 of 2.');
    expect(facts).toContain('Then set, each with its own card: X +5.00, Y -5.00, Z +0.05.');
  });
});

describe('a countersink on a pillar drill', () => {
  it('shows the travel from the rim largest, with the top that it makes', () => {
    const panel = workAt('keeper-plates', 100);
    expect(biggest(panel)).toEqual(['FROM RIM 3.45']);
    expect(panel.readings[0]?.below).toBe('makes 13.50 across the top');
    expect(JSON.stringify(panel)).not.toContain('5.75');
  });

  it('names every hole of two tops with its own', () => {
    const { facts } = workAt('hinge-straps', 60);
    expect(facts).toContain('pin: 0.50 mm from the rim makes 14.00 mm across the top.');
    expect(facts).toContain('bolts 1 to bolts 4: 0.50 mm from the rim makes 9.50 mm across the top.');
  });

  // Up by 0.05 at 90 degrees: 3.40 of travel, and the mouth 0.10 narrower.
  it('follows a correction of its depth', () => {
    const played = standAt('keeper-plates', 100, ({ cards }) => cards.length === 0);
    played.act({ kind: 'correct', axis: 'z', by: 0.05, reading: null, reason: 'reads deep' });
    const panel = shown(played);
    expect(biggest(panel)).toEqual(['FROM RIM 3.40']);
    expect(panel.readings[0]?.below).toBe('makes 13.40 across the top');
  });
});

it('a power tap in a blind hole shows largest where it is switched off, and its turns', () => {
  const panel = workAt('hinge-blocks', 140, 6);
  expect(biggest(panel)).toEqual(['OFF -8.30']);
  expect(panel.readings[0]?.below).toBe('switch off here, rests at Z -9.60');
  expect(panel.facts[0]).toBe('12 turns, 8 mm full thread, bottoms at 15.5 turns.');
});

describe('cautions', () => {
  it.each([
    ['keeper-plates', 60, 'Machine off and isolated, spindle standing, before the belt is moved.'],
    ['hinge-blocks', 70, 'Machine off and isolated, spindle standing, before the lever is moved.'],
    ['latch-bars', 70, 'Hands clear of the spindle; knob at rest or running as its manual says.'],
    ['keeper-plates', 90, 'Power off before you move a belt to change the speed.'],
  ] as const)('a new speed in %s %i begins with what keeps the hands whole', (job, operation, words) => {
    expect(cardAt(job, operation, 'speed').cautions[0]).toBe(words);
  });

  it('the first point on dials keeps one behind how it is wound, the next point gives it up', () => {
    expect(workAt('latch-bars', 70, 0).warnsAfter).toBe(2);
    expect(workAt('latch-bars', 70, 1).warnsAfter).toBeUndefined();
  });
});
