import type { OpenFile } from './disk.ts';
import { beyondLimits, type JournalLimits, journalLimits } from './journal-limits.ts';
import {
  behind,
  checkedCrc,
  decodeLine,
  type JournalLine,
  LINE_CAP,
  type LineForm,
  type Position,
} from './journal-line.ts';

// Reads a journal line by line from a file of any size, within bounds (P8): a chunk at a time, a longest line, a largest
// journal. Keeps the reading half of P2: it stops at the first byte that is not good and says what stands there; whole lines
// behind damage are told, never counted. P15: a journal of 10,000 pieces is read in a fraction of a second. Reads only.

const CHUNK = 1024 * 1024;
const SURVEY_CAP = 32 * 1024 * 1024;
const NEWLINE = 10;

/**
 * Why reading stopped before the end. `torn` is a last line without its end: the mark of a cut mains, not of damage.
 * `impossible` is a whole line in its place that the caller cannot follow.
 */
type StopKind = 'torn' | 'damaged' | 'misplaced' | 'newer' | 'unknown form' | 'impossible' | 'too long';

/** What stands at the first byte that is not good, and how many bytes from there to the end. */
export interface Stop {
  readonly kind: StopKind;
  readonly reason: string;
  readonly offset: number;
  readonly length: number;
  /** Whole lines of this batch found behind the damage; they are not counted. */
  readonly wholeLinesAfter: number;
}

/** How far the good lines go, and what stopped the reading, if anything did. */
export interface ReadEnd {
  readonly position: Position;
  /** Where the last good line begins. */
  readonly lastLineAt: number;
  readonly stop: Stop | undefined;
}

/**
 * Thrown by a visit at a line that cannot follow on the ones before it, such as a count before the batch was opened. Some
 * program meant that line, so it is treated as one of unknown form: reading stops before it and it is never cut.
 */
export class CannotFollow extends Error {}

/** Called with each good line in turn; may throw `CannotFollow`. */
export type Visit<C, E> = (line: JournalLine<C, E>) => void;

interface Found {
  readonly kind: StopKind;
  readonly reason: string;
}

/**
 * Reads the good lines from `from` on, calling `visit` with each, until the end, the first bad byte, or the first line that
 * stands beyond `limits`.
 *
 * Example: a file of three good lines and half a fourth answers `position.seq` 3 and `stop.kind` `torn`, with the offset
 * and length of the half line. Throws what the disk throws.
 */
export async function readLines<C, E>(
  file: OpenFile,
  form: LineForm<C, E>,
  from: Position,
  visit: Visit<C, E>,
  limits: JournalLimits = journalLimits,
): Promise<ReadEnd> {
  let position = from;
  let lastLineAt = from.offset;
  const found = await eachLine(file, from.offset, (bytes, start, end) => {
    const decoded = decodeLine(form, bytes, position, start, end);
    if (decoded.kind !== 'line') return decoded;
    const next = behind(position, decoded.line, end + 1 - start);
    const beyond = beyondLimits(next, limits);
    if (beyond !== undefined) return { kind: 'too long', reason: beyond };
    const impossible = refusedBy(visit, decoded.line);
    if (impossible !== undefined) return impossible;
    lastLineAt = position.offset;
    position = next;
    return undefined;
  });
  if (found === undefined) return { position, lastLineAt, stop: undefined };
  return { position, lastLineAt, stop: await describeStop(file, found, position) };
}

function refusedBy<C, E>(visit: Visit<C, E>, line: JournalLine<C, E>): Found | undefined {
  try {
    visit(line);
    return undefined;
  } catch (error) {
    if (error instanceof CannotFollow) return { kind: 'impossible', reason: error.message };
    throw error;
  }
}

type Take = (bytes: Buffer, start: number, end: number) => Found | undefined;

/** Calls `take` with the bytes of each line until it answers a reason to stop, or the file gives one. */
async function eachLine(file: OpenFile, offset: number, take: Take): Promise<Found | undefined> {
  const chunk = await chunkFor(file, offset);
  let rest = Buffer.alloc(0);
  for (let readAt = offset; ; ) {
    const got = await file.read(chunk, readAt);
    if (got === 0) return rest.length > 0 ? { kind: 'torn', reason: 'its end is missing' } : undefined;
    readAt += got;
    const fresh = chunk.subarray(0, got);
    const bytes = rest.length === 0 ? fresh : Buffer.concat([rest, fresh]);
    const { found, used } = takeLines(bytes, take);
    if (found !== undefined) return found;
    rest = Buffer.from(bytes.subarray(used));
    if (rest.length > LINE_CAP) return { kind: 'damaged', reason: `it is a line of more than ${LINE_CAP} bytes` };
  }
}

function takeLines(bytes: Buffer, take: Take): { found: Found | undefined; used: number } {
  let start = 0;
  for (let end = bytes.indexOf(NEWLINE); end >= 0; end = bytes.indexOf(NEWLINE, start)) {
    const found = take(bytes, start, end);
    if (found !== undefined) return { found, used: start };
    start = end + 1;
  }
  return { found: undefined, used: start };
}

async function chunkFor(file: OpenFile, offset: number): Promise<Buffer> {
  const { size } = await file.facts();
  return Buffer.allocUnsafe(Math.min(CHUNK, Math.max(4096, size - offset)));
}

async function describeStop(file: OpenFile, found: Found, position: Position): Promise<Stop> {
  const { size } = await file.facts();
  const { offset } = position;
  const length = Math.max(0, size - offset);
  if (found.kind === 'too long') return { ...found, offset, length, wholeLinesAfter: 0 };
  const survey = await surveyRest(file, offset, position);
  const kind = found.kind === 'damaged' && survey.onlyZeros ? 'torn' : found.kind;
  return { kind, reason: found.reason, offset, length, wholeLinesAfter: survey.wholeLines };
}

/** Looks through the rest, within a bound, for lines of this batch that are whole and for any byte but zero. */
async function surveyRest(file: OpenFile, offset: number, position: Position) {
  const mark = Buffer.from(`"batch":${JSON.stringify(position.batch ?? '')}`);
  const isWhole = (bytes: Buffer) => checkedCrc(bytes) !== undefined && bytes.includes(mark);
  const chunk = await chunkFor(file, offset);
  let wholeLines = 0;
  let onlyZeros = true;
  let rest = Buffer.alloc(0);
  const take = (bytes: Buffer, start: number, end: number) => {
    if (isWhole(bytes.subarray(start, end))) wholeLines += 1;
    return undefined;
  };
  for (let readAt = offset; readAt - offset < SURVEY_CAP; ) {
    const got = await file.read(chunk, readAt);
    if (got === 0) break;
    readAt += got;
    const bytes = Buffer.concat([rest, chunk.subarray(0, got)]);
    onlyZeros &&= bytes.equals(Buffer.alloc(bytes.length));
    rest = Buffer.from(bytes.subarray(takeLines(bytes, take).used));
    if (rest.length > LINE_CAP) rest = Buffer.alloc(0);
  }
  take(rest, 0, rest.length);
  return { wholeLines, onlyZeros };
}
