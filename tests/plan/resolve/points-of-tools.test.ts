// How deep each kind of tool is wound, by hand: trigonometry of the point, tables of the standards for screw heads.
import { describe, expect, it } from 'vitest';
import { pointOfTool } from '../../../src/plan/tool-point.ts';
import { asDegrees, asMm } from '../../../src/shop/quantities.ts';
import { problemsOf, proved } from '../plan-samples.ts';

const plan = (tool: string, operation: string) => `format: 1
id: t
job: T
units: mm
material: mild steel
part: { length: 60, width: 30, thickness: 20 }
tolerance: ISO 2768-m
quantity: 10
machines:
  mill: { station: mill, speeds: [210, 340, 540, 860], reverse: after stopping, readout: 0.01 }
tools:
  t: { ${tool} }
setups:
  h: { machine: mill, hold: plate, zero: { x: { how: edge finder, tip: 10, against: end }, y: { how: edge finder, tip: 10, against: edge }, z: { how: touch } } }
points:
  a: { x: 20, y: 15 }
operations:
  - { number: 10, title: Hole, setup: h, tool: t, points: a, ${operation} }
`;
const pointOf = (tool: string, operation: string) => {
  const { resolved, computed } = proved(plan(tool, operation));
  const cut = resolved.operations[0]?.cuts[0];
  return { z: cut?.points[0]?.z, note: cut?.points[0]?.note, top: cut?.topDiameter, computed };
};
/** Right-angled triangle: half the width over the tangent of half the angle. */
const cone = (width: number, angle: number) => width / 2 / Math.tan((angle / 2) * (Math.PI / 180));

describe('a point belongs to the kind of the tool', () => {
  it.each([
    ['kind: end mill, diameter: 10', 0],
    ['kind: counterbore, diameter: 10', 0],
    ['kind: drill, diameter: 10', cone(10, 118)],
    ['kind: drill, diameter: 10, point angle: 135 deg', cone(10, 135)],
    ['kind: spot, diameter: 10, tip flat: 1', cone(9, 90)],
    ['kind: end mill, diameter: 10, point angle: 90 deg', cone(10, 90)],
  ])('%s drills 5 mm deep with its tip %d mm lower', (tool, point) => {
    expect(pointOf(tool, 'kind: drill, depth: 5').z).toBeCloseTo(-5 - point, 9);
    // Through 20 mm: the whole diameter 1 mm past the far face.
    expect(pointOf(tool, 'kind: drill, depth: through').z).toBeCloseTo(-20 - point - 1, 9);
  });

  it('a flat bottom is called one', () => {
    expect(pointOf('kind: end mill, diameter: 10', 'kind: drill, depth: 5').note).toBe('5 mm to a flat bottom');
    expect(pointOf('kind: drill, diameter: 10', 'kind: drill, depth: 5').note).toBe('5 mm full diameter');
  });

  it('a reamer has its bevel and a tap its lead', () => {
    const base = { diameter: asMm(10), pointAngle: asDegrees(90), tipFlat: null, lead: asMm(1.5) };
    expect(pointOfTool({ ...base, kind: 'reamer' })).toBe(1.5);
    expect(pointOfTool({ ...base, kind: 'tap' })).toBe(1.5);
    expect(pointOfTool({ ...base, kind: 'spot', diameter: asMm(1), tipFlat: asMm(1) })).toBe(0);
  });
});

describe('the seat of a screw follows from its head', () => {
  it('a counterbore for an M6 cap head is 6.4 mm deep (DIN 974-1, head 6 mm high by ISO 4762)', () => {
    const { z, note, computed } = pointOf('kind: counterbore, diameter: 11', 'kind: counterbore, screw: M6 cap head');
    expect([z, note]).toEqual([-6.4, 'for the head of M6 cap head']);
    expect(computed).toContainEqual({
      operation: 10,
      what: 'depth',
      value: '6.4 mm',
      because: 'M6 cap head, ISO 4762, DIN 974-1',
    });
  });

  it('a countersink for M6 by ISO 10642 is 13.44 mm at the top: with a cone of 90 deg 6.72 mm deep', () => {
    const found = pointOf('kind: countersink, diameter: 16', 'kind: countersink, screw: M6 countersunk');
    expect(found.top).toBeCloseTo(13.44, 9);
    expect(found.z).toBeCloseTo(-cone(13.44, 90), 9);
  });

  it('what is stated goes before it', () => {
    expect(pointOf('kind: counterbore, diameter: 11', 'kind: counterbore, screw: M6 cap head, depth: 7').z).toBe(-7);
    const stated = pointOf('kind: countersink, diameter: 16', 'kind: countersink, screw: M6 countersunk, top: 13');
    expect(stated.top).toBe(13);
  });

  it.each([
    ['kind: counterbore', 'neither depth nor screw'],
    ['kind: counterbore, screw: M6 countersunk', 'its screw does not tell'],
    ['kind: counterbore, screw: M7 cap head', 'cap head'],
    ['kind: countersink', 'neither top diameter nor depth'],
    ['kind: countersink, screw: M6', 'its screw does not tell'],
  ])('%s is refused, once', (operation, words) => {
    const problems = problemsOf(plan('kind: counterbore, diameter: 11', operation));
    expect(problems).toHaveLength(1);
    expect(problems[0]?.message).toContain(words);
  });
});
