/** Plays runs through the forecast and the plain methods beside it, and collects what each said at every ask. */
import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { baselineNames, PlainMethods } from './baselines.ts';
import type { AskWithTruth } from './generator.ts';
import { type Line, type Session, takeLine } from './line-session.ts';
import type { Scored } from './score.ts';

export const methods = ['millside', ...baselineNames] as const;
type Method = (typeof methods)[number];
export type Played = {
  readonly batch: Readonly<Record<Method, readonly Scored[]>>;
  readonly operation: readonly Scored[];
};

/** The 100 training runs: invented, ten regimes, truth and informed limit beside each ask. */
export function trainingRuns(): readonly (Line | AskWithTruth)[] {
  const file = new URL('./data/forecast-training.jsonl.gz', import.meta.url);
  const text = gunzipSync(readFileSync(file)).toString('utf8');
  return text
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line) as Line | AskWithTruth);
}

/** Plays the lines of one or more runs. */
export function playRuns(lines: readonly (Line | AskWithTruth)[]): Played {
  const batch: Record<Method, Scored[]> = { millside: [], mean: [], median: [], plan: [], 'scaled plan': [] };
  const operation: Scored[] = [];
  let session: Session | null = null;
  let plain: PlainMethods | null = null;
  for (const line of lines) {
    const { session: next, answer } = takeLine(session, line);
    session = next;
    if (line.type === 'run') plain = new PlainMethods(line);
    if (line.type === 'event') plain?.take(line);
    if (answer === null || plain === null || session === null || !('truth' in line)) continue;
    const regime = session.run.regime ?? '';
    const common = { regime, label: line.label };
    const { remaining_s: truth, operation_remaining_s } = line.truth;
    const informed = line.informed.remaining_s;
    batch.millside.push({ ...common, truth, informed, said: answer.remaining_s });
    for (const name of baselineNames) batch[name].push({ ...common, truth, informed, said: plain.remaining(name) });
    operation.push({
      ...common,
      truth: operation_remaining_s,
      informed: line.informed.operation_remaining_s,
      said: answer.operation_remaining_s,
    });
  }
  return { batch, operation };
}
