import { resolve } from 'node:path';
import type { Disk } from './disk.ts';
import { type Fault, isFault, makeFault, orFault } from './fault.ts';
import { writeWhole } from './whole-file.ts';

// Files that leave the program: reports, sheets, new plans. Keeps P9: whole or not at all, never over an existing file unless
// that was asked for, never through a link, and a full disk is a fault with nothing left behind.

export interface Written {
  readonly kind: 'written';
  readonly path: string;
  readonly bytes: number;
  readonly replaced: boolean;
}

/**
 * Writes `content` to `path` (0600). An existing file is a fault (73) unless `overwrite`; a link, a folder, a pipe or a
 * device is one always. A disk that takes no more is a fault (74).
 *
 * Example: `writeExport(realDisk, 'report.csv', text, { overwrite: false })` answers `{ kind: 'written', bytes: 812, … }`.
 */
export async function writeExport(
  disk: Disk,
  path: string,
  content: string | Uint8Array,
  options: { readonly overwrite: boolean },
): Promise<Written | Fault> {
  const target = resolve(path);
  const bytes = typeof content === 'string' ? Buffer.from(content) : content;
  const there = await orFault({ doing: 'the file was not written', where: path, code: 73 }, () =>
    disk.statLink(target),
  );
  if (isFault(there)) return there;
  if (there !== undefined && (there.kind !== 'file' || !options.overwrite)) return taken(path, there.kind);
  return orFault({ doing: 'the file was not written', where: path, code: there ? 74 : 73 }, async () => {
    await writeWhole(disk, target, bytes, options.overwrite ? 'anything' : 'nothing');
    return { kind: 'written', path: target, bytes: bytes.length, replaced: there !== undefined } as const;
  });
}

function taken(path: string, kind: 'file' | 'folder' | 'link' | 'other'): Fault {
  const found = {
    file: 'it exists already',
    folder: 'it is a folder',
    link: 'it is a link',
    other: 'it is a pipe or device',
  };
  const tryThis = kind === 'file' ? 'choose another name, or say --force to replace it' : 'choose another name';
  return makeFault({ what: `the file was not written: ${found[kind]}`, where: path, tryThis, code: 73 });
}
