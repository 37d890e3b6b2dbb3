// A slot cut in four passes on dials, as it is gone through: the first one first, its arrow, its side of approach.
import { describe, expect, it } from 'vitest';
import { workFace } from '../../../src/screen/moments/work-panel.ts';
import { type Played, play } from '../../batch/playing.ts';
import { textOf as fileText, proved } from '../../plan/plan-samples.ts';
import { drawFrame } from '../frames/draw-frame.ts';

const slotAlone = (more = '') => {
  const text = fileText('jobs/latch-bars.yaml');
  const slot = text.split('\n').find((line) => line.includes('number: 90, title: Thumb slot')) ?? '';
  const [head = ''] = text.split(/^operations:$/m);
  const used = head
    .replace(/^setups:[\s\S]*?^ {2}top:/m, 'setups:\n  top:')
    .replace(/^ {2}(fixture|edge):[\s\S]*?(?=^ {2}edge:|^points:)/gm, '');
  return `${used}operations:\n${slot.replace('title: Thumb slot', `title: Thumb slot${more}`)}\n`;
};

function atSlot(counts = 0, more = ''): Played {
  const played = play(proved(slotAlone(more)).resolved);
  played.passAll();
  for (let count = 0; count < counts; count += 1) played.act({ kind: 'count', quick: false }, 20);
  return played;
}

const face = (played: Played) => workFace(played.batch(), 0, 0, false);
const large = (played: Played) => face(played).readings.map(({ label, text }) => `${label} ${text}`);

describe('a slot in four passes, where the plan does not say how it is counted', () => {
  it('opens on its first pass, and goes on pass by pass', () => {
    // Right along one wall, left along the other, .065 deep; then again, .125 deep.
    const seen = [0, 1, 2, 3].map((counts) => ({
      headline: face(atSlot(counts)).headline?.text,
      large: large(atSlot(counts)),
    }));
    expect(seen).toEqual([
      { headline: '→ FEED X RIGHT   pass 1 of 4', large: ['X 17 + 164', 'Z 0 + 65'] },
      { headline: '← FEED X LEFT   pass 2 of 4', large: ['X 12 + 36', 'Z 0 + 65'] },
      { headline: '→ FEED X RIGHT   pass 3 of 4', large: ['X 17 + 164', 'Z 1 + 25'] },
      { headline: '← FEED X LEFT   pass 4 of 4, last', large: ['X 12 + 36', 'Z 1 + 25'] },
    ]);
  });

  it.each([
    [0, '▶'],
    [1, '◀'],
    [2, '▶'],
  ])('draws the arrow of the pass in hand: %i done', (counts, arrow) => {
    const cells = face(atSlot(counts)).picture?.(40, 20).flat() ?? [];
    expect(cells.filter(({ text }) => '◀▶'.includes(text)).map(({ text }) => text)).toEqual([arrow]);
  });

  it('says from which side each wall is reached, how far to wind, and where a feed against the touch ends', () => {
    expect(face(atSlot(0)).facts.slice(0, 3)).toEqual([
      'Y: come anticlockwise to 3 + 148.5, from 3 + 198.5 or beyond',
      'X: come anticlockwise to 12 + 36, from 12 + 86 or beyond',
      // X was touched going left; .010 of play are 10 divisions.
      'X is fed against its touch: with the play its end is at 17 + 174 on the dial.',
    ]);
    // From 3 + 148.5 to 4 + 1.5 are 53 divisions.
    expect(face(atSlot(1)).facts[0]).toBe('Y: clockwise 0 + 53, past to 4 + 1.5, then anticlockwise back to 3 + 151.5');
  });

  it.each([
    [50, 15],
    [80, 24],
    [100, 30],
  ])('keeps the pass and both sides of approach in sight at %ix%i', (columns, rows) => {
    const text = drawFrame({ state: atSlot(0).state(), columns, rows }).replace(/\s+/g, ' ');
    expect(text).toContain('pass 1 of 4');
    expect(text).toMatch(/Y: come anticlockwise to 3 \+ 148.5, from 3 \+ 198.5|Y acw from 198.5/);
    expect(text).toMatch(/X: come anticlockwise to 12 \+ 36, from 12 \+ 86|X acw from 86/);
  });
});

describe('the same slot counted by the piece', () => {
  const played = atSlot(0, ', counting: piece');

  it('shows the first pass largest and all passes in order', () => {
    expect(large(played)).toEqual(['X 17 + 164', 'Z 0 + 65']);
    expect(face(played).headline?.text).toBe('→ FEED X RIGHT   first of 4 passes');
    expect(face(played).facts.slice(0, 4)).toEqual([
      '1 of 4: X right to 17 + 164, Y 3 + 148.5, Z 0 + 65.',
      '2 of 4: X left to 12 + 36, Y 3 + 151.5, Z 0 + 65.',
      '3 of 4: X right to 17 + 164, Y 3 + 148.5, Z 1 + 25.',
      '4 of 4: X left to 12 + 36, Y 3 + 151.5, Z 1 + 25.',
    ]);
  });

  it('draws the arrow of the first', () => {
    const cells = face(played).picture?.(40, 20).flat() ?? [];
    expect(cells.filter(({ text }) => '◀▶'.includes(text)).map(({ text }) => text)).toEqual(['▶']);
  });
});
