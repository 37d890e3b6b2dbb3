import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseDiameter } from '../../src/shop/parse-length.ts';
import { asMm } from '../../src/shop/quantities.ts';
import { sureOf } from '../../src/shop/refusal.ts';
import { formatEngagement, formatLimits, judgeOrRefuse, judgeTapDrill } from '../../src/shop/tap-drills.ts';
import { allThreads } from '../../src/shop/thread-list.ts';
import { parseThread } from '../../src/shop/thread-names.ts';

const thread = (name: string) => sureOf(parseThread(name));
const drill = (text: string) => sureOf(parseDiameter(text, undefined));
const judge = (name: string, size: string) => sureOf(judgeTapDrill(thread(name), drill(size)));

describe('judging a tap drill by the published minor limits', () => {
  it.each(allThreads().map((one) => [one.name, one] as const))(
    'the standard drill of %s lies within its limits',
    (_, one) => {
      expect(sureOf(judgeTapDrill(one, one.tapDrill.diameter)).kind).toBe('within');
      for (const other of one.tapDrill.others)
        expect(['within', 'usual']).toContain(sureOf(judgeTapDrill(one, other)).kind);
    },
  );

  // ASME B1.1 2B limits .130 to .139; percentages of a worked batch of our own.
  it('no. 8-32 UNC with no. 29 is within, 82.8 % of 5H/8 and 69.0 % of 3H/4', () => {
    const verdict = judge('#8-32 UNC-2B', 'no. 29');
    expect(verdict.kind).toBe('within');
    expect(formatEngagement(verdict.engagement)).toBe('82.8 % of 5H/8, 69 % of 3H/4');
    expect(formatLimits(verdict.limits, 'inch')).toBe('.130 to .139 in (ASME B1.1, class 2B)');
  });

  it('limits in inches show four places where three would hide a part of them (ASME B1.1: no. 0-80 .0465 to .0514)', () => {
    expect(formatLimits(thread('no. 0-80 UNF').limits, 'inch')).toBe('.0465 to .0514 in (ASME B1.1, class 2B)');
    expect(formatLimits(thread('1/4-20 UNC').limits, 'inch')).toBe('.196 to .207 in (ASME B1.1, class 2B)');
    expect(formatLimits(thread('3/8 x 32 ME').limits, 'inch')).toContain('.3350 to .3510 in');
  });

  it('the hole for 75 % of 5H/8 in M6 lies above the 6H maximum of 5.153 (ISO 965-1)', () => {
    const verdict = judge('M6', '5.188 mm');
    expect(verdict.kind).toBe('above-maximum');
    expect(formatLimits(verdict.limits, 'mm')).toBe('4.917 to 5.153 mm (ISO 965-1, 6H)');
  });

  it.each([
    ['M8', '6.75 mm', 'within'],
    ['M8', '6.8 mm', 'within'],
    ['M12', '10.3 mm', 'within'],
    ['M14', '12.1 mm', 'within'],
    ['M6', '4.917 mm', 'within'],
    ['M6', '5.153 mm', 'within'],
    ['M6', '4.916 mm', 'below-minimum'],
    ['M6', '5.154 mm', 'above-maximum'],
    ['9/16-18 UNF', '33/64', 'usual'],
    ['5/8-18 UNF', '37/64', 'usual'],
    ['0 BA', 'no. 10', 'within'],
  ] as const)('%s with %s is %s', (name, size, kind) => expect(judge(name, size).kind).toBe(kind));

  // Letter Q, .332 in, stands in one chart for 3/8 x 32; the core of that thread is .335 in.
  it('letter Q for 3/8 x 32 ME is refused: 107.4 % of the depth', () => {
    const verdict = judge('3/8 x 32 ME', 'letter Q');
    expect(verdict.engagement[0]?.percent).toBeCloseTo(107.4, 0);
    const refused = judgeOrRefuse(thread('3/8 x 32 ME'), drill('letter Q'), 'inch');
    expect(refused).toMatchObject({
      ok: false,
      problem: { found: 'letter Q (.332 in)', remedy: 'use 8.75 mm: a hole below the minimum breaks taps' },
    });
  });

  it('a sound drill passes the refusing judge, an impossible one does not', () => {
    expect(sureOf(judgeOrRefuse(thread('M6'), drill('5 mm'), 'mm')).kind).toBe('within');
    expect(judgeOrRefuse(thread('M6'), asMm(6), 'mm').ok).toBe(false);
    expect(judgeTapDrill(thread('M6'), asMm(Number.NaN)).ok).toBe(false);
  });

  it('the verdict only loosens as the drill grows', () => {
    const order = ['below-minimum', 'within', 'usual', 'above-maximum'];
    fc.assert(
      fc.property(
        fc.constantFrom(...allThreads().filter((one) => one.tapDrill.others.length === 0)),
        fc.double({ min: 0.6, max: 0.99, noNaN: true }),
        fc.double({ min: 0.6, max: 0.99, noNaN: true }),
        (one, a, b) => {
          const place = (share: number) => order.indexOf(sureOf(judgeTapDrill(one, asMm(one.major * share))).kind);
          expect(place(Math.min(a, b))).toBeLessThanOrEqual(place(Math.max(a, b)));
        },
      ),
    );
  });
});
