/** The plan that a command line names, with the machines of the settings; what is wrong with it is said here, once for all. */
import { homedir } from 'node:os';
import type { PastTimes } from '../plan/resolve/estimates.ts';
import { type LoadedPlan, loadPlan, type PastTimesSource } from '../sitting/plan-loading.ts';
import { loadShopMachines } from '../sitting/shop-machines-loading.ts';
import { isFault } from '../store/fault.ts';
import { findConfigFolder } from '../store/home.ts';
import { realDisk } from '../store/real-disk.ts';
import { exitCodes } from './exit-codes.ts';
import { type Io, writeJson } from './io.ts';
import { sayFault, sayProblems } from './say.ts';

export type PlanNamedOptions = {
  readonly json: boolean;
  /** Parts of the JSON answer beside the problems. */
  readonly more?: Readonly<Record<string, unknown>>;
  /** Times of past batches, for a command that shows times. */
  readonly past?: PastTimesSource;
};

/** Times of past batches for a command that shows times; what reads them is loaded when a plan leaves a time open. */
export async function pastTimesFor(io: Io): Promise<PastTimes> {
  const [{ readPastTimes }, { makeWorld }] = await Promise.all([
    import('../sitting/history.ts'),
    import('../sitting/world.ts'),
  ]);
  return readPastTimes(makeWorld(io.env));
}

/**
 * The plan in the file `name`, or the exit code after saying why there is none: 66 no such file, 65 problems in it. With
 * `json` the problems go to standard output too, as
 * `{ "format": 1, "plan": "x.yaml", "problems": [{ "line", "column", "path", "found", "wanted", "message", "tryThis" }] }`
 * and the parts in `more`.
 */
export async function planNamed(
  name: string,
  io: Io,
  { json, more = {}, past }: PlanNamedOptions,
): Promise<LoadedPlan | number> {
  const machines = await loadShopMachines(findConfigFolder(io.env, homedir()));
  const loaded = await loadPlan(realDisk, name, machines, past);
  if (isFault(loaded)) return sayFault(io, loaded);
  if (loaded.kind === 'plan') return loaded;
  if (json) writeJson(io, { format: 1, plan: name, problems: loaded.problems, ...more });
  sayProblems(io, loaded, name);
  return exitCodes.badPlanOrJournal;
}
