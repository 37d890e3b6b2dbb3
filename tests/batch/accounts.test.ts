import { describe, expect, it } from 'vitest';
import { oldestFirst } from '../../src/batch/chain.ts';
import { instantAt, play } from './playing.ts';
import { aCheck, anOperation, aVariant, samplePlan, twoVariantPlan } from './sample-plan.ts';

const accounts = (batch: ReturnType<typeof play>) =>
  Object.fromEntries(Object.entries(batch.batch().accounts).filter(([, ms]) => ms > 0));

describe('the accounts', () => {
  it('put work into run, setup cards into setup, checks into check, the end of an operation into delay', () => {
    const batch = play(twoVariantPlan({ threaded: 1, clearance: 1 }));
    batch.count(2, 30);
    batch.pass({ kind: 'pass' }, 5);
    for (let i = 0; i < 5; i += 1) batch.pass({ kind: 'pass' }, 40);
    for (let i = 0; i < 4; i += 1) batch.act({ kind: 'count', quick: false }, 10);
    batch.pass({ kind: 'value', value: 3 }, 25);
    expect(accounts(batch)).toEqual({ run: 100_000, delay: 5000, setup: 200_000, check: 25_000 });
  });

  it('put the zero after a bump into delay, not into setup', () => {
    const batch = play(twoVariantPlan({ threaded: 1, clearance: 1 }));
    batch.count(2, 30);
    batch.passAll();
    const before = batch.batch().accounts;
    batch.act({ kind: 'bumped' }, 0);
    batch.pass({ kind: 'pass' }, 50);
    expect(batch.batch().accounts).toEqual({ ...before, delay: before.delay + 50_000 });
  });

  it('put a pause and the sleep of the computer into pause', () => {
    const batch = play(samplePlan());
    batch.act({ kind: 'pause', reason: null }, 10);
    batch.act({ kind: 'resume' }, 100);
    batch.act({ kind: 'noteSuspend', ms: 7000 }, 1);
    expect(accounts(batch)).toEqual({ run: 11_000, pause: 107_000 });
  });

  it('put the time between sittings into away, and after a cut into unknown', () => {
    const batch = play(samplePlan());
    batch.act({ kind: 'endSitting', why: 'left' }, 10);
    batch.act({ kind: 'beginSitting', by: null, host: 'shop' }, 600);
    batch.act({ kind: 'beginSitting', by: null, host: 'shop' }, 90);
    expect(accounts(batch)).toEqual({ run: 10_000, away: 600_000, unknown: 90_000 });
    expect(oldestFirst(batch.batch().sittings).map((sitting) => sitting.ended?.why)).toEqual([
      'left',
      'cut',
      undefined,
    ]);
  });

  it('put pieces out of the house into away', () => {
    const away = anOperation(20, { kind: 'away', away: { to: 'the plater', changes: [] } });
    const batch = play(samplePlan({ operations: [anOperation(10), away] }));
    batch.count(3, 10);
    batch.pass({ kind: 'pass' }, 0);
    batch.pass({ kind: 'pass' }, 20);
    batch.pass({ kind: 'pieces', pieces: 2, reason: 'one lost in the bath' }, 86_400);
    expect(accounts(batch)).toEqual({ run: 30_000, away: 86_420_000 });
    expect(batch.batch().cells[1]).toMatchObject({ good: 2, scrap: 1, out: 0 });
  });

  it('measure within a boot by the monotonic clock and over a boot by the wall clock', () => {
    const batch = play(samplePlan());
    batch.act({ kind: 'count', quick: false }, 0, { at: { ...instantAt(60), wall_ms: 0 } });
    expect(batch.batch().accounts.run).toBe(60_000);
    const at = { ...instantAt(0, 'second'), wall_ms: 45_000, mono_ms: 5 };
    batch.act({ kind: 'beginSitting', by: null, host: 'shop' }, 0, { at });
    expect(batch.batch().accounts.unknown).toBe(45_000);
  });

  it('are kept for each cell as well', () => {
    const batch = play(samplePlan());
    batch.count(3, 20);
    batch.pass({ kind: 'pass' }, 4);
    batch.count(1, 50);
    expect(batch.batch().cells.map((cell) => [cell.accounts.run, cell.accounts.delay])).toEqual([
      [60_000, 4000],
      [50_000, 0],
    ]);
  });
});

describe('breaks', () => {
  const long = 31 * 60;

  it.each([
    ['a night', (batch: ReturnType<typeof play>) => batch.act({ kind: 'endSitting', why: 'left' }, 1)],
    ['a cut', () => []],
  ])('%s brings the place and the recount before everything else', (_, leave) => {
    const batch = play(samplePlan({ operations: [anOperation(10, { checks: [aCheck('size')] })] }));
    batch.count(1);
    leave(batch);
    batch.act({ kind: 'beginSitting', by: null, host: 'shop' }, long);
    expect(batch.batch().cards.map((card) => card.kind)).toEqual(['resume', 'recount', 'check']);
    expect(batch.batch().cards[1]).toMatchObject({ expected: 1 });
  });

  it('a short way out brings nothing, a cut of any length does', () => {
    const batch = play(samplePlan());
    batch.act({ kind: 'endSitting', why: 'left' });
    batch.act({ kind: 'beginSitting', by: null, host: 'shop' }, 29 * 60);
    expect(batch.batch().cards).toEqual([]);
    batch.act({ kind: 'beginSitting', by: null, host: 'shop' }, 5);
    expect(batch.batch().cards[0]).toMatchObject({ kind: 'resume', cut: true, away_ms: 5000 });
  });

  it('a long pause and a long sleep of the computer count as breaks', () => {
    const batch = play(samplePlan());
    batch.act({ kind: 'pause', reason: 'supper' });
    batch.act({ kind: 'resume' }, long);
    expect(batch.batch().cards[0]).toMatchObject({ kind: 'resume', away_ms: long * 1000 });
    batch.passAll();
    batch.act({ kind: 'noteSuspend', ms: long * 1000 });
    expect(batch.batch().cards[0]).toMatchObject({ kind: 'resume' });
  });

  it('make the spindle speed unknown', () => {
    const batch = play(twoVariantPlan({ threaded: 1, clearance: 1 }));
    batch.count(2);
    batch.passAll();
    batch.act({ kind: 'endSitting', why: 'left' });
    batch.act({ kind: 'beginSitting', by: null, host: 'shop' }, long);
    expect(batch.batch().cards.at(-1)).toMatchObject({ kind: 'speed', from: null, to: 1200 });
  });

  it('the recount sets the count when the tray says otherwise', () => {
    const batch = play(samplePlan({ variants: [aVariant('plate', 9)] }));
    batch.count(4);
    batch.act({ kind: 'beginSitting', by: null, host: 'shop' }, 5);
    batch.pass();
    expect(batch.pass({ kind: 'pieces', pieces: 3, reason: null })[1]).toMatchObject({
      kind: 'Recounted',
      before: 4,
      good: 3,
    });
    expect(batch.batch().cards).toEqual([]);
  });

  it('another person gets the place shown', () => {
    const batch = play(samplePlan());
    batch.act({ kind: 'giveInitials', by: 'AB' });
    expect(batch.batch().cards).toEqual([]);
    batch.act({ kind: 'giveInitials', by: 'CD' });
    expect(batch.batch().cards.map((card) => card.kind)).toEqual(['resume', 'recount']);
    batch.passAll();
    batch.count(1);
    expect(batch.batch().cells[0]?.loads?.item.by).toBe('CD');
  });
});
