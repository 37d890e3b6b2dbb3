/**
 * Watches the plan file of a running batch. P7: a batch keeps the plan it was opened with; a file that changed, that cannot
 * be read any more or that is gone is mentioned and never applied without a yes, also on reopening.
 */
import type { Amendment } from '../batch/decide/amending.ts';
import type { Batch } from '../batch/state.ts';
import { pastTimesAsOpened } from '../plan/resolve/estimates.ts';
import type { Disk } from '../store/disk.ts';
import { isFault } from '../store/fault.ts';
import { loadPlanFile } from '../store/plan-files.ts';
import { loadPlan } from './plan-loading.ts';
import type { ShopMachines } from './shop-machines.ts';

/** What was found at the plan's path the last time it was looked at. */
export type PlanSight =
  | { readonly kind: 'as opened' }
  /** Changed, and it may be taken up. */
  | { readonly kind: 'changed'; readonly amendment: Amendment }
  /** Changed into something that is no plan, or gone: only mentioned. */
  | { readonly kind: 'unusable'; readonly why: string; readonly sha256: string | null };

const asOpened: PlanSight = { kind: 'as opened' };

/** Looks at the plan file of `batch` once, with the machines of the settings. Reads only; a batch without a path has nothing to look at. */
export async function lookAtPlan(disk: Disk, batch: Batch, machines: ShopMachines = {}): Promise<PlanSight> {
  if (batch.planPath === null) return asOpened;
  // Looked at every few seconds: a file that is as it was is not read as a plan again.
  const file = await loadPlanFile(disk, batch.planPath);
  if (!isFault(file) && isKnown(batch, file.sha256)) return asOpened;
  // Times from past batches stay as the batch was opened with them.
  const loaded = await loadPlan(disk, batch.planPath, machines, () => pastTimesAsOpened(batch.plan));
  if (isFault(loaded)) return { kind: 'unusable', why: loaded.what, sha256: null };
  const { sha256 } = loaded.file;
  if (isKnown(batch, sha256)) return asOpened;
  if (loaded.kind === 'problems') {
    const first = loaded.problems[0];
    const where = first === undefined ? '' : `, line ${first.line}: ${first.message}`;
    return { kind: 'unusable', why: `it has ${loaded.problems.length} problems${where}`, sha256 };
  }
  const amendment = { planText: loaded.file.text, planSha256: sha256, plan: loaded.resolved };
  return { kind: 'changed', amendment };
}

const isKnown = (batch: Batch, sha256: string): boolean =>
  sha256 === batch.planSha256 || batch.declinedPlans.includes(sha256);

/** What the screen says of it, or null when there is nothing to say. */
export function planSightWords(sight: PlanSight): string | null {
  switch (sight.kind) {
    case 'as opened':
      return null;
    case 'changed':
      return 'The plan file has changed; this batch keeps its own (see / 5 5)';
    case 'unusable':
      return `The plan file cannot be used now (${sight.why}); this batch goes on with the plan it was opened with.`;
    default:
      return sight satisfies never;
  }
}

/** How often the file is looked at, in milliseconds: a stat and a read of at most 128 KiB. */
const every_ms = 5000;

export type PlanWatch = {
  /** Call as often as you like; the file is looked at now and then, and `onChange` is called when the sight differs. */
  readonly look: (batch: Batch, mono_ms: number) => void;
  readonly sight: () => PlanSight;
};

/** Watches over `disk`; never more than one look at a time. */
export function makePlanWatch(disk: Disk, onChange: () => void, machines: ShopMachines = {}): PlanWatch {
  let sight: PlanSight = asOpened;
  let looked_ms = Number.NEGATIVE_INFINITY;
  let of = '';
  let isLooking = false;
  return {
    sight: () => sight,
    look: (batch, mono_ms) => {
      const now = `${batch.planSha256} ${batch.declinedPlans.length}`;
      if (isLooking || (mono_ms - looked_ms < every_ms && now === of)) return;
      isLooking = true;
      looked_ms = mono_ms;
      of = now;
      void lookAtPlan(disk, batch, machines).then((found) => {
        isLooking = false;
        const isNew = planSightWords(found) !== planSightWords(sight);
        sight = found;
        if (isNew) onChange();
      });
    },
  };
}
