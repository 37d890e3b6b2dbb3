/** What the results of a check mean, in figures and in one plain sentence. */
import { mean, standardDeviation } from '../forecast/statistics.ts';
import type { CheckReport } from './model.ts';
import { counted } from './row-names.ts';
import { capabilityOf } from './statistics.ts';

/** Below this many measured values no capability is given; from it to `WIDE` only with a warning. Common practice. */
const LEAST = 10;
const WIDE = 25;

type Results = Pick<CheckReport, 'limits' | 'results'>;
type Verdict = Pick<CheckReport, 'done' | 'failed' | 'skipped' | 'mean_mm' | 'deviation_mm' | 'capability' | 'says'>;

/**
 * Counts, mean, deviation, capability with its interval, and what it means. Skipped checks count apart; capability needs
 * ten measured values and limits, and is called doubtful below twenty-five.
 *
 * Example: three values inside their limits: "all 3 within the limits; too few for a capability (10 are needed)".
 */
export function judgeCheck({ limits, results }: Results): Verdict {
  const values = results.flatMap((result) => (result.value_mm === null ? [] : [result.value_mm]));
  const done = results.filter((result) => result.passed !== null).length;
  const failed = results.filter((result) => result.passed === false).length;
  const found =
    limits === null || values.length < LEAST ? null : capabilityOf(values, limits.lower_mm, limits.upper_mm);
  const capability =
    found === null ? null : { cp: found.spreadIndex, cpk: found.index, cpk_low: found.low, cpk_high: found.high };
  const skipped = results.length - done;
  const says = [
    passSentence(done, failed, limits !== null),
    ...(skipped === 0 ? [] : [`${skipped} skipped${wordsOf(results)}`]),
    ...(limits === null || values.length === 0 ? [] : [capabilitySentence(values.length, capability)]),
  ];
  return {
    done,
    failed,
    skipped,
    mean_mm: mean(values),
    deviation_mm: standardDeviation(values),
    capability,
    says: `${says.join('; ')}.`,
  };
}

/** " (same setup as before)": what was said of skipped checks. */
function wordsOf(results: Results['results']): string {
  const words = results.flatMap((result) => result.word ?? []);
  return words.length === 0 ? '' : ` (${words.join('; ')})`;
}

function passSentence(done: number, failed: number, measured: boolean): string {
  const good = measured ? 'within the limits' : 'answered yes';
  const bad = measured ? 'outside the limits' : 'answered no';
  if (done === 0) return 'never done';
  if (failed === 0) return `${done === 1 ? 'the one result' : `all ${done}`} ${good}`;
  return `${failed} of ${counted(done, 'result')} ${bad}`;
}

function capabilitySentence(count: number, capability: CheckReport['capability']): string {
  if (count < LEAST) return `too few for a capability (${LEAST} are needed)`;
  if (capability === null) return 'no spread between the values, so no capability: look at the resolution of the gauge';
  const { cp, cpk, cpk_low, cpk_high } = capability;
  const figures = `C_p ${cp.toFixed(2)}, C_pk ${cpk.toFixed(2)}, between ${cpk_low.toFixed(2)} and ${cpk_high.toFixed(2)} at 95 % confidence if the work was steady`;
  if (count < WIDE) return `${figures}; from ${count} values only, so take the lower figure`;
  return cpk_low >= 1 ? `${figures}; the limits are held` : `${figures}; it is not shown that the limits are held`;
}
