import { type QuantityText, quoteText, tidyText } from './number-text.ts';
import { type Result, refuse } from './refusal.ts';
import { suggestNames } from './suggest-name.ts';
import { allThreads, metricThread, metricThreads } from './thread-list.ts';
import type { Thread, ThreadSeries } from './threads.ts';
import { mmToInches } from './units.ts';

/**
 * Finding a thread by what people call it: `M5`, `M5x0.5`, `M5 x 0.8`, `1/4-20 UNC`, `1/4-20`, `#8-32 UNC-2B`,
 * `no. 8-32 UNC`, `1/4 UNF`, `4 BA`, `1/4 x 40 ME`, `1/4 BSW`. A bare metric size means the coarse pitch.
 */

const CLASSES = 'the limits known here are those of 6H and 2B';
const SERIES_BY_WORD: Readonly<Record<string, readonly ThreadSeries[]>> = {
  unc: ['UNC'],
  unf: ['UNF'],
  un: ['UNC', 'UNF'],
  bsw: ['BSW'],
  bsf: ['BSF'],
  whit: ['BSW', 'BSF'],
  whitworth: ['BSW', 'BSF'],
  me: ['ME'],
};
const INCH_NAME =
  /^((?:no\.? ?|# ?)\d{1,2}|\d+\/\d+|\d*\.\d+|\d{1,2})(?: ?(?:in|"))?(?:(?: ?[x-] ?| )(\d{1,3})(?: ?tpi)?)?(?: ?-? ?(unc|unf|un|bsw|bsf|whitworth|whit|me))?$/u;

/**
 * Finds a thread by name.
 *
 * @param given untrusted text; case and spaces do not matter; class 6H or 2B may follow
 * @returns the thread; a refusal naming the nearest known threads when it is unknown, or those it might be when the name
 * fits several (`1/4-20` is both UNC and BSW)
 *
 * Example: `#8-32 UNC-2B` is `no. 8-32 UNC`; `M9` is refused and names M8 and M10.
 */
export function parseThread(given: QuantityText): Result<Thread> {
  const tidy = tidyText(given, 'thread', 'M6 or 1/4-20 UNC');
  if (!tidy.ok) return tidy;
  const text = tidy.value.replace(/[ -]?(?:6h|2b)$/u, '');
  if (/[ -](?:\d[gh]|[13][ab]|2a)$/u.test(text)) {
    return refuse({
      what: 'thread class',
      found: quoteText(text),
      allowed: '6H or 2B',
      remedy: `leave the class out: ${CLASSES}`,
    });
  }
  const result = metricByName(text) ?? baByName(text) ?? inchByName(text);
  if (result.ok || result.problem.found !== quoteText(text)) return result;
  return refuse({ ...result.problem, found: quoteText(String(given).trim()) });
}

/** The names of all threads of the tables, for completions and messages. */
export const threadNames = (): readonly string[] => allThreads().map((thread) => thread.name);

function metricByName(text: string): Result<Thread> | undefined {
  const match = /^m ?(\d+(?:\.\d+)?)(?: ?[x*] ?(\d*\.?\d+))?$/u.exec(text);
  if (match === null) return undefined;
  const major = Number(match[1]);
  if (match[2] !== undefined) return metricThread(major, Number(match[2]));
  const coarse = metricThreads().find((thread) => thread.series === 'metric coarse' && thread.major === major);
  return coarse === undefined ? unknownThread(text, nearestMetric(major)) : { ok: true, value: coarse };
}

function nearestMetric(major: number): readonly string[] {
  return metricThreads()
    .filter((thread) => thread.series === 'metric coarse')
    .sort((a, b) => Math.abs(a.major - major) - Math.abs(b.major - major))
    .slice(0, 2)
    .map((thread) => thread.name);
}

function baByName(text: string): Result<Thread> | undefined {
  const number = /^(?:no\.? ?|# ?)?(\d{1,2}) ?b\.?a\.?$/u.exec(text)?.[1];
  if (number === undefined) return undefined;
  return fromCandidates(
    text,
    allThreads().filter((thread) => thread.name === `${Number(number)} BA`),
  );
}

function inchByName(text: string): Result<Thread> {
  const match = INCH_NAME.exec(text);
  if (match === null) return unknownThread(text, suggestNames(text, threadNames()));
  const [, size = '', perInch, word] = match;
  const sameSize = allThreads().filter((thread) => isInchSize(thread, size));
  const fitting = sameSize.filter(
    (thread) =>
      (perInch === undefined || Math.abs(25.4 / thread.pitch - Number(perInch)) < 1e-6) &&
      (word === undefined || SERIES_BY_WORD[word]?.includes(thread.series) === true),
  );
  return fromCandidates(text, fitting, sameSize);
}

function isInchSize(thread: Thread, size: string): boolean {
  if (thread.series.startsWith('metric') || thread.series === 'BA') return false;
  const number = /^(?:no\.? ?|# ?)(\d+)$/u.exec(size)?.[1];
  if (number !== undefined) return thread.size === `no. ${Number(number)}`;
  if (/^\d+$/u.test(size)) return thread.size === `no. ${Number(size)}` || thread.size === size;
  if (size.includes('/')) return thread.size === size;
  return Math.abs(mmToInches(thread.major) - Number(size)) < 0.0006;
}

function fromCandidates(text: string, fitting: readonly Thread[], near: readonly Thread[] = []): Result<Thread> {
  const [first, ...others] = fitting;
  if (first === undefined) {
    const names = near.length > 0 ? near.map((thread) => thread.name) : suggestNames(text, threadNames());
    return unknownThread(text, names);
  }
  if (others.length === 0) return { ok: true, value: first };
  return refuse({
    what: 'thread',
    found: quoteText(text),
    allowed: `one of ${fitting.map((thread) => thread.name).join(', ')}`,
    remedy: 'say which one',
  });
}

function unknownThread(text: string, nearest: readonly string[]) {
  return refuse({
    what: 'thread',
    found: quoteText(text),
    allowed: 'a thread of the tables, or a metric one with its pitch like M9x0.75',
    remedy: nearest.length === 0 ? 'write it like M6 or 1/4-20 UNC' : `nearest known: ${nearest.join(', ')}`,
  });
}
