// What a cutter leaves of the part, by an independent route: the part as a grid from above, from which every pass takes what
// lies within a radius of its axis; what still stands, and what was cut that should not be, is then looked for.
import { describe, expect, it } from 'vitest';
import type { ResolvedPass } from '../../../src/plan/resolved.ts';
import { findingsOf, problemsOf, proved } from '../plan-samples.ts';

interface Job {
  readonly tool?: string;
  readonly operation: string;
  readonly lines?: string;
  readonly more?: string;
  readonly mill?: string;
}

const plan = ({ tool = 'kind: end mill, diameter: 10', operation, lines = '', more = '', mill = '' }: Job) => `format: 1
id: t
job: T
units: mm
material: mild steel
part: { length: 60, width: 30, thickness: 20 }
tolerance: ISO 2768-m
quantity: 10
${more}machines:
  mill: { station: mill, speeds: [210, 340, 540, 860], reverse: after stopping, readout: 0.01${mill} }
tools:
  t: { ${tool} }
setups:
  h: { machine: mill, hold: plate, zero: { x: { how: edge finder, tip: 10, against: end }, y: { how: edge finder, tip: 10, against: edge }, z: { how: touch } } }
${lines === '' ? '' : `lines:\n  l: { ${lines} }\n`}operations:
  - { number: 10, title: Mill, setup: h, tool: t, ${operation} }
`;

const passesOf = (job: Job): readonly ResolvedPass[] => proved(plan(job)).resolved.operations[0]?.cuts[0]?.passes ?? [];

const isCut = (passes: readonly ResolvedPass[], radius: number, x: number, y: number) =>
  passes.some((pass) => {
    const within = (at: number, a: number, b: number) => Math.max(Math.min(a, b), Math.min(Math.max(a, b), at));
    const [nearX, nearY] = [within(x, pass.from.x, pass.to.x), within(y, pass.from.y, pass.to.y)];
    return Math.hypot(x - nearX, y - nearY) <= radius + 1e-9;
  });

/** Y of the cut metal at one X, from end to end of the grid; whether all between is cut. */
function cutAcross(passes: readonly ResolvedPass[], radius: number, x: number) {
  const cut = Array.from({ length: 9001 }, (_, i) => -30 + i / 100).filter((y) => isCut(passes, radius, x, y));
  const [low, high] = [Math.min(...cut), Math.max(...cut)];
  return { low, high, whole: Math.abs(cut.length - 1 - (high - low) * 100) < 1.5 };
}

const slot = 'kind: slot, along: x, at: 15, from: 0, to: 60, depth: 4';
const slotJob = (width: number): Job => ({ operation: 'kind: slot, lines: l', lines: `${slot}, width: ${width}` });

describe('a wide slot', () => {
  it.each([10, 10.02, 12, 17, 17.1, 25, 29])(
    'of %d mm by a cutter of 10 leaves no rib and ends at its walls',
    (width) => {
      const { low, high, whole } = cutAcross(passesOf(slotJob(width)), 5, 30);
      expect(whole).toBe(true);
      expect(low).toBeCloseTo(15 - width / 2, 1);
      expect(high).toBeCloseTo(15 + width / 2, 1);
    },
  );

  it('every pass after the first takes at most 0.7 of the cutter, with its metal on the left', () => {
    const passes = passesOf(slotJob(25));
    expect(passes.map((pass) => pass.from.y)).toEqual([17.5, 12.5, 22.5, 7.5]);
    for (const [at, pass] of passes.entries()) {
      if (at === 0) continue;
      const before = passes.slice(0, at);
      const fresh = Array.from({ length: 1001 }, (_, i) => pass.from.y - 5 + i / 100).filter(
        (y) => !isCut(before, 5, 30, y),
      );
      expect(fresh.length / 100).toBeLessThanOrEqual(7.05);
      const middle = fresh.reduce((sum, y) => sum + y, 0) / fresh.length;
      // Going right the left hand points to +Y, going left to -Y.
      expect(pass.feedTowards).toBe(middle > pass.from.y ? '+' : '-');
    }
  });
});

describe('a slot that cannot be', () => {
  const closed = 'ends: { from: closed, to: closed }';
  it('shorter than the cutter between closed ends is refused, as long as it is cut', () => {
    const short = (to: number): Job => ({
      operation: 'kind: slot, lines: l',
      lines: `kind: slot, along: x, at: 15, from: 20, to: ${to}, ${closed}, depth: 3`,
    });
    expect(problemsOf(plan(short(28)))[0]?.message).toContain('1 mm into each end');
    const passes = passesOf(short(30));
    const ends = Array.from({ length: 6001 }, (_, i) => i / 100).filter((x) => isCut(passes, 5, x, 15));
    expect([Math.min(...ends), Math.max(...ends)]).toEqual([20, 30]);
  });

  it('whose passes end at another depth than stated is refused, and one whose depths do not go down', () => {
    const job = (rest: string): Job => ({ operation: 'kind: slot, lines: l', lines: `${slot}, width: 10, ${rest}` });
    expect(problemsOf(plan(job('passes: [2, 3]')))[0]?.message).toContain('4 mm deep and its passes end at 3 mm');
    expect(problemsOf(plan(job('passes: [3, 2, 4]')))[0]?.message).toContain('do not go deeper');
    expect(problemsOf(plan(job('passes: 2, last pass: 4')))[0]?.message).toContain('leaves nothing');
    expect(passesOf(job('passes: [2, 4]')).map((pass) => pass.z)).toEqual([-2, -4]);
  });

  it('without a depth is refused; through it goes when it says so', () => {
    const bare = slot.replace(', depth: 4', '');
    expect(problemsOf(plan({ operation: 'kind: slot, lines: l', lines: bare }))[0]?.message).toContain('how deep');
    expect(passesOf({ operation: 'kind: slot, lines: l, depth: through', lines: bare })[0]?.z).toBe(-20.5);
  });
});

describe('a step', () => {
  const step = (rest: string): Job => ({
    operation: 'kind: step, lines: l',
    lines: `kind: step, along: x, at: 18, from: 0, to: 60, depth: 4${rest}`,
  });

  it('that does not say how far it reaches is cleared to the edge of the part', () => {
    const passes = passesOf(step(', side: front'));
    const { high, whole, low } = cutAcross(passes, 5, 30);
    expect(high).toBeCloseTo(18, 2);
    expect(low).toBeLessThanOrEqual(0);
    expect(whole).toBe(true);
    const { computed } = proved(plan(step(', side: front')));
    expect(computed.find((note) => note.what === 'width of "l"')?.value).toBe('18 mm');
  });

  it('toward the rear of a part of 30 it reaches 12', () => {
    const { high, low, whole } = cutAcross(passesOf(step(', side: rear')), 5, 30);
    expect(low).toBeCloseTo(18, 2);
    expect(high).toBeGreaterThanOrEqual(30);
    expect(whole).toBe(true);
  });

  it('that does not say on which side the cutter stands is refused', () => {
    expect(problemsOf(plan(step('')))[0]?.message).toContain('on which side of its wall');
  });
});

describe('an end that is far too long', () => {
  const job = (blank: number, cutter = 16): Job => ({
    tool: `kind: end mill, diameter: ${cutter}`,
    operation: 'kind: mill to length, length: 40, depth: 20.5',
    more: `stock: { section: 30 x 20, bars: 1000, kerf: 1.2, blank: ${blank} }\n`,
  });

  it.each([
    [62, 16, 2],
    [51.2, 16, 1],
    [51.3, 16, 2],
    [100, 16, 6],
  ])('blank %d, cutter %d, to 40: %d passes, nothing loose beside the cutter', (blank, cutter, count) => {
    const passes = passesOf(job(blank, cutter));
    expect(passes).toHaveLength(count);
    // Metal from 40 to the end of the blank is all cut, none below 40, and none falls off whole.
    const xs = Array.from({ length: (blank - 39) * 100 }, (_, i) => 39 + i / 100);
    const standing = xs.filter((x) => !isCut(passes, cutter / 2, x, 15));
    expect(Math.max(...standing)).toBeLessThan(40.001);
    let end = blank;
    for (const pass of passes) {
      expect(pass.from.x + cutter / 2).toBeGreaterThanOrEqual(end - 1e-9);
      const wall = pass.from.x - cutter / 2;
      expect(end - wall).toBeLessThanOrEqual(0.7 * cutter + 1e-9);
      end = wall;
    }
    expect(end).toBeCloseTo(40, 9);
    expect(new Set(passes.map((pass) => pass.feedTowards))).toEqual(new Set(['+']));
  });

  it('what an operation before left counts, not the blank', () => {
    const text = plan(job(62)).replace(
      '  - { number: 10,',
      '  - { number: 5, title: First, kind: mill to length, setup: h, tool: t, length: 41, depth: 20.5 }\n  - { number: 10,',
    );
    expect(proved(text).resolved.operations.map((one) => one.cuts[0]?.passes.length)).toEqual([2, 1]);
  });

  it('is gone through pass by pass, so that nobody winds to the last one first; one pass counts the piece', () => {
    const countingOf = (blank: number) => proved(plan(job(blank))).resolved.operations[0]?.counting;
    expect(countingOf(62)).toBe('point');
    expect(countingOf(51)).toBe('piece');
    const ofSlot = (width: number) => proved(plan(slotJob(width))).resolved.operations[0]?.counting;
    expect([ofSlot(10), ofSlot(25)]).toEqual(['piece', 'point']);
  });

  it('a hair of a cutter is refused, not wound ten thousand times', () => {
    expect(problemsOf(plan(job(62, 0.01)))[0]?.message).toContain('would take');
  });
});

describe('a face', () => {
  it.each([
    [20, 2],
    [37.5, 1],
    [37, 2],
    [8, 5],
  ])('by a cutter of %d goes over 30 mm in %d strips and leaves nothing', (cutter, count) => {
    const job: Job = { tool: `kind: face mill, diameter: ${cutter}`, operation: 'kind: face, depth: 1' };
    const passes = passesOf(job);
    expect(passes).toHaveLength(count);
    for (const x of [0, 30, 60]) {
      const { low, high, whole } = cutAcross(passes, cutter / 2, x);
      expect([low <= 0, high >= 30, whole]).toEqual([true, true, true]);
    }
    expect(passes.every((pass) => pass.feedTowards === '+' && pass.z === -1)).toBe(true);
    const cut = proved(plan(job)).resolved.operations[0]?.cuts[0];
    expect(cut?.z).toBe(-1);
    expect(cut?.feel).not.toBeNull();
  });

  it('two strips take longer than one, by what the passes take', () => {
    const seconds = (cutter: number) => {
      const { resolved } = proved(
        plan({ tool: `kind: face mill, diameter: ${cutter}`, operation: 'kind: face, depth: 1, speed: 210' }),
      );
      return resolved.operations[0]?.estimate.piece ?? 0;
    };
    expect(seconds(37)).toBeGreaterThan(seconds(37.5) + 6);
  });

  it('of four pieces side by side is one face, of pieces that stand apart each its own', () => {
    const job: Job = { tool: 'kind: face mill, diameter: 50', operation: 'kind: face, depth: 1, per load: 4' };
    const four = (dy: number) =>
      plan(job).replace(
        'hold: plate,',
        `hold: fixture, places: [{ name: a }, { name: b, y: ${dy} }, { name: c, y: ${2 * dy} }, { name: d, y: ${3 * dy} }],`,
      );
    const load = (dy: number) => proved(four(dy)).resolved.operations[0]?.cuts[0]?.loadPasses ?? [];
    // 4 x 30 mm from Y 0 to 120: strips of at most 40.
    expect(load(30)).toHaveLength(3);
    const { low, high, whole } = cutAcross(load(30), 25, 30);
    expect([low <= 0, high, whole]).toEqual([true, 60, true]);
    expect(isCut(load(30), 25, 0, 120) && isCut(load(30), 25, 60, 90)).toBe(true);
    expect(load(30).every((pass) => pass.places.length === 4)).toBe(true);
    expect(load(90)).toHaveLength(4);
    expect(load(90).map((pass) => pass.places)).toEqual([[1], [2], [3], [4]]);
    expect(findingsOf(four(30)).filter((finding) => finding.code === 'neighbour-cut')).toEqual([]);
  });

  it('goes over the length that is there before the ends are milled', () => {
    const more = 'stock: { section: 30 x 20, bars: 1000, kerf: 1.2, blank: 66 }\n';
    const [pass] = passesOf({ tool: 'kind: face mill, diameter: 40', operation: 'kind: face, depth: 1', more });
    expect([pass?.from.x, pass?.to.x]).toEqual([-21, 87]);
  });

  it.each(['', ', depth: through'])('without a depth is refused: "%s"', (depth) => {
    const job: Job = { tool: 'kind: face mill, diameter: 40', operation: `kind: face${depth}` };
    expect(problemsOf(plan(job)).map((problem) => problem.message)).toEqual([
      'operation 10 (face) does not say how much it takes off',
    ]);
  });
});

describe('a chamfer along a line', () => {
  const tool = 'kind: countersink, diameter: 16, tip flat: 1';
  const edge = (side: string) =>
    ({
      front: 'kind: edge, along: x, at: 0, from: 0, to: 60, side: front',
      rear: 'kind: edge, along: x, at: 30, from: 0, to: 60, side: rear',
      left: 'kind: edge, along: y, at: 0, from: 0, to: 30, side: left',
      right: 'kind: edge, along: y, at: 60, from: 0, to: 30, side: right',
    })[side] ?? '';
  const chamfer = (lines: string, size: string): Job => ({ tool, lines, operation: `kind: chamfer, lines: l${size}` });

  // Leg 1: axis half the tip and 1 mm outside the wall, tip 2 deep (see tests/shop/edge-chamfers.test.ts). The work on the
  // left of the travel: along the front edge it lies at +Y, so to the right; and so on round the part, anticlockwise.
  it.each([
    ['front', '+', { x: -3.5, y: -1.5 }, { x: 63.5, y: -1.5 }],
    ['right', '+', { x: 61.5, y: -3.5 }, { x: 61.5, y: 33.5 }],
    ['rear', '-', { x: 63.5, y: 31.5 }, { x: -3.5, y: 31.5 }],
    ['left', '-', { x: -1.5, y: 33.5 }, { x: -1.5, y: -3.5 }],
  ])('at the %s edge is fed %s', (side, feedTowards, from, to) => {
    const passes = passesOf(chamfer(edge(side), ', leg: 1'));
    expect(passes).toEqual([
      {
        name: 'l, leg 1 mm',
        feedAxis: from.x === to.x ? 'y' : 'x',
        feedTowards,
        from,
        to,
        z: expect.closeTo(-2, 9),
        last: true,
      },
    ]);
  });

  it('by how far it goes down the side is the same at 90 degrees', () => {
    expect(passesOf(chamfer(edge('rear'), ', depth: 1'))).toEqual(passesOf(chamfer(edge('rear'), ', leg: 1')));
  });

  it('its speed is that of the cone at the top face: 5 mm, not 16', () => {
    const { resolved } = proved(plan(chamfer(edge('rear'), ', leg: 1')));
    const speed = resolved.operations[0]?.cuts[0]?.speed.computed ?? 0;
    const wide = proved(
      plan({ ...chamfer(edge('rear'), ', leg: 1'), operation: 'kind: chamfer, points: p, top: 5' }).replace(
        'operations:',
        'points: { p: { x: 30, y: 15 } }\noperations:',
      ),
    );
    expect(speed).toBeCloseTo(wide.resolved.operations[0]?.cuts[0]?.speed.computed ?? -1, 6);
  });

  it.each([
    ['', 'nothing tells its size'],
    [', top: 3', 'a top diameter belongs to a hole'],
    [', depth: through', 'a chamfer has a leg'],
    [', leg: 1, depth: 2', 'not those of one chamfer'],
    [', leg: 7.5', 'leg of the chamfer'],
  ])('"%s" is refused with the way out', (size, words) => {
    const [problem, ...more] = problemsOf(plan(chamfer(edge('rear'), size)));
    expect(more).toEqual([]);
    expect(problem?.message).toContain(words);
    expect(problem?.tryThis).toMatch(/"leg:"|leg/);
  });

  it('along a slot takes both edges from its middle, or each by its own pass, conventionally', () => {
    const of = (width: number, depth: number) =>
      passesOf(
        chamfer(`kind: slot, along: x, at: 15, from: 0, to: 60, width: ${width}, depth: ${depth}`, ', leg: 0.5'),
      );
    expect(of(6, 8).map((pass) => pass.from.y)).toEqual([15]);
    // Wider than the cone: half of 20 less the axis, 0.5 + 1, each side of the middle.
    expect(of(20, 8).map((pass) => [pass.from.y, pass.feedTowards])).toEqual([
      [23.5, '+'],
      [6.5, '-'],
    ]);
  });

  it('a stated feed is judged for every wall that it goes along', () => {
    const codes = (feed: string, side: string) =>
      findingsOf(plan(chamfer(`${edge(side)}, feed: ${feed}`, ', leg: 1'))).map((finding) => finding.code);
    expect(codes('right', 'rear')).toContain('inward-feed');
    expect(codes('left', 'rear')).not.toContain('inward-feed');
    const both = findingsOf(
      plan(chamfer('kind: slot, along: x, at: 15, from: 0, to: 60, width: 20, depth: 8, feed: right', ', leg: 0.5')),
    ).find((finding) => finding.code === 'inward-feed');
    expect(both?.tryThis).toContain('leave "feed:" out');
  });
});

describe('an end mill that begins in solid metal', () => {
  const solid = (job: Job, extra = '') =>
    findingsOf(plan(job).replace('operations:\n', extra === '' ? 'operations:\n' : extra)).filter(
      (finding) => finding.code === 'solid-start',
    );

  it('is told at a closed end and as a drill, and not where a hole was drilled first', () => {
    const lines = 'kind: slot, along: x, at: 15, from: 20, to: 50, ends: { from: closed, to: open }, depth: 3';
    const job: Job = { operation: 'kind: slot, lines: l', lines };
    expect(solid(job).map((finding) => finding.message)).toEqual([
      '"l" begins at its closed end, X 25 mm, in solid metal',
    ]);
    expect(solid({ ...job, lines: lines.replace('from: closed, to: open', 'from: open, to: closed') })).toEqual([]);
    const drilled =
      'points: { p: { x: 24, y: 15 } }\noperations:\n  - { number: 5, title: Drill, kind: drill, setup: h, tool: d, points: p, depth: 3 }\n';
    const withDrill = { ...job, tool: 'kind: end mill, diameter: 10 }\n  d: { kind: drill, diameter: 8' };
    expect(solid(withDrill, drilled)).toEqual([]);
    const mill: Job = { operation: 'kind: drill, points: p, depth: 5' };
    expect(solid(mill, 'points: { p: { x: 24, y: 15 } }\noperations:\n')).toHaveLength(1);
  });
});
