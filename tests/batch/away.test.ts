import { describe, expect, it } from 'vitest';
import type { CardAnswer } from '../../src/batch/commands.ts';
import { type Played, play } from './playing.ts';
import { anOperation, aVariant, samplePlan } from './sample-plan.ts';

/** Eight pieces, all of them with the plater. */
function out(spares = 0): Played {
  const plating = anOperation(20, { title: 'Plate', kind: 'away', away: { to: 'the plater', changes: [] } });
  const batch = play(
    samplePlan({ variants: [aVariant('plate', 8)], spares, operations: [anOperation(10), plating, anOperation(30)] }),
  );
  batch.count(8 + spares);
  batch.pass();
  batch.pass();
  expect(batch.batch().cards).toMatchObject([{ kind: 'away', moment: 'back', pieces: 8 + spares }]);
  return batch;
}

const refused = (batch: Played, answer: CardAnswer): string => {
  const id = batch.batch().cards[0]?.id ?? '';
  return batch.reason({ kind: 'passCard', id, shown_ms: 3000, answer });
};

describe('pieces that come back from away', () => {
  it('fewer than went out are not taken without what became of the others', () => {
    const batch = out();
    const why = 'what became of 3 pieces is empty; say it in a few words';
    expect(refused(batch, { kind: 'pieces', pieces: 5, reason: null })).toBe(why);
    expect(refused(batch, { kind: 'value', value: 5 })).toBe(why);
    expect(refused(batch, { kind: 'back', pieces: 5, lost: 3, reason: '  ' })).toBe(why);
  });

  it('and are lost are scrap with the reason in the event, and the shortage is shown with what it lacks', () => {
    const batch = out();
    expect(batch.pass({ kind: 'back', pieces: 5, lost: 3, reason: 'lost there' })).toContainEqual({
      kind: 'CameBack',
      operation: 20,
      lane: '*',
      pieces: 5,
      lost: 3,
      reason: 'lost there',
    });
    expect(batch.batch().cells[1]).toMatchObject({ good: 5, scrap: 3, out: 0 });
    expect(batch.batch().cards[0]).toMatchObject({ kind: 'shortage', short: 3 });
  });

  it('lost within the spares leave the order whole: no shortage', () => {
    const batch = out(2);
    batch.pass({ kind: 'back', pieces: 8, lost: 2, reason: 'spoiled there' });
    expect(batch.batch().cards.map((card) => card.kind)).toEqual(['operation ended']);
  });

  it('later stay out: their card comes up again, and work can go on with those that are there', () => {
    const batch = out();
    batch.pass({ kind: 'back', pieces: 5, lost: 0, reason: null });
    expect(batch.batch().cells[1]).toMatchObject({ good: 5, scrap: 0, out: 3 });
    expect(batch.batch().cards).toMatchObject([{ kind: 'away', moment: 'back', pieces: 3 }]);
    batch.act({ kind: 'goTo', operation: 30, lane: '*' });
    batch.count(5);
    expect(batch.batch().cards).toMatchObject([{ kind: 'operation ended', next: { operation: 20 } }]);
    batch.pass();
    batch.pass();
    expect(batch.batch().cells[1]).toMatchObject({ good: 8, scrap: 0, out: 0 });
  });

  it('are taken back as they went', () => {
    const batch = out();
    batch.pass({ kind: 'back', pieces: 5, lost: 3, reason: 'lost there' });
    batch.act({ kind: 'takeBack' });
    expect(batch.batch().cells[1]).toMatchObject({ good: 0, scrap: 0, out: 8 });
  });

  it.each<[CardAnswer, string]>([
    [{ kind: 'pieces', pieces: 9, reason: null }, 'only 8 pieces went out'],
    [{ kind: 'back', pieces: 6, lost: 3, reason: 'lost there' }, 'only 8 pieces went out'],
    [{ kind: 'back', pieces: 0, lost: 0, reason: null }, 'nothing came back yet; work elsewhere until something does'],
    [{ kind: 'value', value: 2.5 }, 'a count is a whole number, 0 or more'],
    [{ kind: 'yes or no', yes: true }, 'say how many pieces came back'],
  ])('cannot be %o', (answer, reason) => {
    expect(refused(out(), answer)).toBe(reason);
  });
});
