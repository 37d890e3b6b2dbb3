/**
 * What a topic of `reckon` is: its name, its flags, an example, and how its answer is made. Topics only read flags, ask the
 * shop arithmetic and put the answer into words; they reckon nothing themselves.
 */
import { answer, type Result, refuse } from '../../shop/refusal.ts';
import type { LengthUnit } from '../../shop/units.ts';

/** One flag that takes a value. */
export interface TopicFlag {
  readonly name: string;
  /** What is written behind it, with its unit: `LENGTH`, `ANGLE`, `RPM,RPM,…`. */
  readonly value: string;
  /** What it means, with its default. */
  readonly meaning: string;
  /** The flags that it belongs to: without one of them it would be passed over. */
  readonly with?: readonly string[];
}

/** A number, or a list of the same, as `--json` writes it; field names carry the unit. */
export type Field = number | string | boolean | null | readonly Field[] | { readonly [name: string]: Field };

/** An answer in words and in numbers. */
export interface TopicAnswer {
  /** One plain sentence or line. */
  readonly text: string;
  /** How it comes about, in a line or two, and what must be said with it. */
  readonly working: readonly string[];
  /** Every number, unrounded; rounded by unit when it is written. */
  readonly fields: { readonly [name: string]: Field };
}

/** The flags as given, and the unit for bare lengths and for the answer. */
export interface Asked {
  readonly given: ReadonlyMap<string, string>;
  readonly unit: LengthUnit;
}

/** One thing that `reckon` answers. */
export interface Topic {
  readonly name: string;
  readonly summary: string;
  readonly flags: readonly TopicFlag[];
  /** Flags that must be there: of each list at least one. */
  readonly needs: readonly (readonly string[])[];
  /** Flags that contradict each other: of each list at most one. */
  readonly apart?: readonly (readonly string[])[];
  /** A line that works, without the program's name. */
  readonly example: string;
  readonly run: (asked: Asked) => Result<TopicAnswer>;
}

/** Reads the text of a flag; the unit is that of a bare length. */
export type Reader<Value> = (text: string, unit: LengthUnit) => Result<Value>;

/** The value of a flag that the topic's `needs` has made sure of; a refusal names the flag. */
export const read = <Value>(asked: Asked, flag: string, reader: Reader<Value>): Result<Value> =>
  namedAs(flag, reader(asked.given.get(flag) ?? '', asked.unit));

/** The value of a flag, or a default when it was not given. */
export const readOr = <Value, Other>(asked: Asked, flag: string, reader: Reader<Value>, otherwise: Other) =>
  asked.given.has(flag) ? read(asked, flag, reader) : answer<Value | Other>(otherwise);

/** The value of a flag, or `undefined` when it was not given. */
export const readIf = <Value>(asked: Asked, flag: string, reader: Reader<Value>): Result<Value | undefined> =>
  readOr(asked, flag, reader, undefined);

const namedAs = <Value>(flag: string, result: Result<Value>): Result<Value> =>
  result.ok ? result : refuse({ ...result.problem, what: `--${flag}` });

/**
 * Goes on with the values of several results at once; the first refusal in their order otherwise.
 *
 * Example: `withAll({ rpm: spindleSpeed(v, d), feed: feedPerTurn(d) }, ({ rpm, feed }) => ...)`.
 */
export function withAll<Values extends Readonly<Record<string, unknown>>, Next>(
  results: { readonly [Key in keyof Values]: Result<Values[Key]> },
  next: (values: Values) => Result<Next>,
): Result<Next> {
  const values: Partial<Record<keyof Values, unknown>> = {};
  for (const key of Object.keys(results) as (keyof Values)[]) {
    const result = results[key];
    if (!result.ok) return result;
    values[key] = result.value;
  }
  return next(values as Values);
}
