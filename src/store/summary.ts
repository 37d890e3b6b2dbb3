import { join } from 'node:path';
import * as z from 'zod';
import { crc32 } from './crc32.ts';
import type { Disk } from './disk.ts';
import { type Fault, isFault, orFault } from './fault.ts';
import { JOURNAL_NAME } from './journal-file.ts';
import { readSmall, writeWhole } from './whole-file.ts';

// `summary.json` in the folder of a finished batch: what estimates and the forecast need of it, so that not every journal is
// read again. Part of P14: it follows from the journal, is believed only while it matches it, and may vanish.

const NAME = 'summary.json';
const SUMMARY_CAP = 1024 * 1024;
// 2: lessons name plan and operation.
const SUMMARY_VERSION = 2;

const envelopeSchema = z.object({
  v: z.literal(SUMMARY_VERSION),
  batch: z.string(),
  journalBytes: z.number().describe('Size of the journal it was made from, in bytes.'),
  crc: z.number().describe('CRC-32 of the payload as JSON.'),
  payload: z.unknown(),
});

/** Writes the summary of the batch `id`, made from a journal of `journalBytes` bytes. */
export async function writeSummary(
  disk: Disk,
  folder: string,
  id: string,
  journalBytes: number,
  payload: unknown,
): Promise<Fault | undefined> {
  const path = join(folder, NAME);
  const text = JSON.stringify({ v: SUMMARY_VERSION, batch: id, journalBytes, crc: checksum(payload), payload });
  return orFault({ doing: 'the summary was not kept', where: path, code: 74 }, async () => {
    await writeWhole(disk, path, Buffer.from(text), 'anything');
    return undefined;
  });
}

/** The summary of batch `id` if there is one, whole, of this shape, and made from the journal as it is now. */
export async function readSummary<T>(
  disk: Disk,
  folder: string,
  id: string,
  schema: z.ZodType<T>,
): Promise<T | undefined> {
  const read = await orFault({ doing: '', where: folder, code: 74 }, async () => ({
    journal: await disk.stat(join(folder, JOURNAL_NAME)),
    bytes: await readSmall(disk, join(folder, NAME), SUMMARY_CAP),
  }));
  if (isFault(read) || read.bytes === undefined) return undefined;
  const envelope = envelopeSchema.safeParse(parseJson(read.bytes.toString('utf8')));
  if (!envelope.success || envelope.data.batch !== id || envelope.data.journalBytes !== read.journal?.size)
    return undefined;
  if (envelope.data.crc !== checksum(envelope.data.payload)) return undefined;
  return schema.safeParse(envelope.data.payload).data;
}

function checksum(payload: unknown): number {
  return crc32(Buffer.from(JSON.stringify(payload)));
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    if (error instanceof SyntaxError) return undefined;
    throw error;
  }
}
