import type { StandardTime } from './model.ts';
import type { ReportSettings } from './settings.ts';

/**
 * Normal and standard time from an observed one: normal = observed x rating; standard = normal x (1 + a) when the
 * allowance is a share of the job time, normal / (1 - a) when it is one of the working day (work study; Stevenson,
 * Operations Management, chapter 7). Seconds in and out, unrounded; the settings' schema keeps the shares in range.
 *
 * Example: 18.75 min at 96 % and 15 % of the working day: normal 18.00 min, standard 21.18 min.
 */
export function standardTime(
  observed_s: number,
  settings: Pick<ReportSettings, 'rating_pct' | 'allowance_pct' | 'allowance_of'>,
): StandardTime {
  const normal_s = (observed_s * settings.rating_pct) / 100;
  const allowance = settings.allowance_pct / 100;
  return {
    observed_s,
    rating_pct: settings.rating_pct,
    normal_s,
    allowance_pct: settings.allowance_pct,
    allowance_of: settings.allowance_of,
    standard_s: settings.allowance_of === 'job time' ? normal_s * (1 + allowance) : normal_s / (1 - allowance),
  };
}
