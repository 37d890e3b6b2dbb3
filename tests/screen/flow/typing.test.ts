import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type NumberKind, notWhole, type Typing, typeCharacter } from '../../../src/screen/flow/typing.ts';

const type = (text: string, kind: NumberKind = 'number', most = 12): Typing =>
  [...text].reduce<Typing>((now, character) => typeCharacter(now, character, kind, most), { typed: '', wrong: null });

describe('a number as it is typed', () => {
  it.each<[string, NumberKind, string, boolean]>([
    ['3.06', 'number', '3.06', false],
    ['-.003', 'number', '-.003', false],
    ['3.0.6', 'number', '3.06', false],
    ['3-', 'number', '3', true],
    ['12', 'pieces', '12', false],
    ['1.', 'pieces', '1', true],
    ['1,', 'pieces', '1', true],
    ['2-5', 'range', '2-5', false],
    ['-', 'range', '', true],
    ['21:30', 'time', '21:30', false],
    ['21.', 'time', '21.', false],
    ['21.:', 'time', '21.', true],
  ])('%s as %s is %s', (text, kind, typed, isRefused) => {
    const now = type(text, kind);
    expect([now.typed, now.wrong !== null]).toEqual([typed, isRefused]);
  });

  it('with a comma takes nothing more until the point comes, and cannot be handed over', () => {
    const now = type('3,06');
    expect(now).toEqual({ typed: '3', wrong: 'a point, not a comma: press the point' });
    expect(notWhole(now, 12)).toEqual(now);
    expect(type('3,06.06')).toEqual({ typed: '3.06', wrong: null });
  });

  it('too long takes nothing more and is handed over as nothing', () => {
    const now = type('0'.repeat(39) + 3);
    expect(now).toEqual({ typed: '0'.repeat(12), wrong: 'at most 12 characters' });
    expect(notWhole(now, 12)).toEqual({ typed: '', wrong: 'not taken: more than 12 characters; type it anew' });
  });

  it('is, when it can be handed over, exactly the characters that were not refused on the way', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...'0123456789.,+-')), (characters) => {
        let now: Typing = { typed: '', wrong: null };
        let taken = '';
        for (const character of characters) {
          const next = typeCharacter(now, character, 'number', 12);
          if (next.wrong === null) taken += character;
          else expect(next.typed).toBe(now.typed);
          now = next;
        }
        expect(now.typed).toBe(taken);
        expect(now.typed).toMatch(/^[+-]?\d*\.?\d*$/);
      }),
    );
  });
});
