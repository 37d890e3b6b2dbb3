import { quoteText } from './number-text.ts';
import { type Result, refuse } from './refusal.ts';
import { suggestNames } from './suggest-name.ts';
import { MATERIAL_ALIASES, type MaterialName } from './tables/materials.ts';

export type { MaterialName } from './tables/materials.ts';

/** The materials whose cutting speeds are known, in the order in which they are offered. */
export const materialNames = (): readonly MaterialName[] => Object.keys(MATERIAL_ALIASES) as MaterialName[];

/**
 * Finds a material by its name, another name for it, or a standard designation. Case, spaces and dashes do not count.
 *
 * @returns the material; for an unknown one a refusal naming the nearest known
 *
 * Example: `6061-T6` is `aluminium`, `EN3B` is `mild steel`; `alluminium` is refused and names `aluminium`.
 */
export function findMaterial(written: string): Result<MaterialName> {
  const wanted = plain(written);
  const found = materialNames().find(
    (name) => plain(name) === wanted || MATERIAL_ALIASES[name].some((alias) => plain(alias) === wanted),
  );
  if (found !== undefined) return { ok: true, value: found };
  const words = materialNames().flatMap((name) => [
    name,
    ...MATERIAL_ALIASES[name].filter((alias) => !/\d/u.test(alias)),
  ]);
  const near = suggestNames(written, words);
  return refuse({
    what: 'material',
    found: quoteText(written),
    allowed: materialNames().join(', '),
    remedy:
      near.length === 0 ? 'name the nearest of these, or give the cutting speed' : `nearest known: ${near.join(', ')}`,
  });
}

const plain = (text: string): string => text.toLowerCase().replace(/[\s\-_]+/gu, '');
