import { describe, expect, it } from 'vitest';
import type { AxisReading, AxisZero } from '../../src/plan/resolved.ts';
import { depthSignProof, signProof } from '../../src/plan/sign-proof.ts';
import { asMm } from '../../src/shop/quantities.ts';

const readout: AxisReading = { kind: 'readout', resolution: asMm(0.01) };
const dial = (clockwiseCounts: 'up' | 'down', clockwiseMoves: '+' | '-'): AxisReading => ({
  kind: 'dial',
  perTurn: asMm(5.08),
  divisions: 200,
  clockwiseCounts,
  clockwiseMoves,
  backlash: asMm(0),
});
const zeroAt = (axis: 'x' | 'y', side: '+' | '-' | null, ground = 0): AxisZero => ({
  axis,
  how: side === null ? 'indicator' : 'pin',
  against: 'it',
  tip: asMm(10),
  side,
  ground: asMm(ground),
  set: asMm(0),
  sum: '',
  touchedGoing: side === null ? null : side === '+' ? '-' : '+',
});
/** A part of 60 x 30 right of its left end and in front of its rear edge. */
const outline = { x0: asMm(0), x1: asMm(60), y0: asMm(-30), y1: asMm(0) };

// Worked out by hand: a finder stands on one side of a face; off the face is that side, and +X is right, +Y away.
describe('the sign is proved by winding off the face that was touched', () => {
  it.each([
    ['stop on the left, finder on its right', 'x', '+', 'tool raised clear, wind it right: X must grow'],
    ['stop on the right, finder on its left', 'x', '-', 'tool raised clear, wind it left: X must fall'],
    ['fixed jaw at the rear, finder in front of it', 'y', '-', 'tool raised clear, wind it towards you: Y must fall'],
    ['fixed jaw at the front, finder behind it', 'y', '+', 'tool raised clear, wind it away from you: Y must grow'],
  ] as const)('on a readout: %s', (_, axis, side, words) => {
    expect(signProof(zeroAt(axis, side), readout, outline)).toBe(words);
  });

  // Off a rear jaw is towards the user, Y falling, whatever the dial does. Clockwise moves towards (-): the handle turns
  // clockwise, the dial counts as clockwise counts. Clockwise moves away (+): anticlockwise, the dial counts the other way.
  it.each([
    ['up', '-', '(clockwise): Y falls, the dial must count up'],
    ['down', '-', '(clockwise): Y falls, the dial must count down'],
    ['up', '+', '(anticlockwise): Y falls, the dial must count down'],
    ['down', '+', '(anticlockwise): Y falls, the dial must count up'],
  ] as const)('on dials at a rear jaw: clockwise counts %s and moves %s', (counts, moves, words) => {
    expect(signProof(zeroAt('y', '-'), dial(counts, moves), outline)).toBe(
      `tool raised clear, wind it towards you ${words}`,
    );
  });

  it.each([
    ['up', '+', '(clockwise): X grows, the dial must count up'],
    ['down', '+', '(clockwise): X grows, the dial must count down'],
    ['up', '-', '(anticlockwise): X grows, the dial must count down'],
    ['down', '-', '(anticlockwise): X grows, the dial must count up'],
  ] as const)('on dials at a left stop: clockwise counts %s and moves %s', (counts, moves, words) => {
    expect(signProof(zeroAt('x', '+'), dial(counts, moves), outline)).toBe(`tool raised clear, wind it right ${words}`);
  });

  it('goes towards the middle of the part where no face was touched', () => {
    expect(signProof(zeroAt('x', null), readout, outline)).toContain('wind it right: X must grow');
    expect(signProof(zeroAt('x', null, 60), readout, outline)).toContain('wind it left: X must fall');
    expect(signProof(zeroAt('y', null), readout, outline)).toContain('wind it towards you: Y must fall');
    expect(signProof(zeroAt('y', null, -30), readout, outline)).toContain('wind it away from you: Y must grow');
  });
});

// The tool goes up over the part (+Z) when the quill is raised or the knee lowered.
describe('the sign of Z is proved by taking the tool off the part', () => {
  it.each([
    ['readout', readout, 'raise the tool: Z must grow'],
    ['quill', dial('up', '-'), 'raise the tool (anticlockwise): the dial must count down'],
    ['quill', dial('up', '+'), 'raise the tool (clockwise): the dial must count up'],
    ['knee', dial('up', '-'), 'lower the knee (anticlockwise): the dial must count down'],
    ['knee', dial('down', '-'), 'lower the knee (anticlockwise): the dial must count up'],
    ['knee', readout, 'lower the knee: Z must grow'],
  ] as const)('read on the %s', (zReadOn, z, words) => {
    expect(depthSignProof({ z, zReadOn })).toBe(words);
  });

  it('says nothing where nothing reads it', () => {
    expect(depthSignProof({ z: { kind: 'none' }, zReadOn: 'depth stop' })).toBeNull();
  });
});
