import { describe, expect, it } from 'vitest';
import { textLines } from '../../../src/screen/panel/text-lines.ts';

const said = (rows: number, warnsAfter?: number): readonly string[] =>
  textLines(
    {
      facts: ['wind X', 'wind Y', 'speed', 'next'],
      cautions: ['Work clamped.', 'Spindle stopped.'],
      weight: 'digits',
      ...(warnsAfter === undefined ? {} : { warnsAfter }),
    },
    80,
    rows,
  ).map((line) => line.map(({ text }) => text).join(''));

const deferring = "Reminders only: your machine's manual, training and local rules come first.";

// A caution takes its own row and one for the line that defers to the manual.
describe('beside digits a caution', () => {
  it('gives way to every fact once the first piece is made', () => {
    expect(said(4)).toEqual(['wind X', 'wind Y', 'speed', 'next']);
  });

  it('comes before all but the needed facts at the first stop of the first piece', () => {
    expect(said(4, 2)).toEqual(['wind X', 'wind Y', '! Work clamped.', deferring]);
  });

  it('never takes the row of a needed fact', () => {
    expect(said(3, 2)).toEqual(['wind X', 'wind Y', 'speed']);
    expect(said(4, 4)).toEqual(['wind X', 'wind Y', 'speed', 'next']);
  });

  it('is joined by the next one where rows are left', () => {
    expect(said(7, 2)).toEqual([
      'wind X',
      'wind Y',
      'speed',
      'next',
      '! Work clamped.',
      '! Spindle stopped.',
      deferring,
    ]);
  });
});
