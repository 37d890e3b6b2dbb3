/** Correcting a target at the machine: which axis, what it reads or by how much, why. */
import { inHandAt, placeAt } from '../../batch/flow.ts';
import { judgeCorrection } from '../../batch/questions/correction-doubts.ts';
import { correctedBy } from '../../batch/questions/corrections.ts';
import type { Batch } from '../../batch/state.ts';
import { asMm } from '../../shop/quantities.ts';
import { inchesToMm } from '../../shop/units.ts';
import { type Choice, type Next, parseTyped, type Step } from '../flow/flow.ts';
import { lengthWithUnit } from '../moments/axis-text.ts';
import { type Target, targetAt } from '../moments/targets.ts';
import { becauseOptions, choice, close, open, send } from './steps.ts';

/** An axis of the stop in hand, in mm: where it is wound to now, and what the part should read by the plan. */
type Correctable = {
  readonly axis: 'x' | 'y' | 'z' | 'stop';
  readonly label: string;
  readonly now: number;
  /** Null where a size on the part is not the number wound to: a line cut stands off by the cutter. */
  readonly nominal: number | null;
};

/** Most that a reading may be off, in mm: more is a slip of the hand, such as the amount typed for the reading. */
const mostByReading = 1;

/** Only axes that the work in hand has a target on, each with its number as it is now. */
export function correctStep(batch: Batch): Step {
  const choices = correctables(batch).map(
    (one): Choice => ({
      label: `${one.label}, now ${lengthWithUnit(asMm(one.now), batch.plan.units)}`,
      next: open(one.nominal === null ? amountEntry(batch, one) : readingEntry(batch, one, one.nominal)),
    }),
  );
  if (choices.length === 0) return choice('NOTHING IS WOUND TO HERE', [{ label: 'go back', next: close }]);
  return choice('CORRECT', choices);
}

/**
 * By how much a target changes in mm, from what the part reads and what it should read. A reading typed without a sign has
 * that of the nominal, for a depth is measured as a plain length. Measured against the plan's number, not against the target
 * as corrected so far: what was taken off before is in the reading already.
 * Example: a hole of 3.00 (z -3) that reads 3.06 is 0.06 too deep: +0.06, and z -3.00 becomes -2.94.
 */
export function correctionFrom(reading: number, nominal: number, isSigned: boolean): number {
  const signed = !isSigned && nominal < 0 ? -reading : reading;
  // Seven decimals of a millimetre: no more than the noise of binary fractions is lost.
  return Math.round((nominal - signed) * 1e7) / 1e7;
}

/** What it reads; Enter alone asks for the amount instead. */
function readingEntry(batch: Batch, one: Correctable, nominal: number): Step {
  const { units } = batch.plan;
  const should = lengthWithUnit(asMm(one.axis === 'z' ? Math.abs(nominal) : nominal), units);
  return {
    kind: 'entry',
    prompt: `WHAT DOES IT READ, ${unitOf(batch)}?`,
    about: [
      `By the plan it should read ${should}${one.axis === 'z' ? ' deep' : ''}.`,
      'Enter alone: give the amount instead.',
    ],
    entry: 'number',
    onEmpty: open(amountEntry(batch, one)),
    take: (text) => {
      const value = parseTyped(text);
      if (typeof value === 'string') return value;
      const reading = toMm(batch, value);
      const by = correctionFrom(reading, nominal, /^[+-]/.test(text));
      if (by === 0) return 'that is what it should read';
      if (Math.abs(by) > mostByReading)
        return `that is ${lengthWithUnit(asMm(Math.abs(by)), units)} off: read it again`;
      return becauseOf(batch, one, by, reading);
    },
  };
}

/** By how much, with its sign: a depth by words, for "deeper" is a smaller Z. */
function amountEntry(batch: Batch, one: Correctable): Step {
  const example = batch.plan.units === 'inch' ? '.003' : '0.06';
  const how =
    one.axis === 'z'
      ? `Too deep by ${example}: type ${example}. Not deep enough: -${example}.`
      : `Measures ${example} too much: type -${example}. Too little: ${example}.`;
  return {
    kind: 'entry',
    prompt: one.axis === 'z' ? `UP BY HOW MUCH, ${unitOf(batch)}` : `BY HOW MUCH, ${unitOf(batch)}`,
    about: [how, 'The target changes from now on; it can be taken back like a count.'],
    entry: 'number',
    onEmpty: close,
    take: (text) => {
      const value = parseTyped(text);
      return typeof value === 'string' ? value : becauseOf(batch, one, toMm(batch, value), null);
    },
  };
}

/**
 * Shows what the target becomes, and asks why; only then it is sent. One that cannot be meant is refused at once, and one
 * that is larger than corrections usually are wants a second answer, on which Enter alone is no.
 */
function becauseOf(batch: Batch, one: Correctable, by: number, reading: number | null): Next | string {
  const { axis, now, label } = one;
  const { refusal, doubts } = judgeCorrection(batch, axis, by, reading);
  if (refusal !== null) return refusal;
  const text = (length: number): string => lengthWithUnit(asMm(length), batch.plan.units);
  const becomes = `${label}: ${text(now)} becomes ${text(now + by)} (${by > 0 ? '+' : ''}${text(by)})`;
  const why = choice(
    'WHY?',
    becauseOptions((reason) => send({ kind: 'correct', axis, by, reading, reason })),
    [becomes],
  );
  if (doubts.length === 0) return open(why);
  const options: readonly Choice[] = [
    { label: 'no: give it again', next: open(amountEntry(batch, one)) },
    { label: 'yes, it is meant', next: open(why) },
  ];
  return open(choice('A LARGE CORRECTION', options, [becomes, ...doubts.map(asSentence)]));
}

const asSentence = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

const unitOf = (batch: Batch): string => (batch.plan.units === 'inch' ? 'in' : 'mm');
const toMm = (batch: Batch, value: number): number => (batch.plan.units === 'inch' ? inchesToMm(value) : value);

function correctables(batch: Batch): readonly Correctable[] {
  const target = targetInHand(batch);
  if (target === null || batch.current === null) return [];
  const { number } = placeAt(batch, batch.current).operation;
  const isLine = target.passes.length > 0;
  const one = (axis: Correctable['axis'], label: string, now: number | null): readonly Correctable[] => {
    if (now === null) return [];
    const isOffset = isLine && (axis === 'x' || axis === 'y');
    const nominal = isOffset ? null : now - correctedBy(batch, number, target.stop.cut, axis);
    return [{ axis, label, now, nominal }];
  };
  return [
    ...one('z', 'depth (Z)', target.z),
    ...one('x', 'X', target.x),
    ...one('y', 'Y', target.y),
    ...one('stop', 'stop length', target.length),
  ];
}

function targetInHand(batch: Batch): Target | null {
  if (batch.current === null) return null;
  const { stops, stop } = inHandAt(batch, batch.current);
  const here = stops[stop] ?? stops.at(-1);
  if (here === undefined) return null;
  const target = targetAt(batch, batch.current, here);
  const pass = target.passes.at(-1);
  if (pass === undefined) return target;
  const [fed, stands] = [pass.to, pass.stands];
  return { ...target, z: pass.z, x: pass.feed === 'x' ? fed : stands, y: pass.feed === 'y' ? fed : stands };
}
