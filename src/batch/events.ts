/**
 * The events of a batch: past facts, the only thing that is kept. State, report and exports follow from them alone.
 * An event holds what was decided, never a rule: cards and timings are in it whole. Names and shapes are permanent; a
 * changed shape is a new version of the journal line, lifted on reading (src/store/lift.ts).
 *
 * A lane is the stream of pieces that an operation counts: '*' is the common pool before the variants part, afterwards
 * each variant's id is its own lane.
 */
import * as z from 'zod';
import { resolvedPlanSchema } from '../plan/resolved.ts';
import { cardSchema } from './cards.ts';

const text = z.string();
const count = z.number().int().nonnegative();
const pieces = z.number().int().positive();
const cell = { operation: z.number().int().positive(), lane: text };

/** Why a load's time does not count as a timing. */
export const leftOutSchema = z.enum([
  'quick',
  'recount',
  'suspended',
  'cut',
  'switched',
  'trial',
  'made by hand count',
]);
export type LeftOut = z.infer<typeof leftOutSchema>;

const openings = z.array(z.tuple([text, text]));

/** When the shop is open, as it stood when the batch was opened: by weekday, days off, one-off changes. */
export const shopHoursAtOpeningSchema = z.object({
  week: z.record(text, openings),
  daysOff: z.array(text),
  changes: z.array(z.object({ date: text, open: openings })),
});

/** Which holes a correction is of, beside those of the cut in hand. */
export const correctedHolesSchema = {
  /** The one hole of the cut, by its position; without it all of them. */
  point: count.optional(),
  /** Further cuts that come to the same holes by the same zero, corrected alike; each with its hole if it is one. */
  also: z
    .array(z.object({ operation: z.number().int().positive(), cut: count, point: count.optional() }))
    .max(500)
    .optional(),
};

export const eventSchema = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('BatchOpened'),
    planText: text,
    planSha256: text,
    planPath: text.nullable(),
    plan: resolvedPlanSchema,
    zone: text,
    hours: shopHoursAtOpeningSchema.nullable(),
    rate: z.object({ amount: z.number().nonnegative(), currency: text }).nullable(),
    /** Findings taken at the operator's word, each with its reason. */
    overrides: z.array(z.object({ code: text, message: text, reason: text })),
  }),
  z.object({ kind: z.literal('SittingBegan'), by: text.nullable(), host: text, afterCut: z.boolean() }),
  z.object({ kind: z.literal('SittingEnded'), why: z.enum(['left', 'signal', 'hang-up', 'fault']) }),
  z.object({ kind: z.literal('OperationBegun'), ...cell }),
  z.object({ kind: z.literal('CardsRaised'), cards: z.array(cardSchema).min(1) }),
  /** `proved` is false when the card stood for less than two seconds, or was skipped. */
  z.object({ kind: z.literal('CardPassed'), id: text, proved: z.boolean(), shown_ms: z.number().nonnegative() }),
  z.object({ kind: z.literal('SpeedSet'), machine: text, rpm: z.number().nullable() }),
  /** One stop (point or pass) of the load in hand is done; the next is `next`. */
  z.object({ kind: z.literal('PointDone'), ...cell, stop: count, next: count }),
  /** A load is finished: the one event that counts. `ms` is null when nothing was timed. */
  z.object({
    kind: z.literal('LoadCounted'),
    ...cell,
    good: count,
    scrap: z.array(z.object({ place: z.number().int().positive().nullable(), reason: text })),
    ms: z.number().nonnegative().nullable(),
    leftOut: leftOutSchema.nullable(),
    quick: z.boolean(),
  }),
  /** A piece of the load in hand is rejected before the count: the load shrinks. */
  z.object({ kind: z.literal('PieceRejected'), ...cell, place: z.number().int().positive().nullable(), reason: text }),
  /** k of the last load, already counted good, turn into scrap. */
  z.object({ kind: z.literal('CountedScrapped'), ...cell, pieces, reason: text }),
  z.object({ kind: z.literal('SentToRework'), ...cell, to: z.number().int().positive(), pieces, reason: text }),
  z.object({ kind: z.literal('Recounted'), ...cell, good: count, before: count, reason: text }),
  z.object({ kind: z.literal('TrialMade'), ...cell, note: text.nullable(), ms: z.number().nonnegative().nullable() }),
  /** The newest entry not yet taken back is undone; `what` is its kind, `entry` its ordinal. */
  z.object({
    kind: z.literal('TakenBack'),
    entry: count,
    what: text,
    /** The pieces of a count that was taken back, by their ordinals; older journals do not say. */
    of: z.object({ ...cell, from: pieces, to: pieces }).optional(),
  }),
  z.object({
    kind: z.literal('TargetCorrected'),
    ...cell,
    cut: count,
    axis: z.enum(['x', 'y', 'z', 'stop']),
    by: z.number(),
    reading: z.number().nullable(),
    reason: text,
    ...correctedHolesSchema,
  }),
  z.object({
    kind: z.literal('Checked'),
    ...cell,
    check: text,
    result: z.discriminatedUnion('kind', [
      z.object({ kind: z.literal('measured'), value: z.number(), within: z.boolean() }),
      z.object({ kind: z.literal('yes or no'), yes: z.boolean() }),
      /** `word`: why it is not measured, said afterwards; from then on nothing reminds of it. */
      z.object({ kind: z.literal('skipped'), word: text.optional() }),
    ]),
    /** Ordinal of the piece within operation and lane that was checked. */
    piece: count,
  }),
  z.object({ kind: z.literal('PiecesSuspected'), ...cell, check: text, from: pieces, to: pieces }),
  z.object({
    kind: z.literal('SuspectsCleared'),
    ...cell,
    check: text,
    from: pieces,
    to: pieces,
    how: z.enum(['measured', 'owner']),
    reason: text,
  }),
  /** Settled by word, to be taken back like a count; scrapped pieces leave the good ones of `scrapAt`, behind which they lay. */
  z.object({
    kind: z.literal('SuspectsSettled'),
    ...cell,
    check: text,
    from: pieces,
    to: pieces,
    how: z.enum(['measured', 'owner', 'scrapped']),
    scrapAt: z.object(cell).nullable(),
    reason: text,
  }),
  z.object({ kind: z.literal('Bumped'), ...cell }),
  z.object({ kind: z.literal('ToolChanged'), ...cell, tool: text, sharpened: z.boolean() }),
  z.object({ kind: z.literal('ZeroProved'), ...cell, axis: z.enum(['x', 'y', 'z', 'both']) }),
  z.object({ kind: z.literal('NoteMade'), ...cell, text }),
  z.object({ kind: z.literal('Paused'), reason: text.nullable() }),
  z.object({ kind: z.literal('Resumed') }),
  /** The computer slept: this much of the wall clock belongs to no work. */
  z.object({ kind: z.literal('SuspendNoticed'), ms: z.number().nonnegative() }),
  /** The wall clock was set; by how much, forward positive. A label only. */
  z.object({ kind: z.literal('ClockStepped'), ms: z.number() }),
  z.object({ kind: z.literal('SentAway'), ...cell, pieces, to: text }),
  z.object({ kind: z.literal('CameBack'), ...cell, pieces: count, lost: count, reason: text.nullable() }),
  z.object({
    kind: z.literal('MoreStarted'),
    operation: z.number().int().positive(),
    lane: text,
    pieces,
    reason: text,
  }),
  z.object({ kind: z.literal('PoolAllotted'), operation: z.number().int().positive(), shares: z.record(text, count) }),
  z.object({ kind: z.literal('CountingChanged'), ...cell, counting: z.enum(['point', 'piece', 'load']) }),
  z.object({ kind: z.literal('InitialsGiven'), by: text.nullable() }),
  z.object({
    kind: z.literal('PlanAmended'),
    planText: text,
    planSha256: text,
    plan: resolvedPlanSchema,
    changes: z.array(text),
  }),
  /** The shop is open otherwise from now on, such as longer tonight; all its hours, null for always open. */
  z.object({ kind: z.literal('HoursChanged'), hours: shopHoursAtOpeningSchema.nullable() }),
  z.object({ kind: z.literal('PlanChangeDeclined'), planSha256: text }),
  z.object({ kind: z.literal('BatchFinished'), short: z.record(text, count), reason: text.nullable() }),
  z.object({ kind: z.literal('BatchGivenUp'), reason: text }),
]);
export type BatchEvent = z.infer<typeof eventSchema>;
export type EventOf<Kind extends BatchEvent['kind']> = Extract<BatchEvent, { kind: Kind }>;
