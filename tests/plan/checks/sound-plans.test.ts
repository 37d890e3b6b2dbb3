import { describe, expect, it } from 'vitest';
import type { Mm } from '../../../src/shop/quantities.ts';
import { METRIC_COARSE } from '../../../src/shop/tables/metric-threads.ts';
import { UNC } from '../../../src/shop/tables/unified-threads.ts';
import { allThreads } from '../../../src/shop/thread-list.ts';
import { parseThread } from '../../../src/shop/thread-names.ts';
import { findingsOf, plansIn, proved, textOf } from '../plan-samples.ts';

const folder = 'tests/samples/sound-plans/';
const sound = [...plansIn('jobs/'), ...plansIn(folder)];
const words = (findings: ReturnType<typeof findingsOf>) =>
  findings.map((finding) => `${finding.code} ${finding.operation}: ${finding.message}`);

describe('a rule that fires on sound practice is a fault', () => {
  it('there are twelve plans and more, in both units', () => {
    expect(plansIn(folder).length).toBeGreaterThanOrEqual(12);
    const units = new Set(plansIn(folder).map((name) => proved(textOf(name)).plan.units));
    expect(units).toEqual(new Set(['mm', 'inch']));
  });

  it.each(sound)('%s trips no stop and no warning', (name) => {
    expect(words(findingsOf(textOf(name)).filter((finding) => finding.severity !== 'note'))).toEqual([]);
  });

  it('M3 in brass at 170 rpm on a spindle that never reverses, through: nothing is said of the tapping', () => {
    const found = findingsOf(textOf(`${folder}brass-m3.yaml`));
    expect(words(found.filter((finding) => finding.operation === 30))).toEqual([]);
  });
});

/** Spot, drill and tap one through hole, everything sized by the thread. */
function tapped(thread: string, drill: string, major: Mm): string {
  const [size, thick] = [Math.ceil(major * 4), Math.max(2, major * 1.2).toFixed(2)];
  const middle = size / 2;
  return `format: 1
id: one-thread
job: One thread
units: mm
material: mild steel
part: { length: ${size}, width: ${size}, thickness: ${thick} }
quantity: 5
allowances: { breakthrough: 0.2 }
machines:
  mill: { station: mill, speeds: { from: 20, to: 20000 }, reverse: at once, readout: 0.01 }
tools:
  spot: { kind: spot, diameter: ${(major * 1.5).toFixed(2)} }
  drill: { kind: drill, diameter: ${drill} }
  tap: { kind: tap, thread: ${thread}, lead: 4 threads }
setups:
  top: { machine: mill, hold: fixture, zero: { x: { how: pin, tip: 5, against: pin, end: left }, y: { how: pin, tip: 5, against: pin, end: front }, z: { how: touch } } }
points:
  hole: { x: ${middle}, y: ${middle} }
operations:
  - { number: 10, title: Spot, kind: spot, setup: top, tool: spot, points: hole, top: ${(major * 1.05).toFixed(2)} }
  - { number: 20, title: Drill, kind: drill, setup: top, tool: drill, points: hole, depth: through }
  - { number: 30, title: Tap, kind: tap, setup: top, tool: tap, points: hole, thread: ${thread}, depth: through }
`;
}

// Sizes of the tables: ISO 261 coarse, ASME B1.1 UNC; their own usual drills.
const standard = allThreads().filter((thread) => thread.series === 'metric coarse' || thread.series === 'UNC');

describe('no finding on a standard tap drill', () => {
  it('every row of both tables is among them', () => {
    expect(standard).toHaveLength(METRIC_COARSE.length + UNC.length);
  });

  it.each(standard.map((thread) => thread.name))('%s', (name) => {
    const thread = parseThread(name);
    if (!thread.ok) throw new Error(name);
    const { tapDrill, major } = thread.value;
    expect(words(findingsOf(tapped(name, `${tapDrill.diameter} mm`, major)))).toEqual([]);
    for (const other of tapDrill.others) {
      const found = findingsOf(tapped(name, `${other} mm`, major));
      expect(words(found.filter((finding) => finding.severity !== 'note'))).toEqual([]);
    }
  });

  it.each(standard.map((thread) => thread.name))(
    '%s: a hair inside its limits passes, a hair outside does not',
    (name) => {
      const thread = parseThread(name);
      if (!thread.ok) throw new Error(name);
      const { limits, major, tapDrill } = thread.value;
      const codes = (diameter: number) =>
        findingsOf(tapped(name, `${diameter.toFixed(4)} mm`, major))
          .filter((finding) => finding.code === 'tap-drill')
          .map((finding) => finding.severity);
      expect(codes(limits.min + 0.002)).toEqual([]);
      expect(codes(limits.max - 0.002)).toEqual([]);
      expect(codes(limits.min - 0.01)).toEqual(['stop']);
      const over = limits.max + 0.02;
      if (over < major && tapDrill.others.every((usual) => Math.abs(usual - over) > 0.02))
        expect(codes(over)).toEqual(['warn']);
    },
  );
});
