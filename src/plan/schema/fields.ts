/**
 * The makers of the plan language's fields. Every value of a plan arrives as the text that was written; a field converts it
 * with the readers of shop arithmetic and says what it means, in which unit and what is taken when it is left out, so that
 * the reference page is made from the schema itself (schema-page.ts).
 */
import * as z from 'zod';
import { parseLength } from '../../shop/parse-length.ts';
import {
  parseAngle,
  parseCount,
  parseCuttingSpeed,
  parseDuration,
  parseFeed,
  parsePercent,
  parseSpindleSpeed,
} from '../../shop/parse-quantity.ts';
import { ALLOWANCE, LENGTH, POINT_ANGLE, POSITIVE_LENGTH, TOOL_DIAMETER } from '../../shop/ranges.ts';
import type { Range, Refusal, Result } from '../../shop/refusal.ts';
import { suggestName } from '../../shop/suggest-name.ts';
import type { LengthUnit } from '../../shop/units.ts';

/** What a field says of itself for the reference page. */
export interface About {
  /** What the field means, one sentence. */
  readonly meaning: string;
  /** Unit or form of the value; lengths say it by themselves. */
  readonly unit?: string;
  /** What is taken when the field is left out. */
  readonly default?: string;
}

/** What an issue of this schema carries for the message beside zod's own parts. */
export interface IssueParts {
  readonly wanted: string;
  readonly tryThis: string;
  readonly found?: string;
}

const LENGTH_FORM = 'length';
/** Longest title or name. */
const LONGEST_NAME = 120;
/** Longest note. */
const LONGEST_NOTE = 500;

type Context = z.RefinementCtx;

/**
 * A field written as one text, read by `read`. One object of the schema instead of the five of a text, a conversion, their
 * pipe and its copy with the metadata: a plan has three hundred fields, and all are made on each start.
 */
function textField<Value>(about: About, read: (text: string, context: Context) => Value) {
  const field = z.transform((given: unknown, context): Value => {
    if (typeof given === 'string') return read(given, context);
    context.addIssue({ code: 'invalid_type', expected: 'string', input: given });
    return z.NEVER;
  });
  return described(field, about);
}

/** The schema itself with what it says of itself; `meta()` would make a copy. */
function described<Schema extends z.ZodType>(schema: Schema, about: About): Schema {
  z.globalRegistry.add(schema, { ...about });
  return schema;
}

/** A field read by one of the readers of shop arithmetic. */
const quantity = <Value>(read: (text: string) => Result<Value>, about: About) =>
  textField(about, (text, context): Value => {
    const result = read(text);
    if (result.ok) return result.value;
    addRefusal(context, result.problem);
    return z.NEVER;
  });

function addRefusal(context: Context, problem: Refusal): void {
  const params: IssueParts = { wanted: problem.allowed, tryThis: problem.remedy, found: problem.found };
  context.addIssue({
    code: 'custom',
    message: `${problem.what} ${problem.found}: wanted ${problem.allowed}`,
    params: { ...params },
  });
}

function refuseText(context: Context, text: string, wanted: string, tryThis: string): void {
  const params: IssueParts = { wanted, tryThis };
  context.addIssue({ code: 'custom', message: `"${text}" is not ${wanted}`, params: { ...params } });
}

/** The makers of fields for a plan in the given units; only lengths and feeds depend on them. */
export function makeFields(unit: LengthUnit) {
  const length = (meaning: string, more: { range?: Range; default?: string } = {}) =>
    quantity((text) => parseLength(text, unit, more.range ?? LENGTH), {
      meaning,
      unit: LENGTH_FORM,
      ...(more.default === undefined ? {} : { default: more.default }),
    });
  return {
    unit,
    /** A coordinate or signed length. */
    length,
    /** A length above nothing. */
    size: (meaning: string, fallback?: string) =>
      length(meaning, { range: POSITIVE_LENGTH, ...(fallback === undefined ? {} : { default: fallback }) }),
    /** A length that may be nothing. */
    allowance: (meaning: string, fallback?: string) =>
      length(meaning, { range: ALLOWANCE, ...(fallback === undefined ? {} : { default: fallback }) }),
    diameter: (meaning: string, fallback?: string) =>
      length(meaning, { range: TOOL_DIAMETER, ...(fallback === undefined ? {} : { default: fallback }) }),
    feedPerTurn: (meaning: string, fallback: string) =>
      quantity((text) => parseFeed(text, 'rev', unit), { meaning, unit: 'length/rev', default: fallback }),
    feedPerTooth: (meaning: string, fallback: string) =>
      quantity((text) => parseFeed(text, 'tooth', unit), { meaning, unit: 'length/tooth', default: fallback }),
  };
}
export type Fields = ReturnType<typeof makeFields>;

export const pointAngle = (meaning: string, fallback?: string) =>
  quantity((text) => parseAngle(text, POINT_ANGLE), aboutOf(meaning, 'degrees', fallback));
export const angle = (meaning: string, fallback?: string) =>
  quantity((text) => parseAngle(text), aboutOf(meaning, 'degrees', fallback));
export const duration = (meaning: string, fallback?: string, range?: Range) =>
  quantity((text) => parseDuration(text, range), aboutOf(meaning, '45 s, 20 min or 1 h 20 min', fallback));
export const spindleSpeed = (meaning: string, fallback?: string) =>
  quantity((text) => parseSpindleSpeed(text), aboutOf(meaning, 'turns a minute', fallback));
export const cuttingSpeed = (meaning: string, fallback?: string) =>
  quantity((text) => parseCuttingSpeed(text), aboutOf(meaning, 'm/min or ft/min, always written', fallback));
export const percent = (meaning: string, fallback?: string) =>
  quantity((text) => parsePercent(text), aboutOf(meaning, '%', fallback));

/** A whole number from `from` to `upTo`. */
export const count = (meaning: string, from: number, upTo: number, fallback?: string) =>
  quantity(
    (text) =>
      parseCount(text, { what: 'number', unit: '', from, upTo, remedy: 'give a whole number within these limits' }),
    aboutOf(meaning, `whole number, ${from} to ${upTo}`, fallback),
  );

/** Text on one line: a name or title. */
export const words = (meaning: string, fallback?: string) => text(meaning, LONGEST_NAME, fallback);
/** A sentence or two. */
export const sentence = (meaning: string, fallback?: string) => text(meaning, LONGEST_NOTE, fallback);

const text = (meaning: string, longest: number, fallback: string | undefined) =>
  textField(aboutOf(meaning, 'text', fallback), (given, context): string => {
    const tidy = given.trim().replace(/\s+/gu, ' ');
    if (tidy === '') refuseText(context, '', 'some words', 'write them, or leave the key out');
    if (/[\p{Cc}\u200b-\u200f\u2028-\u202e\u2060-\u2069]/u.test(tidy))
      refuseText(context, 'hidden characters', 'printable text', 'type the text again');
    if (tidy.length > longest)
      refuseText(context, `${tidy.length} characters`, `at most ${longest} characters`, 'shorten it');
    return tidy;
  });

/** One of a few words; case does not matter. */
export const oneOf = <const Words extends readonly string[]>(meaning: string, known: Words, fallback?: string) =>
  textField(
    aboutOf(meaning, known.join(' | '), fallback),
    (given, context): Words[number] => wordOf(given, known, context) ?? z.NEVER,
  );

/** The known word that was written; undefined after it was refused. */
function wordOf<Words extends readonly string[]>(
  given: string,
  known: Words,
  context: Context,
): Words[number] | undefined {
  const tidy = given.trim().toLowerCase().replace(/\s+/gu, ' ');
  const hit = known.find((word) => word.toLowerCase() === tidy);
  if (hit !== undefined) return hit;
  const near = suggestName(tidy, known);
  refuseText(
    context,
    tidy === '' ? 'nothing' : given,
    `one of: ${known.join(', ')}`,
    near === undefined ? 'use one of these words' : `did you mean "${near}"?`,
  );
  return undefined;
}

/** Yes or no. */
export const flag = (meaning: string, fallback: string) =>
  textField(
    aboutOf(meaning, 'yes | no', fallback),
    (given, context): boolean => wordOf(given, ['yes', 'no'], context) === 'yes',
  );

/** Text of a form of its own, read by `read`, which answers with a value or undefined. */
export const form = <Value>(
  meaning: string,
  shape: string,
  read: (text: string) => Value | undefined,
  fallback?: string,
) =>
  textField(aboutOf(meaning, shape, fallback), (given, context): Value => {
    const value = read(given.trim());
    if (value !== undefined) return value;
    refuseText(context, given, shape, `write it as ${shape}`);
    return z.NEVER;
  });

/** A field with a reader of its own that answers or refuses. */
export const resultForm = <Value>(
  meaning: string,
  shape: string,
  read: (text: string) => Result<Value>,
  fallback?: string,
) => quantity(read, aboutOf(meaning, shape, fallback));

/**
 * A map with known keys. A key that is not known is refused and the nearest known one named (the message carries the known
 * keys; read/issues.ts makes the sentence).
 */
export function section<Shape extends z.ZodRawShape>(about: About | string, shape: Shape) {
  const map = z.strictObject(shape, {
    error: (issue) => (issue.code === 'unrecognized_keys' ? Object.keys(shape).join('\n') : undefined),
  });
  return described(map, typeof about === 'string' ? { meaning: about } : about);
}

const anyName = z.string();

/** A map from names of the user's own to entries of one kind. */
export const named = <Entry extends z.ZodType>(meaning: string, entry: Entry, most: number) =>
  described(
    z.record(anyName, entry).superRefine((map, context) => {
      const names = Object.keys(map);
      if (names.length > most)
        context.addIssue({
          code: 'custom',
          message: `${names.length} entries are too many`,
          params: { wanted: `at most ${most}`, tryThis: 'take some out' },
        });
    }),
    { meaning, unit: 'names of your own, each with' },
  );

const fewEntries = <Entry extends z.ZodType>(entry: Entry, most: number) =>
  z.array(entry).check(z.minLength(1), z.maxLength(most));

/** A list of one kind. */
export const listOf = <Entry extends z.ZodType>(about: About | string, entry: Entry, most: number) =>
  described(fewEntries(entry, most), typeof about === 'string' ? { meaning: about } : about);

/** A single entry or a list of them; always a list afterwards. */
export const oneOrMore = <Entry extends z.ZodType>(meaning: string, entry: Entry, most: number) =>
  described(z.union([fewEntries(entry, most), entry.transform((value): z.output<Entry>[] => [value])]), {
    meaning,
    unit: 'one or a list',
  });

function aboutOf(meaning: string, unit: string, fallback: string | undefined): About {
  return { meaning, unit, ...(fallback === undefined ? {} : { default: fallback }) };
}
