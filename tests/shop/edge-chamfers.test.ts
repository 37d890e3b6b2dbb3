// The section of a chamfered edge by an independent route: metal as a fine grid, from which the turning cone takes what lies
// inside it; the chamfer is then measured on what is left.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type EdgeChamferAsk, edgeChamfer, legOfSide } from '../../src/shop/edge-chamfers.ts';
import { asDegrees, asMm } from '../../src/shop/quantities.ts';
import { formatRefusal } from '../../src/shop/refusal.ts';

const ask = (leg: number, angle: number, tip: number, largest: number, more: Partial<EdgeChamferAsk> = {}) => ({
  leg: asMm(leg),
  cone: { angle: asDegrees(angle), tip: asMm(tip), largest: asMm(largest) },
  air: asMm(1),
  floor: undefined,
  middle: undefined,
  ...more,
});

/** Radius of the cone at a height above its tip; nothing below it. */
const radiusAt = (height: number, angle: number, tip: number) =>
  height < 0 ? -1 : tip / 2 + height * Math.tan(((angle / 2) * Math.PI) / 180);

/** Metal at x < 0 (wall at 0) below z = 0: how much of the top and of the wall the cone takes away. */
function legsLeft(axis: number, depth: number, angle: number, tip: number) {
  const taken = (x: number, z: number) => Math.abs(x - axis) < radiusAt(z + depth, angle, tip);
  const steps = Array.from({ length: 40_000 }, (_, i) => (i + 0.5) / 4000);
  const top = Math.max(0, ...steps.filter((s) => taken(-s, -1e-9)));
  const side = Math.max(0, ...steps.filter((s) => taken(-1e-9, -s)));
  return { top, side };
}

describe('a chamfer along an edge', () => {
  it('of leg 1 with a 90 degree cone of 1 mm tip: axis 1.5 outside the wall, tip 2 deep', () => {
    expect(edgeChamfer(ask(1, 90, 1, 16))).toEqual({
      ok: true,
      value: { axis: 1.5, depth: expect.closeTo(2, 9), side: expect.closeTo(1, 9), reach: 2.5 },
    });
  });

  it('has the legs that were asked for, a straight side and no ledge, whatever the cone', () => {
    const cones = fc.record({
      leg: fc.double({ min: 0.2, max: 3, noNaN: true }),
      angle: fc.constantFrom(60, 82, 90, 120),
      tip: fc.double({ min: 0, max: 4, noNaN: true }),
      largest: fc.double({ min: 12, max: 25, noNaN: true }),
    });
    fc.assert(
      fc.property(cones, ({ leg, angle, tip, largest }) => {
        const found = edgeChamfer(ask(leg, angle, tip, largest));
        if (!found.ok) throw new Error(formatRefusal(found.problem));
        const { axis, depth, side, reach } = found.value;
        const left = legsLeft(axis, depth, angle, tip);
        expect(left.top).toBeCloseTo(leg, 2);
        expect(left.side).toBeCloseTo(side, 2);
        expect(left.side).toBeCloseTo(leg / Math.tan(((angle / 2) * Math.PI) / 180), 2);
        // The flat of the tip is clear of the wall, and the cone is still a cone at the top face.
        expect(axis - tip / 2).toBeGreaterThan(0.09);
        expect(reach).toBeLessThan(largest / 2);
        expect(radiusAt(depth, angle, tip)).toBeCloseTo(reach, 9);
      }),
      { numRuns: 40 },
    );
  });

  it('with the axis on the wall a flat tip leaves a ledge: the grid tells', () => {
    const ledge = legsLeft(0, 1, 90, 1);
    expect(ledge.top).toBeCloseTo(1.5, 2);
    expect(ledge.side).toBeCloseTo(1, 2);
  });

  it('keeps its tip above the floor of a step, and clear of its wall all the same', () => {
    const found = edgeChamfer(ask(1, 90, 1, 16, { floor: asMm(1.5) }));
    expect(found.ok && [found.value.depth, found.value.axis]).toEqual([
      expect.closeTo(1.25, 9),
      expect.closeTo(0.75, 9),
    ]);
    expect(edgeChamfer(ask(1, 90, 1, 16, { floor: asMm(1.1) })).ok).toBe(false);
  });

  it('takes both edges of a slot at once from its middle where the cone is wide enough', () => {
    const found = edgeChamfer(ask(0.5, 90, 0, 16, { middle: asMm(3) }));
    // Radius 3.5 at the top for a slot of 6 with half a millimetre on each edge.
    expect(found).toMatchObject({ ok: true, value: { axis: 3, reach: 3.5, depth: expect.closeTo(3.5, 9) } });
    const shallow = edgeChamfer(ask(0.5, 90, 0, 16, { middle: asMm(3), floor: asMm(2) }));
    expect(shallow).toMatchObject({ ok: true, value: { axis: expect.closeTo(0.75, 9) } });
  });

  it.each([
    [ask(2, 90, 1, 4), 'at most'],
    [ask(0, 90, 1, 16), 'leg of the chamfer 0'],
    [ask(1, 180, 1, 16), 'point angle'],
    [ask(0.5, 90, 4, 16, { middle: asMm(1.5) }), 'a slot 3 mm wide'],
    [ask(Number.NaN, 90, 1, 16), 'leg of the chamfer'],
  ])('what cannot be cut is refused: %o', (asked, words) => {
    const found = edgeChamfer(asked);
    expect(found.ok ? 'answered' : formatRefusal(found.problem)).toContain(words);
  });

  it('2 down the side of a 60 degree cone are 1.155 along the top', () => {
    expect(legOfSide(asMm(2), { angle: asDegrees(60) })).toBeCloseTo(1.1547, 4);
  });
});
