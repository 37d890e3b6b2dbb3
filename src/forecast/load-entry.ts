/**
 * How one load enters the forecast: a forgotten press is split, the time is shared between its explanations, the bank of
 * the operation moves by the regular share, and loads that agree with each other overrule what was believed before.
 */
import { constants } from './constants.ts';
import { loadFactor } from './job.ts';
import { pooledNoise, pooledShapes } from './learning-pool.ts';
import {
  type FilterBank,
  nextNoiseVariance,
  passLoads,
  predictLoad,
  relevel,
  startBank,
  takeLoad,
} from './load-filter.ts';
import { accountLoad, accountUntimed, type LoadShares, shareLoad } from './load-shares.ts';
import {
  changedAt,
  currentFactor,
  type Doubt,
  type DoubtedLoad,
  type ForecastState,
  indexOf,
  type LoadTally,
  levelBefore,
} from './state.ts';

/**
 * The state after a load of `pieces` pieces that took `took_s` seconds. Without a usable time (null, not finite, negative) it
 * is counted and left out of the timing.
 */
export function takeLoadEvent(
  state: ForecastState,
  key: string,
  pieces: number,
  took_s: number | null,
  afterBreak: boolean,
): ForecastState {
  const index = indexOf(state, key);
  const bank = bankOf(state, index);
  if (took_s === null || !(took_s >= 0) || !Number.isFinite(took_s)) return passUntimed(state, index, bank, pieces);
  const split = splitDoubled(state, index, pieces, took_s);
  if (split !== null) return split;
  const entered = enterLoad(state, index, pieces, took_s, afterBreak);
  const { operations, accounts } = state;
  return { ...entered, lastLoad: { index, took_s, pieces, presses: 1, before: { operations, accounts } } };
}

/**
 * A press that was forgotten shows as a doubled load followed by one of next to nothing. Then what the doubled load did is
 * undone and the time is shared out evenly, over as many presses as it takes. Null when this is not such a case.
 */
function splitDoubled(state: ForecastState, index: number, pieces: number, took_s: number): ForecastState | null {
  const last = state.lastLoad;
  const bank = state.operations[index]?.bank;
  if (last === null || last.index !== index || !bank) return null;
  if (took_s >= (0.5 * last.took_s) / last.presses) return null;
  const piecesPerLoad = state.prepared[index]?.piecesPerLoad ?? 1;
  const expected_s = Math.exp(predictLoad(bank).mean) * loadFactor(pieces, piecesPerLoad);
  const sum_s = last.took_s + took_s;
  const each_s = sum_s / (last.presses + 1);
  if (took_s >= 0.25 * expected_s) return null;
  if (last.presses > 1 && each_s < 0.5 * expected_s) return null;
  let after: ForecastState = { ...state, ...last.before };
  for (let press = 0; press < last.presses; press += 1) after = enterLoad(after, index, last.pieces, each_s);
  after = tallied(enterLoad(after, index, pieces, each_s), index, { shared: last.presses });
  return { ...after, lastLoad: { ...last, took_s: sum_s, presses: last.presses + 1 } };
}

function passUntimed(state: ForecastState, index: number, bank: FilterBank, pieces: number): ForecastState {
  const piecesPerLoad = state.prepared[index]?.piecesPerLoad ?? 1;
  const passed = withBank(state, index, passLoads(bank, Math.ceil(pieces / piecesPerLoad)));
  return {
    ...tallied(passed, index, { piecesUntimed: pieces }),
    accounts: accountUntimed(state.accounts, pieces),
    lastLoad: null,
    doubt: null,
  };
}

/** The bank of an operation, begun now if it was not. */
export function bankOf(state: ForecastState, index: number): FilterBank {
  const begun = state.operations[index]?.bank;
  if (begun) return begun;
  const prepared = state.prepared[index];
  if (prepared === undefined) throw new Error('The forecast lost an operation.');
  return startBank({
    level: levelBefore(prepared, currentFactor(state)),
    shapes: pooledShapes(state.pool),
    noise: pooledNoise(state.pool),
    loadsInAll: prepared.loadsInAll,
  });
}

/** The state with an operation's bank replaced; whoever has a bank is set up. */
export function withBank(state: ForecastState, index: number, bank: FilterBank): ForecastState {
  return changedAt(state, index, (operation) => ({ ...operation, setup: 'done', bank }));
}

function tallied(state: ForecastState, index: number, more: Partial<LoadTally>): ForecastState {
  return changedAt(state, index, (operation) => ({ ...operation, tally: tallySum(operation.tally, more) }));
}

/** Written out, because opening a batch of 10,000 loads comes through here as often, with everything still cold. */
function tallySum(tally: LoadTally, more: Partial<LoadTally>): LoadTally {
  return {
    timed: tally.timed + (more.timed ?? 0),
    hiccups: tally.hiccups + (more.hiccups ?? 0),
    interruptions: tally.interruptions + (more.interruptions ?? 0),
    slips: tally.slips + (more.slips ?? 0),
    shared: tally.shared + (more.shared ?? 0),
    piecesUntimed: tally.piecesUntimed + (more.piecesUntimed ?? 0),
  };
}

/** Shares one load between its explanations, moves the bank by the regular share and books the rest. */
function enterLoad(
  state: ForecastState,
  index: number,
  pieces: number,
  took_s: number,
  afterBreak = false,
): ForecastState {
  const bank = bankOf(state, index);
  const factor = loadFactor(pieces, state.prepared[index]?.piecesPerLoad ?? 1);
  const expected = predictLoad(bank);
  const excess = afterBreak && bank.loads > 0 ? constants.afterBreak.excess : 0;
  const y = Math.log(Math.max(took_s, 0.3) / factor) - excess;
  const seen = {
    took_s: Math.max(took_s, 0.3),
    expected_s: Math.exp(expected.mean) * factor,
    error: y - expected.mean,
    spread: expected.variance + bank.wanderPerLoad + nextNoiseVariance(bank, afterBreak),
  };
  const shares = shareLoad(state.accounts, seen);
  const moved = takeLoad(bank, y, shares.regular, afterBreak, expected);
  const taken = setAside(shares, seen.error > 0);
  const entered: ForecastState = {
    ...changedAt(state, index, ({ setupReading, pooled, tally }) => ({
      setup: 'done',
      setupReading,
      bank: moved,
      pooled,
      tally: tallySum(tally, taken),
    })),
    accounts: accountLoad(state.accounts, pieces, seen, shares),
    doubt: shares.regular < constants.overrule.doubt ? doubted(state, index, bank, { y, pieces, took_s }) : null,
  };
  return overruled(entered) ?? entered;
}

function doubted(state: ForecastState, index: number, bank: FilterBank, load: DoubtedLoad): Doubt {
  const before = state.doubt?.index === index ? state.doubt : null;
  if (before === null) return { index, bankBefore: bank, accountsBefore: state.accounts, loads: [load] };
  return { ...before, loads: [...before.loads, load] };
}

/**
 * When loads in a row disagree with what was believed but agree with each other, they are right: a plan that was wrong by
 * a hundred times, a tool that was changed. The level begins again at theirs, and what they were booked as is undone. Null
 * while it has not come to that.
 */
function overruled(state: ForecastState): ForecastState | null {
  const { doubt } = state;
  const { early, later, alike } = constants.overrule;
  if (doubt === null) return null;
  const settled = doubt.bankBefore.noiseWeight - constants.noiseWeight > 0.5;
  const needed = settled ? later : early;
  const recent = doubt.loads.slice(-needed);
  const logs = recent.map((load) => load.y);
  if (recent.length < needed || Math.max(...logs) - Math.min(...logs) > alike) {
    return doubt.loads.length > needed ? { ...state, doubt: { ...doubt, loads: recent } } : null;
  }
  const level = logs.reduce((sum, y) => sum + y, 0) / logs.length;
  const bank = relevel(doubt.bankBefore, level);
  const again = withBank({ ...state, accounts: doubt.accountsBefore, doubt: null }, doubt.index, bank);
  const cleared = tallied(again, doubt.index, { timed: -recent.length });
  return recent.reduce((sum, load) => enterLoad(sum, doubt.index, load.pieces, load.took_s), cleared);
}

const takenAs = {
  regular: { timed: 1 },
  slip: { timed: 1, slips: 1 },
  hiccup: { timed: 1, hiccups: 1 },
  interruption: { timed: 1, interruptions: 1 },
} as const;

/** What a load is put down as where it is mostly not regular work; one too long for any hiccup was an interruption. */
function setAside(shares: LoadShares, slow: boolean): Partial<LoadTally> {
  if (shares.regular > 0.5) return takenAs.regular;
  if (!slow) return takenAs.slip;
  return shares.hiccup > shares.interruption + shares.slip ? takenAs.hiccup : takenAs.interruption;
}
