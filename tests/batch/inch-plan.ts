/**
 * A sample plan in inches for a mill with dials only: 60 aluminium blocks and 3 spares through 13 operations, with vice
 * loads, a bolt circle, a slot, a hole drilled and reamed in one clamping, tapping by hand and pieces out for anodising.
 */
import type { ResolvedPlan, ResolvedPoint } from '../../src/plan/resolved.ts';
import { aCheck, aCut, aMachine, anOperation, aSetup, aTool, aVariant, samplePlan } from './sample-plan.ts';

const inch = (value: number): number => value * 25.4;
const none = { kind: 'none' } as const;

const dial = (clockwiseMoves: '+' | '-', backlash: number) =>
  ({
    kind: 'dial',
    perTurn: inch(0.2),
    divisions: 200,
    clockwiseCounts: 'up',
    clockwiseMoves,
    backlash: inch(backlash),
  }) as const;

const point = (name: string, x: number, y: number, z: number): ResolvedPoint =>
  ({ name, x: inch(x), y: inch(-y), z: inch(-z), note: null }) as unknown as ResolvedPoint;

/** Six holes on a circle of 1.000 about (1.000, .750), in the order that winds past least. */
const circle = (depth: number): ResolvedPoint[] =>
  [330, 30, 90, 270, 210, 150].map((angle) => {
    const radians = (angle * Math.PI) / 180;
    return point(`${angle} deg`, 1 + 0.5 * Math.cos(radians), 0.75 - 0.5 * Math.sin(radians), depth);
  });
const centre = (depth: number) => point('centre', 1, 0.75, depth);

const slotPass = (name: string, depth: number, last: boolean) => ({
  name,
  feedAxis: 'x' as const,
  feedTowards: '-' as const,
  from: { x: inch(2.675), y: inch(-0.5) },
  to: { x: inch(1.875), y: inch(-0.5) },
  z: inch(-depth),
  last,
});

const mill = { station: 'mill', machine: 'mill' } as const;
const yesNo = (question: string) => ({ kind: 'yes or no', question }) as const;
const size = (nominal: number, tolerance: number) =>
  ({
    kind: 'measured',
    nominal: inch(nominal),
    lower: inch(nominal - tolerance),
    upper: inch(nominal + tolerance),
  }) as const;

/** The plan; `operations` of it can be left out at the end to keep a test short. */
export function inchPlan(): ResolvedPlan {
  return samplePlan({
    id: 'spacer',
    job: 'Spacer blocks',
    units: 'inch',
    material: '6061-T6',
    part: { length: inch(2.5), width: inch(1.5), thickness: inch(0.75) },
    variants: [aVariant('block', 60)],
    spares: 3,
    machines: [
      aMachine('saw', { station: 'saw', speeds: none, x: none, y: none, z: none, vice: null }),
      aMachine('mill', {
        speeds: { kind: 'steps', rpm: [200, 340, 560, 950, 1600, 2700] },
        reverse: 'never',
        x: dial('+', 0.008),
        y: dial('-', 0.006),
        zReadOn: 'quill',
      }),
    ],
    setups: [aSetup('V1', 'mill'), aSetup('V2', 'mill')],
    tools: [
      aTool('end mill 1/2', { kind: 'end mill' }),
      aTool('spot', { kind: 'spot drill' }),
      aTool('no. 29'),
      aTool('end mill 1/4', { kind: 'end mill' }),
      aTool('23/64'),
      aTool('reamer 3/8', { kind: 'reamer' }),
      aTool('plug tap', { kind: 'tap' }),
    ],
    operations: [
      anOperation(10, {
        title: 'Saw',
        kind: 'saw',
        station: 'saw',
        machine: 'saw',
        stopLength: inch(2.56),
        checks: [aCheck('blank', { what: size(2.56, 0.015), every: 10 })],
      }),
      anOperation(20, { title: 'Deburr', kind: 'deburr' }),
      anOperation(30, {
        ...mill,
        title: 'Mill end A',
        kind: 'mill to length',
        setup: 'V1',
        loadSize: 2,
        counting: 'load',
        cuts: [aCut('end mill 1/2', 1600, { z: inch(-0.78) })],
        checks: [aCheck('clean', { what: yesNo('Cleaned up?') })],
      }),
      anOperation(40, {
        ...mill,
        title: 'Mill to length',
        kind: 'mill to length',
        setup: 'V1',
        loadSize: 2,
        counting: 'load',
        cuts: [aCut('end mill 1/2', 1600, { z: inch(-0.78) })],
        checks: [aCheck('length', { what: size(2.5, 0.005), every: 10 })],
      }),
      anOperation(50, { title: 'Deburr', kind: 'deburr' }),
      anOperation(60, {
        ...mill,
        title: 'Spot',
        kind: 'spot',
        setup: 'V2',
        counting: 'point',
        cuts: [aCut('spot', 1600, { points: [...circle(0.09), centre(0.1975)] })],
      }),
      anOperation(70, {
        ...mill,
        title: 'Drill',
        kind: 'drill',
        setup: 'V2',
        counting: 'point',
        cuts: [aCut('no. 29', 2700, { points: circle(0.603) })],
        checks: [aCheck('over shanks', { what: size(1.136, 0.004), every: 10 })],
      }),
      anOperation(80, {
        ...mill,
        title: 'Slot',
        kind: 'slot',
        setup: 'V2',
        counting: 'point',
        cuts: [aCut('end mill 1/4', 2700, { passes: [slotPass('1', 0.06, false), slotPass('2', 0.125, true)] })],
      }),
      anOperation(100, {
        ...mill,
        title: 'Drill and ream',
        kind: 'ream',
        setup: 'V2',
        counting: 'point',
        cuts: [aCut('23/64', 950, { points: [centre(0.908)] }), aCut('reamer 3/8', 950, { points: [centre(0.86)] })],
        checks: [aCheck('plug', { what: yesNo('GO enters, NO GO does not?'), every: 5, last: true })],
      }),
      anOperation(110, {
        title: 'Tap',
        kind: 'tap',
        counting: 'point',
        cuts: [
          aCut('plug tap', null, {
            points: circle(0.53125),
            thread: {
              name: 'no. 8-32',
              pitch: inch(1 / 32),
              tapDrill: inch(0.136),
              turns: 17,
              byHand: true,
              fullThread: inch(0.375),
            },
          }),
        ],
      }),
      anOperation(120, { title: 'Deburr', kind: 'deburr' }),
      anOperation(130, {
        title: 'Anodise',
        kind: 'away',
        away: { to: 'the anodiser', changes: ['the reamed hole is plugged'] },
      }),
      anOperation(140, { title: 'Look over', kind: 'inspect' }),
    ],
  });
}
