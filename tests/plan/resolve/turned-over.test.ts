// Where places of the drawing come to lie, by independent routes: rotation matrices in space for parts that are turned over,
// complex numbers for arrangements, sampling for walls.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { frameOf, toSetup } from '../../../src/plan/resolve/frames.ts';
import { asMm } from '../../../src/shop/quantities.ts';
import { operationOf, proved } from '../plan-samples.ts';

type Vector = readonly [x: number, y: number, z: number];
type Turn = (v: Vector) => Vector;

/** Half a turn about an axis through the origin, written out as a rotation by an angle so that no sign is put in by hand. */
const aboutX =
  (angle: number): Turn =>
  ([x, y, z]) => [x, y * Math.cos(angle) - z * Math.sin(angle), y * Math.sin(angle) + z * Math.cos(angle)];
const aboutY =
  (angle: number): Turn =>
  ([x, y, z]) => [x * Math.cos(angle) + z * Math.sin(angle), y, z * Math.cos(angle) - x * Math.sin(angle)];
const aboutZ =
  (angle: number): Turn =>
  ([x, y, z]) => [x * Math.cos(angle) - y * Math.sin(angle), x * Math.sin(angle) + y * Math.cos(angle), z];

const TURNS: Readonly<Record<string, Turn>> = {
  'as drawn': (v) => v,
  'over about X': aboutX(Math.PI),
  'over about Y': aboutY(Math.PI),
  'end for end': aboutZ(Math.PI),
};

describe('a part turned over is a body turned in space', () => {
  it('every place of the drawing comes to lie where the rotation puts it, measured from the ground that zero touches', () => {
    const some = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    const ask = fc.record({
      lie: fc.constantFrom(
        'as drawn' as const,
        'over about X' as const,
        'over about Y' as const,
        'end for end' as const,
      ),
      datum: fc.constantFrom(
        'left front' as const,
        'left rear' as const,
        'right front' as const,
        'right rear' as const,
      ),
      x: fc.constantFrom('left' as const, 'right' as const),
      y: fc.constantFrom('front' as const, 'rear' as const),
      size: fc.tuple(some(20, 300), some(10, 200), some(3, 60)),
      share: fc.tuple(some(0.01, 0.99), some(0.01, 0.99)),
      ground: fc.tuple(some(-20, 20), some(-20, 20)),
    });
    fc.assert(
      fc.property(ask, ({ lie, datum, x, y, size, share, ground }) => {
        const [length, width, thickness] = size;
        const part = { length: asMm(length), width: asMm(width), thickness: asMm(thickness), datum };
        const corner = { x: { end: x, at: asMm(ground[0]) }, y: { end: y, at: asMm(ground[1]) } };
        // The part as a body about its own middle; the place on its top face.
        const place: Vector = [(share[0] - 0.5) * length, (share[1] - 0.5) * width, thickness / 2];
        const drawn = {
          x: asMm(place[0] + (datum.startsWith('left') ? length / 2 : -length / 2)),
          y: asMm(place[1] + (datum.endsWith('front') ? width / 2 : -width / 2)),
        };
        const turned = (TURNS[lie] ?? ((v: Vector) => v))(place);
        const corners = [-1, 1]
          .flatMap((i) => [-1, 1].map((j): Vector => [(i * length) / 2, (j * width) / 2, 0]))
          .map(TURNS[lie] ?? ((v) => v));
        const edge = (axis: 0 | 1, low: boolean) => (low ? Math.min : Math.max)(...corners.map((one) => one[axis]));
        const at = toSetup(drawn, frameOf(part, lie, corner));
        expect(at.x).toBeCloseTo(turned[0] - edge(0, x === 'left') + ground[0], 6);
        expect(at.y).toBeCloseTo(turned[1] - edge(1, y === 'front') + ground[1], 6);
      }),
      { numRuns: 200 },
    );
  });
});

/** A plan with one arrangement, drilled. */
const planWith = (points: string) => `format: 1
id: places
job: Places
units: mm
material: brass
part: { length: 400, width: 400, thickness: 5 }
quantity: 1
machines: { mill: { station: mill, speeds: { from: 50, to: 3000 }, readout: 0.001 } }
tools: { d: { kind: drill, diameter: 2 } }
setups: { top: { machine: mill, hold: plate, zero: { x: { how: pin, tip: 5, against: pin, end: left }, y: { how: pin, tip: 5, against: pin, end: front }, z: { how: touch } } } }
points:
${points}
operations:
  - { number: 10, title: Drill, kind: drill, setup: top, tool: d, points: all, depth: through }
`;
const placesOf = (points: string) =>
  (operationOf(proved(planWith(points)).resolved, 10).cuts[0]?.points ?? []).map(({ x, y }) => ({
    re: x as number,
    im: y as number,
  }));

interface Complex {
  readonly re: number;
  readonly im: number;
}
const times = (a: Complex, b: Complex): Complex => ({ re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re });
const plus = (a: Complex, b: Complex): Complex => ({ re: a.re + b.re, im: a.im + b.im });
const cis = (degrees: number): Complex => ({
  re: Math.cos((degrees * Math.PI) / 180),
  im: Math.sin((degrees * Math.PI) / 180),
});
const same = (found: readonly Complex[], wanted: readonly Complex[]) => {
  expect(found).toHaveLength(wanted.length);
  for (const [at, one] of wanted.entries()) {
    expect(found[at]?.re).toBeCloseTo(one.re, 6);
    expect(found[at]?.im).toBeCloseTo(one.im, 6);
  }
};

describe('arrangements are powers and multiples of complex numbers', () => {
  it('a circle: centre + radius times a root of unity, counted either way', () => {
    const centre = { re: 200, im: 150 };
    for (const clockwise of [false, true]) {
      const step = cis(clockwise ? -360 / 7 : 360 / 7);
      const wanted: Complex[] = [];
      let spoke = times({ re: 80, im: 0 }, cis(25));
      for (let at = 0; at < 7; at += 1, spoke = times(spoke, step)) wanted.push(plus(centre, spoke));
      same(
        placesOf(
          `  all: { circle: { centre: { x: 200, y: 150 }, diameter: 160, count: 7, first: 25 deg, clockwise: ${clockwise ? 'yes' : 'no'} } }`,
        ),
        wanted,
      );
    }
  });

  it('a part circle: the last point at the end of the arc', () => {
    const found = placesOf(
      '  all: { circle: { centre: { x: 200, y: 200 }, diameter: 100, count: 5, first: 90 deg, arc: 120 deg } }',
    );
    same(
      found,
      [0, 30, 60, 90, 120].map((turn) => plus({ re: 200, im: 200 }, times({ re: 50, im: 0 }, cis(90 + turn)))),
    );
  });

  it('a row and a grid that are turned: multiples of one number, and of two', () => {
    const start = { re: 120, im: 90 };
    same(
      placesOf('  all: { row: { start: { x: 120, y: 90 }, count: 4, pitch: 25, angle: 40 deg } }'),
      [0, 1, 2, 3].map((k) => plus(start, times({ re: 25 * k, im: 0 }, cis(40)))),
    );
    same(
      placesOf(
        '  all: { grid: { start: { x: 120, y: 90 }, columns: 3, rows: 2, column pitch: 20, row pitch: 35, angle: 15 deg } }',
      ),
      [0, 1].flatMap((j) => [0, 1, 2].map((i) => plus(start, times({ re: 20 * i, im: 35 * j }, cis(15))))),
    );
  });

  it('offsets and mirrors: a sum, and a conjugate about a line', () => {
    const points = `  a: { x: 50, y: 60 }
  b: { from: a, x: 30, y: -20 }
  ring: { circle: { centre: b, diameter: 40, count: 3 } }
  all: { mirrored: { points: ring, about y: 100 } }`;
    const ring = [0, 120, 240].map((turn) => plus({ re: 80, im: 40 }, times({ re: 20, im: 0 }, cis(turn))));
    same(
      placesOf(points),
      ring.map(({ re, im }) => ({ re, im: 200 - im })),
    );
  });
});

describe('walls by sampling', () => {
  it('from a hole to a wide slot with a closed end, in every direction', () => {
    const text = (x: number, y: number) =>
      planWith(`  all: { x: ${x}, y: ${y} }`)
        .replace('tools: {', 'tools: { m: { kind: end mill, diameter: 10 }, ')
        .replace(
          'operations:',
          'lines: { s: { kind: slot, along: x, at: 200, from: 100, to: 300, ends: { from: closed, to: closed }, width: 16, depth: 2 } }\noperations:',
        )
        .concat('  - { number: 20, title: Slot, kind: slot, setup: top, tool: m, lines: s }\n');
    // Cut metal: all places within 5 mm of the two paths of the cutter's axis, 3 mm either side of the middle.
    const sampled = (x: number, y: number) => {
      let least = Number.POSITIVE_INFINITY;
      for (let turn = 0; turn < 720; turn += 1) {
        const rim = plus({ re: x, im: y }, times({ re: 1, im: 0 }, cis(turn / 2)));
        for (const path of [197, 203]) {
          for (let along = 105; along <= 295; along += 0.25) {
            const near = Math.hypot(rim.re - along, rim.im - path) - 5;
            least = Math.min(least, near);
          }
        }
      }
      return least;
    };
    for (const [x, y] of [
      [200, 209.5],
      [98.6, 203],
      [97.2, 207.4],
      [301.5, 196],
    ] as const) {
      const wall = sampled(x, y);
      const finding = proved(text(x, y)).findings.find((one) => one.code === 'wall-thin');
      const said = /wall of (\S+) mm to the slot/.exec(finding?.message ?? '')?.[1];
      if (wall > 1) expect(said).toBeUndefined();
      else expect(Number(said)).toBeCloseTo(wall, 2);
    }
  });
});
