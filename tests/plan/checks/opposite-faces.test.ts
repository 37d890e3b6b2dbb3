// Holes from opposite faces of a 20 mm part, 5 mm wide and 5.2 mm apart: 0.2 mm of wall where they come beside one another.
import { describe, expect, it } from 'vitest';
import { findingsOf } from '../plan-samples.ts';

const plan = (above: number, below: number, more = '') => `format: 1
id: opposite
job: Opposite
units: mm
material: mild steel
part: { length: 60, width: 30, thickness: 20 }
quantity: 2
machines:
  mill: { station: mill, speeds: { from: 60, to: 4000 }, reverse: at once, readout: 0.01 }
tools:
  drill: { kind: drill, diameter: 5 }
  cutter: { kind: end mill, diameter: 6, flutes: 2 }
setups:
  top: { machine: mill, hold: fixture, zero: { x: { how: pin, tip: 5, against: pin, end: left }, y: { how: pin, tip: 5, against: pin, end: front }, z: { how: touch } } }
  far: { machine: mill, hold: fixture, lies: over about X, zero: { x: { how: pin, tip: 5, against: pin, end: left }, y: { how: pin, tip: 5, against: pin, end: rear }, z: { how: touch } } }
points:
  one: { x: 20, y: 15 }
  other: { x: 25.2, y: 15 }
lines:
  slot: { kind: slot, along: x, at: 15, from: 30, to: 50, ends: { from: closed, to: closed }, width: 6, depth: 6 }
operations:
  - { number: 10, title: Above, kind: drill, setup: top, tool: drill, points: one, depth: ${above} }
${more}  - { number: 30, title: Deburr, kind: deburr }
  - { number: 40, title: Below, kind: drill, setup: far, tool: drill, points: other, depth: ${below} }
`;
const slot = '  - { number: 20, title: Slot, kind: slot, setup: top, tool: cutter, lines: slot }\n';
const walls = (text: string) =>
  findingsOf(text)
    .filter((one) => ['wall-thin', 'cross-slot'].includes(one.code))
    .map((one) => `${one.code} ${one.severity}`);

describe('holes from opposite faces', () => {
  // Points of 118 degrees are 1.5 mm long: 6 + 6 + 3 of 20 leave 5 mm between the tips.
  it('that end before they come beside one another leave no wall', () => expect(walls(plan(6, 6))).toEqual([]));

  it('that come beside one another leave one of 0.2 mm', () => expect(walls(plan(12, 12))).toEqual(['wall-thin warn']));

  it('under a slot: clear of its floor says nothing', () => expect(walls(plan(6, 6, slot))).toEqual([]));

  // The hole at 25.2 + 2.5 comes within 2.3 mm of the end of the slot; moved to 29 it breaks into its side.
  it('beside a slot: into its side is told once it comes that deep', () => {
    const near = (below: number) => walls(plan(6, below, slot).replace('other: { x: 25.2', 'other: { x: 29'));
    expect(near(8)).toEqual([]);
    expect(near(16)).toEqual(['wall-thin stop']);
  });

  // 20 less 6 of slot, less 12 of drill and 1.5 of point leave a floor of 0.5 mm.
  it('whole under a slot: too thin a floor is told', () => {
    const under = (below: number) => walls(plan(6, below, slot).replace('other: { x: 25.2', 'other: { x: 40'));
    expect(under(11)).toEqual([]);
    expect(under(12)).toEqual(['cross-slot warn']);
    expect(under(14)).toEqual(['cross-slot note']);
  });
});
