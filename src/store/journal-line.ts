import * as z from 'zod';
import { instantSchema } from '../batch/instant.ts';
import { crc32 } from './crc32.ts';

// The form of one journal line: one command's outcome, as JSON, ended by a newline.
//   {"v":2,"seq":7,"prev":"0a1b2c3d","batch":"…","by":"","at":{…},"command":{…},"events":[…],"crc":"4e5f6071"}
// `crc` is the CRC-32 of every byte before `,"crc"`; `prev` is the `crc` of the line before ("00000000" for the first), so
// that a line left over from before a repair cannot pass for the next one. Keeps P2 (whole, in its place, of its batch) and
// P13 (older versions are lifted a step at a time on reading, a newer one is only told).

/** The version this program writes. */
export const JOURNAL_VERSION = 2;
/** The longest line that is read or written, in bytes: the first one holds the plan, its text and its resolved form. */
export const LINE_CAP = 4 * 1024 * 1024;

const TAIL_START = Buffer.from(',"crc":"');
const TAIL_LENGTH = TAIL_START.length + '01234567"}'.length;
const QUOTE = 0x22;
const BRACE = 0x7d;

/** What the batch floor knows and the store does not: the shapes of a command and of an event. */
export interface LineContent<C, E> {
  readonly command: z.ZodType<C>;
  readonly event: z.ZodType<E>;
}

/** What a caller hands over to be written: who, when, the command and its events. */
export interface LineDraft<C, E> {
  readonly by: string;
  readonly at: z.infer<typeof instantSchema>;
  readonly command: C;
  readonly events: readonly E[];
}

/** A line as read, in the newest form whatever version it was written in. */
export interface JournalLine<C, E> extends LineDraft<C, E> {
  readonly v: typeof JOURNAL_VERSION;
  readonly seq: number;
  readonly prev: string;
  readonly batch: string;
  readonly crc: string;
}

/** The line schema of one kind of content, made once. */
export type LineForm<C, E> = z.ZodType<JournalLine<C, E>>;

/** Where a journal stands: the last line's number and checksum, the offset after it, and the batch it belongs to. */
export interface Position {
  readonly batch: string | undefined;
  readonly seq: number;
  readonly crc: string;
  readonly offset: number;
}

/** Before the first line of a journal whose batch is not known yet. */
export const START: Position = { batch: undefined, seq: 0, crc: '00000000', offset: 0 };

/** What became of the bytes of one line. Only `line` may be counted. */
export type Decoded<C, E> =
  | { readonly kind: 'line'; readonly line: JournalLine<C, E> }
  | { readonly kind: 'damaged'; readonly reason: string }
  | { readonly kind: 'misplaced'; readonly reason: string }
  | { readonly kind: 'newer'; readonly reason: string }
  | { readonly kind: 'unknown form'; readonly reason: string };

/** Makes the line schema for the given content. Example: `makeLineForm({ command: commandSchema, event: eventSchema })`. */
export function makeLineForm<C, E>(content: LineContent<C, E>): LineForm<C, E> {
  return z.object({
    v: z.literal(JOURNAL_VERSION),
    seq: z.number(),
    prev: z.string(),
    batch: z.string(),
    by: z.string(),
    at: instantSchema,
    command: content.command,
    events: z.array(content.event),
    crc: z.string(),
  }) as unknown as LineForm<C, E>;
}

/**
 * The bytes of the line that follows `after`, newline included, and where the journal stands behind it.
 *
 * The bytes are read back before they are handed out: a draft that could not be read again (a NaN, a shape of the wrong
 * kind, more than `LINE_CAP`) is a bug and throws, and nothing is written.
 */
export function encodeLine<C, E>(form: LineForm<C, E>, draft: LineDraft<C, E>, after: Position, batch: string) {
  const { by, at, command, events } = draft;
  const fields = { v: JOURNAL_VERSION, seq: after.seq + 1, prev: after.crc, batch, by, at, command, events };
  const head = Buffer.from(JSON.stringify(fields).slice(0, -1));
  const bytes = Buffer.concat([head, Buffer.from(`,"crc":"${hex(crc32(head))}"}\n`)]);
  const readBack = decodeLine(form, bytes.subarray(0, -1), after);
  if (readBack.kind !== 'line') throw new Error(`a journal line would not be readable: ${readBack.reason}`);
  if (bytes.length > LINE_CAP) throw new Error(`a journal line of ${bytes.length} bytes is longer than ${LINE_CAP}`);
  return { bytes, position: behind(after, readBack.line, bytes.length) };
}

/** Where the journal stands behind `line`, whose bytes with the newline are `length` long. */
export function behind<C, E>(after: Position, line: JournalLine<C, E>, length: number): Position {
  return { batch: line.batch, seq: line.seq, crc: line.crc, offset: after.offset + length };
}

/**
 * Reads the bytes of one line (without its newline) that stands behind `after`.
 *
 * The checksum comes first: bytes that fail it are `damaged` whatever they say. A whole line that does not follow `after`
 * (a gap, a copy, another batch's, one from before a repair) is `misplaced`. A whole line of a higher version is `newer`,
 * and one that is whole and in its place but of a shape this program does not know is an `unknown form`.
 */
export function decodeLine<C, E>(
  form: LineForm<C, E>,
  bytes: Buffer,
  after: Position,
  start = 0,
  end = bytes.length,
): Decoded<C, E> {
  if (checkedCrc(bytes, start, end) === undefined) return { kind: 'damaged', reason: 'its checksum does not hold' };
  const raw = parseObject(bytes.toString('utf8', start, end));
  if (raw === undefined) return { kind: 'unknown form', reason: 'it is whole but not an object in JSON' };
  const version = raw['v'];
  if (typeof version === 'number' && version > JOURNAL_VERSION) {
    return {
      kind: 'newer',
      reason: `it was written by a newer version (form ${version}, known up to ${JOURNAL_VERSION})`,
    };
  }
  const lifted = lift(raw, after);
  const wrongPlace = placeFault(lifted, after);
  if (wrongPlace !== undefined) return { kind: 'misplaced', reason: wrongPlace };
  const parsed = form.safeParse(lifted);
  if (parsed.success) return { kind: 'line', line: parsed.data };
  const issue = parsed.error.issues[0];
  return { kind: 'unknown form', reason: `${issue?.path.join('.') ?? ''}: ${issue?.message ?? 'unknown'}` };
}

/** The checksum that the line carries when it holds, else nothing. By hand, not by pattern: this is run for every line. */
export function checkedCrc(bytes: Buffer, start = 0, end = bytes.length): number | undefined {
  const tail = end - TAIL_LENGTH;
  if (tail <= start || bytes[end - 2] !== QUOTE || bytes[end - 1] !== BRACE) return undefined;
  for (let index = 0; index < TAIL_START.length; index += 1) {
    if (bytes[tail + index] !== TAIL_START[index]) return undefined;
  }
  const stated = hexNumber(bytes, tail + TAIL_START.length);
  return stated === crc32(bytes.subarray(start, tail)) ? stated : undefined;
}

/** The number written as eight lower-case hexadecimal digits at `from`, or -1. */
function hexNumber(bytes: Buffer, from: number): number {
  let value = 0;
  for (let index = from; index < from + 8; index += 1) {
    const byte = bytes[index] ?? 0;
    const digit = byte >= 0x30 && byte <= 0x39 ? byte - 0x30 : byte >= 0x61 && byte <= 0x66 ? byte - 0x57 : -1;
    if (digit < 0) return -1;
    value = value * 16 + digit;
  }
  return value;
}

type Raw = Readonly<Record<string, unknown>>;

function parseObject(text: string): Raw | undefined {
  try {
    const value: unknown = JSON.parse(text);
    return typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Raw) : undefined;
  } catch (error) {
    if (error instanceof SyntaxError) return undefined;
    throw error;
  }
}

/** One step from each older version to the next. Form 1 had neither `prev` nor `by`: one person, no link to the line before. */
const steps: Readonly<Record<number, (raw: Raw, after: Position) => Raw>> = {
  1: (raw, after) => ({ ...raw, v: 2, prev: after.crc, by: '' }),
};

function lift(raw: Raw, after: Position): Raw {
  let lifted = raw;
  for (;;) {
    const step = typeof lifted['v'] === 'number' ? steps[lifted['v']] : undefined;
    if (step === undefined) return lifted;
    lifted = step(lifted, after);
  }
}

function placeFault(raw: Raw, after: Position): string | undefined {
  if (after.batch !== undefined && raw['batch'] !== after.batch) return 'it belongs to another batch';
  const seq = raw['seq'];
  if (seq !== after.seq + 1) {
    if (typeof seq === 'number' && seq <= after.seq)
      return `line ${seq} is a copy or a leftover (${after.seq + 1} is due)`;
    return `line ${String(seq)} stands where ${after.seq + 1} is due`;
  }
  return raw['prev'] === after.crc ? undefined : `line ${seq} does not follow the line before it`;
}

function hex(value: number): string {
  return value.toString(16).padStart(8, '0');
}
