// Geometry by an independent route: places found by walking the part in the hand, walls by dense sampling.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { frameOf, toSetup, turnedAgainst } from '../../../src/plan/resolve/frames.ts';
import { lineInSetup, linePasses, passDepths } from '../../../src/plan/resolve/lines.ts';
import { asMm } from '../../../src/shop/quantities.ts';
import { proved, textOf } from '../plan-samples.ts';

const part = { length: asMm(60), width: asMm(30), thickness: asMm(8), datum: 'left front' as const };
const corner = (x: 'left' | 'right', y: 'front' | 'rear') => ({
  x: { end: x, at: asMm(0) },
  y: { end: y, at: asMm(0) },
});

describe('a place of the drawing in a setup', () => {
  it.each([
    ['as drawn', 'left', 'rear', 10, -15],
    ['as drawn', 'left', 'front', 10, 15],
    ['as drawn', 'right', 'rear', -50, -15],
    ['end for end', 'left', 'front', 50, 15],
    ['over about Y', 'right', 'front', -10, 15],
    ['over about X', 'left', 'rear', 10, -15],
  ] as const)('%s, zero %s %s: (10, 15) comes to (%d, %d)', (lie, x, y, atX, atY) => {
    expect(toSetup({ x: asMm(10), y: asMm(15) }, frameOf(part, lie, corner(x, y)))).toEqual({ x: atX, y: atY });
  });

  it('keeps its distance to the same edges of the part however it lies', () => {
    const lies = ['as drawn', 'end for end', 'over about X', 'over about Y'] as const;
    const ends = fc.record({
      lie: fc.constantFrom(...lies),
      x: fc.constantFrom('left' as const, 'right' as const),
      y: fc.constantFrom('front' as const, 'rear' as const),
      u: fc.double({ min: 1, max: 59, noNaN: true }),
      v: fc.double({ min: 1, max: 29, noNaN: true }),
    });
    fc.assert(
      fc.property(ends, ({ lie, x, y, u, v }) => {
        const at = toSetup({ x: asMm(u), y: asMm(v) }, frameOf(part, lie, corner(x, y)));
        const fromLeft = x === 'left' ? at.x : at.x + 60;
        const fromFront = y === 'front' ? at.y : at.y + 30;
        const swapsX = lie === 'end for end' || lie === 'over about Y';
        const swapsY = lie === 'end for end' || lie === 'over about X';
        expect(fromLeft).toBeCloseTo(swapsX ? 60 - u : u, 9);
        expect(fromFront).toBeCloseTo(swapsY ? 30 - v : v, 9);
      }),
    );
  });

  it('tells how the part lies against the setup before', () => {
    expect(turnedAgainst('end for end', 'end for end')).toBe('as before');
    expect(turnedAgainst('over about X', 'over about Y')).toBe('end for end');
    expect(turnedAgainst('as drawn', 'over about X')).toBe('over about X');
  });
});

describe('line cuts', () => {
  const frame = frameOf(part, 'as drawn', corner('left', 'front'));
  const edge = { kind: 'edge', along: 'x', at: asMm(30), from: asMm(0), to: asMm(60), side: 'rear' } as const;
  const work = (line: Parameters<typeof lineInSetup>[1], cutter: number, width?: number) => ({
    line: lineInSetup('a', line, frame),
    kind: line.kind,
    width: width === undefined ? undefined : asMm(width),
    cutter: asMm(cutter),
    runOut: asMm(1),
    depths: [asMm(2)],
  });

  it('conventional feed keeps the work on the left of the travel: along the rear edge to the left', () => {
    const pass = linePasses(work(edge, 10))[0];
    // Going left (-X) the left hand points to -Y, where the part lies in front of its rear edge.
    expect(pass).toMatchObject({ feedTowards: '-', from: { x: 66, y: 35 }, to: { x: -6, y: 35 }, z: -2, last: true });
  });

  it('along the front edge it goes to the right', () => {
    expect(linePasses(work({ ...edge, at: asMm(0), side: 'front' }, 10))[0]?.feedTowards).toBe('+');
  });

  it('the metal left by a wide slot ends at its walls (dense sampling)', () => {
    const slot = {
      kind: 'slot',
      along: 'x',
      at: asMm(15),
      from: asMm(10),
      to: asMm(50),
      ends: { from: 'closed', to: 'closed' },
    } as const;
    const passes = linePasses(work(slot, 6, 8));
    expect(passes.map((pass) => pass.feedTowards)).toEqual(['+', '-']);
    const isCut = (x: number, y: number) =>
      passes.some((pass) => {
        const nearest = Math.max(Math.min(pass.from.x, pass.to.x), Math.min(Math.max(pass.from.x, pass.to.x), x));
        return Math.hypot(x - nearest, y - pass.from.y) <= 3 + 1e-9;
      });
    const cutYs = Array.from({ length: 3000 }, (_, at) => at / 100).filter((y) => isCut(30, y));
    expect(Math.min(...cutYs)).toBeCloseTo(11, 6);
    expect(Math.max(...cutYs)).toBeCloseTo(19, 6);
    const cutXs = Array.from({ length: 6000 }, (_, at) => at / 100).filter((x) => isCut(x, 14) || isCut(x, 16));
    expect(Math.min(...cutXs)).toBeCloseTo(10, 2);
    expect(Math.max(...cutXs)).toBeCloseTo(50, 2);
  });

  it('the last pass to size is what the plan leaves for it', () => {
    expect(passDepths(asMm(10), 4, asMm(1))).toEqual([3, 6, 9, 10]);
    expect(passDepths(asMm(10), [asMm(4), asMm(10)], undefined)).toEqual([4, 10]);
  });
});

describe('wall thickness', () => {
  it('of the rule is that of dense sampling round the rim', () => {
    const text = textOf('tests/samples/wrong-plans/wall-thin.yaml').replace('x: 97, y: 12.5', 'x: 92.7, y: 12.5');
    const finding = proved(text).findings.find((one) => one.code === 'wall-thin' && one.severity === 'warn');
    const rim = Array.from({ length: 3600 }, (_, at) => 92.7 + 6.75 * Math.cos((at * Math.PI) / 1800));
    const wall = Math.min(...rim.map((x) => 100 - x));
    expect(finding?.message).toContain(`${wall.toFixed(2)} mm to the right end`);
  });
});
