/**
 * Orders to a batch. Each comes from a key, a card's answer or the session itself; `decide` answers with events or with a
 * refusal whose reason the screen shows.
 */
import * as z from 'zod';
import { correctedHolesSchema, shopHoursAtOpeningSchema } from './events.ts';

const text = z.string();
const count = z.number().int().nonnegative();
const pieces = z.number().int().positive();
const place = z.object({ operation: z.number().int().positive(), lane: text });

/** What a card was answered with; `pass` alone is the bare Enter. */
export const cardAnswerSchema = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('pass') }),
  z.object({ kind: z.literal('value'), value: z.number() }),
  z.object({ kind: z.literal('yes or no'), yes: z.boolean() }),
  z.object({ kind: z.literal('pieces'), pieces: count, reason: text.nullable() }),
  /** Came back from away; the rest is still out. Lost pieces want a reason. */
  z.object({ kind: z.literal('back'), pieces: count, lost: count, reason: text.nullable() }),
  z.object({ kind: z.literal('shares'), shares: z.record(text, count) }),
]);
export type CardAnswer = z.infer<typeof cardAnswerSchema>;

export const commandSchema = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('openBatch') }),
  z.object({ kind: z.literal('beginSitting'), by: text.nullable(), host: text }),
  z.object({ kind: z.literal('endSitting'), why: z.enum(['left', 'signal', 'hang-up', 'fault']) }),
  z.object({ kind: z.literal('passCard'), id: text, shown_ms: z.number().nonnegative(), answer: cardAnswerSchema }),
  /** The count key: the next point, the piece or the load, as the operation counts. */
  z.object({ kind: z.literal('count'), quick: z.boolean() }),
  z.object({ kind: z.literal('takeBack') }),
  /** Rejects the piece in hand, a place of the load in hand, or k of the last load when `counted`. */
  z.object({
    kind: z.literal('reject'),
    place: z.number().int().positive().nullable(),
    pieces,
    counted: z.boolean(),
    reason: text,
  }),
  z.object({ kind: z.literal('rework'), to: z.number().int().positive(), pieces, reason: text }),
  z.object({ kind: z.literal('recount'), good: count, reason: text }),
  z.object({
    kind: z.literal('correct'),
    axis: z.enum(['x', 'y', 'z', 'stop']),
    by: z.number(),
    reading: z.number().nullable(),
    reason: text,
    ...correctedHolesSchema,
  }),
  z.object({ kind: z.literal('trial'), note: text.nullable() }),
  z.object({ kind: z.literal('note'), text }),
  z.object({ kind: z.literal('bumped') }),
  z.object({ kind: z.literal('toolChanged'), sharpened: z.boolean() }),
  z.object({ kind: z.literal('zeroProved') }),
  z.object({ kind: z.literal('askCheck'), check: text.nullable() }),
  /** A first-off that was skipped stays so, at the person's word. */
  z.object({ kind: z.literal('takeSkip'), check: text, reason: text }),
  z.object({
    kind: z.literal('clearSuspects'),
    check: text,
    from: pieces,
    to: pieces,
    how: z.enum(['measured', 'owner']),
    reason: text,
    /** Where they are suspect; without it the operation at hand comes first. */
    at: place.optional(),
  }),
  /** Suspect pieces are scrap; `lieBehind` is the operation that they have come through last. */
  z.object({
    kind: z.literal('scrapSuspects'),
    check: text,
    from: pieces,
    to: pieces,
    at: place,
    lieBehind: place,
    reason: text,
  }),
  z.object({ kind: z.literal('pause'), reason: text.nullable() }),
  z.object({ kind: z.literal('resume') }),
  z.object({ kind: z.literal('noteSuspend'), ms: z.number().nonnegative() }),
  z.object({ kind: z.literal('noteClockStep'), ms: z.number() }),
  z.object({ kind: z.literal('goTo'), operation: z.number().int().positive(), lane: text }),
  z.object({ kind: z.literal('makeMore'), pieces, lane: text, reason: text }),
  z.object({ kind: z.literal('changeCounting'), counting: z.enum(['point', 'piece', 'load']) }),
  z.object({ kind: z.literal('giveInitials'), by: text.nullable() }),
  z.object({ kind: z.literal('amend') }),
  z.object({ kind: z.literal('declineAmendment'), planSha256: text }),
  z.object({ kind: z.literal('changeHours'), hours: shopHoursAtOpeningSchema.nullable() }),
  z.object({ kind: z.literal('finish'), short: z.boolean(), reason: text.nullable() }),
  z.object({ kind: z.literal('giveUp'), name: text, reason: text }),
]);
export type Command = z.infer<typeof commandSchema>;
export type CommandOf<Kind extends Command['kind']> = Extract<Command, { kind: Kind }>;
