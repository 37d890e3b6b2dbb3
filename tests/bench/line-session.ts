/**
 * The line protocol of the forecast as data: a session takes one message and gives an answer or none. It holds no
 * forecasting of its own, only the translation into the events and questions of src/forecast/.
 *
 * In: run, event (start, setup_done, piece, scrap, pause, resume), ask, end; `t_s` is wall seconds since the run's start.
 * Out: for each ask the remaining bench seconds of batch and operation (10, 50, 90 %) and the finish in civil time.
 */
import { advanceClock, type BenchClock, pauseClock, startBenchClock } from '../../src/forecast/bench-clock.ts';
import { civilText, finishTimes, instantOf } from '../../src/forecast/calendar.ts';
import { type ForecastEvent, takeEvent } from '../../src/forecast/forecaster.ts';
import { askForecast, type ForecastAsk, type Quantiles, quantilesOf } from '../../src/forecast/projection.ts';
import type { ShopHours } from '../../src/forecast/shop-hours.ts';
import { type ForecastState, startForecast } from '../../src/forecast/state.ts';

export type RunLine = {
  readonly type: 'run';
  readonly id: string;
  readonly quantity: number;
  readonly start: string;
  readonly calendar: ShopHours['week'];
  readonly operations: readonly {
    readonly op: number;
    readonly setup_est_s: number;
    readonly cycle_est_s: number;
    readonly gang: number;
  }[];
  readonly regime?: string;
};

export type EventLine =
  | { readonly type: 'event'; readonly kind: 'start'; readonly op: number; readonly t_s: number }
  | { readonly type: 'event'; readonly kind: 'setup_done'; readonly op: number; readonly t_s: number }
  | {
      readonly type: 'event';
      readonly kind: 'piece' | 'scrap';
      readonly op: number;
      readonly piece: number;
      readonly n: number;
      readonly t_s: number;
    }
  | { readonly type: 'event'; readonly kind: 'pause'; readonly t_s: number; readonly why?: string }
  | { readonly type: 'event'; readonly kind: 'resume'; readonly t_s: number };

type AskLine = { readonly type: 'ask'; readonly ask: number; readonly t_s: number };

export type Line = RunLine | EventLine | AskLine | { readonly type: 'end'; readonly id: string };

export type Answer = {
  readonly ask: number;
  readonly remaining_s: Quantiles;
  readonly operation_remaining_s: Quantiles;
  readonly finish: { readonly p10: string | null; readonly p50: string | null; readonly p90: string | null };
};

export type Session = {
  readonly run: RunLine;
  readonly hours: ShopHours;
  readonly start_ms: number;
  readonly clock: BenchClock;
  /** Bench seconds at the last press. */
  readonly pressed_s: number;
  readonly forecast: ForecastState;
  /** Good pieces by operation, in the order of the run. */
  readonly good: readonly number[];
  readonly atHand: number;
  /** A pause has been since the last press. */
  readonly broke: boolean;
};

// The protocol speaks in local time without a zone; UTC keeps every day 24 hours long.
const zone = 'UTC';

/** The session after one message, and the answer to it if it asked. */
export function takeLine(session: Session | null, line: Line): { session: Session | null; answer: Answer | null } {
  if (line.type === 'run') return { session: startSession(line), answer: null };
  if (line.type === 'end') return { session: null, answer: null };
  if (session === null) throw new Error(`A line of type ${line.type} came before any run.`);
  if (line.type === 'ask') return { session, answer: answerAsk(session, line) };
  return { session: takeEventLine(session, line), answer: null };
}

function startSession(run: RunLine): Session {
  const start_ms = instantOf(zone, run.start);
  return {
    run,
    hours: { zone, week: run.calendar },
    start_ms,
    clock: startBenchClock(start_ms),
    pressed_s: 0,
    forecast: startForecast({
      operations: run.operations.map((operation) => ({
        key: String(operation.op),
        setup_s: operation.setup_est_s,
        piece_s: operation.cycle_est_s,
        piecesPerLoad: operation.gang,
        pieces: run.quantity,
      })),
    }),
    good: run.operations.map(() => 0),
    atHand: 0,
    broke: false,
  };
}

function takeEventLine(session: Session, line: EventLine): Session {
  const at_ms = session.start_ms + line.t_s * 1000;
  if (line.kind === 'pause' || line.kind === 'resume') {
    return { ...session, broke: true, clock: pauseClock(session.clock, at_ms, session.hours, line.kind === 'pause') };
  }
  // A press in a marked pause ends it: the user went on without pressing the key.
  const clock = { ...advanceClock(session.clock, at_ms, session.hours), paused: false };
  const afterBreak = session.broke;
  const took_s = clock.bench_s - session.pressed_s;
  const atHand = session.run.operations.findIndex((operation) => operation.op === line.op);
  const moved = { ...session, clock, atHand, pressed_s: clock.bench_s, broke: false };
  const operation = String(line.op);
  const take = (event: ForecastEvent): Session => ({ ...moved, forecast: takeEvent(moved.forecast, event) });
  switch (line.kind) {
    case 'start':
      return { ...take({ kind: 'setup-started', operation }), pressed_s: session.pressed_s, broke: session.broke };
    case 'setup_done':
      return take({ kind: 'setup-done', operation, took_s });
    case 'scrap':
      return take({ kind: 'scrap', operation, pieces: line.n, took_s });
    case 'piece':
      return countPieces(take({ kind: 'load', operation, pieces: line.n, took_s, afterBreak }), atHand, line.piece);
    default:
      return line satisfies never;
  }
}

function countPieces(session: Session, index: number, piece: number): Session {
  const good = session.good.map((count, i) => (i === index ? piece : count));
  if (piece < session.run.quantity) return { ...session, good };
  const operation = String(session.run.operations[index]?.op);
  return { ...session, good, forecast: takeEvent(session.forecast, { kind: 'operation-finished', operation }) };
}

/** The question that the session's state puts to the forecast at an instant. */
function askOf(session: Session, at_ms: number): ForecastAsk {
  const clock = advanceClock(session.clock, at_ms, session.hours);
  return {
    operation: String(session.run.operations[session.atHand]?.op),
    sinceLastPress_s: Math.max(0, clock.bench_s - session.pressed_s),
    left: session.good.map((count) => ({ pieces: Math.max(0, session.run.quantity - count) })),
  };
}

function answerAsk(session: Session, line: AskLine): Answer {
  const at_ms = session.start_ms + line.t_s * 1000;
  const forecast = askForecast(session.forecast, askOf(session, at_ms));
  const remaining_s = quantilesOf(forecast.batch);
  const [p10, p50, p90] = finishTimes(session.hours, at_ms, [remaining_s.p10, remaining_s.p50, remaining_s.p90]);
  const text = (finish: number | null | undefined): string | null =>
    finish === null || finish === undefined ? null : civilText(zone, finish);
  return {
    ask: line.ask,
    remaining_s,
    operation_remaining_s: quantilesOf(forecast.operation),
    finish: { p10: text(p10), p50: text(p50), p90: text(p90) },
  };
}
