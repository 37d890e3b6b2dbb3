import { describe, expect, it } from 'vitest';
import { proved, textOf } from '../plan-samples.ts';

const cutsOf = (job: string) => {
  const { operations } = proved(textOf(`jobs/${job}.yaml`)).resolved;
  return (number: number) => operations.find((operation) => operation.number === number)?.cuts ?? [];
};

// hinge-blocks: blank 22 thick, faced by 1 to 21 in operation 70 and by 1 to 20 in operation 130; the target of both is Z -1.
// A face that measures m stands at Z m - 22 (then m - 21), for what is to size stands at the target.
describe('the Z zero of a tool that faces and of those behind it', () => {
  const cuts = cutsOf('hinge-blocks');

  it('makes a skimmed face that is to size stand at the target, so that winding there takes nothing off', () => {
    expect(cuts(70)[0]).toMatchObject({ z: -1, zZero: { how: 'skim', set: -1, wanted: 21 } });
    expect(cuts(70)[0]?.zZero?.sum).toBe('measured less 22.00, to size 21.00 gives -1.00');
    expect(cuts(130)[0]).toMatchObject({ z: -1, zZero: { how: 'skim', set: -1, wanted: 20 } });
    expect(cuts(130)[0]?.zZero?.sum).toBe('measured less 21.00, to size 20.00 gives -1.00');
  });

  it('never asks a spotting drill, a drill, a counterbore, a chamfering tool or a tap to skim', () => {
    for (const number of [80, 90, 100, 110, 140]) {
      expect(cuts(number).length).toBeGreaterThan(0);
      for (const cut of cuts(number)) expect(cut.zZero, String(number)).toMatchObject({ how: 'touch', set: 0 });
    }
  });
});

describe('the Z zero of other tools', () => {
  it('stands above the surface by the feeler', () => {
    // keeper-plates: feeler 0.05 on the top. latch-bars: feeler .002 in = 0.0508 mm.
    expect(cutsOf('keeper-plates')(60)[0]?.zZero).toMatchObject({ how: 'feeler', set: 0.05 });
    expect(cutsOf('keeper-plates')(60)[0]?.zZero?.sum).toBe('top of the part 0.00 + feeler 0.05 = +0.05');
    expect(cutsOf('latch-bars')(30)[0]?.zZero?.set).toBeCloseTo(0.0508, 10);
    expect(cutsOf('latch-bars')(30)[0]?.zZero?.sum).toBe('top of the part .000 + feeler .002 = +.002');
  });

  it('is none for a tap turned by hand, nor on a pillar drill, where no Z is wound', () => {
    expect(cutsOf('latch-bars')(140)[0]?.zZero).toBeUndefined();
    expect(cutsOf('keeper-plates')(100)[0]?.zZero).toBeUndefined();
  });
});
