import { createHash } from 'node:crypto';
import { resolve } from 'node:path';
import type { Disk } from './disk.ts';
import { type Fault, isFault, makeFault, orFault } from './fault.ts';
import { readSmall } from './whole-file.ts';

// Plan files as they come from disk. Keeps the file half of P8: at most 128 KiB is read, no pipe or device is waited for, and
// what is not text in UTF-8 is refused with line and column. The hash tells P7 whether a plan has changed since.

/** The largest plan file, in bytes. */
export const PLAN_CAP = 128 * 1024;

export interface PlanFile {
  readonly kind: 'plan file';
  /** The full path. */
  readonly path: string;
  /** The text, without a byte order mark; line ends as in the file. */
  readonly text: string;
  /** SHA-256 of the file's bytes, hexadecimal. */
  readonly sha256: string;
}

/**
 * Loads the plan at `path`. A missing file, a folder, a pipe or a device is a fault 66; one that is too large or not text in
 * UTF-8 is a fault 65. A byte order mark and Windows line ends are accepted.
 */
export async function loadPlanFile(disk: Disk, path: string): Promise<PlanFile | Fault> {
  const bytes = await orFault({ doing: 'the plan could not be read', where: path, code: 66 }, async () => {
    const there = await disk.stat(resolve(path));
    if (there?.kind === 'file' && there.size > PLAN_CAP) return tooLarge(path, there.size);
    return readSmall(disk, resolve(path), PLAN_CAP);
  });
  if (isFault(bytes)) return bytes;
  if (bytes === undefined) return missing(path);
  const fault = textFault(bytes, path);
  if (fault !== undefined) return fault;
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  return { kind: 'plan file', path: resolve(path), text: new TextDecoder('utf-8').decode(bytes), sha256 };
}

function missing(path: string): Fault {
  return makeFault({ what: 'there is no such plan', where: path, tryThis: 'check the name and the folder', code: 66 });
}

function tooLarge(path: string, size: number): Fault {
  const what = `the plan has ${size} bytes, more than the ${PLAN_CAP} a plan may have`;
  return makeFault({ what, where: path, tryThis: 'check that it is the right file; split a plan that is', code: 65 });
}

const saveAsUtf8 = 'save the file as UTF-8 in the editor';

function textFault(bytes: Buffer, path: string): Fault | undefined {
  const isUtf16 = (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff);
  if (isUtf16) return makeFault({ what: 'the plan is saved as UTF-16', where: path, tryThis: saveAsUtf8, code: 65 });
  const zero = bytes.indexOf(0);
  if (zero >= 0) {
    const where = `${path}:${placeOf(bytes, zero)}`;
    return makeFault({ what: 'the plan is not text: it holds a zero byte', where, tryThis: 'name a plan', code: 65 });
  }
  const bad = firstInvalid(bytes);
  if (bad === undefined) return undefined;
  const byte = (bytes[bad] ?? 0).toString(16).padStart(2, '0');
  const what = `the plan is not UTF-8: byte 0x${byte} begins no character (an older Windows or Latin-1 file?)`;
  return makeFault({ what, where: `${path}:${placeOf(bytes, bad)}`, tryThis: saveAsUtf8, code: 65 });
}

/** Line and column, both from 1, of the byte at `offset`; the column counts characters. */
function placeOf(bytes: Buffer, offset: number): string {
  const before = bytes.subarray(0, offset).toString('utf8');
  const lines = before.split(/\r\n|\r|\n/);
  return `${lines.length}:${[...(lines.at(-1) ?? '')].length + 1}`;
}

/** Offset of the first byte that is not UTF-8. The decoder puts U+FFFD there; one that the file itself holds is skipped. */
function firstInvalid(bytes: Buffer): number | undefined {
  const text = bytes.toString('utf8');
  let offset = 0;
  for (const part of text.split('�').slice(0, -1)) {
    offset += Buffer.byteLength(part);
    if (bytes.subarray(offset, offset + 3).toString('hex') !== 'efbfbd') return offset;
    offset += 3;
  }
  return undefined;
}
