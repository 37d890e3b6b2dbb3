/** The machines of the settings for commands that need nothing else of them. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { ShopMachines } from './shop-machines.ts';

/** The machines in the settings of `folder`; where there is no settings file, nothing of the settings is loaded. */
export async function loadShopMachines(folder: string): Promise<ShopMachines> {
  if (!existsSync(join(folder, 'settings.json'))) return {};
  const [{ loadSettings }, { readShopMachines }] = await Promise.all([
    import('./settings.ts'),
    import('./shop-machines.ts'),
  ]);
  return readShopMachines(loadSettings(folder).values.machines);
}
