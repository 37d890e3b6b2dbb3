import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { inventRun } from './generator.ts';
import { regimes } from './laws.ts';
import { scoreOf } from './score.ts';
import { playRuns, trainingRuns } from './score-runs.ts';

describe('the score of the forecast', () => {
  it('on the training runs stays under 1.70 of the informed limit, covers 70 to 86 %, and misses by less than 15 %', () => {
    const { batch } = playRuns(trainingRuns());
    const score = scoreOf(batch.millside);
    expect(score.pinball).toBeLessThan(1.7);
    expect(score.coverage).toBeGreaterThan(0.7);
    expect(score.coverage).toBeLessThan(0.86);
    expect(score.medianError).toBeLessThan(0.15);
    for (const name of ['mean', 'median', 'plan', 'scaled plan'] as const) {
      expect(score.pinball, name).toBeLessThan(0.7 * scoreOf(batch[name]).pinball);
    }
  });

  it('holds on runs of other laws, and under each of them', () => {
    for (const regime of regimes) {
      const lines = Array.from({ length: 6 }, (_, i) => inventRun(regime, 500 + i)).flat();
      expect(scoreOf(playRuns(lines).batch.millside).coverage, regime).toBeGreaterThan(0.4);
    }
    const all = regimes.flatMap((regime) => Array.from({ length: 6 }, (_, i) => inventRun(regime, 500 + i)).flat());
    const score = scoreOf(playRuns(all).batch.millside);
    expect(score.pinball).toBeLessThan(1.85);
    expect(score.coverage).toBeGreaterThan(0.7);
  });

  it('the same seed invents the same run', () => {
    expect(inventRun('gang', 3)).toEqual(inventRun('gang', 3));
  });
});

describe('the line protocol', () => {
  it('answers each ask with one line at once, before more is sent', async () => {
    const script = fileURLToPath(new URL('./run.mjs', import.meta.url));
    const child = spawn(process.execPath, [script, 'forecast-lines'], { stdio: ['pipe', 'pipe', 'inherit'] });
    const answer = new Promise<string>((resolve) => child.stdout.once('data', (data) => resolve(String(data))));
    const ended = new Promise<number | null>((resolve) => child.once('exit', resolve));
    const always = Object.fromEntries(
      ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'].map((day) => [day, [['00:00', '24:00']]]),
    );
    const operations = [{ op: 0, setup_est_s: 600, cycle_est_s: 60, gang: 1 }];
    const lines = [
      { type: 'run', id: 'x', quantity: 20, start: '2026-03-02T18:30:00', calendar: always, operations },
      { type: 'event', kind: 'start', op: 0, t_s: 0 },
      { type: 'ask', ask: 7, t_s: 0 },
    ];
    child.stdin.write(`${lines.map((line) => JSON.stringify(line)).join('\n')}\n`);
    const said = JSON.parse(await answer) as { ask: number; remaining_s: { p50: number }; finish: { p50: string } };
    expect(said.ask).toBe(7);
    expect(said.remaining_s.p50).toBeGreaterThan(1500);
    expect(said.finish.p50).toMatch(/^2026-03-02T19:\d\d:\d\d$/);
    child.stdin.end();
    expect(await ended).toBe(0);
  });
});
