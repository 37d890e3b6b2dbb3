import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { takeEvent } from '../../src/forecast/forecaster.ts';
import { askForecast, type Quantiles, quantilesOf } from '../../src/forecast/projection.ts';
import { startForecast } from '../../src/forecast/state.ts';
import { mean, median, standardDeviation } from '../../src/forecast/statistics.ts';
import { pinballLoss } from '../bench/score.ts';

// Open data of repeated human task times; source and licence stand in the file and in fixtures/README.md.
type Group = {
  readonly name: string;
  readonly source: string;
  readonly licence: string;
  readonly series: readonly { readonly sessions: readonly number[]; readonly t_s: readonly number[] }[];
};
const groups = JSON.parse(readFileSync(new URL('./fixtures/task-times.json', import.meta.url), 'utf8')) as Group[];

/** Mean of what is left and its usual normal interval, from the times given. */
function plainForecast(seen: readonly number[], left: number): Quantiles {
  const each = mean(seen) ?? 0;
  const half = 1.2816 * (standardDeviation(seen) ?? 0) * Math.sqrt(left + left ** 2 / seen.length);
  return { p10: each * left - half, p50: each * left, p90: each * left + half };
}

type Tally = { loss: number; inside: number; asks: number };

/** Relative pinball loss and coverage of the forecast and of two plain methods over every series of a group. */
function playGroup(group: Group): Record<'own' | 'scaled plan' | 'last ten', Tally> {
  // The plan is the group's median time: the scaled plan is then the mean so far.
  const piece_s = median(group.series.flatMap((series) => series.t_s)) ?? 0;
  const tally = (): Tally => ({ loss: 0, inside: 0, asks: 0 });
  const tallies = { own: tally(), 'scaled plan': tally(), 'last ten': tally() };
  for (const { t_s, sessions } of group.series) {
    const pieces = t_s.length;
    const asks = [5, ...[0.1, 0.25, 0.5, 0.75].map((share) => Math.round(share * pieces))];
    let state = startForecast({ operations: [{ key: '10', setup_s: 0, piece_s, piecesPerLoad: 1, pieces }] });
    t_s.forEach((took_s, i) => {
      state = takeEvent(state, { kind: 'load', operation: '10', pieces: 1, took_s, afterBreak: sessions.includes(i) });
      if (!asks.includes(i + 1)) return;
      const left = pieces - i - 1;
      const truth = t_s.slice(i + 1).reduce((sum, time) => sum + time, 0);
      const seen = t_s.slice(0, i + 1);
      const time = askForecast(state, { operation: '10', sinceLastPress_s: 0, left: [{ pieces: left }] }).batch;
      const said = {
        own: quantilesOf(time),
        'scaled plan': plainForecast(seen, left),
        'last ten': plainForecast(seen.slice(-10), left),
      };
      for (const name of ['own', 'scaled plan', 'last ten'] as const) {
        tallies[name].loss += pinballLoss(said[name], truth) / truth;
        tallies[name].inside += said[name].p10 <= truth && truth <= said[name].p90 ? 1 : 0;
        tallies[name].asks += 1;
      }
    });
  }
  return tallies;
}

describe('on open task times of real people', () => {
  it.each(groups)('the forecast beats the scaled plan and the last ten: $name', (group) => {
    const tallies = playGroup(group);
    expect(group.source.length).toBeGreaterThan(0);
    expect(group.licence.length).toBeGreaterThan(0);
    expect(tallies.own.loss).toBeLessThan(0.9 * tallies['scaled plan'].loss);
    expect(tallies.own.loss).toBeLessThan(0.8 * tallies['last ten'].loss);
    expect(tallies.own.inside).toBeGreaterThanOrEqual(tallies['scaled plan'].inside);
  });
});
