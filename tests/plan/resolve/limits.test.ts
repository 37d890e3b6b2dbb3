// Limits of a check: two sizes, a zone of ISO 286, or a difference either way.
import { describe, expect, it } from 'vitest';
import { findingsOf, problemsOf, proved } from '../plan-samples.ts';

const plan = (check: string, units = 'mm') => `format: 1
id: t
job: T
units: ${units}
material: mild steel
part: { length: 60, width: 30, thickness: 8 }
quantity: 10
operations:
  - number: 10
    title: Look over
    kind: inspect
    checks:
      - { title: Bore, when: first-off, ${check} }
`;
const limitsOf = (check: string, units?: string) => {
  const what = proved(plan(check, units)).resolved.operations[0]?.checks[0]?.what;
  if (what?.kind !== 'measured') throw new Error('not measured');
  return [what.nominal, what.lower, what.upper];
};
const codes = (check: string) => findingsOf(plan(check)).map((finding) => `${finding.code} ${finding.severity}`);

describe('two limits are two sizes', () => {
  it('they need not lie round the size that they are called by', () => {
    // 5 D10 by ISO 286-2 is +30 to +78 um.
    expect(limitsOf('nominal: 5, limits: [5.030, 5.078]')).toEqual([5, 5.03, 5.078]);
    expect(codes('nominal: 5, limits: [5.1, 5.2]')).toEqual([]);
  });

  it.each(['[5.2, 5.1]', '[5.1, 5.1]', '[5.1]'])('%s are refused', (limits) => {
    expect(problemsOf(plan(`nominal: 5, limits: ${limits}`))[0]?.message).toContain('a lowest and a highest size');
  });

  it('limits of another size are a slip of the pen', () => {
    // 0.5 mm and a twentieth of 8.3: beyond 9.215 they belong to no 8.3.
    expect(codes('nominal: 8.3, limits: [9.22, 9.3]')).toEqual(['check-limits warn']);
    expect(codes('nominal: 8.3, limits: [9.21, 9.3]')).toEqual([]);
  });
});

describe('a zone of ISO 286', () => {
  // Deviations of ISO 286-2:2010, by hand: 10 H7 0/+15, 10 F8 +13/+35, 50 p6 +26/+42, 12.7 g6 (over 10 to 18) -17/-6.
  it.each([
    ['nominal: 10, zone: H7', 10, 10.015],
    ['nominal: 10, zone: F8', 10.013, 10.035],
    ['nominal: 50, zone: p6', 50.026, 50.042],
    ['nominal: 12.7, zone: g6', 12.683, 12.694],
  ])('%s: %d to %d', (check, lower, upper) => {
    const [, low, high] = limitsOf(check);
    expect(low).toBeCloseTo(lower, 9);
    expect(high).toBeCloseTo(upper, 9);
    expect(codes(check)).toEqual([]);
  });

  it('is worked out of inches too, and shown as worked out', () => {
    const { computed } = proved(plan('nominal: 1/2, zone: g6', 'inch'));
    expect(computed.find((note) => note.what === 'limits of "Bore"')?.value).toBe('.49933 in to .49976 in');
  });

  it('that is none, or beside limits, is refused', () => {
    expect(problemsOf(plan('nominal: 10, zone: Q7'))[0]?.message).toContain('tolerance zone Q7');
    expect(problemsOf(plan('nominal: 10, zone: H7, within: 0.1'))[0]?.message).toContain('more than one way');
    expect(problemsOf(plan('nominal: 10, limits: [9, 11], within: 0.1'))[0]?.message).toContain('more than one way');
  });
});
