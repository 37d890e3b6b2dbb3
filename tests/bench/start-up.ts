/**
 * How long a start takes against bare Node, in turns so that a busy machine weighs on all alike: medians and least times.
 * Run it on a quiet machine with a fresh build: `node tests/bench/run.mjs start-up`.
 */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));
const rounds = Number(process.env['ROUNDS'] ?? 21);

/** Goals of the project: times bare Node. */
const cases = [
  { name: 'node -e 0', args: ['-e', '0'], goal: null },
  { name: '--version', args: ['dist/main.js', '--version'], goal: 1.2 },
  { name: '--help', args: ['dist/main.js', '--help'], goal: null },
  { name: 'check', args: ['dist/main.js', 'check', 'jobs/keeper-plates.yaml'], goal: 1.75 },
  { name: 'steps', args: ['dist/main.js', 'steps', 'jobs/keeper-plates.yaml'], goal: null },
] as const;

function time_ms(args: readonly string[]): number {
  const before = process.hrtime.bigint();
  const { status } = spawnSync(process.execPath, args, { cwd: root });
  if (status !== 0) throw new Error(`${args.join(' ')} ended with ${status}`);
  return Number(process.hrtime.bigint() - before) / 1e6;
}

const times = cases.map((): number[] => []);
for (let round = 0; round < rounds; round += 1) {
  for (const [at, one] of cases.entries()) times[at]?.push(time_ms(one.args));
}
const sorted = times.map((list) => [...list].sort((a, b) => a - b));
const median = (list: readonly number[] | undefined): number => list?.[Math.floor(list.length / 2)] ?? Number.NaN;
const bare = { median: median(sorted[0]), least: sorted[0]?.[0] ?? Number.NaN };

for (const [at, one] of cases.entries()) {
  const [mid, least] = [median(sorted[at]), sorted[at]?.[0] ?? Number.NaN];
  const goal = one.goal === null ? '' : `  goal ${one.goal} ${mid / bare.median <= one.goal ? 'met' : 'NOT MET'}`;
  const times_ms = `median ${mid.toFixed(0)} ms (${(mid / bare.median).toFixed(2)} x)`;
  process.stdout.write(
    `${one.name.padEnd(12)}${times_ms}  least ${least.toFixed(0)} ms (${(least / bare.least).toFixed(2)} x)${goal}\n`,
  );
}
