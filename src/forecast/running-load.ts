/**
 * What is left of the load or setup that is running now. While it is within the usual time the rest shrinks as the
 * seconds pass; the longer it overruns, the likelier a hiccup or an interruption explains it, and the rest grows again:
 * the forecast moves smoothly between presses and never falls to nothing while the piece is still in the vice.
 */
import { constants } from './constants.ts';
import { type Moments, restOfLogNormal } from './distributions.ts';
import type { Accounts } from './load-shares.ts';

/** How far the running load is: seconds since it began, or since its last point with the part that was done by then. */
type Progress = { readonly elapsed_s: number; readonly shareDone: number };

/**
 * The time of `loads` loads of which the first is running. `ln` is the mean and variance of ln(time of the running load).
 * Points that are done leave a smaller load, begun at the last of them. With nothing done or elapsed it returns `body`
 * itself. Example: four of ten points done just now: the running load counts for six tenths.
 */
export function restOfRunningLoad(
  body: Moments,
  loads: number,
  ln: Moments,
  { elapsed_s, shareDone }: Progress,
  accounts: Accounts,
): Moments {
  if ((!(elapsed_s > 0) && !(shareDone > 0)) || loads <= 0) return body;
  const shareLeft = 1 - Math.min(0.99, Math.max(0, shareDone));
  // As shares of what the whole load was reckoned at, so that the first second after a press changes nothing.
  const whole = restWithMishaps(ln, 0, accounts);
  const rest = restWithMishaps({ ...ln, mean: ln.mean + Math.log(shareLeft) }, Math.max(0, elapsed_s), accounts);
  const share = Math.min(1, 1 / loads);
  return {
    mean: body.mean * (1 - share + (share * rest.mean) / whole.mean),
    variance: body.variance * (1 - share + (share * rest.variance) / whole.variance),
  };
}

/**
 * The rest of a setup that has been running for `elapsed_s`, planned at `estimate_s` and reckoned at `body` as a whole;
 * `ln` is the mean and variance of ln(its time). One that overruns by far still has a quarter of its estimate to go.
 */
export function restOfRunningSetup(body: Moments, ln: Moments, elapsed_s: number, estimate_s: number): Moments {
  if (!(elapsed_s > 0)) return body;
  const whole = restOfLogNormal(ln, 0);
  const rest = restOfLogNormal(ln, elapsed_s);
  const least_s = (estimate_s / 4) * Math.min(1, elapsed_s / (3 * Math.exp(ln.mean)));
  return {
    mean: Math.max(least_s, (body.mean * rest.mean) / whole.mean),
    variance: Math.max(least_s * least_s, (body.variance * rest.variance) / whole.variance),
  };
}

function restWithMishaps(ln: Moments, elapsed_s: number, accounts: Accounts): Moments {
  const usual_s = Math.exp(ln.mean);
  const hiccupRate = Math.min(0.3, accounts.hiccups / accounts.hiccupLoads);
  const interruptionRate = Math.min(0.3, (accounts.interruptions / accounts.interruptionHours) * (usual_s / 3600));
  const away_s = accounts.interruptionSizeSum_s / accounts.interruptionSizeWeight;
  const explanations = [
    { weight: 1 - hiccupRate - interruptionRate, ...restOfLogNormal(ln, elapsed_s) },
    { weight: hiccupRate, ...restOfLogNormal({ mean: ln.mean + 1.5, variance: ln.variance + 0.22 }, elapsed_s) },
    { weight: interruptionRate, ...restOfInterruption(usual_s, away_s, elapsed_s) },
  ];
  const best = Math.max(...explanations.map((entry) => entry.lnSurvival + Math.log(entry.weight)));
  let total = 0;
  let mean = 0;
  let square = 0;
  for (const entry of explanations) {
    const weight = Math.exp(entry.lnSurvival + Math.log(entry.weight) - best);
    total += weight;
    mean += weight * entry.mean;
    square += weight * (entry.variance + entry.mean * entry.mean);
  }
  mean /= total;
  return { mean, variance: square / total - mean * mean };
}

function restOfInterruption(usual_s: number, away_s: number, elapsed_s: number): Moments & { lnSurvival: number } {
  const spread = Math.log1p(constants.interruptions.variation ** 2);
  const over = restOfLogNormal({ mean: Math.log(usual_s + away_s) - spread / 2, variance: spread }, elapsed_s);
  return over;
}
