/** Correcting a target at the machine: which axis, and what it reads or which way it must go. */
import { inHandAt, placeAt } from '../../batch/flow.ts';
import { correctedBy } from '../../batch/questions/corrections.ts';
import type { Batch } from '../../batch/state.ts';
import { asMm } from '../../shop/quantities.ts';
import { type Choice, parseTyped, type Step } from '../flow/flow.ts';
import { lengthWithUnit } from '../moments/axis-text.ts';
import { type Target, targetAt } from '../moments/targets.ts';
import { type Correctable, correctionNext, toMm, unitOf, wayStep } from './correct-amount.ts';
import { choice, close, open } from './steps.ts';

/** Most that a reading may be off, in mm: more is a slip of the hand, such as the amount typed for the reading. */
const mostByReading = 1;

/** Only axes that the work in hand has a target on, each with its number as it is now. */
export function correctStep(batch: Batch): Step {
  const choices = correctables(batch).map(
    (one): Choice => ({
      label: `${one.label}, now ${lengthWithUnit(asMm(one.now), batch.plan.units)}`,
      next: open(one.nominal === null ? wayStep(batch, one) : readingEntry(batch, one, one.nominal)),
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

/** What it reads; Enter alone asks for the way and the amount instead. */
function readingEntry(batch: Batch, one: Correctable, nominal: number): Step {
  const { units } = batch.plan;
  const should = lengthWithUnit(asMm(Math.abs(nominal)), units);
  const from = one.axis === 'z' ? ' deep' : one.axis === 'stop' ? '' : ' from the zero';
  return {
    kind: 'entry',
    prompt: `WHAT DOES IT READ, ${unitOf(batch)}?`,
    about: [`By the plan it should read ${should}${from}.`, 'Enter alone: give the way and the amount instead.'],
    entry: 'number',
    onEmpty: open(wayStep(batch, one)),
    take: (text) => {
      const value = parseTyped(text);
      if (typeof value === 'string') return value;
      const reading = toMm(batch, value);
      const by = correctionFrom(reading, nominal, /^[+-]/.test(text));
      if (by === 0) return 'that is what it should read';
      if (Math.abs(by) > mostByReading)
        return `that is ${lengthWithUnit(asMm(Math.abs(by)), units)} off: read it again`;
      return correctionNext(batch, one, by, reading);
    },
  };
}

function correctables(batch: Batch): readonly Correctable[] {
  const target = targetInHand(batch);
  if (target === null || batch.current === null) return [];
  const { number } = placeAt(batch, batch.current).operation;
  const isLine = target.passes.length > 0;
  const holes = target.cut?.points ?? [];
  const at = target.point === null ? -1 : holes.indexOf(target.point);
  const hole = at < 0 ? null : at;
  const one = (axis: Correctable['axis'], label: string, now: number | null): readonly Correctable[] => {
    if (now === null) return [];
    const isOffset = isLine && (axis === 'x' || axis === 'y');
    const nominal = isOffset ? null : now - correctedBy(batch, number, target.stop.cut, axis, hole);
    // With one hole there is nothing to choose; a depth hangs on the tool and is that of all.
    const isOneOfSome = holes.length > 1 && (axis === 'x' || axis === 'y');
    return [{ axis, label, now, nominal, cut: target.stop.cut, hole: isOneOfSome ? hole : null, isLine }];
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
