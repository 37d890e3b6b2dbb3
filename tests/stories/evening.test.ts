// A whole evening at the machine, played through the real keys: what happens in a real batch, and what is left of it in
// the counts, the accounts, the suspects and the report. The sums beside each step are the source of what is asserted.
import { afterEach, describe, expect, it } from 'vitest';
import type { ReportModel } from '../../src/report/model.ts';
import { line } from '../menu-lines.ts';
import { type Answers, cardUp, goodAt, goTo, isWorkingAt, perform, typed, workUntil } from './driving.ts';
import { canRunStories, type Program } from './harness.ts';
import { closeShops, makeShop, openToWork, type Shop } from './shop.ts';

afterEach(closeShops);

const goodLength: Answers = (card) => (card.kind === 'check' ? [...typed('60.02'), 'enter'] : null);
const at = (shop: Shop, operation: number, good: number) => () => goodAt(shop, operation) >= good;

/** Seven blanks: one scrapped after its count, a note, a trial piece, initials. */
async function saw(shop: Shop, t: Program): Promise<void> {
  await perform(shop, t, 'InitialsGiven', ['/', line('work:'), line('initials'), ...typed('ab'), 'enter']);
  await workUntil(shop, t, at(shop, 10, 3));
  await perform(shop, t, 'CountedScrapped', ['r', line('the piece counted last'), line('material')]);
  await perform(shop, t, 'NoteMade', ['e', ...typed('new blade in the saw'), 'enter']);
  await perform(shop, t, 'TrialMade', ['/', line('pieces:'), line('trial piece'), ...typed('set the stop'), 'enter']);
  await workUntil(shop, t, isWorkingAt(shop, 20));
}

/** Six blanks: the tray holds one more than was counted. */
async function deburr(shop: Shop, t: Program): Promise<void> {
  await workUntil(shop, t, at(shop, 20, 2));
  await perform(shop, t, 'Recounted', [
    '/',
    line('pieces:'),
    line('recount'),
    '3',
    'enter',
    ...typed('two at one press'),
    'enter',
  ]);
  await workUntil(shop, t, isWorkingAt(shop, 30));
}

/** Loads of two: one place scrap, the vice bumped, a length out of limits, a piece made instead of the one lost. */
async function millEnds(shop: Shop, t: Program): Promise<void> {
  await perform(shop, t, 'PieceRejected', ['r', line('place 2'), line('surface or burr')]);
  await workUntil(shop, t, at(shop, 30, 1));
  await workUntil(shop, t, isWorkingAt(shop, 30), goodLength);
  await perform(shop, t, 'Bumped', ['b']);
  await workUntil(
    shop,
    t,
    () => cardUp(shop)?.kind === 'check',
    () => null,
  );
  await t.waitFor((screen) => screen.text.includes('CHECK: Length'), 'the check on the screen');
  await perform(shop, t, 'PiecesSuspected', [...typed('60.15'), 'enter']);
  await workUntil(shop, t, isWorkingAt(shop, 30), goodLength);
  const suspects = ['/', line('pieces:'), line('suspect pieces'), line('measured')];
  if (shop.state().suspects.length > 0) await perform(shop, t, 'SuspectsSettled', suspects);
  await perform(shop, t, 'MoreStarted', [
    '/',
    line('pieces:'),
    line('make more'),
    '1',
    'enter',
    line('surface or burr'),
  ]);
  await goTo(shop, t, 10);
  await workUntil(shop, t, at(shop, 20, 7), goodLength);
  await perform(shop, t, 'Paused', ['/', line('work:'), line('pause with a reason'), line('meal')]);
  await perform(shop, t, 'Resumed', ['p']);
  await workUntil(shop, t, isWorkingAt(shop, 50), goodLength);
}

/**
 * Six plates: a spot of 3.15 reads 3.21, so 0.06 less from now on; the mains fail between the points of a plate, and it
 * goes on at its second point.
 */
async function spot(shop: Shop, t: Program): Promise<Program> {
  await perform(shop, t, 'TargetCorrected', [
    '/',
    line('machine:'),
    line('correct a target'),
    line('depth (Z)'),
    ...typed('3.21'),
    'enter',
    line('size out'),
  ]);
  await workUntil(shop, t, () => goodAt(shop, 50) === 2 && shop.state().cards.length === 0);
  await perform(shop, t, 'PointDone', ['enter']);
  const place = shop.status().at;
  t.kill('SIGKILL');
  await t.gone();
  expect(shop.status()).toMatchObject({ state: 'left', held_by: null, at: { operation: 50, point: 2 } });
  const again = await openToWork(shop, { args: [shop.status().batch] });
  await workUntil(shop, again, isWorkingAt(shop, 50));
  expect(shop.status().at).toEqual(place);
  await workUntil(shop, again, isWorkingAt(shop, 60));
  return again;
}

/** Six plates drilled: one goes back to be spotted again, another person carries on, the variants part. */
async function drill(shop: Shop, t: Program): Promise<Program> {
  await workUntil(shop, t, at(shop, 60, 2));
  await workUntil(shop, t, isWorkingAt(shop, 60));
  await perform(shop, t, 'SentToRework', [
    '/',
    line('pieces:'),
    line('rework'),
    line('operation 50'),
    line('wrong place'),
  ]);
  t.press('q');
  expect(await t.exit()).toBe(0);
  const second = await openToWork(shop, { args: [shop.status().batch] });
  await perform(shop, second, 'InitialsGiven', ['/', line('work:'), line('initials'), ...typed('jo'), 'enter']);
  await workUntil(shop, second, () => cardUp(shop)?.kind === 'parting');
  await perform(shop, second, 'PoolAllotted', ['4', 'enter']);
  return second;
}

/** Four threads: the tap breaks in the second. Five pieces go out for plating and four come back. */
async function tapAndSendAway(shop: Shop, t: Program): Promise<void> {
  await workUntil(shop, t, () => goodAt(shop, 70) === 1 && isWorkingAt(shop, 70)());
  await perform(shop, t, 'LoadCounted', ['r', line('the piece in hand'), line('tool broke')]);
  await workUntil(shop, t, isWorkingAt(shop, 70));
  await perform(shop, t, 'ToolChanged', ['t']);
  const away: Answers = (card) =>
    card.kind === 'away' && card.moment === 'back' && card.lane === 'threaded'
      ? ['2', 'enter', line('lost there')]
      : null;
  await workUntil(shop, t, () => cardUp(shop)?.kind === 'batch ended', away);
  const why = 'tap and plater';
  await perform(shop, t, 'BatchFinished', [
    '/',
    line('batch:'),
    line('finish short'),
    line('other'),
    ...typed(why),
    'enter',
  ]);
}

describe.skipIf(!canRunStories())('an evening with everything that happens in a real one', () => {
  it('ends with the right counts, accounts, suspects, people and corrections', async () => {
    const shop = makeShop();
    const first = await openToWork(shop, { args: [shop.plan('gate-evening')] });
    await saw(shop, first);
    await deburr(shop, first);
    await millEnds(shop, first);
    const second = await spot(shop, first);
    const third = await drill(shop, second);
    await tapAndSendAway(shop, third);
    await workUntil(shop, third, third.hasEnded);
    expect(await third.exit()).toBe(0);

    const status = shop.status();
    expect([status.state, status.held_by, status.finish]).toEqual(['finished', null, null]);
    const report = JSON.parse(shop.ask('report', '--json').out) as ReportModel;
    // Sawn 8 with the one made more, less 1 scrap; milled 7 less 1; drilled 6; four tapped less 1; three out, two back.
    expect(report.operations.map((row) => [row.operation, row.lane, row.good, row.scrap, row.rework])).toEqual([
      [10, '*', 7, 1, 0],
      [20, '*', 7, 0, 0],
      [30, '*', 6, 1, 0],
      [40, '*', 6, 0, 0],
      [50, '*', 6, 0, 0],
      [60, '*', 6, 0, 1],
      [70, 'threaded', 3, 1, 0],
      [80, 'clearance', 2, 0, 0],
      [90, 'threaded', 3, 0, 0],
      [90, 'clearance', 2, 0, 0],
      [100, 'threaded', 2, 1, 0],
      [100, 'clearance', 2, 0, 0],
      [110, 'threaded', 2, 0, 0],
      [110, 'clearance', 2, 0, 0],
    ]);
    expect(status.operations.map((row) => [row.number, row.good, row.scrap])).toEqual(
      report.operations.map((row) => [row.operation, row.good, row.scrap]),
    );
    expect(report).toMatchObject({ ordered: 6, started: 8, good: 4, scrap: 4, because: 'tap and plater' });
    expect(report.variants.map(({ id, good, short }) => [id, good, short])).toEqual([
      ['threaded', 2, 2],
      ['clearance', 2, 0],
    ]);
    expect(report.losses.map((loss) => [loss.operation, loss.what, loss.reason])).toEqual([
      [10, 'scrap', 'material'],
      [30, 'scrap', 'surface or burr'],
      [60, 'rework', 'to 50: wrong place'],
      [70, 'scrap', 'tool broke'],
      [100, 'lost away', 'lost there'],
    ]);
    // Every second has one account, and together they are the time between opening and closing.
    const accounts = Object.values(report.elapsed_s).reduce((sum, seconds) => sum + seconds, 0);
    expect(accounts).toBeCloseTo(report.total_s, 6);
    expect(report.elapsed_s.unknown).toBeGreaterThan(0);
    expect(report.suspects).toMatchObject([{ operation: 30, to: 4, cleared: 'measured (ab): measured one by one' }]);
    expect(report.corrections).toMatchObject([
      { operation: 50, axis: 'z', by_mm: 0.06, reading_mm: 3.21, reason: 'size out' },
    ]);
    expect(report.pauses).toMatchObject([{ reason: 'meal' }]);
    expect(report.notes).toMatchObject([{ operation: 10, text: 'new blade in the saw' }]);
    expect(report.sittings.map(({ by, why }) => [by, why])).toEqual([
      ['ab', 'power cut or crash'],
      [null, 'left'],
      ['jo', 'left'],
    ]);
    const leftOut = report.operations.flatMap((row) => row.left_out.map((one) => [row.operation, one.reason]));
    expect(leftOut).toEqual([
      [20, 'made by hand count'],
      [30, 'switched'],
      [50, 'cut'],
    ]);
    for (const word of [/bumped/i, /M6 spiral-point tap/, /trial piece/, /recounted from 2 to 3/, /beyond the plan/]) {
      expect(
        report.remarks.filter((remark) => word.test(remark)),
        String(word),
      ).toHaveLength(1);
    }
  });
});
