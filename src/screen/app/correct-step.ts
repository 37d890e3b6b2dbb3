/** Correcting a target at the machine: which axis, by how much with its sign, why. */
import { inHandAt } from '../../batch/flow.ts';
import type { Batch } from '../../batch/state.ts';
import { asMm } from '../../shop/quantities.ts';
import { inchesToMm } from '../../shop/units.ts';
import { type Choice, parseTyped, type Step } from '../flow/flow.ts';
import { lengthWithUnit } from '../moments/axis-text.ts';
import { type Target, targetAt } from '../moments/targets.ts';
import { choice, close, open, reasonStep, send } from './steps.ts';

/** Only axes that the work in hand has a target on, each with its number as it is now. */
export function correctStep(batch: Batch): Step {
  const target = targetInHand(batch);
  const isInch = batch.plan.units === 'inch';
  const axis = (name: 'x' | 'y' | 'z' | 'stop', label: string, value: number | null): Choice[] =>
    value === null
      ? []
      : [
          {
            label: `${label}, now ${lengthWithUnit(asMm(value), batch.plan.units)}`,
            next: open(correctionEntry(isInch, name)),
          },
        ];
  const choices = [
    ...axis('z', 'depth (Z)', target?.z ?? null),
    ...axis('x', 'X', target?.x ?? null),
    ...axis('y', 'Y', target?.y ?? null),
    ...axis('stop', 'stop length', target?.length ?? null),
  ];
  return choice(choices.length === 0 ? 'NOTHING IS WOUND TO HERE' : 'CORRECT', choices);
}

/** By how much, with its sign: a depth by words, for "deeper" is a smaller Z. */
function correctionEntry(isInch: boolean, name: 'x' | 'y' | 'z' | 'stop'): Step {
  const unit = isInch ? 'in' : 'mm';
  const example = isInch ? '.003' : '0.06';
  const how =
    name === 'z'
      ? `Too deep by ${example}: type ${example}. Not deep enough: -${example}.`
      : `Measures ${example} too much: type -${example}. Too little: ${example}.`;
  return {
    kind: 'entry',
    prompt: name === 'z' ? `UP BY HOW MUCH, ${unit}` : `BY HOW MUCH, ${unit}`,
    about: [how, 'The target changes from now on; it can be taken back like a count.'],
    entry: 'number',
    onEmpty: close,
    take: (text) => {
      const value = parseTyped(text);
      if (typeof value === 'string') return value;
      const by = isInch ? inchesToMm(value) : value;
      return open(reasonStep('WHY?', (reason) => send({ kind: 'correct', axis: name, by, reading: null, reason })));
    },
  };
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
