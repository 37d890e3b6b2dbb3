/** Moments of a batch to be drawn: every card and every kind of work, each reached by commands as at the machine. */
import type { Batch, BatchState } from '../../../src/batch/state.ts';
import type { ResolvedPlan } from '../../../src/plan/resolved.ts';
import type { AppState } from '../../../src/screen/app/state.ts';
import type { Said } from '../../../src/sitting/sitting.ts';
import { type Played, play } from '../../batch/playing.ts';

export type Shown = {
  readonly name: string;
  readonly state: BatchState;
  readonly said?: Said;
  readonly app?: Partial<AppState>;
  readonly now_s?: number;
};

/** What the screen shows of a state, as a name: the card with its moment, or the work with its point. */
function momentName(batch: Batch): string {
  const cell = batch.current === null ? undefined : batch.cells[batch.current];
  const where = cell === undefined ? '' : ` at ${cell.operation}${cell.lane === '*' ? '' : ` ${cell.lane}`}`;
  if (batch.kind !== 'open') return batch.kind;
  if (batch.presence === 'paused') return `paused${where}`;
  const card = batch.cards[0];
  if (card === undefined) return `work${where}, stop ${cell?.load.stop ?? 0}`;
  const which =
    card.kind === 'zero'
      ? ` ${card.axis}`
      : card.kind === 'check'
        ? ` ${card.due}`
        : 'moment' in card
          ? ` ${card.moment}`
          : '';
  return `${card.kind}${which}${where}`;
}

/** Every different moment of a whole batch of the plan, played with Enter alone, each once. */
export function momentsOf(plan: ResolvedPlan): readonly Shown[] {
  const played = play(plan);
  const seen = new Map<string, Shown>();
  const look = (): void => {
    const name = momentName(played.batch());
    if (!seen.has(name)) seen.set(name, { name, state: played.state(), now_s: played.now() });
  };
  look();
  while (played.batch().kind === 'open') {
    if (played.batch().cards.length > 0) played.pass();
    else played.act({ kind: 'count', quick: false }, 20);
    look();
  }
  return [...seen.values(), ...mishaps(plan)];
}

/** What a smooth evening does not show: a pause, a cut, a count just made, looking, typing, a failed check. */
function mishaps(plan: ResolvedPlan): readonly Shown[] {
  const toWork = (): Played => {
    const played = play(plan);
    played.passAll();
    return played;
  };
  const counted = toWork();
  const events = counted.act({ kind: 'count', quick: false }, 20);
  const said: Said = { kind: 'counted', events, mono_ms: counted.batch().last.mono_ms };
  const paused = toWork();
  paused.act({ kind: 'pause', reason: 'telephone' });
  const cut = toWork();
  cut.wait(7200);
  cut.act({ kind: 'beginSitting', by: null, host: 'shop' });
  const tray = toWork();
  tray.wait(7200);
  tray.act({ kind: 'beginSitting', by: null, host: 'shop' });
  tray.pass();
  const live = toWork();
  const shown = (name: string, played: Played, more: Partial<Shown> = {}): Shown => ({
    name,
    state: played.state(),
    now_s: played.now(),
    ...more,
  });
  return [
    shown('just counted', counted, { said }),
    shown('paused for 65 s', paused, { now_s: paused.now() + 65 }),
    shown('after a cut', cut),
    shown('the tray after a cut', tray),
    shown('looking at another operation', live, { app: { lookAt: 1 } }),
    shown('saving', live, {
      said: { kind: 'refused', reason: 'not taken: the key is held: let it rest', mono_ms: live.batch().last.mono_ms },
    }),
  ];
}
