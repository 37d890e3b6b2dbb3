/**
 * Machines of the settings, by the name under which plans may speak of them. They are written as in a plan, in JSON; bare
 * lengths are millimetres. What stays in the settings is what was written; plans get what it means.
 */
import * as z from 'zod';
import { problemsOfIssues } from '../plan/read/issues.ts';
import { noPositions, type Written } from '../plan/read/tree.ts';
import { makeFields } from '../plan/schema/fields.ts';
import { machineSection, type PlanMachine } from '../plan/schema/machines.ts';

type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };

/** Section `machines` of the settings: every machine is proved by the plan's own schema, its text is kept. */
export const shopMachinesSchema = z
  .record(z.string().min(1).max(60), z.json())
  .superRefine((machines, context) => {
    for (const [name, written] of Object.entries(machines)) {
      const read = readMachine(written);
      if (read.success) continue;
      for (const problem of problemsOfIssues(read.error.issues, asWritten(written), noPositions)) {
        const hint = problem.tryThis === '' ? '' : ` (${problem.tryThis})`;
        context.addIssue({ code: 'custom', path: [name], message: `${problem.message}${hint}` });
      }
    }
  })
  .default(() => ({}))
  .describe(
    'Machines by name, written as in a plan; plans name them and need not describe them. Bare lengths are millimetres.',
  );

export type ShopMachines = Readonly<Record<string, PlanMachine>>;

/**
 * The machines as plans take them. One that does not pass is left out (settings never stop anything).
 *
 * Example: `{ pillar: { station: 'pillar drill', speeds: [280, 450] } }` gives a machine `pillar` of two speeds.
 */
export function readShopMachines(machines: z.output<typeof shopMachinesSchema>): ShopMachines {
  const read = Object.entries(machines).flatMap(([name, written]) => {
    const machine = readMachine(written);
    return machine.success ? [[name, machine.data] as const] : [];
  });
  return Object.fromEntries(read);
}

const readMachine = (written: Json) => machineSection(makeFields('mm')).safeParse(asWritten(written));

/** JSON as the text that a plan would hold. */
function asWritten(value: Json): Written {
  if (value === null) return '';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value !== 'object') return String(value);
  if (Array.isArray(value)) return value.map((item: Json) => asWritten(item));
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, asWritten(inner)]));
}
