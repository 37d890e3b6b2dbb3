/**
 * What is refused before a plan's text meets the YAML reader: sizes and depths at which that reader takes minutes or
 * brings the process down, and bytes that are not text. Everything here runs in one pass over the text.
 */
import type { Problem } from './problem.ts';

/** Longest plan in bytes of UTF-8. */
const MAX_PLAN_BYTES = 128 * 1024;
/** Most lines; a plan of 99 operations has fewer than 3000. */
const MAX_LINES = 6000;
/** Most entries of brackets and braces, counted by their commas. */
const MAX_COMMAS = 20_000;
/** Deepest nesting of maps and lists. */
export const MAX_DEPTH = 64;
/** Most list or key marks before the value on one line; a plan has two at most. */
const MAX_MARKS_ON_LINE = 8;
/** Control characters other than tab, line feed and carriage return, and unpaired surrogates. */
const FORBIDDEN = /(?!\t)[\p{Cc}\p{Cs}]/u;
/** What a decoder puts where bytes were not UTF-8. */
const REPLACEMENT = '\ufffd';

/** The text without a byte order mark, or the one problem for which it is not read at all. */
export type Capped = { readonly ok: true; readonly text: string } | { readonly ok: false; readonly problem: Problem };

/**
 * Checks size, characters and depth of a plan's text.
 *
 * Example: 5 MB of spaces is refused for its size; 65 opened brackets are refused for their depth.
 */
export function capText(given: string): Capped {
  const bytes = utf8Length(given);
  if (bytes > MAX_PLAN_BYTES) {
    return no(1, 1, `${Math.ceil(bytes / 1024)} KiB`, `at most ${MAX_PLAN_BYTES / 1024} KiB`, 'the plan is too long', {
      tryThis: 'take out what is not part of the plan; a plan of one batch needs a few KiB',
    });
  }
  const text = given.startsWith('\ufeff') ? given.slice(1) : given;
  if (text.trim() === '') {
    return no(1, 1, 'an empty file', 'a job plan', 'the plan is empty', {
      tryThis: 'begin with `format: 1` and a job, or write a plan with `millside new`',
    });
  }
  return capEntries(text) ?? capCharacters(text) ?? capDepth(text) ?? { ok: true, text };
}

/** The YAML reader spends its time by entries, not by bytes. */
function capEntries(text: string): Capped | undefined {
  const lines = (text.match(/\r\n|\n|\r/gu) ?? []).length;
  const commas = (text.match(/,/gu) ?? []).length;
  if (lines <= MAX_LINES && commas <= MAX_COMMAS) return undefined;
  const found = lines > MAX_LINES ? `${lines} lines` : `${commas} commas`;
  const wanted = lines > MAX_LINES ? `at most ${MAX_LINES} lines` : `at most ${MAX_COMMAS} commas`;
  return no(1, 1, found, wanted, 'the plan is too long', { tryThis: 'make several plans of it' });
}

function capCharacters(text: string): Capped | undefined {
  for (const [index, line] of text.split(/\r\n|\n|\r/u).entries()) {
    const wrong = FORBIDDEN.exec(line);
    if (wrong !== null) {
      const code = (wrong[0].codePointAt(0) ?? 0).toString(16).padStart(4, '0').toUpperCase();
      return no(
        index + 1,
        wrong.index + 1,
        `character U+${code}`,
        'printable text',
        'a control character is in the text',
        {
          tryThis: 'delete the character; a plan is plain text',
        },
      );
    }
    const column = line.indexOf(REPLACEMENT);
    if (column >= 0) {
      return no(
        index + 1,
        column + 1,
        'bytes that are not UTF-8',
        'text in UTF-8',
        'the file is not written in UTF-8',
        {
          tryThis: 'save the file as UTF-8 (a degree sign or a diameter sign in Latin-1 looks like this)',
        },
      );
    }
  }
  return undefined;
}

/** Depth by indentation, by marks on one line and by brackets, each bounded; a little strict, never too lenient. */
function capDepth(text: string): Capped | undefined {
  const indents: number[] = [];
  let brackets = 0;
  for (const [index, line] of text.split(/\r\n|\n|\r/u).entries()) {
    const content = /^( *)((?:[-?:] +)*)(.*)$/u.exec(line);
    const rest = content?.[3] ?? '';
    if (rest !== '' && !rest.startsWith('#')) {
      const marks = ((content?.[2] ?? '').match(/[-?:]/gu) ?? []).length;
      const indent = (content?.[1] ?? '').length;
      while (indents.length > 0 && (indents.at(-1) ?? 0) >= indent) indents.pop();
      indents.push(indent);
      brackets = Math.max(0, brackets + deepestOf(rest));
      if (marks > MAX_MARKS_ON_LINE || indents.length + marks + brackets > MAX_DEPTH) return tooDeep(index + 1);
      brackets = Math.max(0, brackets - deepestOf(rest) + balanceOf(rest));
    }
  }
  return undefined;
}

/** The most brackets that stand open at once within a line. */
function deepestOf(line: string): number {
  let open = 0;
  let deepest = 0;
  for (const sign of line) {
    if (sign === '[' || sign === '{') open += 1;
    if (sign === ']' || sign === '}') open -= 1;
    deepest = Math.max(deepest, open);
  }
  return deepest;
}

/** Brackets opened less brackets closed. */
const balanceOf = (line: string): number => (line.match(/[[{]/gu) ?? []).length - (line.match(/[\]}]/gu) ?? []).length;

/** Length of a text in bytes of UTF-8. */
function utf8Length(text: string): number {
  let bytes = 0;
  for (let at = 0; at < text.length; at += 1) {
    const unit = text.charCodeAt(at);
    bytes += unit < 0x80 ? 1 : unit < 0x800 || (unit >= 0xd800 && unit <= 0xdfff) ? 2 : 3;
  }
  return bytes;
}

const tooDeep = (line: number): Capped =>
  no(line, 1, `more than ${MAX_DEPTH} levels`, `at most ${MAX_DEPTH} levels`, 'the plan is nested too deeply', {
    tryThis: 'a plan needs six levels; look for brackets that were never closed',
  });

function no(
  line: number,
  column: number,
  found: string,
  wanted: string,
  what: string,
  more: { tryThis: string },
): Capped {
  const message = `${what}: ${found}, wanted ${wanted}`;
  return { ok: false, problem: { line, column, path: 'the plan', found, wanted, message, tryThis: more.tryThis } };
}
