// Where a finder stands, by an independent route: part, stop and finder as bodies on a line; of the two places at which the
// finder touches, the one where it overlaps nothing is right.
import { describe, expect, it } from 'vitest';
import { finderSide, groundAt } from '../../../src/plan/resolve/finder-side.ts';
import { problemsOf, proved } from '../plan-samples.ts';

interface Zero {
  readonly hold: string;
  readonly x: string;
  readonly y: string;
  readonly extra?: string;
}

const plan = ({ hold, x, y, extra = '' }: Zero) => `format: 1
id: t
job: T
units: mm
material: mild steel
part: { length: 60, width: 30, thickness: 8 }
tolerance: ISO 2768-m
quantity: 10
machines:
  mill:
    station: mill
    speeds: [540, 860, 1380]
    reverse: after stopping
    readout: 0.01
    vice: { jaw width: 125, jaw height: 40, opening: 100, fixed jaw: rear }
tools:
  d5: { kind: drill, diameter: 5 }
setups:
  h:
    machine: mill
    hold: ${hold}
${extra}    zero: { x: { ${x} }, y: { ${y} }, z: { how: touch } }
points:
  a: { x: 10, y: 15 }
operations:
  - { number: 10, title: Drill, kind: drill, setup: h, tool: d5, points: a, depth: through }
`;

type Interval = readonly [from: number, to: number];
const meet = (a: Interval, b: Interval) => Math.min(a[1], b[1]) - Math.max(a[0], b[0]) > 1e-9;

/** The place of the axis at which a tip of 10 touches the face at 0 without standing in what is there. */
function freePlace(there: Interval): number {
  const free = [-5, 5].filter((axis) => !meet([axis - 5, axis + 5], there));
  expect(free).toHaveLength(1);
  return free[0] ?? Number.NaN;
}

const stop = '    stop: { side: left }\n';
const finder = 'how: edge finder, tip: 10, against:';
const setOf = (text: string, axis: 'x' | 'y') => proved(text).resolved.setups[0]?.[axis]?.set;

describe('a finder stands in air', () => {
  it.each([
    ['the stop on the left', 'x', { hold: 'vice', x: `${finder} stop`, extra: stop }, [-20, 0]],
    ['the fixed jaw at the rear', 'y', { hold: 'vice', y: `${finder} fixed jaw` }, [0, 30]],
    ['the front of a part in the vice', 'y', { hold: 'vice', y: `${finder} front, end: front` }, [0, 30]],
    ['the end away from the stop', 'x', { hold: 'vice', x: `${finder} it, end: right`, extra: stop }, [-60, 0]],
    ['the left end of a part on a plate', 'x', { hold: 'plate', x: `${finder} left end` }, [0, 60]],
    ['the rear edge of a part held by hand', 'y', { hold: 'by hand', y: `${finder} edge, end: rear` }, [-30, 0]],
    ['a pin of a fixture on the left', 'x', { hold: 'fixture', x: `${finder} dowel pin` }, [-10, 0]],
  ] as const)('at %s', (_, axis, zero, there) => {
    const text = plan({ x: 'how: stop only, against: it', y: 'how: stop only, against: it', ...zero });
    expect(setOf(text, axis)).toBe(freePlace(there));
  });

  it('a part on a plate whose plan names no end is zero at the corner of its drawing, whatever vice the machine has', () => {
    const text = plan({ hold: 'plate', x: `${finder} end`, y: `${finder} edge` });
    // The drawing measures from the left front corner: the part lies at +X and +Y, the finder left of it and before it.
    expect([setOf(text, 'x'), setOf(text, 'y')]).toEqual([freePlace([0, 60]), freePlace([0, 30])]);
    expect(proved(text).resolved.operations[0]?.cuts[0]?.points[0]).toMatchObject({ x: 10, y: 15 });
  });
});

describe('a finder in the part is refused', () => {
  it.each([
    ['plate', `${finder} left end, side: right`, '', 'side: left'],
    ['vice', `${finder} it, end: right, side: left`, stop, 'side: right'],
  ])('%s, x: %s', (hold, x, extra, wanted) => {
    const [problem] = problemsOf(plan({ hold, x, y: 'how: stop only, against: it', extra }));
    expect(problem?.message).toContain('inside the part');
    expect(problem?.tryThis).toContain(wanted);
    expect(problem?.path).toBe('setups.h.zero.x.side');
  });

  it('as is the side of the part at its edge by the moving jaw, whatever the words', () => {
    const text = plan({
      hold: 'vice',
      x: 'how: stop only, against: it',
      y: `${finder} moving jaw, end: front, side: rear`,
    });
    expect(problemsOf(text)[0]?.message).toContain('inside the part');
  });
});

describe('where neither setup nor words tell the side, it must be said', () => {
  it.each([
    ['plate', 'it', ''],
    ['plate', 'edge of the plate', ''],
    ['vice', 'left end of the part', stop],
  ])('%s, against: %s', (hold, against, extra) => {
    const bare = { hold, y: 'how: stop only, against: it', extra };
    const [problem] = problemsOf(plan({ ...bare, x: `${finder} ${against}` }));
    expect(problem?.message).toContain('does not say on which side');
    expect(setOf(plan({ ...bare, x: `${finder} ${against}, side: left` }), 'x')).toBe(-5);
  });

  it('a bore, a line and a stop without a finder need none', () => {
    for (const how of ['indicator', 'scribed line', 'stop only'])
      expect(problemsOf(plan({ hold: 'plate', x: `how: ${how}, against: it`, y: `how: ${how}, against: it` }))).toEqual(
        [],
      );
  });
});

describe('the ground at an end', () => {
  it('of a vice with its fixed jaw on the left is own there and the moving jaw on the right', () => {
    const vice = { 'jaw width': 1, 'jaw height': 1, opening: 1, 'fixed jaw': 'left' };
    const machine = { station: 'mill', vice } as unknown as Parameters<typeof groundAt>[1];
    const setup = { machine: 'mill', hold: 'vice' } as Parameters<typeof groundAt>[0];
    expect(groundAt(setup, machine, 'x', 'left')).toBe('own');
    expect(groundAt(setup, machine, 'x', 'right')).toBe('moving jaw');
    expect(groundAt(setup, machine, 'y', 'front')).toBe('untold');
  });

  it('a second stop at the end away from the stop is taken only with its side', () => {
    const ask = { ground: 'away from the stop', end: 'right', against: 'second stop' } as const;
    expect(finderSide({ ...ask, stated: undefined })).toEqual({ kind: 'untold' });
    expect(finderSide({ ...ask, stated: 'left' })).toEqual({ kind: 'side', side: 'left' });
  });
});

describe('a skimmed top', () => {
  it('is skimmed by what faces it and touched by every other tool, each with a value of its own', () => {
    const text = plan({ hold: 'plate', x: `${finder} end`, y: `${finder} edge` }).replace('how: touch', 'how: skim');
    const { setups, operations } = proved(text).resolved;
    expect(setups[0]?.zZero).toBe(
      'a facing cutter skims top of the part, the part is measured; any other tool touches it; what to set stands with the tool',
    );
    // A drill cannot skim: it touches, and the top is 0.
    expect(operations[0]?.cuts[0]?.zZero).toEqual({
      how: 'touch',
      on: 'top of the part',
      set: 0,
      sum: 'top of the part 0.00',
    });
  });
});
