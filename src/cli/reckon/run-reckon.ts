/**
 * `millside reckon TOPIC …`: one piece of shop arithmetic answered at the command line. The answer goes to `out`, as a line with
 * its working or as JSON (`"format": 1`); refusals and mistakes of usage go to `err`.
 */

import { parseArgs } from 'node:util';
import { plainLine } from '../../report/neutral-text.ts';
import { formatRefusal } from '../../shop/refusal.ts';
import { suggestNames } from '../../shop/suggest-name.ts';
import type { LengthUnit } from '../../shop/units.ts';

import { exitCodes } from '../exit-codes.ts';
import { helpOfTopic, helpOfTopics } from './reckon-help.ts';
import type { Field, Topic, TopicAnswer } from './topic.ts';
import { topics } from './topics.ts';
import { inchTwin, roundField } from './words.ts';

/** Where the answer and the words about it go. */
export interface ReckonIo {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
}

/**
 * Answers one question.
 *
 * @param args the words after `reckon`. @returns exit code: 0 answered (or help), 1 refused, 64 usage.
 *
 * Example: `runReckon(['fit', '--size', '20 mm', '--zone', 'H7'], io)` writes `20 mm H7: 0 to +21 um, …` and returns 0.
 */
export function runReckon(args: readonly string[], io: ReckonIo): number {
  const [name, ...rest] = args;
  if (name === undefined || name === '--help' || name === '-h') {
    (name === undefined ? io.err : io.out)(helpOfTopics(topics));
    return name === undefined ? exitCodes.usage : exitCodes.done;
  }
  const topic = topics.find((one) => one.name === name);
  if (topic === undefined) return unknownTopic(name, io);
  if (rest.includes('--help') || rest.includes('-h')) {
    io.out(helpOfTopic(topic));
    return exitCodes.done;
  }
  return runTopic(topic, rest, io);
}

function unknownTopic(name: string, io: ReckonIo): number {
  const names = topics.map((one) => one.name);
  const near = suggestNames(name, names);
  const hint = near.length > 0 ? `nearest: ${near.join(', ')}` : `topics: ${names.join(', ')}`;
  io.err(`millside reckon: no topic "${plainLine(name)}"; ${hint}. See millside reckon --help.\n`);
  return exitCodes.usage;
}

function runTopic(topic: Topic, args: readonly string[], io: ReckonIo): number {
  const words = readWords(topic, args);
  const usage = typeof words === 'string' ? words : complaintAboutFlags(topic, words.given);
  if (typeof words === 'string' || usage !== undefined) {
    io.err(`millside reckon ${topic.name}: ${plainLine(usage ?? '')}. See millside reckon ${topic.name} --help.\n`);
    return exitCodes.usage;
  }
  const result = topic.run({ given: words.given, unit: words.unit });
  if (!result.ok) {
    io.err(`millside reckon ${topic.name}: ${plainLine(formatRefusal(result.problem))}\n`);
    return exitCodes.refused;
  }
  io.out(words.json ? jsonOf(topic, result.value, words.unit) : textOf(result.value));
  return exitCodes.done;
}

interface Words {
  readonly given: ReadonlyMap<string, string>;
  readonly unit: LengthUnit;
  readonly json: boolean;
}

/** The flags of a topic, or what is wrong with them. */
function readWords(topic: Topic, args: readonly string[]): Words | string {
  const names = [...topic.flags.map((flag) => flag.name), 'units'];
  const options = {
    ...Object.fromEntries(names.map((name) => [name, { type: 'string' } as const])),
    json: { type: 'boolean' } as const,
  };
  const { tokens } = parseArgs({
    args: joinNegativeValues(args, names),
    options,
    strict: false,
    allowPositionals: true,
    tokens: true,
  });
  const given = new Map<string, string>();
  for (const token of tokens) {
    if (token.kind === 'option-terminator') continue;
    if (token.kind === 'positional') return `does not know what to do with "${token.value}"`;
    const complaint = complaintAbout(token, names, given);
    if (complaint !== undefined) return complaint;
    given.set(token.name, token.value ?? '');
  }
  const units = given.get('units');
  if (units !== undefined && units !== 'mm' && units !== 'inch') return `--units is mm or inch, not "${units}"`;
  return { given, unit: units ?? unitOf(given), json: given.has('json') };
}

function complaintAbout(
  token: { readonly name: string; readonly rawName: string; readonly value: string | undefined },
  names: readonly string[],
  given: ReadonlyMap<string, string>,
): string | undefined {
  if (!names.includes(token.name) && token.name !== 'json') {
    const near = suggestNames(token.name, [...names, 'json']);
    return `no flag ${token.rawName}${near.length > 0 ? `; nearest: ${near.map((one) => `--${one}`).join(', ')}` : ''}`;
  }
  if (given.has(token.name)) return `${token.rawName} is given twice`;
  const isBare = token.value === undefined;
  if (token.name === 'json') return isBare ? undefined : '--json takes no value';
  return isBare || token.value === '' ? `${token.rawName} wants a value` : undefined;
}

/** `--x -5` as `--x=-5`: a value that begins with a minus is a value, not a flag. */
function joinNegativeValues(args: readonly string[], names: readonly string[]): string[] {
  const joined: string[] = [];
  for (const word of args) {
    const before = joined.at(-1);
    const isValue = before !== undefined && names.some((name) => before === `--${name}`);
    if (isValue && /^-[\d.]/u.test(word)) joined[joined.length - 1] = `${before}=${word}`;
    else joined.push(word);
  }
  return joined;
}

/** Flags whose text names a thing, not a length: `ISO 2009/7046` or `H7/g6` asks for no unit. */
const NAMES: readonly string[] = ['head', 'basis', 'zone', 'material', 'cutting-speed'];
const INCHES = /\d ?(?:in|inch|inches|")(?![a-z])|\d\/\d+\s*$|\bno\. ?\d|#\d/iu;
/** A thread or screw of an inch series: it begins with a number, and is not BA. */
const INCH_THREAD = /^\s*(?:no\b|#|\.|\d)(?!.*b\.?a\.?\s*$)/iu;

/** The unit of bare lengths and of the answer where `--units` says nothing: inch when a value is written in inches. */
function unitOf(given: ReadonlyMap<string, string>): LengthUnit {
  const speaksInches = [...given].some(([flag, text]) =>
    flag === 'thread' || flag === 'screw' ? INCH_THREAD.test(text) : !NAMES.includes(flag) && INCHES.test(text),
  );
  return speaksInches ? 'inch' : 'mm';
}

/** What is wrong with the flags together: some missing, two that contradict each other, one that nothing would read. */
function complaintAboutFlags(topic: Topic, given: ReadonlyMap<string, string>): string | undefined {
  const at = (flags: readonly string[]): readonly string[] => flags.filter((flag) => given.has(flag));
  const clash = topic.apart?.map(at).find((flags) => flags.length > 1);
  if (clash !== undefined) return `${clash.map((flag) => `--${flag}`).join(' and ')} do not go together`;
  const idle = topic.flags.find(
    (flag) => given.has(flag.name) && flag.with !== undefined && at(flag.with).length === 0,
  );
  if (idle !== undefined) return `--${idle.name} goes with ${idle.with?.map((flag) => `--${flag}`).join(' or ')}`;
  return missingFlags(topic, given);
}

function missingFlags(topic: Topic, given: ReadonlyMap<string, string>): string | undefined {
  const missing = topic.needs.filter((one) => !one.some((flag) => given.has(flag)));
  const words = missing.map((one) => one.map((flag) => `--${flag}`).join(' or '));
  return words.length === 0 ? undefined : `wants ${words.join(', ')}`;
}

const textOf = ({ text, working }: TopicAnswer): string =>
  `${[text, ...working.map((line) => `  ${line}`)].join('\n')}\n`;

function jsonOf(topic: Topic, { fields }: TopicAnswer, unit: LengthUnit): string {
  const rounded = Object.entries(fields).flatMap(([name, field]) => withTwin(name, field, unit));
  return `${JSON.stringify({ format: 1, topic: topic.name, ...Object.fromEntries(rounded) }, null, 2)}\n`;
}

/** A field rounded by its unit, with its inch twin beside it when the question was asked in inches. */
function withTwin(name: string, field: Field, unit: LengthUnit): readonly (readonly [string, Field])[] {
  if (typeof field === 'number') {
    const twin = unit === 'inch' && name.endsWith('_mm') ? [inchTwin(name, field)] : [];
    return [[name, roundField(name, field)], ...twin];
  }
  return [[name, roundWithin(name, field, unit)]];
}

function roundWithin(name: string, field: Field, unit: LengthUnit): Field {
  if (typeof field === 'number') return roundField(name, field);
  if (Array.isArray(field)) return field.map((one: Field) => roundWithin(name, one, unit));
  if (typeof field !== 'object' || field === null) return field;
  return Object.fromEntries(Object.entries(field).flatMap(([key, one]: [string, Field]) => withTwin(key, one, unit)));
}
