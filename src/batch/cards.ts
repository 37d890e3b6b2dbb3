/**
 * Cards: what stands between the hands and the next count until it is passed. `decide` works out which are due and puts
 * them into its events whole, so that folding a journal never needs the plan's rules of another version.
 */
import * as z from 'zod';

const text = z.string();
const number = z.number().int().positive();

/** One value that the screen shows large, with its unit already chosen: lengths in mm, speeds in turns a minute. */
const cardBase = { id: text, operation: number, lane: text };

export const cardSchema = z.discriminatedUnion('kind', [
  /** Where you were, prove the zero, recount the tray: after a night, a cut, a long break. */
  z.object({ ...cardBase, kind: z.literal('resume'), away_ms: z.number().nonnegative(), cut: z.boolean() }),
  /** Asks how many lie in the tray; an empty answer skips it and the report says so. */
  z.object({ ...cardBase, kind: z.literal('recount'), expected: z.number().int().nonnegative() }),
  z.object({ ...cardBase, kind: z.literal('setup'), setup: text }),
  z.object({ ...cardBase, kind: z.literal('zero'), setup: text, axis: z.enum(['x', 'y']), why: text.nullable() }),
  /** The Z zero of the tool that is in, with the value to set worked out by the plan; `why` says what lost it. */
  z.object({ ...cardBase, kind: z.literal('z zero'), setup: text, tool: text, why: text.nullable() }),
  /** A target was corrected before its zero was set anew: is the correction kept? */
  z.object({
    ...cardBase,
    kind: z.literal('correction'),
    cut: z.number().int().nonnegative(),
    axis: z.enum(['x', 'y', 'z']),
    /** Position of the one hole that it is of; not there: all holes of the cut. */
    point: z.number().int().nonnegative().optional(),
    by: z.number(),
  }),
  /** A tool goes in: preparation, its own Z zero, or putting right after it comes out. */
  z.object({ ...cardBase, kind: z.literal('tool'), tool: text, moment: z.enum(['in', 'restore', 'sharpened']) }),
  /** Full screen: the spindle speed changes. `from` is null when it is not known. */
  z.object({
    ...cardBase,
    kind: z.literal('speed'),
    tool: text.nullable(),
    from: z.number().nullable(),
    to: z.number().nullable(),
    tapping: z.boolean(),
  }),
  z.object({
    ...cardBase,
    kind: z.literal('check'),
    check: text,
    due: z.enum(['first-off', 'every', 'last', 'asked']),
  }),
  /** Another variant from here: its word, its marking, its own tray. */
  z.object({ ...cardBase, kind: z.literal('variant'), from: text.nullable(), to: text }),
  /** Variants part: how many of the pool go to each. */
  z.object({ ...cardBase, kind: z.literal('parting'), proposal: z.record(text, z.number().int().nonnegative()) }),
  /** Pieces of this operation are suspect at its end: settled now, or kept apart from the others. */
  z.object({ ...cardBase, kind: z.literal('suspects') }),
  /** Fewer good pieces than ordered are left: go on, or make more. */
  z.object({ ...cardBase, kind: z.literal('shortage'), short: number }),
  z.object({
    ...cardBase,
    kind: z.literal('away'),
    moment: z.enum(['out', 'back']),
    pieces: z.number().int().nonnegative(),
  }),
  z.object({
    ...cardBase,
    kind: z.literal('operation ended'),
    next: z.object({ operation: number, lane: text }).nullable(),
  }),
  z.object({ ...cardBase, kind: z.literal('batch ended') }),
]);
export type Card = z.infer<typeof cardSchema>;
