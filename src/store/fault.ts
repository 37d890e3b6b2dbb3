// A fault: the world did something (a full disk, a folder that cannot be written, a spoiled file). It is a value with
// what happened, where, and what to try; the floors above show it. A bug is thrown instead and never caught here.

/** The exit code that a command line run ends with when this fault stops it (65 bad plan or journal, 66 no such input,
 * 73 cannot create, 74 cannot read or write, 75 held by another terminal). */
type FaultCode = 65 | 66 | 73 | 74 | 75;

/** What happened, where (a path, a place in a file), what to try, and the exit code it stands for. */
export interface Fault {
  readonly kind: 'fault';
  readonly what: string;
  readonly where: string;
  readonly tryThis: string;
  readonly code: FaultCode;
}

/**
 * A fault with its place made printable: control characters of a path are written as `\xNN`, so none reaches a terminal.
 *
 * Example: `makeFault({ what: 'no such file', where: 'a\u001bb', tryThis: 'check the name', code: 66 }).where` is `a\x1bb`.
 */
export function makeFault(parts: Omit<Fault, 'kind'>): Fault {
  return { kind: 'fault', ...parts, where: printable(parts.where) };
}

/** True when `value` is a fault and not the answer that was hoped for. Example: `isFault(makeFault(...))` is `true`. */
export function isFault(value: unknown): value is Fault {
  return typeof value === 'object' && value !== null && 'kind' in value && value.kind === 'fault';
}

/** An error of the operating system: it carries a code such as ENOSPC. Anything else that is thrown is a bug. */
export function isDiskError(error: unknown): error is NodeJS.ErrnoException & { code: string } {
  if (!(error instanceof Error) || !('code' in error)) return false;
  return typeof error.code === 'string' && /^E[A-Z0-9]+$/.test(error.code);
}

/** What was being done, and where, when a disk call failed. */
export interface Doing {
  readonly doing: string;
  readonly where: string;
  readonly code: FaultCode;
}

/**
 * Runs `act` and turns an error of the operating system into a fault; a bug is thrown on.
 *
 * Example: writing to a full disk with `{ doing: 'the piece was not counted', where: path, code: 74 }` answers a fault
 * whose `what` is `the piece was not counted: the disk is full`.
 */
export async function orFault<T>(doing: Doing, act: () => Promise<T>): Promise<T | Fault> {
  try {
    return await act();
  } catch (error) {
    return faultOf(error, doing);
  }
}

/** The fault for an error of the operating system. Throws anything else on: it is a bug. */
export function faultOf(error: unknown, doing: Doing): Fault {
  if (!isDiskError(error)) throw error;
  const known = causes[error.code];
  const what = `${doing.doing}: ${known?.cause ?? `the system answered ${error.code}`}`;
  return makeFault({ what, where: doing.where, tryThis: known?.tryThis ?? 'try again', code: doing.code });
}

const permission = 'check who owns it and its permissions, or name another folder with MILLSIDE_HOME';

const causes: Readonly<Record<string, { cause: string; tryThis: string } | undefined>> = {
  ENOSPC: { cause: 'the disk is full', tryThis: 'make room on the disk, then try again' },
  EDQUOT: { cause: 'your share of the disk is used up', tryThis: 'make room on the disk, then try again' },
  EFBIG: { cause: 'a size limit was reached', tryThis: 'raise the file size limit of this session (ulimit -f)' },
  EIO: { cause: 'the disk reports an error', tryThis: 'copy the data folder to another disk; this one may be failing' },
  EROFS: {
    cause: 'the disk is read-only',
    tryThis: 'check the card or disk; a failing one is often locked by the system',
  },
  EACCES: { cause: 'permission was refused', tryThis: permission },
  EPERM: { cause: 'permission was refused', tryThis: permission },
  ENOENT: { cause: 'it is not there', tryThis: 'check that the name is right and the disk is present' },
  ENOTDIR: { cause: 'a file stands where a folder is needed', tryThis: 'move that file away, or name another folder' },
  EISDIR: { cause: 'a folder stands where a file is needed', tryThis: 'name a file' },
  EEXIST: { cause: 'it exists already', tryThis: 'choose another name' },
  ENOTEMPTY: { cause: 'it exists already', tryThis: 'choose another name' },
  ENODEV: { cause: 'the device is gone', tryThis: 'check the card or disk' },
  ENXIO: { cause: 'it is not an ordinary file', tryThis: 'name an ordinary file' },
  ESTALE: { cause: 'the network folder has changed', tryThis: 'check the network disk, then open the batch again' },
  EMFILE: { cause: 'too many files are open', tryThis: 'close other programs, then try again' },
  ENFILE: { cause: 'too many files are open', tryThis: 'close other programs, then try again' },
  ELOOP: { cause: 'it is a chain of links without end', tryThis: 'name the file itself' },
  ENAMETOOLONG: { cause: 'the name is too long', tryThis: 'choose a shorter name' },
  EBADF: { cause: 'the file was closed by a fault before', tryThis: 'open the batch again' },
};

function printable(text: string): string {
  return text.replace(/\p{Cc}/gu, (sign) => `\\x${sign.charCodeAt(0).toString(16).padStart(2, '0')}`);
}
