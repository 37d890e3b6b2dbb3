// What the hands go by at a cone and at a tap, worked out beside the program.
import { describe, expect, it } from 'vitest';
import { proved, textOf } from '../plan-samples.ts';

const pointsOf = (job: string, operation: number, cut = 0) =>
  proved(textOf(`jobs/${job}.yaml`)).resolved.operations.find((one) => one.number === operation)?.cuts[cut]?.points ??
  [];

describe('a cone over a hole', () => {
  // 90 degrees: the travel from the rim is half of what the mouth grows. 6.6 to 13.5: 3.45.
  it('has the travel from the rim and the top that it makes', () => {
    expect(pointsOf('keeper-plates', 100)).toHaveLength(2);
    for (const { rim } of pointsOf('keeper-plates', 100)) {
      expect(rim?.travel).toBeCloseTo(3.45, 9);
      expect(rim?.top).toBe(13.5);
    }
  });

  // pin 13 to 14: 0.5; four bolts 8.5 to 9.5: 0.5.
  it('has for every hole its own', () => {
    const points = pointsOf('hinge-straps', 60);
    expect(points.map(({ rim }) => rim?.top)).toEqual([14, 9.5, 9.5, 9.5, 9.5]);
    for (const { rim } of points) expect(rim?.travel).toBeCloseTo(0.5, 9);
  });

  it('has none in solid metal', () => {
    for (const { rim } of pointsOf('keeper-plates', 60)) expect(rim).toBeUndefined();
  });
});

describe('a tap in a blind hole', () => {
  // M5 x 0.8, 8 mm of full thread, lead of 2 threads: at rest at 8 + 1.6 = 9.6, 12 turns. 65 rpm x 0.8 / 60 x 1.5 s runs on
  // 1.3: off at 8.3. Drilled 12.4 of full diameter: 12.4 / 0.8 = 15.5 turns to the floor.
  it('is switched off short by what it runs on, and bottoms in the hole really drilled', () => {
    const points = pointsOf('hinge-blocks', 140, 2);
    expect(points).toHaveLength(3);
    for (const point of points) {
      expect(point.z).toBeCloseTo(-9.6, 9);
      expect(point.switchOff).toBeCloseTo(-8.3, 9);
      expect(point.note).toBe('12 turns, 8 mm full thread, bottoms at 15.5 turns; switch off at Z -8.3 mm');
    }
  });

  it('is not switched off early where it goes through, nor by hand', () => {
    for (const { switchOff } of [...pointsOf('keeper-plates', 80), ...pointsOf('latch-bars', 140)])
      expect(switchOff).toBeUndefined();
  });
});
