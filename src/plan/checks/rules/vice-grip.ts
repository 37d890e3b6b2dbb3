import { writeLength } from '../advice.ts';
import { type CheckAsk, type OperationSeen, once, thicknessAt } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** A grip at least this deep, or half the thickness, passes without a word: a choice of ours. */
const SOUND_GRIP_MM = 3;
/** A part that stands more than this many times its grip above the jaws is said to be tall: a choice of ours. */
const TALL = 4;
/** How far stated and computed height above the jaws may differ. */
const SAME_HEIGHT_MM = 0.5;

/** A part that the vice does not hold. */
export const viceGrip: Rule = {
  code: 'vice-grip',
  severity: 'stop',
  also: ['warn', 'note'],
  catches:
    'A part wider than the vice opens, gripped too shallow, or standing otherwise than parallels and jaws make it.',
  example: 'operation 60: the jaws grip 1 mm of 8 mm',
  find: (ask) => once(ask.operations.flatMap((operation) => judge(ask, operation))),
};

function judge(ask: CheckAsk, operation: OperationSeen): readonly Hit[] {
  const { setup, machine, work, resolved } = operation;
  if (setup?.hold !== 'vice' || machine?.vice == null) return [];
  const vice = machine.vice;
  const acrossIsY = vice.fixedJaw === 'rear' || vice.fixedJaw === 'front';
  const across = acrossIsY ? work.size.y : work.size.x;
  const base = { operation: resolved.number, path: ['setups', setup.id] };
  const first = ask.operations.find((one) => one.resolved.setup === setup.id);
  if (across > vice.opening) {
    if (first !== operation) return [];
    const message = `the part is ${ask.show(across)} across and the vice opens ${ask.show(vice.opening)}`;
    return [
      {
        ...base,
        message,
        tryThis: `hold it the other way, or in a vice of "opening: ${writeLength(ask, across, 'up')}" or more`,
      },
    ];
  }
  const thickness = thicknessAt(operation);
  const computed = (setup.parallels?.height ?? 0) + thickness - vice.jawHeight;
  // The height above the jaws is that of the part as it comes into the setup.
  if (first !== operation) return [];
  const stated = work.setup?.['above jaws'];
  const path = [...base.path, 'above jaws'];
  if (stated !== undefined && setup.parallels !== null && Math.abs(stated - computed) > SAME_HEIGHT_MM) {
    const message = `parallels of ${ask.show(setup.parallels?.height ?? 0)}, ${ask.show(thickness)} of part and jaws of ${ask.show(vice.jawHeight)} make it stand ${ask.show(computed)} above the jaws, not ${ask.show(stated)}`;
    const tryThis = `measure it; write "above jaws: ${writeLength(ask, computed)}", or put the parallels right`;
    return [{ ...base, path, severity: 'warn', message, tryThis }];
  }
  return gripHits(ask, thickness, stated ?? computed).map((hit) => ({ ...base, path, ...hit }));
}

function gripHits(ask: CheckAsk, thickness: number, above: number): readonly Omit<Hit, 'operation' | 'path'>[] {
  const grip = thickness - Math.max(0, above);
  if (grip <= 0) {
    const message = `the part is ${ask.show(thickness)} high and stands ${ask.show(above)} above the jaws: nothing is gripped`;
    return [{ message, tryThis: `take parallels lower by ${ask.show(SOUND_GRIP_MM - grip)} or more` }];
  }
  if (above > grip * TALL) {
    const message = `the part stands ${ask.show(above)} above the jaws, which grip ${ask.show(grip)}: a side cut tips it out`;
    return [{ severity: 'note', message, tryThis: 'cut lightly, or hold it lower, in taller jaws or against a block' }];
  }
  if (grip >= SOUND_GRIP_MM || grip >= thickness / 2) return [];
  return [
    {
      severity: 'warn',
      message: `the jaws grip ${ask.show(grip)} of ${ask.show(thickness)}`,
      tryThis: `take parallels lower by ${ask.show(SOUND_GRIP_MM - grip)} or more`,
    },
  ];
}
