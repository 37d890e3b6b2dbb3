// What is large while a face is milled: the depth that makes its size, however many strips it takes.
import { describe, expect, it } from 'vitest';
import { workFace } from '../../../src/screen/moments/work-panel.ts';
import { play } from '../../batch/playing.ts';
import { proved } from '../../plan/plan-samples.ts';

const facing = (cutter: number) => `format: 1
id: t
job: T
units: mm
material: mild steel
part: { length: 60, width: 30, thickness: 8 }
quantity: 5
machines:
  mill: { station: mill, speeds: [80, 340, 860], readout: 0.01, z: { readout: 0.01 } }
tools:
  f: { kind: face mill, diameter: ${cutter} }
setups:
  h: { machine: mill, hold: fixture, zero: { x: { how: pin, tip: 10, against: pin, end: left }, y: { how: pin, tip: 10, against: pin, end: front }, z: { how: touch } } }
operations: [{ number: 10, title: Face, kind: face, setup: h, tool: f, depth: 0.5, counting: piece }]
`;

function faceBy(cutter: number) {
  const played = play(proved(facing(cutter)).resolved);
  played.passAll();
  const { readings, facts } = workFace(played.batch(), 0, 0, true);
  return { large: readings.map(({ rank, label, text }) => `${rank} ${label} ${text}`), facts };
}

describe('facing', () => {
  it('in one strip shows its depth largest, and where the strip stands beside it', () => {
    // 30 wide and 1 over the edge, the axis half of 50 before that: Y 6.
    expect(faceBy(50).large).toEqual(['main Z -0.50', 'second Y 6.00']);
  });

  it('in two strips shows the one depth largest and where each strip stands as a fact', () => {
    const { large, facts } = faceBy(20);
    expect(large).toEqual(['main Z -0.50']);
    // Strips of 15, 1 over the edge, the axis half of 20 before: Y 6 and 21.
    expect(facts).toContain('2 passes, Y: 6.00, then 21.00.');
  });
});
