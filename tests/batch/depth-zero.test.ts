import { describe, expect, it } from 'vitest';
import { cardSchema } from '../../src/batch/cards.ts';
import { correctedBy } from '../../src/batch/questions/corrections.ts';
import { proved, textOf } from '../plan/plan-samples.ts';
import { type Played, play } from './playing.ts';
import { twoVariantPlan } from './sample-plan.ts';

const job = (name: string) => proved(textOf(`jobs/${name}.yaml`)).resolved;
const kinds = (played: Played): readonly string[] =>
  played.batch().cards.map((card) => (card.kind === 'zero' ? `zero ${card.axis}` : card.kind));

/** Plays with Enter alone until work stands at an operation. */
function workAt(name: string, operation: number, until: 'cards' | 'work'): Played {
  const played = play(job(name));
  for (let keys = 0; keys < 5000; keys += 1) {
    const { current, cells, cards } = played.batch();
    const here = current === null ? undefined : cells[current]?.operation;
    const isEnd = cards[0]?.kind === 'operation ended';
    if (here === operation && !isEnd && (until === 'cards' || cards.length === 0)) return played;
    if (cards.length > 0) played.pass();
    else played.act({ kind: 'count', quick: false }, 20);
  }
  throw new Error(`operation ${operation} was never reached`);
}

describe('the Z zero of a tool has a card of its own', () => {
  it('behind the tool and before the speed where it is touched off, behind the speed where a face is skimmed', () => {
    expect(kinds(workAt('keeper-plates', 60, 'cards'))).toEqual([
      'setup',
      'zero x',
      'zero y',
      'tool',
      'z zero',
      'speed',
    ]);
    expect(kinds(workAt('hinge-blocks', 70, 'cards'))).toEqual([
      'setup',
      'zero x',
      'zero y',
      'tool',
      'speed',
      'z zero',
    ]);
  });

  it('is asked once for a tool, and again for the next one', () => {
    const played = workAt('keeper-plates', 60, 'work');
    played.act({ kind: 'count', quick: false }, 20);
    expect(kinds(played)).toEqual([]);
    const next = workAt('keeper-plates', 70, 'cards');
    expect(kinds(next).slice(0, 2)).toEqual(['tool', 'z zero']);
  });

  it('is not due in a batch whose plan was resolved before it was known', () => {
    const played = play(twoVariantPlan({ threaded: 1, clearance: 1 }));
    const seen = new Set<string>();
    for (let keys = 0; keys < 200 && played.batch().kind === 'open'; keys += 1) {
      for (const card of played.batch().cards) seen.add(card.kind);
      if (played.batch().cards.length > 0) played.pass();
      else played.act({ kind: 'count', quick: false }, 20);
    }
    expect(seen.has('tool')).toBe(true);
    expect(seen.has('z zero')).toBe(false);
  });

  it('travels whole inside events', () => {
    const card = workAt('keeper-plates', 60, 'cards')
      .batch()
      .cards.find((one) => one.kind === 'z zero');
    expect(cardSchema.parse(JSON.parse(JSON.stringify(card)))).toEqual(card);
    expect(card).toMatchObject({ tool: 'spot-8', setup: 'holes', why: null });
  });
});

describe('X, Y and Z are set anew', () => {
  const zeros = ['zero x', 'zero y', 'z zero'];
  const asked = (played: Played) => kinds(played).filter((kind) => zeros.includes(kind));
  const whys = (played: Played) => played.batch().cards.flatMap((card) => ('why' in card ? [card.why] : []));

  it('after a bump', () => {
    const played = workAt('keeper-plates', 60, 'work');
    played.act({ kind: 'bumped' });
    expect(asked(played)).toEqual(zeros);
    expect(whys(played)).toEqual(['bumped', 'bumped', 'bumped']);
    played.passAll();
    expect(asked(played)).toEqual([]);
  });

  it('after a power cut, whatever stood before', () => {
    const played = workAt('keeper-plates', 60, 'work');
    played.wait(60);
    played.act({ kind: 'beginSitting', by: null, host: 'shop' });
    expect(kinds(played).slice(0, 2)).toEqual(['resume', 'recount']);
    expect(asked(played)).toEqual(zeros);
    expect(whys(played)).toEqual(['power cut', 'power cut', 'power cut']);
  });

  it('after two hours away, and after a pause of two hours, but not after ten minutes', () => {
    for (const [minutes, due] of [
      [120, zeros],
      [10, []],
    ] as const) {
      const left = workAt('hinge-blocks', 130, 'work');
      left.act({ kind: 'endSitting', why: 'left' });
      left.wait(minutes * 60);
      left.act({ kind: 'beginSitting', by: null, host: 'shop' });
      expect(asked(left), `left ${minutes}`).toEqual(due);
      const paused = workAt('hinge-blocks', 130, 'work');
      paused.act({ kind: 'pause', reason: null });
      paused.act({ kind: 'resume' }, minutes * 60);
      expect(asked(paused), `paused ${minutes}`).toEqual(due);
    }
  });

  it('in X and Y, and in Z for the tool that was changed', () => {
    const played = workAt('keeper-plates', 60, 'work');
    played.act({ kind: 'toolChanged', sharpened: false });
    expect(asked(played)).toEqual(zeros);
    expect(played.batch().cards.find((card) => card.kind === 'z zero')).toMatchObject({ why: null });
  });
});

describe('a correction whose zero was set anew', () => {
  const corrected = (): Played => {
    const played = workAt('keeper-plates', 60, 'work');
    played.act({ kind: 'correct', axis: 'y', by: -0.06, reading: null, reason: 'reads 15.06' });
    played.act({ kind: 'bumped' });
    while (played.batch().cards[0]?.kind === 'zero') played.pass();
    return played;
  };
  const byY = (played: Played) => correctedBy(played.batch(), 60, 0, 'y');

  it('is asked for once X and Y stand again', () => {
    expect(corrected().batch().cards[0]).toMatchObject({ kind: 'correction', operation: 60, axis: 'y', by: -0.06 });
  });

  it('is kept by yes and by Enter alone', () => {
    for (const answer of [{ kind: 'pass' }, { kind: 'yes or no', yes: true }] as const) {
      const played = corrected();
      played.pass(answer);
      expect(byY(played)).toBe(-0.06);
      expect(kinds(played)).not.toContain('correction');
    }
  });

  it('is dropped by no, as a correction of its own that can be taken back', () => {
    const played = corrected();
    played.pass({ kind: 'yes or no', yes: false });
    expect(byY(played)).toBe(0);
    expect(kinds(played)).not.toContain('correction');
    played.act({ kind: 'takeBack' });
    expect(byY(played)).toBe(-0.06);
    expect(kinds(played)).not.toContain('correction');
  });

  it('takes no number', () => {
    const played = corrected();
    const id = played.batch().cards[0]?.id ?? '';
    expect(played.reason({ kind: 'passCard', id, shown_ms: 3000, answer: { kind: 'value', value: 3 } })).toBe(
      'say yes or no',
    );
  });

  it('is not asked for where nothing was corrected', () => {
    const played = workAt('keeper-plates', 60, 'work');
    played.act({ kind: 'bumped' });
    expect(kinds(played)).not.toContain('correction');
  });
});
