/** Readers of flag texts that more than one topic uses. All refuse with the allowed form named. */

import { parseDiameter, parseLength } from '../../shop/parse-length.ts';
import {
  parseAngle,
  parseCount,
  parseDuration,
  parseFeed,
  parsePercent,
  parseSpindleSpeed,
} from '../../shop/parse-quantity.ts';
import type { Position } from '../../shop/patterns.ts';
import { asRpm, type Mm } from '../../shop/quantities.ts';
import { ALLOWANCE, COUNT, LENGTH, POINT_ANGLE, POSITIVE_LENGTH } from '../../shop/ranges.ts';
import { andThen, answer, type Range, type Result, refuse } from '../../shop/refusal.ts';
import type { SpindleSpeeds } from '../../shop/speeds.ts';
import type { LengthUnit } from '../../shop/units.ts';
import type { Reader } from './topic.ts';

const lengthIn =
  (range: Range): Reader<Mm> =>
  (text, unit) =>
    parseLength(text, unit, range);

/** A length above 0. */
export const positiveLength = lengthIn(POSITIVE_LENGTH);
/** A length that may be negative: a coordinate, a move. */
export const signedLength = lengthIn(LENGTH);
/** A length from 0 on: kerf, allowance, tip. */
export const allowance = lengthIn(ALLOWANCE);
/** A diameter of a tool or hole, drills by name included. */
export const diameter: Reader<Mm> = parseDiameter;
/** An angle within one turn. */
export const angle = (text: string) => parseAngle(text);
/** The included angle of a point. */
export const pointAngle = (text: string) => parseAngle(text, POINT_ANGLE);
/** A whole number from 1 on. */
export const wholeNumber = (text: string) => parseCount(text, { ...COUNT, from: 1 });
/** A percentage. */
export const percent = (text: string) => parsePercent(text);
/** A time with its unit. */
export const duration = (text: string) => parseDuration(text);
/** Turns a minute. */
export const spindleSpeedText = (text: string) => parseSpindleSpeed(text);
/** Feed of one turn. */
export const turnFeed: Reader<Mm> = (text, unit) => parseFeed(text, 'rev', unit);
/** Feed of one tooth. */
export const toothFeed: Reader<Mm> = (text, unit) => parseFeed(text, 'tooth', unit);
/** Text as it is. */
export const plainText = (text: string): Result<string> => answer(text);

/** One of several words; case does not count. */
export const oneOf =
  <Word extends string>(words: readonly Word[]): Reader<Word> =>
  (text) => {
    const found = words.find((word) => word.toLowerCase() === text.trim().toLowerCase());
    return found === undefined
      ? refuse({ what: 'word', found: `"${text}"`, allowed: words.join(', '), remedy: 'choose one of them' })
      : answer(found);
  };

/** The readings of all parts of a text, or the first refusal. */
export function readEach<Value>(
  parts: readonly string[],
  reader: (part: string) => Result<Value>,
): Result<readonly Value[]> {
  const values: Value[] = [];
  for (const part of parts) {
    const result = reader(part);
    if (!result.ok) return result;
    values.push(result.value);
  }
  return answer(values);
}

/** How a spindle turns back. */
export const REVERSES = ['at once', 'after stopping', 'never'] as const;

/** Speeds that a machine has: steps `90,150,240`, or a range `100 to 2000`. */
export function spindleSpeeds(text: string): Result<SpindleSpeeds> {
  const ends = text.split(/\s+to\s+/u);
  if (ends.length === 2) {
    return andThen(readEach(ends, spindleSpeedText), ([slowest, fastest]) =>
      answer<SpindleSpeeds>({ kind: 'range', slowest: slowest ?? asRpm(0), fastest: fastest ?? asRpm(0) }),
    );
  }
  return andThen(readEach(text.split(','), spindleSpeedText), (steps) =>
    answer<SpindleSpeeds>({ kind: 'steps', steps }),
  );
}

/** A list of lengths with a comma between them: `600 mm, 1000 mm`. */
export const lengthList: Reader<readonly Mm[]> = (text, unit) =>
  readEach(text.split(','), (part) => positiveLength(part, unit));

/** Points as `X,Y` with a semicolon between them: `10,5; 30,5`. */
export const points: Reader<readonly Position[]> = (text, unit) =>
  readEach(text.split(';'), (part) => onePoint(part, unit));

/** A single point `X,Y`. */
export const point: Reader<Position> = (text, unit) => onePoint(text, unit);

function onePoint(text: string, unit: LengthUnit): Result<Position> {
  const parts = text.split(',');
  const form = {
    what: 'point',
    found: `"${text.trim()}"`,
    allowed: 'X,Y such as 10,5 or 1/2 in,1.5 in',
    remedy: 'write X, a comma, Y; a semicolon between points',
  };
  if (parts.length !== 2) return refuse(form);
  return andThen(
    readEach(parts, (part) => signedLength(part, unit)),
    ([x, y]) => (x === undefined || y === undefined ? refuse(form) : answer({ x, y })),
  );
}

/** A length with how often: `3 x 480 mm`; the number may be left out where `many` says what that means. */
export interface CountedLength {
  readonly length: Mm;
  readonly count?: number;
}

/** A list of `COUNT x LENGTH` with commas between them: `3 x 480 mm, 4 x 250 mm`; a length alone has no count. */
export const countedLengths: Reader<readonly CountedLength[]> = (text, unit) =>
  readEach(text.split(','), (part) => {
    const [, times, length = ''] = /^\s*(?:(\d+)\s*x\s+)?(.*)$/u.exec(part) ?? [];
    return andThen(positiveLength(length, unit), (mm) =>
      times === undefined
        ? answer<CountedLength>({ length: mm })
        : andThen(wholeNumber(times), (count) => answer<CountedLength>({ length: mm, count })),
    );
  });

/** The flag of a list of points. */
export const POINTS_FLAG = {
  name: 'points',
  value: 'X,Y; X,Y; …',
  meaning: 'points with semicolons between them: "10,5; 30,5"',
};
