/**
 * By how much a target is corrected, for which holes and operations, and why. The way is asked in words, never by a sign: a
 * target below zero measured too long goes up, one above zero goes down, and a head over a vice gets one of them wrong.
 */
import { placeAt } from '../../batch/flow.ts';
import { judgeCorrection } from '../../batch/questions/correction-doubts.ts';
import { type SameHoles, sameHolesLater } from '../../batch/questions/same-holes.ts';
import type { Batch } from '../../batch/state.ts';
import { asMm } from '../../shop/quantities.ts';
import { inchesToMm } from '../../shop/units.ts';
import { type Choice, type Next, parseTyped, type Step } from '../flow/flow.ts';
import { lengthWithUnit } from '../moments/axis-text.ts';
import { operationOf } from '../moments/place-names.ts';
import { becauseOptions, choice, close, open, send } from './steps.ts';

/** An axis of the stop in hand, in mm: where it is wound to now, and what the part should read by the plan. */
export type Correctable = {
  readonly axis: 'x' | 'y' | 'z' | 'stop';
  readonly label: string;
  readonly now: number;
  /** Null where a size on the part is not the number wound to: a line cut stands off by the cutter. */
  readonly nominal: number | null;
  /** Position of the cut in its operation. */
  readonly cut: number;
  /** Position of the hole in hand where it is one of several that can be corrected alone. */
  readonly hole: number | null;
  readonly isLine: boolean;
};

/** What is known of a correction on its way to the reason. */
type Asked = {
  readonly one: Correctable;
  readonly by: number;
  readonly reading: number | null;
  /** The one hole that it is of; undefined: all. */
  readonly point?: number;
  readonly also: readonly SameHoles[];
};

/** The two ways of each axis: up in its number, then down. */
const ways = {
  x: ['to the right', 'to the left'],
  y: ['away from you', 'towards you'],
  z: ['less deep', 'deeper'],
  stop: ['longer', 'shorter'],
} as const;

/** Which way it must go; then by how much. */
export function wayStep(batch: Batch, one: Correctable): Step {
  const prompts = { x: 'MUST GO', y: 'MUST GO', z: 'MUST GET', stop: 'MUST GET' } as const;
  const what = one.axis === 'stop' ? 'THE PIECES' : one.isLine ? 'THE CUT' : 'THE HOLE';
  const [up, down] = ways[one.axis];
  const option = (way: string, sign: 1 | -1): Choice => ({
    label: `${way}${zeroWords(one, sign)}`,
    next: open(amountEntry(batch, one, { way, sign })),
  });
  const now = `${one.label} is ${lengthWithUnit(asMm(one.now), batch.plan.units)} now.`;
  return choice(`${what} ${prompts[one.axis]}`, [option(up, 1), option(down, -1)], [now]);
}

/** ", nearer the zero": what is measured from it reads less. */
function zeroWords({ axis, now }: Correctable, sign: 1 | -1): string {
  if (now === 0 || axis === 'z' || axis === 'stop') return '';
  return sign * now < 0 ? ', nearer the zero' : ', farther from the zero';
}

function amountEntry(
  batch: Batch,
  one: Correctable,
  { way, sign }: { readonly way: string; readonly sign: 1 | -1 },
): Step {
  const example = batch.plan.units === 'inch' ? '.003' : '0.06';
  return {
    kind: 'entry',
    prompt: `${way.toUpperCase()} BY HOW MUCH, ${unitOf(batch)}?`,
    about: [
      `The plain amount, such as ${example}: the way is said already.`,
      'The target changes from now on; it can be taken back like a count.',
    ],
    entry: 'number',
    onEmpty: close,
    take: (text) => {
      if (/^[+-]/.test(text)) return 'no sign: the way is said already';
      const value = parseTyped(text);
      if (typeof value === 'string') return value;
      return value === 0 ? 'nothing would change' : correctionNext(batch, one, sign * toMm(batch, value), null);
    },
  };
}

/**
 * What follows on an amount in mm: which holes, which later operations, the doubts, the reason. One that cannot be meant of
 * the hole in hand is refused at once, with the numbers.
 */
export function correctionNext(batch: Batch, one: Correctable, by: number, reading: number | null): Next | string {
  const point = one.hole ?? undefined;
  const { refusal } = judgeCorrection(batch, one.axis, by, reading, { point });
  return refusal ?? holesNext(batch, { one, by, reading, also: [] });
}

/** One hole or all of them: a fault of the zero moves all alike, a distance between holes that is off moves one. */
function holesNext(batch: Batch, asked: Asked): Next {
  const { one } = asked;
  const { hole } = one;
  const points = cutOf(batch, one)?.points ?? [];
  const name = hole === null ? undefined : points[hole]?.name;
  if (hole === null || name === undefined) return alsoNext(batch, asked);
  const options: readonly Choice[] = [
    { label: `only this hole, ${name}, of every piece`, next: later(() => alsoNext(batch, { ...asked, point: hole })) },
    { label: `${holesText(points.length)} of this operation alike`, next: later(() => alsoNext(batch, asked)) },
  ];
  return open(choice('WHICH HOLES?', options, [becomesWords(batch, asked)]));
}

const later = (next: () => Next): Next => ({ kind: 'later', next });

/** Later operations that come to the same holes by the same zero. */
function alsoNext(batch: Batch, asked: Asked): Next {
  const { one, point } = asked;
  const isPlace = one.axis === 'x' || one.axis === 'y';
  const same = isPlace ? sameHolesLater(batch, one.cut, point ?? null) : [];
  if (same.length === 0) return becauseNext(batch, asked);
  const named = [...new Set(same.map((there) => there.operation))];
  const titles = named.map((number) => `op ${number} ${operationOf(batch.plan, number)?.title ?? ''}`.trim());
  const options: readonly Choice[] = [
    { label: `yes, also ${opsText(same)}`, next: later(() => becauseNext(batch, { ...asked, also: same })) },
    { label: 'no, only here', next: later(() => becauseNext(batch, asked)) },
  ];
  return open(
    choice('THERE AS WELL?', options, [`To the same ${point === undefined ? 'holes' : 'hole'}: ${titles.join('; ')}.`]),
  );
}

/**
 * Shows what the target becomes and where, and asks why; only then it is sent. One that is larger than corrections usually
 * are wants a second answer, on which Enter alone is no.
 */
function becauseNext(batch: Batch, asked: Asked): Next {
  const { one, by, reading, point, also } = asked;
  const { axis } = one;
  const holes = { ...(point === undefined ? {} : { point }), ...(also.length === 0 ? {} : { also: [...also] }) };
  const { refusal, doubts } = judgeCorrection(batch, axis, by, reading, holes);
  const again: Choice = { label: 'no: give it again', next: open(wayStep(batch, one)) };
  if (refusal !== null) return open(choice('NOT TAKEN', [{ ...again, label: 'give it again' }], [asSentence(refusal)]));
  const about = [becomesWords(batch, asked), ...whereWords(batch, asked)];
  const why = choice(
    'WHY?',
    becauseOptions((reason) => send({ kind: 'correct', axis, by, reading, reason, ...holes })),
    about,
  );
  if (doubts.length === 0) return open(why);
  const options: readonly Choice[] = [again, { label: 'yes, it is meant', next: open(why) }];
  return open(choice('A LARGE CORRECTION', options, [...about, ...doubts.map(asSentence)]));
}

/** "Y: -15.00 mm becomes -14.94 mm (+0.06 mm)". */
function becomesWords(batch: Batch, { one, by }: Asked): string {
  const text = (length: number): string => lengthWithUnit(asMm(length), batch.plan.units);
  return `${one.label}: ${text(one.now)} becomes ${text(one.now + by)} (${by > 0 ? '+' : ''}${text(by)})`;
}

/** Which holes it is of, where there are several, and in which operations; nothing where there is no other. */
function whereWords(batch: Batch, { one, point, also }: Asked): readonly string[] {
  const points = cutOf(batch, one)?.points ?? [];
  const name = point === undefined ? undefined : points[point]?.name;
  const holes = name !== undefined ? `only ${name}` : points.length > 1 ? holesText(points.length) : '';
  const there = also.length === 0 ? '' : `also ${opsText(also)}`;
  const words = [holes, there].filter((word) => word !== '').join(', ');
  return words === '' ? [] : [`${asSentence(words)}.`];
}

/** "op 70, 80". */
const opsText = (same: readonly SameHoles[]): string =>
  `op ${[...new Set(same.map((there) => there.operation))].join(', ')}`;

/** "both holes", "all 5 holes". */
const holesText = (holes: number): string => (holes === 2 ? 'both holes' : `all ${holes} holes`);

const cutOf = (batch: Batch, { cut }: Correctable) =>
  batch.current === null ? undefined : placeAt(batch, batch.current).operation.cuts[cut];

const asSentence = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

/** The unit that lengths are typed in. */
export const unitOf = (batch: Batch): string => (batch.plan.units === 'inch' ? 'in' : 'mm');
/** A typed length in mm. */
export const toMm = (batch: Batch, value: number): number => (batch.plan.units === 'inch' ? inchesToMm(value) : value);
