/**
 * The question turned round: not when so many are done, but how many are done by a given time. Answered from the same
 * mixture as the finish, so the two can never contradict each other.
 */
import { openSeconds } from './calendar.ts';
import { askForecast, askOperation, chanceWithin, type ForecastAsk } from './projection.ts';
import type { ShopHours } from './shop-hours.ts';
import type { ForecastState } from './state.ts';

export type DoneBy = {
  /** Pieces more of the operation at hand: 80 % band and middle, in whole loads. */
  readonly low: number;
  readonly middle: number;
  readonly high: number;
  /** Chance that the whole batch is done by then. */
  readonly batchChance: number;
};

/**
 * Pieces of the operation at hand that will be done within `seconds` bench seconds from now. None at hand, or nothing left
 * of it: zeros.
 */
export function piecesWithin(state: ForecastState, ask: ForecastAsk, seconds: number): DoneBy {
  const batchChance = chanceWithin(askForecast(state, ask).batch, seconds);
  const index = state.prepared.findIndex((operation) => operation.key === ask.operation);
  const left = ask.left[index]?.pieces ?? 0;
  const perLoad = state.prepared[index]?.piecesPerLoad ?? 1;
  const loads = Math.ceil(left / perLoad);
  const piecesIn = (count: number): number => Math.min(left, count * perLoad);
  const chanceOf = (count: number): number => {
    const only = ask.left.map((entry, i) => ({ ...entry, pieces: i === index ? piecesIn(count) : 0 }));
    return chanceWithin(askOperation(state, { ...ask, left: only }), seconds);
  };
  const low = piecesIn(mostLoads(chanceOf, loads, 0.9));
  const middle = Math.max(low, piecesIn(mostLoads(chanceOf, loads, 0.5)));
  return { low, middle, high: Math.max(middle, piecesIn(mostLoads(chanceOf, loads, 0.1))), batchChance };
}

/** The same by a clock time: only the open hours until then count. */
export function piecesDoneBy(
  state: ForecastState,
  ask: ForecastAsk,
  hours: ShopHours,
  now_ms: number,
  by_ms: number,
): DoneBy {
  return piecesWithin(state, ask, openSeconds(hours, now_ms, by_ms));
}

/** The most loads whose chance is at least `p`: the chance falls with the number, so halving the range finds it. */
function mostLoads(chanceOf: (loads: number) => number, loads: number, p: number): number {
  let done = 0;
  let beyond = loads + 1;
  while (beyond - done > 1) {
    const middle = Math.floor((done + beyond) / 2);
    if (chanceOf(middle) >= p) done = middle;
    else beyond = middle;
  }
  return done;
}
