/**
 * `report --write-back PLAN`: the better estimates go into the plan file, its comments and everything else byte for byte as
 * they were. The plan as it was is kept beside it as `PLAN.before`; an older one is replaced only with `--force`.
 */

import { readPlan } from '../plan/read/read-plan.ts';
import type { EstimateChange, ReportModel } from '../report/model.ts';
import { plainLine } from '../report/neutral-text.ts';
import { writeEstimates } from '../report/write-back.ts';
import { formatRefusal } from '../shop/refusal.ts';
import { writeExport } from '../store/exports.ts';
import { type Fault, isFault } from '../store/fault.ts';
import { loadPlanFile, type PlanFile } from '../store/plan-files.ts';
import { realDisk } from '../store/real-disk.ts';

import { exitCodes } from './exit-codes.ts';
import type { Io } from './io.ts';
import { sayFault } from './say.ts';

/** Exit code 0 when written, 1 when there is nothing to change or it cannot be, 65 or 66 for the plan, 73 or 74 for the disk. */
export async function writeBack(
  io: Io,
  model: ReportModel,
  path: string,
  { force }: { readonly force: boolean },
): Promise<number> {
  const file = await loadPlanFile(realDisk, path);
  if (isFault(file)) return sayFault(io, file);
  const read = readPlan(file.text);
  if (!read.ok)
    return refuse(io, `the plan has ${read.problems.length} problems; see millside check`, exitCodes.badPlanOrJournal);
  if (read.plan.id !== model.plan.id) {
    return refuse(
      io,
      `this is plan "${read.plan.id}" and the batch was made from "${model.plan.id}"`,
      exitCodes.refused,
    );
  }
  if (model.next_time.length === 0)
    return refuse(io, 'no estimate is worth changing on this evidence', exitCodes.refused);
  const written = writeEstimates(file.text, model.next_time);
  if (!written.ok) return refuse(io, formatRefusal(written.problem), exitCodes.refused);
  const fault = await replaceKeeping(file, written.value, force);
  if (fault !== undefined) return sayFault(io, fault);
  for (const change of model.next_time) io.err(`${changeText(change)}\n`);
  io.err(`millside: written ${path}; as it was: ${path}.before\n`);
  return exitCodes.done;
}

/** The copy first: the plan is touched only once what it was is safe. */
async function replaceKeeping(file: PlanFile, text: string, force: boolean): Promise<Fault | undefined> {
  const kept = await writeExport(realDisk, `${file.path}.before`, file.text, { overwrite: force });
  if (isFault(kept)) return kept;
  const written = await writeExport(realDisk, file.path, text, { overwrite: true });
  return isFault(written) ? written : undefined;
}

function changeText({ operation, field, planned_s, suggested_s, evidence }: EstimateChange): string {
  return `  operation ${operation}, ${field}: ${planned_s} s becomes ${suggested_s} s (${evidence})`;
}

function refuse(io: Io, why: string, code: number): number {
  io.err(`millside report: nothing written: ${plainLine(why)}.\n`);
  return code;
}
