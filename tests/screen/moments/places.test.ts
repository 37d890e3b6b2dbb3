// What the hands wind to, press by press, in a load of several: every hole and pass of every piece, and the load counted last.
import { describe, expect, it } from 'vitest';
import { cellAt, inHandAt } from '../../../src/batch/flow.ts';
import { targetAt } from '../../../src/screen/moments/targets.ts';
import { workFace } from '../../../src/screen/moments/work-panel.ts';
import { play } from '../../batch/playing.ts';
import { proved } from '../../plan/plan-samples.ts';

const head = `
format: 1
id: t
job: T
units: mm
material: mild steel
part: { length: 60, width: 30, thickness: 8, datum: left front }
tolerance: ISO 2768-m
quantity: 5
machines:
  mill: { station: mill, speeds: [80, 340, 860, 1380, 2200], readout: 0.01, z: { readout: 0.01 } }
tools:
  d5: { kind: drill, diameter: 5 }
  em10: { kind: end mill, diameter: 10 }
setups:
  h:
    machine: mill
    hold: fixture
    places: [{ name: L }, { name: M, x: 80 }, { name: R, x: 160 }]
    zero: { x: { how: pin, tip: 10, against: pin, end: left }, y: { how: pin, tip: 10, against: pin, end: rear }, z: { how: touch } }
`;
const drilling = (more: string, points: string) =>
  `${head}points: { a: { x: 10, y: 15 }, b: { x: 50, y: 15 } }\noperations: [{ number: 10, title: Drill, kind: drill, setup: h, tool: d5, points: ${points}, depth: through${more} }]`;
const slotting = `${head}lines: { l: { kind: slot, along: x, at: 15, from: 0, to: 60, passes: [1, 2] } }
operations: [{ number: 10, title: Slot, kind: slot, setup: h, tool: em10, lines: l }]`;

/** Every count until the batch has ended: what was wound to, what the screen called it, and how many are good after it. */
function walked(text: string) {
  const played = play(proved(text).resolved);
  const seen: { at: readonly (number | null)[]; called: string; good: number }[] = [];
  while (seen.length < 40) {
    played.passAll();
    const state = played.state();
    if (state.kind !== 'open' || state.current === null || inHandAt(state, 0).pieces === 0) break;
    const { stops, stop } = inHandAt(state, 0);
    const here = stops[stop];
    if (here === undefined) throw new Error('no stop');
    const target = targetAt(state, 0, here);
    const pass = target.passes.at(-1);
    const at = pass === undefined ? [target.x, target.y] : [pass.from, pass.to, pass.stands, pass.z];
    const called = workFace(state, 0, 0, true).headline?.text ?? '';
    played.act({ kind: 'count', quick: false }, 30);
    seen.push({ at, called, good: cellAt(played.batch(), 0).good });
    if (cellAt(played.batch(), 0).good === 5) break;
  }
  return seen;
}

describe('a load of three, then one of two', () => {
  it('is drilled hole by hole in every place, and counts with its last hole', () => {
    const seen = walked(drilling('', '[a, b]'));
    // Holes 10 and 50 from the left end of places at 0, 80 and 160; 15 in front of the rear edge.
    const x = [10, 50, 90, 130, 170, 210, 10, 50, 90, 130];
    expect(seen.map((one) => one.at)).toEqual(x.map((at) => [at, -15]));
    expect(seen.map((one) => one.good)).toEqual([0, 0, 0, 0, 0, 3, 3, 3, 3, 5]);
    expect(seen[3]?.called).toBe('WIND TO   piece 2 of 3 (M), b');
    expect(seen[8]?.called).toBe('WIND TO   piece 2 of 2 (M), a');
  });

  it('with one hole shows where that lies in every place', () => {
    const seen = walked(drilling('', 'a'));
    expect(seen.map((one) => one.at[0])).toEqual([10, 90, 170, 10, 90]);
    expect(seen.map((one) => one.good)).toEqual([0, 0, 3, 3, 5]);
  });

  it('counted by the load because the plan says so lists the places instead of showing the first as the only one', () => {
    const played = play(proved(drilling(', counting: load', 'a')).resolved);
    played.passAll();
    const face = workFace(played.batch(), 0, 0, true);
    expect(face.headline?.text).not.toContain('WIND TO');
    expect(face.facts).toEqual(
      expect.arrayContaining(['L: a X 10.00 Y -15.00.', 'M: a X 90.00 Y -15.00.', 'R: a X 170.00 Y -15.00.']),
    );
  });

  it('is slotted pass by pass in every place', () => {
    const seen = walked(slotting);
    // A cutter of 10 runs out by 5 and 1 of air at both ends of 60; two depths.
    const wanted = [0, 80, 160, 0, 80].flatMap((dx) => [-1, -2].map((z) => [dx - 6, dx + 66, -15, z]));
    expect(seen.map((one) => one.at)).toEqual(wanted);
    expect(seen.map((one) => one.good)).toEqual([0, 0, 0, 0, 0, 3, 3, 3, 3, 5]);
    expect(seen[3]?.called).toBe('-> FEED X RIGHT   piece 2 of 3 (M), pass 2 of 2');
  });
});

describe('a load with one piece rejected', () => {
  it('goes on past its place', () => {
    const played = play(proved(drilling('', '[a, b]')).resolved);
    played.passAll();
    played.act({ kind: 'reject', place: 2, pieces: 1, counted: false, reason: 'dropped' }, 5);
    const { stops, stop } = inHandAt(played.batch(), 0);
    expect(stops[stop]).toMatchObject({ place: 1, index: 0 });
    played.count(2);
    const next = inHandAt(played.batch(), 0);
    expect(next.stops[next.stop]).toMatchObject({ place: 3, index: 0 });
    played.count(2);
    expect(cellAt(played.batch(), 0)).toMatchObject({ good: 2, scrap: 1 });
  });
});
