/**
 * `millside check PLAN`: the plan is proved before metal is cut. Problems of the file itself come first and alone; then the
 * findings. Exit 0 when it may be cut (warnings included unless `--strict`), 65 when not, 66 when there is no such file.
 *
 * `--json`: `{ "format": 1, "plan": "jobs/x.yaml", "problems": [{ "line", "column", "path", "found", "wanted", "message",
 * "tryThis" }], "findings": [{ "code", "severity", "operation", "message", "line", "column", "tryThis" }] }`.
 */
import { loadPlan } from '../sitting/plan-loading.ts';
import { isFault } from '../store/fault.ts';
import { realDisk } from '../store/real-disk.ts';
import { readWords } from './arguments.ts';
import { exitCodes } from './exit-codes.ts';
import { type Io, writeJson } from './io.ts';
import { sayFault, sayProblems } from './say.ts';

export async function runCheck(args: readonly string[], io: Io): Promise<number> {
  const words = readWords('check', args, [1, 1], io);
  if (typeof words === 'number') return words;
  const name = words.names[0] ?? '';
  const loaded = await loadPlan(realDisk, name);
  if (isFault(loaded)) return sayFault(io, loaded);
  if (loaded.kind === 'problems') {
    if (words.has('json')) writeJson(io, { format: 1, plan: name, problems: loaded.problems, findings: [] });
    else sayProblems(io, loaded, name);
    return exitCodes.badPlanOrJournal;
  }
  if (words.has('json')) writeJson(io, { format: 1, plan: name, problems: [], findings: [] });
  else io.out(`${name}: nothing found.\n`);
  return exitCodes.done;
}
