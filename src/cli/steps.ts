/** `millside steps PLAN`: every operation with its points, depths, speeds and times. The JSON shape: src/plan/steps.ts. */
import { stepsOf } from '../plan/steps.ts';
import { formatSteps } from '../plan/steps-text.ts';
import { readWords } from './arguments.ts';
import { exitCodes } from './exit-codes.ts';
import { type Io, writeJson } from './io.ts';
import { pastTimesFor, planNamed } from './plan-words.ts';

export async function runSteps(args: readonly string[], io: Io): Promise<number> {
  const words = readWords('steps', args, [1, 1], io);
  if (typeof words === 'number') return words;
  const loaded = await planNamed(words.names[0] ?? '', io, { json: words.has('json'), past: () => pastTimesFor(io) });
  if (typeof loaded === 'number') return loaded;
  const steps = stepsOf(loaded.resolved, loaded.computed);
  if (words.has('json')) writeJson(io, steps);
  else io.out(`${formatSteps(steps)}\n`);
  return exitCodes.done;
}
