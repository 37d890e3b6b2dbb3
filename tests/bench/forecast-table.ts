/**
 * `npm run bench:forecast`: the forecast beside the plain methods, on the training runs and on runs of our own laws, by
 * regime and by checkpoint. Pinball is relative to the informed limit (1.00 would be knowing every rate of the run).
 */
import { inventRun } from './generator.ts';
import { regimes } from './laws.ts';
import { type Score, type Scored, scoreOf } from './score.ts';
import { methods, type Played, playRuns, trainingRuns } from './score-runs.ts';

const ownRunsEach = 20;

function cells({ asks, pinball, coverage, medianError }: Score): string {
  const percent = (share: number): string => `${(100 * share).toFixed(1)} %`.padStart(8);
  return `${String(asks).padStart(6)}${pinball.toFixed(2).padStart(9)}${percent(coverage)}${percent(medianError)}`;
}

function print(title: string, rows: readonly (readonly [string, readonly Scored[]])[]): void {
  console.log(`\n${title.padEnd(22)}  asks  pinball   cover   error`);
  for (const [name, scored] of rows) if (scored.length > 0) console.log(`${name.padEnd(20)}${cells(scoreOf(scored))}`);
}

function printAll(title: string, played: Played): void {
  const own = played.batch.millside;
  print(
    `${title}: methods`,
    methods.map((name) => [name, played.batch[name]] as const),
  );
  print(`${title}: operation`, [['millside', played.operation]]);
  for (const key of ['regime', 'label'] as const) {
    const values = [...new Set(own.map((entry) => entry[key]))];
    print(
      key === 'regime' ? 'by regime' : 'by checkpoint',
      values.map((value) => [value, own.filter((entry) => entry[key] === value)] as const),
    );
  }
}

printAll('training runs', playRuns(trainingRuns()));
const invented = regimes.flatMap((regime) =>
  Array.from({ length: ownRunsEach }, (_, i) => inventRun(regime, i + 1)).flat(),
);
printAll('own runs', playRuns(invented));
