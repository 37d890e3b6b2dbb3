import { describe, expect, it } from 'vitest';
import { DEFERRING_LINE } from '../../src/plan/cautions.ts';
import type { AxisReading, ResolvedPlan } from '../../src/plan/resolved.ts';
import { sheetDrawings } from '../../src/report/sheet/drawings.ts';
import { readoutText, windText } from '../../src/report/sheet/positions.ts';
import { formatSheetHtml, formatSheetMarkdown } from '../../src/report/sheet/sheet.ts';
import { asMm } from '../../src/shop/quantities.ts';
import { inchesToMm } from '../../src/shop/units.ts';
import {
  aCheck,
  aCut,
  aMachine,
  anOperation,
  aSetup,
  aTool,
  aVariant,
  samplePlan,
  somePoints,
  twoVariantPlan,
} from '../batch/sample-plan.ts';
import { elementsNamed, readMarkup, textOf } from './read-markup.ts';

const plan = twoVariantPlan({ threaded: 12, clearance: 10, spares: 2 });
const drawings = { V1: '<svg viewBox="0 0 10 10"><title>V1</title></svg>' };

describe('the sheet', () => {
  const page = formatSheetHtml(plan, { drawings });
  const root = readMarkup(page);

  it('is a well-formed page that needs nothing else, with the line that defers', () => {
    for (const name of ['script', 'link', 'img']) expect(elementsNamed(root, name)).toEqual([]);
    expect(textOf(root)).toContain(DEFERRING_LINE);
    expect(formatSheetMarkdown(plan, { drawings })).toContain('# Keeper plates: the sheet');
  });

  it('has every operation once, under its setup, and its drawing', () => {
    const titles = elementsNamed(root, 'h3').map(textOf);
    expect(titles).toEqual(plan.operations.map((one) => expect.stringContaining(`${one.number} ${one.title}`)));
    const captions = elementsNamed(root, 'figcaption').map(textOf);
    expect(captions[0]).toBe('Setup V1: Setup V1, from above');
  });

  it('gives stop, parallels, the zero with its sum and the way it was touched', () => {
    const text = textOf(root);
    expect(text).toContain('20 mm high, 6 mm thick');
    expect(text).toContain('stop 0.00 + half tip 5.00 = +5.00; set +5.00');
    expect(text).toContain('touched going -, so come to every point that way');
    expect(text).toContain('fresh edge');
    expect(text).toContain('rinse and oil');
  });

  it('gives the points of every place in a load with readout values, rounded once', () => {
    const rows = elementsNamed(root, 'tr').map((row) => elementsNamed(row, 'td').map(textOf));
    expect(rows).toContainEqual(['1: hole 1', '+10.00', '-15.00', '-6.00 on the readout', '']);
    expect(rows).toContainEqual(['2: hole 2', '+20.00', '-46.00', '-6.00 on the readout', '']);
  });

  it('gives the passes of every piece of a load as they are wound', () => {
    const pass = { feedAxis: 'x' as const, feedTowards: '+' as const, z: asMm(-2), last: true };
    const place = (name: string, x: number, at: number) => ({
      ...pass,
      name,
      from: { x: asMm(x - 6), y: asMm(-15) },
      to: { x: asMm(x + 66), y: asMm(-15) },
      places: [at],
    });
    const cut = aCut('end mill 10', 860, {
      points: [],
      passes: [place('slot', 0, 1)],
      loadPasses: [place('L: slot', 0, 1), place('R: slot', 80, 2)],
    });
    const slotted = samplePlan({ operations: [anOperation(10, { loadSize: 2, cuts: [cut] })] });
    const rows = elementsNamed(readMarkup(formatSheetHtml(slotted, { drawings: {} })), 'tr').map((row) =>
      elementsNamed(row, 'td').map(textOf),
    );
    const [from, to] = [rows.map((row) => row[2]), rows.map((row) => row[3])];
    expect(from.join(' ')).toMatch(/X -6\.00.*X \+?74\.00/);
    expect(to.join(' ')).toMatch(/X \+?66\.00.*X \+?146\.00/);
  });

  it('leaves blank boxes beside a check and boxes to cross off for every piece', () => {
    const rows = elementsNamed(root, 'tr').map((row) => elementsNamed(row, 'td').map(textOf));
    const check = rows.find((row) => row[0] === 'Check place')!;
    expect(check.slice(1, 4)).toEqual(['2.95 mm to 3.05 mm', 'caliper', 'first-off']);
    expect(check.slice(4)).toEqual(Array.from({ length: 6 }, () => '____'));
    const tally = elementsNamed(root, 'svg').find((one) => one.attributes['aria-label'] === '24 boxes to cross off')!;
    expect(elementsNamed(tally, 'rect')).toHaveLength(24);
    const short = formatSheetMarkdown(samplePlan({ variants: [aVariant('plate', 301)] }), { drawings: {} });
    expect(short).toContain('and 1 more');
  });

  it('escapes names and shows a caution that the plan states in its own words', () => {
    const hostile = samplePlan({
      job: '<i>plates</i>',
      operations: [anOperation(10, { title: '<script>x</script>', cautions: ['Mind the <edge>'] })],
    });
    const text = formatSheetHtml(hostile, { drawings: {} });
    expect(elementsNamed(readMarkup(text), 'script')).toEqual([]);
    expect(text).toContain('Mind the &lt;edge&gt;');
  });
});

/** The dials of a worked inch batch: .200 a turn, 200 divisions, X counting up to the right, Y counting up to the user. */
const dialX: AxisReading = {
  kind: 'dial',
  perTurn: inchesToMm(0.2),
  divisions: 200,
  clockwiseCounts: 'up',
  clockwiseMoves: '+',
  backlash: inchesToMm(0.008),
};
const dialY: AxisReading = { ...dialX, clockwiseMoves: '-', backlash: inchesToMm(0.006) };

describe('a position at the handle', () => {
  it('on a dial is turns and divisions, approached as the zero was touched', () => {
    const inch = inchesToMm;
    expect(windText(asMm(0), inch(1.433), dialX, '-')).toBe('7 + 33; first past it to 7 + 83');
    expect(windText(inch(1.433), inch(1), dialX, '-')).toBe('5 + 0');
    expect(windText(inch(-0.25), inch(-1.25), dialY, '+')).toBe('6 + 50; first past it to 6 + 100');
    expect(windText(inch(-1.25), inch(-1), dialY, '+')).toBe('5 + 0');
    expect(windText(asMm(0), asMm(1), { kind: 'readout', resolution: asMm(0.01) }, '-')).toBeNull();
  });

  it('on a readout carries its sign and the decimals that it shows', () => {
    const at = (value: number, resolution: number) =>
      readoutText(asMm(value), { kind: 'readout', resolution: asMm(resolution) }, 'mm');
    expect(at(12.3456, 0.005)).toBe('+12.345');
    expect(at(-0.004, 0.01)).toBe('0.00');
    expect(at(-12.346, 0.01)).toBe('-12.35');
    expect(readoutText(asMm(-12.7), { kind: 'none' }, 'inch')).toBe('-.5000');
    expect(readoutText(asMm(19.05), { kind: 'readout', resolution: inchesToMm(0.001) }, 'inch')).toBe('+.750');
  });

  it('stands in the columns of a dial machine', () => {
    const parts = { x: dialX, y: dialY, zReadOn: 'quill' as const };
    const dialPlan: ResolvedPlan = samplePlan({
      units: 'inch',
      machines: [aMachine('mill', parts)],
      setups: [aSetup('V1', 'mill')],
      tools: [aTool('drill')],
      operations: [
        anOperation(10, {
          kind: 'drill',
          station: 'mill',
          machine: 'mill',
          setup: 'V1',
          cuts: [aCut('drill', 950, { points: somePoints(1) })],
          checks: [aCheck('size')],
        }),
      ],
    });
    const text = textOf(readMarkup(formatSheetHtml(dialPlan, { drawings: {} })));
    expect(text).toContain('X dial');
    expect(text).toMatch(/\+\.3937/); // 10 mm: readout in inches
  });
});

describe('the drawings of the sheet', () => {
  it('are made for every setup, well formed, and go into the page', () => {
    const made = sheetDrawings(plan);
    expect(Object.keys(made)).toEqual(plan.setups.map((setup) => setup.id));
    for (const svg of Object.values(made)) expect(readMarkup(svg).name).toBe('svg');
    expect(() => readMarkup(formatSheetHtml(plan, { drawings: made }))).not.toThrow();
  });
});
