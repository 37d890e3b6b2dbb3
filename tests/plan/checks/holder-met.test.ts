// Tool and holder against jaws by an independent route: points all over both are looked for inside the jaws.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findingsOf } from '../plan-samples.ts';

interface Case {
  readonly parallels: number;
  readonly y: number;
  readonly out: number;
  readonly holder: number;
  readonly depth: number;
}

const JAW = 40;
const [WIDTH, THICK] = [30, 10];

const plan = (cut: string, tool: string, { parallels, y }: Case) => `format: 1
id: sunk
job: Sunk
units: mm
material: mild steel
part: { length: 60, width: ${WIDTH}, thickness: ${THICK} }
quantity: 2
machines:
  mill: { station: mill, speeds: { from: 60, to: 4000 }, reverse: at once, readout: 0.01, vice: { jaw width: 125, jaw height: ${JAW}, opening: 100 } }
tools:
  tool: { ${tool} }
setups:
  top: { machine: mill, hold: vice, stop: { side: left }, parallels: { height: ${parallels}, thickness: 3, where: clear of the holes }, zero: { x: { how: stop only, against: stop }, y: { how: pin, tip: 5, against: fixed jaw }, z: { how: touch } } }
points:
  one: { x: 30, y: ${y} }
operations:
  - { number: 10, title: Work, setup: top, tool: tool, points: one, ${cut} }
`;

const met = (text: string) => findingsOf(text).some((one) => one.code === 'holder-met');

/** Is any of the points in a jaw? Heights are above the bed of the vice, Y from the front of the part. */
const inJaw = (points: readonly { y: number; z: number }[]) =>
  points.some(({ y, z }) => z < JAW - 1e-6 && (y < -1e-6 || y > WIDTH + 1e-6));

/** Points of a disc of the spindle, seen along X: its width is all that matters to the jaws. */
const disc = (y: number, z: number, radius: number) =>
  Array.from({ length: 41 }, (_, i) => ({ y: y + (radius * (i - 20)) / 20, z }));

const tenth = (from: number, to: number) => fc.integer({ min: from * 10, max: to * 10 }).map((value) => value / 10);
const cases = fc.record({
  parallels: tenth(20, 36),
  y: tenth(6, 24),
  out: tenth(6, 20),
  holder: tenth(10, 50),
  depth: tenth(1, 5),
});

describe('a holder beside the jaws', () => {
  it('meets them when some point of it lies in them', () => {
    fc.assert(
      fc.property(cases, (one) => {
        const cutter = `kind: counterbore, diameter: 3, stick out: ${one.out}, holder: ${one.holder}`;
        const bottom = one.parallels + THICK - one.depth + one.out;
        const heights = Array.from({ length: 60 }, (_, i) => bottom + i / 2);
        const sampled = inJaw(heights.flatMap((z) => disc(one.y, z, one.holder / 2)));
        expect(met(plan(`kind: counterbore, depth: ${one.depth}`, cutter, one))).toBe(sampled && one.out >= one.depth);
      }),
      { numRuns: 60, seed: 7 },
    );
  });

  it('a cone does when it is that wide where it passes them', () => {
    fc.assert(
      fc.property(cases, (one) => {
        const cone = 'kind: spot, diameter: 40, point angle: 90 deg';
        const tip = one.parallels + THICK - one.depth;
        const along = Array.from({ length: 801 }, (_, i) => i / 20);
        const sampled = inJaw(along.flatMap((up) => disc(one.y, tip + up, Math.min(20, up))));
        expect(met(plan(`kind: spot, depth: ${one.depth}`, cone, one))).toBe(sampled);
      }),
      { numRuns: 40, seed: 7 },
    );
  });
});
