import { describe, expect, it } from 'vitest';
import { sawNames, usualKerf } from '../../src/shop/kerfs.ts';
import { sureOf } from '../../src/shop/refusal.ts';

describe('usual kerfs', () => {
  // From memory: hacksaw, small band saw, parting tool. A cutting guide (1/16 to 3/32 in): band saw, cold saw.
  it.each([
    ['hacksaw', 0.9, 1.3, false],
    ['small band saw', 0.9, 1.3, false],
    ['band saw', 1.6, 2.4, true],
    ['cold saw', 2.4, 3.2, true],
    ['parting tool', 1.5, 3, false],
  ])('a %s cuts %f to %f mm', (saw, lowMm, highMm, confirmed) => {
    expect(sureOf(usualKerf(saw))).toMatchObject({ lowMm, highMm, confirmed });
  });

  it('takes any case and spacing, and names the nearest of an unknown saw', () => {
    expect(sureOf(usualKerf(' Cold  Saw ')).saw).toBe('cold saw');
    expect(usualKerf('bandsaw')).toMatchObject({ problem: { remedy: expect.stringContaining('band saw') } });
    expect(usualKerf('xxxxxxxxxxxxxxx')).toMatchObject({ problem: { remedy: 'give the kerf itself' } });
    expect(sawNames).toHaveLength(5);
  });

  it('a kerf from memory says so', () => {
    for (const saw of sawNames) {
      const row = sureOf(usualKerf(saw));
      expect(row.source.includes('from memory')).toBe(!row.confirmed);
    }
  });
});
