import { describe, expect, it } from 'vitest';
import type { Batch } from '../../src/batch/state.ts';
import { enterAlone, type Played, play } from './playing.ts';
import {
  aCut,
  aMachine,
  anOperation,
  aSetup,
  aTool,
  aVariant,
  samplePlan,
  somePoints,
  twoVariantPlan,
} from './sample-plan.ts';

const kinds = (batch: Batch) => batch.cards.map((card) => (card.kind === 'zero' ? `zero ${card.axis}` : card.kind));
const oneOf = twoVariantPlan({ threaded: 2, clearance: 1, spares: 1 });

/** Enter alone until an operation is begun. */
function until(batch: Played, operation: number): Played {
  for (let i = 0; i < 500; i += 1) {
    const state = batch.batch();
    if (state.current !== null && state.cells[state.current]?.operation === operation) return batch;
    if (state.cards.length > 0) batch.pass();
    else batch.act({ kind: 'count', quick: false }, 20);
  }
  throw new Error(`operation ${operation} was not reached`);
}

describe('the gates of an operation', () => {
  it('come in order: setup, zero of each axis, tool, speed', () => {
    expect(kinds(until(play(oneOf), 20).batch())).toEqual(['setup', 'zero x', 'zero y', 'tool', 'speed']);
  });

  it('begin with the change-over when the variant differs from the last worked', () => {
    expect(kinds(until(play(oneOf), 40).batch())).toEqual(['variant', 'setup', 'tool', 'speed']);
  });

  it('leave out the setup that is in force and the zero that stands', () => {
    expect(kinds(until(play(oneOf), 30).batch())).toEqual(['variant', 'tool', 'speed']);
  });

  it('flag the speed for tapping and name the speed before', () => {
    const cards = until(play(oneOf), 30).batch().cards;
    expect(cards.at(-1)).toMatchObject({ kind: 'speed', from: 1200, to: 90, tapping: true });
  });

  it.each([
    [{}, []],
    [{ diameter: 6 }, ['tool']],
    [{ prepare: 'grind it' }, ['tool']],
  ])('say nothing of a hand tool at the bench that needs no word: %o gives %o', (parts, expected) => {
    const bench = aMachine('bench', { station: 'bench' });
    const file = aTool('file', { kind: 'hand tool', diameter: null, ...parts });
    const operations = [anOperation(10, { machine: 'bench', cuts: [aCut('file', null)] })];
    const cards = play(samplePlan({ machines: [bench], tools: [file], operations })).batch().cards;
    expect(cards.filter((card) => card.kind === 'tool').map((card) => card.kind)).toEqual(expected);
  });

  it('ask for a setup again when another was on that machine meanwhile', () => {
    const operation = (number: number, setup: string) =>
      anOperation(number, {
        station: 'mill',
        machine: 'mill',
        setup,
        cuts: [aCut(null, null, { points: somePoints(1) })],
      });
    const plan = samplePlan({
      variants: [aVariant('plate', 2)],
      machines: [aMachine('mill')],
      setups: [aSetup('A', 'mill'), aSetup('B', 'mill')],
      operations: [operation(10, 'A'), operation(20, 'B')],
    });
    const batch = play(plan);
    batch.count(1);
    batch.act({ kind: 'goTo', operation: 20, lane: '*' });
    batch.count(1);
    batch.pass();
    expect(kinds(batch.batch())).toEqual(['setup', 'zero x', 'zero y']);
  });

  it('come up again after a jump in the middle of them', () => {
    const batch = until(play(oneOf), 20);
    batch.pass();
    batch.act({ kind: 'makeMore', pieces: 1, lane: '*', reason: 'stock' });
    batch.act({ kind: 'goTo', operation: 10, lane: '*' });
    expect(kinds(batch.batch())).toEqual([]);
    batch.act({ kind: 'goTo', operation: 20, lane: '*' });
    expect(kinds(batch.batch())).toEqual(['zero x', 'zero y', 'tool', 'speed']);
  });
});

describe('a group of tools in one clamping', () => {
  const plan = samplePlan({
    variants: [aVariant('plate', 2)],
    machines: [aMachine('mill')],
    setups: [aSetup('V', 'mill')],
    tools: [aTool('drill'), aTool('tap', { kind: 'tap' })],
    operations: [
      anOperation(10, {
        station: 'mill',
        machine: 'mill',
        setup: 'V',
        counting: 'load',
        cuts: [
          aCut('drill', 1200, { points: somePoints(1) }),
          aCut('tap', 90, {
            points: somePoints(1),
            thread: { name: 'M5', pitch: 0.8, tapDrill: 4.2, turns: null, byHand: false, fullThread: null },
          }),
        ],
      }),
    ],
  });

  it('never taps at drilling speed and never drills at tapping speed, piece after piece', () => {
    const batch = play(plan);
    batch.passAll();
    const gates: string[] = [];
    for (let i = 0; i < 3; i += 1) {
      batch.act({ kind: 'count', quick: false });
      gates.push(
        batch
          .batch()
          .cards.map((card) => (card.kind === 'speed' ? `to ${card.to}` : card.kind))
          .join(' '),
      );
      batch.passAll();
    }
    expect(gates).toEqual(['tool to 90', 'to 1200', 'to 90']);
  });

  it('counts the piece once, with the last tool', () => {
    const batch = play(plan);
    batch.count(2);
    expect(batch.batch().cells[0]?.good).toBe(1);
  });
});

describe('tools', () => {
  it('are put right after their last use in the batch', () => {
    const batch = until(play(oneOf), 20);
    const seen: string[] = [];
    while (batch.batch().current === 1) {
      const card = batch.batch().cards[0];
      if (card?.kind === 'tool') seen.push(`${card.tool} ${card.moment}`);
      if (card === undefined) batch.act({ kind: 'count', quick: false });
      else batch.pass();
    }
    expect(seen).toEqual(['drill 4.2 in', 'drill 4.2 restore']);
  });

  it('go in again after a change, and the zero is proved', () => {
    const batch = until(play(oneOf), 20);
    batch.count(1);
    batch.act({ kind: 'toolChanged', sharpened: true });
    expect(kinds(batch.batch())).toEqual(['zero x', 'zero y', 'tool']);
    expect(batch.batch().cards.at(-1)).toMatchObject({ moment: 'sharpened' });
  });

  it('are asked for again when another tool was in the spindle meanwhile', () => {
    const drill = (number: number, tool: string) =>
      anOperation(number, {
        station: 'mill',
        machine: 'mill',
        setup: 'V',
        cuts: [aCut(tool, 800, { points: somePoints(1) })],
      });
    const batch = play(
      samplePlan({
        machines: [aMachine('mill')],
        setups: [aSetup('V', 'mill')],
        tools: [aTool('a'), aTool('b')],
        operations: [drill(10, 'a'), drill(20, 'b')],
      }),
    );
    batch.count(1);
    batch.act({ kind: 'goTo', operation: 20, lane: '*' });
    batch.count(1);
    batch.pass();
    expect(batch.batch().cards).toMatchObject([{ kind: 'tool', tool: 'a', moment: 'in' }]);
  });
});

describe('a bump', () => {
  it('asks for the zero and leaves the load in hand at its point', () => {
    const batch = until(play(oneOf), 20);
    batch.count(2);
    batch.act({ kind: 'bumped' });
    expect(kinds(batch.batch())).toEqual(['zero x', 'zero y']);
    expect(batch.batch().cards[0]).toMatchObject({ why: 'bumped' });
    batch.passAll();
    expect(batch.act({ kind: 'count', quick: false })[0]).toMatchObject({ kind: 'PointDone', stop: 2 });
  });

  it('is answered by proving the zero without the cards', () => {
    const batch = until(play(oneOf), 20);
    batch.passAll();
    batch.act({ kind: 'bumped' });
    batch.act({ kind: 'zeroProved' });
    expect(batch.batch().cards).toEqual([]);
  });

  it('is refused where nothing has a zero', () => {
    expect(play(samplePlan()).reason({ kind: 'bumped' })).toBe('nothing has a zero in this operation');
  });
});

describe('a card', () => {
  it('passed within two seconds is recorded as not proved', () => {
    const batch = until(play(oneOf), 20);
    const [setup] = batch.batch().cards;
    batch.pass({ kind: 'pass' }, 1.9);
    batch.pass({ kind: 'pass' }, 2);
    expect(batch.batch().unproved).toMatchObject({ item: { card: { id: setup?.id } }, length: 1 });
  });

  it('that is not the first any more is refused', () => {
    const batch = until(play(oneOf), 20);
    const second = batch.batch().cards[1]?.id ?? '';
    expect(batch.reason({ kind: 'passCard', id: second, shown_ms: 3000, answer: { kind: 'pass' } })).toBe(
      'that card is not up any more',
    );
  });

  it('takes no value where none is asked', () => {
    const batch = until(play(oneOf), 20);
    const id = batch.batch().cards[0]?.id ?? '';
    expect(batch.reason({ kind: 'passCard', id, shown_ms: 3000, answer: { kind: 'value', value: 5 } })).toContain(
      'no value',
    );
  });
});

describe('Enter alone', () => {
  it('runs a batch of two variants from opening to its end, skipped checks recorded', () => {
    const batch = play(oneOf);
    enterAlone(batch);
    expect(batch.batch().kind).toBe('finished');
    expect(batch.batch().outcome).toEqual({ short: {}, reason: null });
    expect(batch.batch().cells[1]?.checkLog?.item.result).toEqual({ kind: 'skipped' });
  });

  it('takes work where pieces wait, in the variant in hand first', () => {
    const batch = play(oneOf);
    enterAlone(batch);
    const order = batch
      .lines()
      .flatMap((line) =>
        line.events.flatMap((event) => (event.kind === 'OperationBegun' ? [`${event.operation}/${event.lane}`] : [])),
      );
    expect(order).toEqual(['10/*', '20/*', '30/threaded', '40/clearance', '50/clearance', '50/threaded']);
  });
});
