/**
 * How shop arithmetic says no. A function whose question has no sensible answer (a point angle of 180 degrees, a drill of
 * 400 mm, text that is not a length) returns a refusal that names the value, what is allowed and what to do; it never
 * answers with NaN or Infinity and never throws for a bad input.
 */

/** Why a question was not answered, in parts that a screen or a message can arrange. */
export interface Refusal {
  /** The quantity meant, such as `tool diameter`. */
  readonly what: string;
  /** The value as it was given, with its unit where it has one: `400 mm`. */
  readonly found: string;
  /** The allowed range or form: `above 0 mm, at most 250 mm`. */
  readonly allowed: string;
  /** What to do about it, as an order without a full stop. */
  readonly remedy: string;
}

/** An answer, or the reason why there is none. */
export type Result<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly problem: Refusal };

/** Wraps an answer. `answer(3)` is `{ ok: true, value: 3 }`. */
export const answer = <Value>(value: Value): Result<Value> => ({ ok: true, value });

/** Wraps a refusal. `refuse({ what, found, allowed, remedy })` is `{ ok: false, problem }`. */
export const refuse = (problem: Refusal): { readonly ok: false; readonly problem: Refusal } => ({ ok: false, problem });

/**
 * One line of text for a refusal.
 *
 * Example: `tool diameter 400 mm: allowed is above 0 mm, at most 250 mm; check the diameter and its unit`.
 */
export function formatRefusal(problem: Refusal): string {
  return `${problem.what} ${problem.found}: allowed is ${problem.allowed}; ${problem.remedy}`;
}

/**
 * Carries an answer on to the next question; a refusal goes through untouched.
 *
 * Example: `andThen(parseLength('10 mm', 'mm'), (d) => pointLength(d, asDegrees(118)))`.
 */
export function andThen<From, To>(result: Result<From>, next: (value: From) => Result<To>): Result<To> {
  return result.ok ? next(result.value) : result;
}

/**
 * The answer of a question that cannot be refused here, because its inputs were checked before or come from a table.
 *
 * @throws a bug (`Error`) when it was refused after all: the caller broke its own promise.
 */
export function sureOf<Value>(result: Result<Value>): Value {
  if (!result.ok) throw new Error(`refused where an answer was certain: ${formatRefusal(result.problem)}`);
  return result.value;
}

/**
 * A table row that must be there, because the question was checked before it was looked up.
 *
 * @throws a bug (`Error`) when it is not.
 */
export function sureRow<Row>(row: Row | undefined): Row {
  if (row === undefined) throw new Error('no table row where one was certain');
  return row;
}

/** The range in which a quantity makes sense. `above`/`below` exclude their end, `from`/`upTo` include it. */
export interface Range {
  readonly what: string;
  /** Unit written behind the number, empty for a plain number. */
  readonly unit: string;
  readonly above?: number;
  readonly from?: number;
  readonly upTo?: number;
  readonly below?: number;
  readonly remedy: string;
}

/**
 * A refusal when a value is not a finite number inside its range, `undefined` when it is fine.
 *
 * Example: `refuseOutside(180, { what: 'point angle', unit: 'deg', above: 0, below: 180, remedy: '…' })` names 180 deg.
 */
export function refuseOutside(value: number, range: Range): Refusal | undefined {
  const inside =
    Number.isFinite(value) &&
    !(range.above !== undefined && value <= range.above) &&
    !(range.from !== undefined && value < range.from) &&
    !(range.upTo !== undefined && value > range.upTo) &&
    !(range.below !== undefined && value >= range.below);
  if (inside) return undefined;
  return {
    what: range.what,
    found: withUnit(shortNumber(value), range.unit),
    allowed: formatRange(range),
    remedy: range.remedy,
  };
}

/**
 * Computes only when every check passed; otherwise the first refusal. Checks are the results of `refuseOutside`.
 *
 * Example: `whenSound([refuseOutside(d, TOOL_DIAMETER)], () => Math.PI * d)`.
 */
export function whenSound<Value>(checks: readonly (Refusal | undefined)[], compute: () => Value): Result<Value> {
  const problem = checks.find((check) => check !== undefined);
  return problem === undefined ? answer(compute()) : refuse(problem);
}

/** The allowed range in words: `above 0 deg, below 180 deg`. */
export function formatRange(range: Range): string {
  const ends: string[] = [];
  if (range.above !== undefined) ends.push(`above ${withUnit(shortNumber(range.above), range.unit)}`);
  if (range.from !== undefined) ends.push(`from ${withUnit(shortNumber(range.from), range.unit)}`);
  if (range.upTo !== undefined) ends.push(`at most ${withUnit(shortNumber(range.upTo), range.unit)}`);
  if (range.below !== undefined) ends.push(`below ${withUnit(shortNumber(range.below), range.unit)}`);
  return ends.length === 0 ? 'any finite number' : ends.join(', ');
}

const withUnit = (text: string, unit: string): string => (unit === '' ? text : `${text} ${unit}`);

/** Nine significant figures: hides what binary fractions add, keeps all that anyone measured. */
const shortNumber = (value: number): string => String(Number(value.toPrecision(9)));
