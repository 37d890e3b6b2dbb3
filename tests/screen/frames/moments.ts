/** Moments of a batch to be drawn: every card and every kind of work, each reached by commands as at the machine. */
import { inHandAt } from '../../../src/batch/flow.ts';
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
  const keep = (name: string, app?: Partial<AppState>): void => {
    if (seen.has(name)) return;
    seen.set(name, { name, state: played.state(), now_s: played.now(), ...(app === undefined ? {} : { app }) });
  };
  const look = (): void => {
    const name = momentName(played.batch());
    keep(name);
    const { current, cards } = played.batch();
    if (played.batch().kind !== 'open' || current === null || cards.length > 0) return;
    const { stop, stops } = inHandAt(played.batch(), current);
    if (stops.length > 1 && stop === 0) keep(`looking ahead of ${name}`, { ahead: 1 });
  };
  look();
  while (played.batch().kind === 'open') {
    if (played.batch().cards.length > 0) played.pass();
    else played.act({ kind: 'count', quick: false }, 20);
    look();
  }
  return [...seen.values(), ...mishaps(plan)];
}

/** Counts the first piece and says of every check that it is as it should be. */
function proveFirstOff(played: Played): void {
  played.act({ kind: 'count', quick: false }, 20);
  for (let card = played.batch().cards[0]; card !== undefined; card = played.batch().cards[0]) {
    const id = card.kind === 'check' ? card.check : null;
    const checks = played.batch().plan.operations.flatMap((one) => one.checks);
    const what = checks.find((one) => one.id === id)?.what;
    if (what === undefined) played.pass();
    else
      played.pass(what.kind === 'measured' ? { kind: 'value', value: what.nominal } : { kind: 'yes or no', yes: true });
  }
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
  const proven = toWork();
  proveFirstOff(proven);
  const live = toWork();
  const shown = (name: string, played: Played, more: Partial<Shown> = {}): Shown => ({
    name,
    state: played.state(),
    now_s: played.now(),
    ...more,
  });
  return [
    shown('just counted', counted, { said }),
    shown('work after its first-off', proven),
    shown('paused for 65 s', paused, { now_s: paused.now() + 65 }),
    shown('after a cut', cut),
    shown('the tray after a cut', tray),
    shown('looking at another operation', live, { app: { lookAt: 1 } }),
    shown('saving', live, {
      said: { kind: 'refused', reason: 'not taken: the key is held: let it rest', mono_ms: live.batch().last.mono_ms },
    }),
  ];
}
