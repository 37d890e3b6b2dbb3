/** A plan with one of everything that a screen can be at: drawn as text, and as pictures for a look from afar. */
import {
  aCheck,
  aCut,
  aMachine,
  anOperation,
  aSetup,
  aTool,
  aVariant,
  samplePlan,
  somePoints,
} from '../../batch/sample-plan.ts';

const dial = {
  kind: 'dial',
  perTurn: 2.5,
  divisions: 125,
  clockwiseCounts: 'up',
  clockwiseMoves: '+',
  backlash: 0.2,
} as const;
const endPass = (last: boolean, x: number) => ({
  name: 'end',
  feedAxis: 'y' as const,
  feedTowards: '+' as const,
  from: { x, y: -70 },
  to: { x, y: 9 },
  z: -8.5,
  last,
});

/** One of everything: saw, load faced in passes, holes in two loads, dials, hand tap, tap, pillar drill, away, bench. */
export const everyKindPlan = samplePlan({
  variants: [aVariant('threaded', 2), aVariant('clearance', 2)],
  machines: [
    aMachine('mill'),
    aMachine('old mill', { x: dial, y: dial, z: dial, reverse: 'never' }),
    aMachine('pillar', {
      station: 'pillar drill',
      x: { kind: 'none' },
      y: { kind: 'none' },
      zReadOn: 'depth stop',
      vice: null,
    }),
    aMachine('saw', {
      station: 'saw',
      speeds: { kind: 'none' },
      x: { kind: 'none' },
      y: { kind: 'none' },
      z: { kind: 'none' },
      vice: null,
    }),
  ],
  setups: [
    aSetup('V1', 'mill', {
      places: [
        { name: '1', dx: 0, dy: 0 },
        { name: '2', dx: 0, dy: -31 },
      ],
    }),
    aSetup('V2', 'old mill'),
    aSetup('P1', 'pillar', { x: null, y: null, hold: 'by hand', stop: null, parallels: null }),
  ],
  tools: [
    aTool('end mill 16', { kind: 'end mill', diameter: 16, fluid: 'brushed cutting oil' }),
    aTool('drill 4.2', { diameter: 4.2, prepare: 'fresh edge', restore: 'rinse and oil' }),
    aTool('tap M5', { kind: 'tap', diameter: 5 }),
    aTool('countersink', { kind: 'countersink', diameter: 12, pointAngle: 90 }),
  ],
  operations: [
    anOperation(10, {
      title: 'Saw blanks',
      kind: 'saw',
      station: 'saw',
      machine: 'saw',
      stopLength: 61,
      checks: [aCheck('length', { every: 2 })],
    }),
    anOperation(20, {
      title: 'Mill end',
      kind: 'mill to length',
      station: 'mill',
      machine: 'mill',
      setup: 'V1',
      loadSize: 2,
      counting: 'load',
      cuts: [aCut('end mill 16', 450, { passes: [endPass(false, 69), endPass(true, 68.5)] })],
    }),
    anOperation(30, {
      title: 'Drill',
      kind: 'drill',
      station: 'mill',
      machine: 'mill',
      setup: 'V1',
      loadSize: 2,
      counting: 'point',
      cuts: [aCut('drill 4.2', 1200, { points: somePoints(2) })],
    }),
    anOperation(40, {
      title: 'Spot on dials',
      kind: 'spot',
      station: 'mill',
      machine: 'old mill',
      setup: 'V2',
      counting: 'point',
      cuts: [aCut('countersink', 450, { points: somePoints(3), topDiameter: 6 })],
    }),
    anOperation(50, {
      title: 'Tap',
      kind: 'tap',
      station: 'mill',
      machine: 'mill',
      setup: 'V1',
      variants: ['threaded'],
      counting: 'point',
      cuts: [
        aCut('tap M5', 90, {
          points: somePoints(1),
          thread: { name: 'M5', pitch: 0.8, tapDrill: 4.2, turns: null, byHand: false, fullThread: null },
        }),
      ],
      checks: [aCheck('gauge', { what: { kind: 'yes or no', question: 'Does the gauge go in?' } })],
    }),
    anOperation(60, {
      title: 'Countersink',
      kind: 'countersink',
      station: 'pillar drill',
      machine: 'pillar',
      setup: 'P1',
      variants: ['clearance'],
      located: 'follows the hole',
      cuts: [aCut('countersink', 200, { points: somePoints(2), topDiameter: 10 })],
    }),
    anOperation(70, {
      title: 'Tap by hand',
      kind: 'tap',
      cuts: [
        aCut('tap M5', null, {
          points: somePoints(1),
          thread: { name: 'M5', pitch: 0.8, tapDrill: 4.2, turns: 12, byHand: true, fullThread: 9 },
        }),
      ],
    }),
    anOperation(80, { title: 'Out for plating', kind: 'away', away: { to: 'the plater', changes: ['holes plugged'] } }),
    anOperation(90, { title: 'Deburr', kind: 'deburr' }),
  ],
});
