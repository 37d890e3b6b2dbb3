import * as z from 'zod';
import type { Instant } from '../../src/batch/instant.ts';
import { type JournalLine, type LineDraft, makeLineForm } from '../../src/store/journal-line.ts';

// The smallest batch there is, to test the store with: begun with a plan, then pieces counted, then finished.

const commandSchema = z.object({ kind: z.enum(['begin', 'count', 'finish']), n: z.int().optional() });
const eventSchema = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('begun'), plan: z.string() }),
  z.object({ kind: z.literal('counted'), good: z.int() }),
  z.object({ kind: z.literal('finished') }),
]);

export type Command = z.infer<typeof commandSchema>;
export type Event = z.infer<typeof eventSchema>;
export type Line = JournalLine<Command, Event>;

export const form = makeLineForm<Command, Event>({ command: commandSchema, event: eventSchema });
export const BATCH = 'abcdefgh2345';
export const FOLDER = `/data/batches/${BATCH}`;

function instant(mono_ms: number): Instant {
  return { wall_ms: 1_790_000_000_000 + mono_ms, zone: 'Europe/Berlin', mono_ms, boot: '0123456789ab' };
}

export function beginDraft(plan = 'keeper plates, 40 pieces'): LineDraft<Command, Event> {
  return { by: '', at: instant(0), command: { kind: 'begin' }, events: [{ kind: 'begun', plan }] };
}

export function countDraft(n: number): LineDraft<Command, Event> {
  return { by: 'AB', at: instant(n * 1000), command: { kind: 'count', n }, events: [{ kind: 'counted', good: 1 }] };
}

/** How many pieces the lines count. */
export function countOf(lines: readonly Pick<Line, 'events'>[]): number {
  let good = 0;
  for (const line of lines) for (const event of line.events) if (event.kind === 'counted') good += event.good;
  return good;
}
