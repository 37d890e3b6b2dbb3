import { describe, expect, it } from 'vitest';
import { facingOf } from '../../src/shop/facing.ts';
import { asMm, type Mm } from '../../src/shop/quantities.ts';
import { formatRefusal, sureOf } from '../../src/shop/refusal.ts';
import { inchesToMm } from '../../src/shop/units.ts';

const load = (measured: readonly number[], faces: 1 | 2 = 2, leastCut = 0.2) => ({
  measured: measured.map((mm): Mm => asMm(mm)),
  finished: asMm(40),
  leastCut: asMm(leastCut),
  faces,
});

describe('facing a measured load', () => {
  it('names the piece that never cleans up and the heights at which the others do', () => {
    const { heights, never, uncleanAtCut } = sureOf(facingOf(load([40.9, 41.2, 40.3])));
    expect(never).toEqual([2]);
    expect(heights?.lowest).toBeCloseTo(40.2, 9);
    expect(heights?.highest).toBeCloseTo(40.7, 9);
    expect(uncleanAtCut).toEqual([]);
  });

  it('with one face to go the lowest height is the finished one', () => {
    const { heights, never } = sureOf(facingOf(load([40.9, 41.2, 40.3], 1)));
    expect(never).toEqual([]);
    expect(heights?.lowest).toBeCloseTo(40, 9);
    expect(heights?.highest).toBeCloseTo(40.1, 9);
  });

  it('the worked batch: a blank of 2.515 in is not touched by the cut at 2.530, its neighbour of 2.560 is', () => {
    const answer = sureOf(
      facingOf({
        measured: [inchesToMm(2.515), inchesToMm(2.56)],
        finished: inchesToMm(2.5),
        leastCut: asMm(0),
        faces: 2,
        cutAt: inchesToMm(2.53),
      }),
    );
    expect(answer.uncleanAtCut).toEqual([0]);
  });

  it('a piece that just reaches the need is saved; when none does there is no height', () => {
    expect(sureOf(facingOf(load([40.4]))).never).toEqual([]);
    expect(sureOf(facingOf(load([40.3, 39])))).toMatchObject({ heights: undefined, never: [0, 1] });
  });

  it.each([
    ['no piece', load([]), 'measured pieces 0'],
    ['a piece of 0', load([41, 0]), 'measured piece 2'],
    ['a piece that is no number', load([Number.NaN]), 'measured piece 1'],
    ['a negative least cut', load([41], 2, -0.1), 'least cut -0.1 mm'],
    ['a finished height of 0', { ...load([41]), finished: asMm(0) }, 'finished height 0 mm'],
    ['a cut at a height of 0', { ...load([41]), cutAt: asMm(0) }, 'height of the cut 0 mm'],
  ])('%s is refused', (_name, question, words) => {
    const result = facingOf(question);
    expect(result.ok ? 'answered' : formatRefusal(result.problem)).toContain(words);
  });
});
