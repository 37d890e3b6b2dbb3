/**
 * What a forecast rests on: plan, past batches, pieces timed, and what was left out and why. Figures only; the screen finds
 * the words.
 */
import { secondsAhead } from './load-filter.ts';
import { currentFactor, type ForecastState, type LoadTally } from './state.ts';

type OperationGrounds = {
  readonly key: string;
  /** The plan gave no time: a default of its kind stands in until loads are timed. */
  readonly isDefault: boolean;
  readonly tally: LoadTally;
  /** Seconds that the next full load is expected to take; null before the first timed load. */
  readonly load_s: number | null;
};

export type Grounds = {
  /** `plan`: nothing timed yet. */
  readonly restsOn: 'plan' | 'plan and timed loads';
  readonly batchesBefore: number;
  readonly loadsTimed: number;
  /** True time over planned time as judged now, one standard deviation either way. Example: 1.12 for 12 % over. */
  readonly planFactor: { readonly low: number; readonly middle: number; readonly high: number };
  /** Unmarked interruptions expected in an hour of bench work and their mean length, hiccups in a hundred loads. */
  readonly interruptionsPerHour: number;
  readonly interruption_s: number;
  readonly hiccupsPerHundred: number;
  /** Scrap expected in a hundred pieces. */
  readonly scrapPerHundred: number;
  readonly operations: readonly OperationGrounds[];
};

/** What the forecast rests on now. */
export function explainForecast(state: ForecastState): Grounds {
  const factor = currentFactor(state);
  const { accounts } = state;
  const deviation = Math.sqrt(factor.variance);
  const loadsTimed = state.operations.reduce((sum, operation) => sum + operation.tally.timed, 0);
  return {
    restsOn: loadsTimed === 0 ? 'plan' : 'plan and timed loads',
    batchesBefore: state.job.prior?.batches ?? 0,
    loadsTimed,
    planFactor: {
      low: Math.exp(factor.mean - deviation),
      middle: Math.exp(factor.mean),
      high: Math.exp(factor.mean + deviation),
    },
    interruptionsPerHour: accounts.interruptions / accounts.interruptionHours,
    interruption_s: accounts.interruptionSizeSum_s / accounts.interruptionSizeWeight,
    hiccupsPerHundred: (100 * accounts.hiccups) / accounts.hiccupLoads,
    scrapPerHundred: (100 * accounts.scrap) / accounts.scrapPieces,
    operations: state.prepared.map((prepared, i) => {
      const operation = state.operations[i];
      const bank = operation?.bank ?? null;
      return {
        key: prepared.key,
        isDefault: prepared.isDefault,
        tally: operation?.tally ?? { timed: 0, hiccups: 0, interruptions: 0, slips: 0, shared: 0, piecesUntimed: 0 },
        load_s: bank === null ? null : secondsAhead(bank, 1).mean,
      };
    }),
  };
}
