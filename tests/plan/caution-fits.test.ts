import { describe, expect, it } from 'vitest';
import { cautionsFor } from '../../src/plan/cautions.ts';
import { operationKinds } from '../../src/plan/operation-kinds.ts';
import type { OperationKind, Station } from '../../src/plan/resolved.ts';

const stations = ['mill', 'pillar drill', 'saw', 'bench'] as const;
const materials = ['mild steel', 'stainless steel', 'brass', 'aluminium', 'acetal'] as const;
const MILLING = ['face', 'mill to length', 'mill edge', 'slot', 'step'];
const HANDS = ['deburr', 'round corners', 'hand work'];

const all = operationKinds.flatMap((kind) =>
  stations.flatMap((station) =>
    materials.flatMap((material) =>
      [true, false].flatMap((byHand) =>
        [true, false].map((through) => ({ kind, station, material, byHand: kind === 'tap' && byHand, through })),
      ),
    ),
  ),
);
type Ask = (typeof all)[number];

const is = (kind: OperationKind, ...kinds: readonly string[]) => kinds.includes(kind);
const at = (station: Station, ...some: readonly string[]) => some.includes(station);

/** What a caution speaks of, and the only work that has it: read from its words, not from the program's table. */
const spokenOf: readonly (readonly [words: RegExp, fits: (ask: Ask) => boolean])[] = [
  [/breaks? through|comes through/i, ({ kind, through }) => kind === 'drill' && through],
  [
    /isolate the machine|wrench|power goes back/i,
    ({ kind, byHand, station }) => kind === 'tap' && byHand && station !== 'bench',
  ],
  [/half a turn on/i, ({ kind, byHand, station }) => kind === 'tap' && (byHand || station === 'bench')],
  [
    /tapping is|reverse and the depth stop|stuck tap|against turning|tapping fluid/i,
    ({ kind, byHand }) => kind === 'tap' && !byHand,
  ],
  [/table wound|feeding|feed direction|cutter/i, ({ station }) => station === 'mill'],
  [/move (?:a|the) belt/i, ({ station }) => station === 'pillar drill'],
  [/blade has stopped|moving blade|length stop/i, ({ station }) => station === 'saw'],
  [
    /flutes|jammed|this drill|short stiff/i,
    ({ kind, station }) => is(kind, 'drill', 'counterbore', 'spot') && !at(station, 'saw', 'bench'),
  ],
  [/flutes|jammed/i, ({ kind }) => kind !== 'spot'],
  [/countersinks/i, ({ kind }) => is(kind, 'countersink', 'chamfer')],
  [/reamer/i, ({ kind }) => kind === 'ream'],
  [
    /a file |filings|abrasive|gloves only here/i,
    ({ kind, station }) => is(kind, ...HANDS) || (station === 'bench' && is(kind, 'chamfer', ...MILLING)),
  ],
  [/part in the vice, away/i, ({ kind, station }) => station === 'bench' || is(kind, ...HANDS)],
  [/drills grab/i, ({ kind, material }) => kind === 'drill' && material === 'brass'],
  [
    /blue chips/i,
    ({ kind, station }) =>
      at(station, 'mill', 'pillar drill') &&
      !is(kind, 'tap', 'ream', 'spot', 'countersink', 'chamfer', 'inspect', ...HANDS),
  ],
  [/stainless/i, ({ material }) => material === 'stainless steel'],
  [/gauge, same|deburr, wipe|out of limits/i, ({ kind }) => kind === 'inspect'],
  [/knuckles|low in the vice/i, ({ kind, station }) => kind === 'saw' && station !== 'saw'],
  [/spindle|hit stop/i, ({ station, kind }) => station !== 'bench' || is(kind, 'chamfer', ...HANDS, ...MILLING)],
];

describe('cautions fit the work and the station', () => {
  it('none speaks of what is not there, for every kind, station, material, by hand or not, through or blind', () => {
    const misfits = all.flatMap((ask) =>
      cautionsFor(ask).flatMap((row) =>
        spokenOf
          .filter(([words, fits]) => words.test(row.text) && !fits(ask) && !row.id.startsWith('g.'))
          .map(
            ([words]) =>
              `${ask.kind} at the ${ask.station}${ask.byHand ? ' by hand' : ''}, ${ask.material}: ${row.text} (${words})`,
          ),
      ),
    );
    expect([...new Set(misfits)]).toEqual([]);
  });

  it('general ones, of a turning spindle, are never shown at the bench or for work that is away', () => {
    const wrong = all.filter(({ kind, station }) => station === 'bench' || kind === 'away');
    expect(wrong.flatMap(cautionsFor).filter((row) => row.id.startsWith('g.'))).toEqual([]);
  });

  it('work at a machine or with the hands has at least one, work that is away none', () => {
    for (const ask of all) expect(cautionsFor(ask).length > 0, `${ask.kind} ${ask.station}`).toBe(ask.kind !== 'away');
  });

  // The usual places of each kind of work, in mild steel: one line each.
  it.each([
    ['saw', 'saw', 'sw.vice sw.stop sw.gloves'],
    ['face', 'mill', 'mf.clamp mf.dir mf.hand'],
    ['slot', 'mill', 'mp.clamp mp.dir mp.hand'],
    ['spot', 'mill', 'sp.clamp dm.speed sp.short'],
    ['spot', 'pillar drill', 'sp.clamp dp.hold dp.gloves'],
    ['drill', 'mill', 'dm.peck dm.through dm.jam'],
    ['drill', 'pillar drill', 'dp.hold dp.gloves dp.belt'],
    ['ream', 'mill', 'sp.clamp re.speed re.back'],
    ['ream', 'bench', 'db.vice re.back'],
    ['counterbore', 'mill', 'sp.clamp dm.peck dm.jam'],
    ['countersink', 'mill', 'ch.clamp ch.speed ch.first'],
    ['countersink', 'pillar drill', 'cp.hold cp.speed cp.stop'],
    ['chamfer', 'bench', 'db.handle db.vice db.eyes'],
    ['tap', 'mill', 'tm.clamp tm.clear tm.slow'],
    ['deburr', 'bench', 'db.handle db.vice db.eyes'],
    ['deburr', 'pillar drill', 'db.off db.handle db.vice'],
    ['inspect', 'bench', 'in.clean in.same in.back'],
    ['inspect', 'mill', 'in.stop in.clean in.same'],
    ['inspect', 'saw', 'sw.stop in.clean in.same'],
  ] as const)('%s at the %s: %s', (kind, station, ids) => {
    const rows = cautionsFor({ kind, station, byHand: false, material: 'mild steel' });
    expect(rows.map((row) => row.id).join(' ')).toBe(ids);
  });

  it.each([
    ['mill', 'th.iso th.out th.back'],
    ['bench', 'db.vice th.back'],
  ] as const)('tapping by hand at the %s: %s', (station, ids) => {
    const rows = cautionsFor({ kind: 'tap', station, byHand: true, material: 'mild steel' });
    expect(rows.map((row) => row.id).join(' ')).toBe(ids);
  });

  it('drilling brass begins with the drill that grabs', () => {
    const rows = cautionsFor({ kind: 'drill', station: 'pillar drill', byHand: false, material: 'CZ121 brass' });
    expect(rows[0]?.id).toBe('mb.grab');
  });

  it('a blind hole does not break through', () => {
    const rows = cautionsFor({ kind: 'drill', station: 'mill', byHand: false, material: 'mild steel', through: false });
    expect(rows.map((row) => row.id)).not.toContain('dm.through');
  });
});
