/**
 * `millside steps PLAN`: every operation with its points, depths, speeds and times; the stops of a plan stand above its
 * numbers. The JSON shape: src/cli/json-shapes.ts.
 */
import { stepsOf } from '../plan/steps.ts';
import { formatSteps } from '../plan/steps-text.ts';
import { readWords } from './arguments.ts';
import { exitCodes } from './exit-codes.ts';
import { type Io, writeJson } from './io.ts';
import { stopsAbove } from './plan-stops.ts';
import { pastTimesFor, planNamed } from './plan-words.ts';

export async function runSteps(args: readonly string[], io: Io): Promise<number> {
  const words = readWords('steps', args, [1, 1], io);
  if (typeof words === 'number') return words;
  const name = words.names[0] ?? '';
  const loaded = await planNamed(name, io, { json: words.has('json'), past: () => pastTimesFor(io) });
  if (typeof loaded === 'number') return loaded;
  const steps = stepsOf(loaded.resolved, loaded.computed);
  const above = stopsAbove(loaded, name);
  if (words.has('json')) {
    io.err(above);
    writeJson(io, steps);
  } else io.out(`${above}${formatSteps(steps)}\n`);
  return exitCodes.done;
}
