/** Random but mostly sensible commands for property tests: numbers are drawn, the rest is fitted to the state. */
import fc from 'fast-check';
import { type CardAnswer, type Command, commandSchema } from '../../src/batch/commands.ts';
import type { Batch, BatchState } from '../../src/batch/state.ts';

/** One press: which command, two numbers for its details, and the seconds before it. */
export type Press = { readonly pick: number; readonly a: number; readonly b: number; readonly seconds: number };

const press: fc.Arbitrary<Press> = fc.record({
  pick: fc.nat(99),
  a: fc.nat(5),
  b: fc.nat(5),
  seconds: fc.oneof({ weight: 20, arbitrary: fc.nat(200) }, { weight: 1, arbitrary: fc.nat(40_000) }),
});

export const presses = fc.array(press, { minLength: 1, maxLength: 120, size: 'max' });

const kinds = commandSchema.options.map((option) => option.shape.kind.value);

/** The command of a press in a state; half of the presses count or pass a card. */
export function commandOf(state: BatchState, { pick, a, b }: Press): Command {
  if (state.kind === 'none') return { kind: 'openBatch' };
  const card = state.cards[0];
  if (pick < 50 && state.presence === 'left')
    return { kind: 'beginSitting', by: [null, 'AB', 'CD'][a % 3] ?? null, host: 'shop' };
  if (pick < 50 && state.presence === 'paused') return { kind: 'resume' };
  if (pick < 50 && card !== undefined) {
    return { kind: 'passCard', id: card.id, shown_ms: a * 1000, answer: answerOf(state, card.kind, pick, b) };
  }
  if (pick < 50) return { kind: 'count', quick: a === 5 };
  return fitted(state, kinds[pick % kinds.length] ?? 'count', a, b);
}

function answerOf(batch: Batch, kind: string, pick: number, b: number): CardAnswer {
  if (pick < 30) return { kind: 'pass' };
  if (kind === 'check')
    return pick % 2 === 0 ? { kind: 'value', value: 2.9 + b * 0.04 } : { kind: 'yes or no', yes: b > 1 };
  if (kind === 'parting')
    return { kind: 'shares', shares: Object.fromEntries(batch.lanes.parted.map((lane) => [lane, b])) };
  if (kind === 'away' && pick % 3 > 0)
    return { kind: 'back', pieces: b, lost: pick % 3 === 1 ? 0 : 1, reason: 'lost there' };
  return { kind: 'pieces', pieces: b, reason: pick % 2 === 0 ? null : 'lost there' };
}

function fitted(batch: Batch, kind: Command['kind'], a: number, b: number): Command {
  const cell = batch.cells[(a * 7 + b) % batch.cells.length];
  const operation = cell?.operation ?? 10;
  const lane = cell?.lane ?? '*';
  const suspects = batch.suspects[0];
  switch (kind) {
    case 'openBatch':
    case 'takeBack':
    case 'bumped':
    case 'zeroProved':
    case 'resume':
    case 'amend':
      return { kind };
    case 'beginSitting':
      return { kind, by: 'AB', host: 'shop' };
    case 'endSitting':
      return { kind, why: 'left' };
    case 'passCard':
      return { kind, id: `card ${a}`, shown_ms: 0, answer: { kind: 'pass' } };
    case 'count':
      return { kind, quick: false };
    case 'reject':
      return { kind, place: b > 3 ? (a % 2) + 1 : null, pieces: (a % 2) + 1, counted: b % 2 === 0, reason: 'scored' };
    case 'rework':
      return { kind, to: operation, pieces: (b % 2) + 1, reason: 'burr' };
    case 'recount':
      return { kind, good: a + b, reason: 'tray' };
    case 'correct':
      return { kind, axis: b > 2 ? 'z' : 'x', by: (a - 2) / 10, reading: null, reason: 'reads deep' };
    case 'trial':
      return { kind, note: null };
    case 'note':
      return { kind, text: 'swarf' };
    case 'toolChanged':
      return { kind, sharpened: a > 2 };
    case 'askCheck':
      return { kind, check: null };
    case 'takeSkip':
      return { kind, check: 'place', reason: 'same setup' };
    case 'clearSuspects':
      return {
        kind,
        check: suspects?.check ?? 'place',
        from: suspects?.from ?? 1,
        to: suspects?.to ?? 1,
        how: 'owner',
        reason: 'looked at',
      };
    case 'scrapSuspects': {
      const from = suspects?.from ?? 1;
      const to = b > 3 ? (suspects?.to ?? 1) : from;
      const at = { operation: suspects?.operation ?? operation, lane: suspects?.lane ?? lane };
      const lieBehind = a > 2 ? { operation, lane } : at;
      return { kind, check: suspects?.check ?? 'place', from, to, at, lieBehind, reason: 'too deep' };
    }
    case 'pause':
      return { kind, reason: null };
    case 'noteSuspend':
    case 'noteClockStep':
      return { kind, ms: a * 1000 };
    case 'goTo':
      return { kind, operation, lane };
    case 'makeMore':
      return { kind, pieces: (a % 3) + 1, lane: '*', reason: 'for stock' };
    case 'changeCounting':
      return { kind, counting: a < 2 ? 'point' : a < 4 ? 'piece' : 'load' };
    case 'changeHours':
      return { kind, hours: a > 2 ? null : { week: { mon: [['18:00', '21:30']] }, daysOff: [], changes: [] } };
    case 'giveInitials':
      return { kind, by: a > 2 ? 'CD' : 'AB' };
    case 'declineAmendment':
      return { kind, planSha256: 'f'.repeat(64) };
    // The end is rare, so that most sequences go on.
    case 'finish':
      return { kind, short: a + b === 10, reason: 'enough' };
    case 'giveUp':
      return { kind, name: a + b === 10 ? batch.plan.job : 'not the name', reason: 'no stock' };
  }
}
