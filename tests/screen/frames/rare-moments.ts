/** Moments that an evening without mishaps and changes does not show, each reached by commands as at the machine. */
import type { Command } from '../../../src/batch/commands.ts';
import { type Played, play } from '../../batch/playing.ts';
import { everyKindPlan } from './every-kind-plan.ts';
import type { Shown } from './moments.ts';

/** The batch at the work of an operation: everything before it made, its cards passed. */
function playedTo(operation: number): Played {
  const played = play(everyKindPlan);
  for (let press = 0; press < 200; press += 1) {
    const { cards, cells, current } = played.batch();
    const here = current === null ? undefined : cells[current]?.operation;
    if (cards.length === 0 && here === operation) return played;
    if (cards.length > 0) played.pass();
    else played.act({ kind: 'count', quick: false }, 20);
  }
  throw new Error(`operation ${operation} was not reached`);
}

const after = (operation: number, ...commands: readonly Command[]): Played => {
  const played = playedTo(operation);
  for (const command of commands) played.act(command, 20);
  return played;
};

/** Gone for the night in the middle of the mill work, and back the next evening. */
function overnight(): Played {
  const played = after(30, { kind: 'count', quick: false }, { kind: 'endSitting', why: 'left' });
  played.wait(20 * 3600);
  played.act({ kind: 'beginSitting', by: null, host: 'shop' });
  return played;
}

function failedCheck(): Played {
  const played = after(10, { kind: 'count', quick: false });
  played.pass({ kind: 'value', value: 3.2 });
  return played;
}

const bySteps: Command = { kind: 'changeCounting', counting: 'point' };
const count: Command = { kind: 'count', quick: false };

/** Every such moment of the plan that has one of everything. */
export function rareMoments(): readonly Shown[] {
  const shown = (name: string, played: Played, more: Partial<Shown> = {}): Shown => ({
    name,
    state: played.state(),
    now_s: played.now(),
    ...more,
  });
  const check = after(10, count);
  const night = overnight();
  const tray = overnight();
  tray.pass();
  return [
    shown('line cut pass by pass', after(20, bySteps)),
    shown('line cut pass by pass, the last', after(20, bySteps, count)),
    shown('check, a value over the limit being typed', check, { app: { typed: '3.20' } }),
    shown('check, a value within being typed', check, { app: { typed: '3.01' } }),
    shown('after a failed check', failedCheck()),
    shown(
      'after a correction of the stop',
      after(10, { kind: 'correct', axis: 'stop', by: -0.2, reading: 61.2, reason: 'reads 61.20' }),
    ),
    shown('bumped', after(30, { kind: 'bumped' })),
    shown('tool changed', after(30, { kind: 'toolChanged', sharpened: false })),
    shown('after a night', night),
    shown('after a night, the tray', tray),
    shown('depth stop that a piece has proved', after(60, count)),
    shown('piece by piece at holes', after(30, { kind: 'changeCounting', counting: 'piece' })),
    shown('short of the order', shortOfOrder()),
    shown('suspects of an operation that is done', suspectAtEnd('suspects')),
    shown('suspect at the end', suspectAtEnd('batch ended')),
    shown('none waiting, more to come', noneWaiting()),
    shown('given up', after(30, { kind: 'giveUp', name: everyKindPlan.job, reason: 'no more bars' })),
  ];
}

/** One piece is rejected where no spare stands behind it. */
function shortOfOrder(): Played {
  const played = playedTo(30);
  played.act({ kind: 'reject', place: null, pieces: 1, counted: false, reason: 'dropped' }, 20);
  for (let press = 0; press < 200 && played.batch().cards[0]?.kind !== 'shortage'; press += 1) {
    if (played.batch().cards.length > 0) played.pass();
    else played.act(count, 20);
  }
  return played;
}

/** The second operation was gone to as soon as one load of the first was counted. */
function noneWaiting(): Played {
  const [first, second] = everyKindPlan.operations;
  const played = playedTo(first?.number ?? 10);
  played.act(count, 20);
  played.act({ kind: 'goTo', operation: second?.number ?? 20, lane: '*' }, 20);
  for (let press = 0; press < 50 && played.batch().cards[0]?.kind !== 'operation ended'; press += 1) {
    if (played.batch().cards.length > 0) played.pass();
    else played.act(count, 20);
  }
  return played;
}

/** A failed check of which the pieces were never settled. */
function suspectAtEnd(card: 'suspects' | 'batch ended'): Played {
  const played = failedCheck();
  for (let press = 0; press < 400 && played.batch().cards[0]?.kind !== card; press += 1) {
    if (played.batch().cards.length > 0) played.pass();
    else played.act(count, 20);
  }
  return played;
}
