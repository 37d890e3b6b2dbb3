/** `millside steps PLAN`: every operation with its points, depths, speeds and times. The JSON shape: src/plan/steps.ts. */
import { stepsOf } from '../plan/steps.ts';
import { formatSteps } from '../plan/steps-text.ts';
import { loadPlan } from '../sitting/plan-loading.ts';
import { isFault } from '../store/fault.ts';
import { realDisk } from '../store/real-disk.ts';
import { readWords } from './arguments.ts';
import { exitCodes } from './exit-codes.ts';
import { type Io, writeJson } from './io.ts';
import { sayFault, sayProblems } from './say.ts';

export async function runSteps(args: readonly string[], io: Io): Promise<number> {
  const words = readWords('steps', args, [1, 1], io);
  if (typeof words === 'number') return words;
  const name = words.names[0] ?? '';
  const loaded = await loadPlan(realDisk, name);
  if (isFault(loaded)) return sayFault(io, loaded);
  if (loaded.kind === 'problems') {
    if (words.has('json')) writeJson(io, { format: 1, plan: name, problems: loaded.problems });
    sayProblems(io, loaded, name);
    return exitCodes.badPlanOrJournal;
  }
  const steps = stepsOf(loaded.resolved, loaded.computed);
  if (words.has('json')) writeJson(io, steps);
  else io.out(`${formatSteps(steps)}\n`);
  return exitCodes.done;
}
