import { describe, expect, it } from 'vitest';
import { placeWhere } from '../../../src/screen/moments/place-where.ts';
import { aMachine, aSetup, samplePlan } from '../../batch/sample-plan.ts';

const vice = (fixedJaw: string) => ({ jawWidth: 100, jawHeight: 30, opening: 90, fixedJaw: fixedJaw as 'rear' });
const inRow = (offsets: readonly (readonly [number, number])[]) =>
  offsets.map(([dx, dy], i) => ({ name: String(i + 1), dx, dy }));
const three = inRow([
  [0, 0],
  [0, -31],
  [0, -62],
]);

/** Where each of three pieces lies. */
function where(machine: Parameters<typeof aMachine>[1], setup: Parameters<typeof aSetup>[2]): string[] {
  const held = aSetup('V', 'mill', setup);
  const plan = samplePlan({ machines: [aMachine('mill', machine)], setups: [held] });
  return [1, 2, 3].map((place) => placeWhere(plan, held, place, 3));
}

describe('where a place of a load lies', () => {
  it('from jaw to jaw, by the jaws', () => {
    const words = ['at the fixed jaw', '2nd from the fixed jaw', 'at the moving jaw'];
    expect(where({}, { places: three })).toEqual(words);
    expect(where({ vice: vice('front') }, { places: three })).toEqual([...words].reverse());
  });

  it('along the jaws, from the stop', () => {
    const along = inRow([
      [0, 0],
      [61, 0],
      [122, 0],
    ]);
    expect(where({}, { places: along })).toEqual(['at the stop', '2nd from the stop', '3rd from the stop']);
    expect(where({}, { places: along, stop: null })).toEqual(['at the left', '2nd from the left', 'at the right']);
  });

  it('in rows both ways, by both', () => {
    const both = inRow([
      [0, 0],
      [61, 0],
      [61, -31],
    ]);
    expect(where({}, { places: both })[2]).toBe('2nd from the stop, at the moving jaw');
  });

  it('as the plan calls it where it has a name', () => {
    const named = ['left', 'middle', 'right'].map((name, i) => ({ name, dx: 95 * i, dy: 0 }));
    expect(where({}, { places: named, hold: 'fixture' })).toEqual(['left', 'middle', 'right']);
  });
});
