/** Who has a batch open now, found out by looking only: nothing is locked or written. Part of P4. */
import type { Disk } from '../store/disk.ts';
import type { Self } from '../store/lock.ts';
import { type Owner, readOwner } from '../store/owner-file.ts';

/** The owner named in the batch's folder if that process still runs, or is of another computer; null when nobody has it. */
export async function holderOf(disk: Disk, folder: string, self: Self): Promise<Owner | null> {
  const owner = (await readOwner(disk, folder))?.owner;
  if (owner === undefined) return null;
  if (owner.host !== self.host) return owner;
  return owner.boot === self.boot && self.startOf(owner.pid) === owner.started ? owner : null;
}
