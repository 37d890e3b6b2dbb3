/** The words of a bug: enough for a report, short enough for a small screen. */

const MOST_PLACES = 5;

/**
 * A bug as a few lines: what it says and up to five places in the program, folders and control characters left out.
 * Example: 'millside found a bug of its own: no such piece' and '    at evolve (chunk-AB12.js:40:7)'.
 */
export function shortTrace(error: unknown): string {
  const message = error instanceof Error ? error.message : String(error);
  const stack = error instanceof Error ? (error.stack ?? '') : '';
  const places = stack
    .split('\n')
    .filter((line) => /^\s+at /.test(line) && !line.includes('node:internal'))
    .slice(0, MOST_PLACES)
    .map((line) => line.replace(/(?:file:\/\/)?\/?(?:[^\s/()]+\/)+/g, ''));
  const lines = [`millside found a bug of its own: ${message.split('\n')[0] ?? ''}`, ...places];
  return lines.map((line) => line.replace(/\p{Cc}/gu, ' ').slice(0, 200)).join('\n');
}
