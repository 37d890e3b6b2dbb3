import { describe, expect, it } from 'vitest';
import { cautionById, cautionIds, cautionsAt, cautionsFor, DEFERRING_LINE } from '../../src/plan/cautions.ts';
import { CAUTION_SOURCES } from '../../src/plan/cautions-table.ts';
import { operationKinds } from '../../src/plan/operation-kinds.ts';

const RANK = { injury: 0, both: 1, part: 2 };

describe('cautions', () => {
  it.each(operationKinds)('%s shows at most three, injury first', (kind) => {
    for (const station of ['mill', 'pillar drill', 'saw', 'bench'] as const) {
      const rows = cautionsFor({ kind, station, byHand: false, material: 'mild steel' });
      expect(rows.length).toBeLessThanOrEqual(3);
      expect(new Set(rows.map((row) => row.id)).size).toBe(rows.length);
      const ranks = rows.map((row) => RANK[row.concerns]);
      if (station !== 'bench' && kind !== 'away') expect(ranks[0]).toBe(0);
    }
  });

  it('tapping by hand and under power are told apart', () => {
    const ask = { kind: 'tap', station: 'mill', material: 'brass' } as const;
    expect(cautionsFor({ ...ask, byHand: true })[0]?.id).toMatch(/^th\./);
    expect(cautionsFor({ ...ask, byHand: false })[0]?.id).toMatch(/^tm\./);
  });

  it('what the plan itself asks for comes first', () => {
    const rows = cautionsFor({ kind: 'drill', station: 'mill', byHand: false, material: 'brass', wanted: ['mb.grab'] });
    expect(rows[0]?.id).toBe('mb.grab');
  });

  it('after a power cut the zero is among them', () => {
    expect(cautionsAt('after-break').map((row) => row.id)).toContain('ab.switch');
  });

  it('every caution fits a narrow screen, names a known source, and can be found by its key', () => {
    for (const id of cautionIds()) {
      const row = cautionById(id);
      expect(row?.text.length).toBeLessThanOrEqual(72);
      expect(row?.sources.every((source) => source in CAUTION_SOURCES)).toBe(true);
    }
    expect(cautionById('toString')).toBeUndefined();
    expect(DEFERRING_LINE).toContain("machine's manual");
  });
});
