/**
 * What is wrong with a plan file, placed so that an editor can jump to it. A problem is a value, never an exception: all
 * problems of a file are gathered and shown together.
 */

/** Where something stands in the plan's text; both count from 1. */
export interface Place {
  readonly line: number;
  readonly column: number;
}

/** One fault of a plan file. */
export interface Problem extends Place {
  /** Where it lies in the plan: `operations[3].depth`; items of a list are counted from 1. */
  readonly path: string;
  /** What stands there, shortened and without control characters. */
  readonly found: string;
  /** What is wanted there. */
  readonly wanted: string;
  /** One sentence for a reader who sees only this. */
  readonly message: string;
  /** What to do about it. */
  readonly tryThis: string;
}

/** A step into the plan: a key of a map or an index (from 0) of a list. */
export type PathStep = string | number;

/** Longest piece of the plan's text that is repeated in a message. */
const LONGEST_FOUND = 60;
/** Longest line of the plan that is shown whole under a message. */
const LONGEST_LINE = 100;
/** Control characters, and those that change the direction of text or cannot be seen. */
const UNPRINTABLE = /[\p{Cc}\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]/gu;

/**
 * A path as text: keys joined by dots, items of a list counted from 1.
 *
 * Example: `formatPath(['operations', 2, 'depth'])` is `operations[3].depth`; the empty path is `the plan`.
 */
export function formatPath(path: readonly PathStep[]): string {
  if (path.length === 0) return 'the plan';
  return path
    .map((step, at) => (typeof step === 'number' ? `[${step + 1}]` : `${at === 0 ? '' : '.'}${neutral(step)}`))
    .join('');
}

/**
 * A text from the plan as it may be shown: unprintable characters become `?`, an overlong text is cut with `…`.
 *
 * Example: an escape character followed by `[2J` is shown as `?[2J`.
 */
export function neutral(text: string, longest = LONGEST_FOUND): string {
  const printable = text.replace(UNPRINTABLE, '?');
  return printable.length > longest ? `${printable.slice(0, longest - 1)}…` : printable;
}

/**
 * A problem as lines of text: place and message, the plan's line with a mark under it, what was found and wanted, and
 * what to try. Nothing of the plan reaches the terminal raw.
 *
 * @param text the plan's text, for the line under the message
 * @param name of the file, as the user gave it
 */
export function formatProblem(problem: Problem, text: string, name: string): string {
  const where = `${neutral(name, 200)}:${problem.line}:${problem.column}`;
  const lines = [`${where}  ${problem.message}`, ...showLine(problem, text)];
  if (problem.wanted !== '') lines.push(`    at ${problem.path}: found ${problem.found}, wanted ${problem.wanted}`);
  if (problem.tryThis !== '') lines.push(`    try: ${problem.tryThis}`);
  return lines.join('\n');
}

/** The plan's line and a mark under the column, or nothing when the place is outside the text. */
export function showLine(place: Place, text: string): string[] {
  const line = text.split(/\r\n|\n|\r/u)[place.line - 1];
  if (line === undefined || line.trim() === '') return [];
  const from = Math.max(0, Math.min(place.column - 1, line.length) - (LONGEST_LINE - 20));
  const shown = neutral(line.slice(from), LONGEST_LINE);
  return [`    | ${shown}`, `    | ${' '.repeat(Math.max(0, place.column - 1 - from))}^`];
}

/** Problems in the order of the text. */
export function inOrderOfText<Placed extends Place>(problems: readonly Placed[]): Placed[] {
  return [...problems].sort((a, b) => a.line - b.line || a.column - b.column);
}
