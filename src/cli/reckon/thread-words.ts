/** What topics about threads share: the flag that names one, and words and fields for its limits. */
import type { Mm } from '../../shop/quantities.ts';
import type { Thread } from '../../shop/threads.ts';
import type { Asked, Field } from './topic.ts';
import { sayBoth, sayLength } from './words.ts';

export const THREAD_FLAG = {
  name: 'thread',
  value: 'NAME',
  meaning: 'M6, M5x0.5, "1/4-20 UNC", "4 BA", "1/4 x 40 ME"',
};
/** Fields of the published limits of the minor diameter. */
export const limitsFields = (thread: Thread): { readonly [name: string]: Field } => ({
  minor_min_mm: thread.limits.min,
  minor_max_mm: thread.limits.max,
  limits_source: thread.limits.source,
  limits_confirmed: thread.limits.confirmed,
});

/** A drill by its name, with the size beside it. */
export const sayTapDrill = (mm: Mm, name: string, asked: Asked): string =>
  name === sayLength(mm, asked.unit) ? sayBoth(mm, asked.unit) : `${name} (${sayLength(mm, asked.unit)})`;

/** Said of what no second source confirmed, unless its source says so already. */
export const fromMemory = ({ source, confirmed }: { readonly source: string; readonly confirmed: boolean }): string =>
  confirmed || /common practice|from memory|computed/u.test(source) ? '' : ', from memory';
