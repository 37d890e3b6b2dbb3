import fc from 'fast-check';
import stringWidth from 'string-width';
import { describe, expect, it } from 'vitest';
import { layoutPanel } from '../../../src/screen/panel/layout.ts';
import { mainReading, type Panel, secondReading } from '../../../src/screen/panel/panel.ts';
import { textOf } from '../../../src/screen/parts/lines.ts';

const bare: Panel = {
  banner: { place: ['Op 10'], title: 'Saw blanks', counts: '3 of 40 good, 37 left', right: '19:42' },
  headline: { text: 'SAW BLANKS', role: 'strong' },
  weight: 'digits',
  readings: [mainReading('3'), secondReading('37', 'LEFT')],
  facts: ['540 rpm, 16 mm end mill', 'Next: something else'],
  cautions: ['Glasses on.'],
  pace: ['this piece 0:12', 'op ends 21:05 (20:50 to 21:20)', 'batch ends Thu 20:10'],
  message: null,
  hints: ['Enter count', '? keys'],
  picture: null,
};
const draw = (panel: Panel, columns: number, rows: number, digitRows = 5): string[] =>
  layoutPanel(panel, { columns, rows, digitRows, ascii: true }).map((line) => textOf(line).trimEnd());

const anyText = fc.string({ unit: 'grapheme', maxLength: 90 });
const anyReading = fc.record({
  rank: fc.constantFrom('main' as const, 'second' as const),
  label: fc.constantFrom('', 'X', 'STOP'),
  text: fc.oneof(fc.constantFrom('-123.45', '7 + 33', '12', 'THREADED'), anyText),
  below: fc.option(anyText),
  fresh: fc.boolean(),
});
const anyPanel: fc.Arbitrary<Panel> = fc.record({
  banner: fc.record({
    place: fc.array(anyText, { minLength: 1, maxLength: 3 }),
    title: anyText,
    counts: anyText,
    right: fc.constantFrom('19:42', 'PAUSED'),
  }),
  headline: fc.option(fc.record({ text: anyText, role: fc.constantFrom('strong' as const, 'alarm' as const) })),
  weight: fc.constantFrom('digits' as const, 'words' as const),
  readings: fc.array(anyReading, { maxLength: 4 }),
  facts: fc.array(anyText, { maxLength: 12 }),
  cautions: fc.array(anyText, { maxLength: 3 }),
  pace: fc.array(anyText, { maxLength: 3 }),
  message: fc.option(fc.record({ text: anyText, role: fc.constant('alarm' as const) })),
  hints: fc.array(anyText, { maxLength: 5 }),
  picture: fc.option(
    fc.constant((columns: number, rows: number) =>
      Array.from({ length: Math.min(rows, 9) }, () =>
        Array.from({ length: Math.min(columns, 30) }, () => ({ text: 'o', mark: 'part' as const })),
      ),
    ),
  ),
});

describe('every panel in every room', () => {
  it('has exactly the rows there are, none wider than the columns', () => {
    fc.assert(
      fc.property(
        anyPanel,
        fc.integer({ min: 1, max: 200 }),
        fc.integer({ min: 1, max: 60 }),
        fc.constantFrom(5, 7, 10, 14, 30),
        fc.boolean(),
        (panel, columns, rows, digitRows, ascii) => {
          const lines = layoutPanel(panel, { columns, rows, digitRows, ascii });
          expect(lines.length).toBe(rows);
          for (const line of lines) expect(stringWidth(textOf(line))).toBeLessThanOrEqual(columns);
          if (ascii && panel.picture === null) for (const line of lines) expect(textOf(line)).toMatch(/^[ -~]*$/);
        },
      ),
      { numRuns: 400 },
    );
  });

  it('never cuts a hint or a time in the middle', () => {
    for (let columns = 50; columns <= 130; columns += 1) {
      const lines = draw({ ...bare, hints: ['Enter count', 'Backspace take back', 'r reject', '? keys'] }, columns, 24);
      expect(lines.slice(-4).join('\n')).not.toContain('~');
    }
  });

  it('shows the counts whole at every width, and gives up the title for them', () => {
    for (let columns = 50; columns <= 120; columns += 1) {
      const long = {
        ...bare,
        banner: {
          ...bare.banner,
          place: ['Op 110 CLEARANCE WITH COUNTERSINK', 'Op 110 CLEARANCE'],
          title: 'Deburr far side of the holes and long edges',
        },
      };
      expect(draw(long, columns, 24)[0]).toContain('3 of 40 good, 37 left');
      expect(draw(long, columns, 24)[0]).toContain('Op 110 CLEARANCE');
    }
  });
});

describe('digits', () => {
  it('a single count takes seven rows or more where there is room, five on the smallest screen', () => {
    const inked = (columns: number, rows: number): number =>
      draw({ ...bare, readings: [mainReading('8')] }, columns, rows).filter((line) => /^ *#/.test(line)).length;
    expect([inked(50, 15), inked(80, 24), inked(170, 48)]).toEqual([5, 10, 14]);
  });

  it('have the rows that the distance asks for when words would leave less', () => {
    const wordy = { ...bare, readings: [mainReading('8')], facts: Array.from({ length: 20 }, (_, i) => `fact ${i}`) };
    expect(draw(wordy, 80, 24, 10).filter((line) => /^ *#/.test(line)).length).toBe(10);
  });

  it('X and Y are drawn alike', () => {
    const lines = draw({ ...bare, readings: [mainReading('1.00', 'X'), mainReading('-10.00', 'Y')] }, 60, 24);
    const widths = lines.filter((line) => /^#+ *#+ /.test(line)).map((line) => /^#+/.exec(line)?.[0].length);
    expect(new Set(widths).size).toBe(1);
  });

  it('of an axis have their axis letter drawn with them', () => {
    const readings = [mainReading('4 + 117', 'X'), mainReading('BELOW 12 + 40', 'Y')];
    for (const [columns, rows] of [
      [80, 24],
      [100, 30],
      [132, 25],
      [170, 48],
    ] as const) {
      const lines = draw({ ...bare, readings, facts: [], cautions: [] }, columns, rows).slice(1, -1);
      expect(lines.filter((line) => /^ *[XY] +#/.test(line))).toEqual([]);
    }
  });

  it('read from three metres leave facts one row, and go before the picture', () => {
    const readings = [mainReading('10.00', 'X'), mainReading('-46.00', 'Y'), secondReading('-6.00', 'Z')];
    const picture: Panel['picture'] = (columns, rows) =>
      Array.from({ length: Math.min(rows, 9) }, () =>
        Array.from({ length: Math.min(columns, 20) }, () => ({ text: 'o', mark: 'part' as const })),
      );
    const facts = ['one', 'two', 'three', 'four'];
    const inked = (digitRows: number): string[] =>
      draw({ ...bare, readings, facts, cautions: [], picture }, 80, 24, digitRows).filter((line) => /#/.test(line));
    expect([inked(5).length, inked(10).length]).toEqual([10, 14]);
  });
});

describe('words', () => {
  it('what does not fit on a card is said to be below', () => {
    const card = {
      ...bare,
      weight: 'words' as const,
      readings: [],
      cautions: [],
      facts: Array.from({ length: 30 }, (_, i) => `step ${i}`),
    };
    expect(draw(card, 80, 24).join('\n')).toContain('... more below: Down, or 2');
    expect(draw({ ...card, facts: ['one'] }, 80, 24).join('\n')).not.toContain('more below');
  });

  it('cautions are whole or not there, and never without the line that defers', () => {
    const caution = 'Hands off the holder: a stuck tap swings it or the work, and swings it far.';
    for (let rows = 15; rows <= 30; rows += 1) {
      for (let columns = 50; columns <= 100; columns += 10) {
        const text = draw({ ...bare, weight: 'words', cautions: [caution, caution] }, columns, rows)
          .join(' ')
          .replace(/ +/g, ' ');
        const whole = text.split('and swings it far.').length - 1;
        expect(text.split('! Hands off').length - 1).toBe(whole);
        expect(/Reminders/.test(text)).toBe(whole > 0);
      }
    }
  });
});

it('smaller than 50x15 the numbers, the message and the counts are there in plain text', () => {
  const lines = draw({ ...bare, message: { text: 'counted', role: 'good' } }, 40, 6);
  expect(lines.slice(0, 4)).toEqual(['3  LEFT 37', 'counted', 'Op 10  3 of 40 good, 37 left', 'Enter count  ? keys']);
});

it('a reason wider than the screen is said whole, on two rows, and the keys stay', () => {
  const text = 'operation 60 has used those pieces already; take it back there first';
  const lines = draw({ ...bare, message: { text, role: 'alarm' } }, 50, 15);
  expect(lines.join(' ').replace(/ +/g, ' ')).toContain(text);
  expect(lines.length).toBe(15);
  expect(lines.at(-1)).toContain('Enter count');
  expect(
    draw({ ...bare, message: { text, role: 'alarm' } }, 80, 24).filter((line) => line.includes(text)),
  ).toHaveLength(1);
});
