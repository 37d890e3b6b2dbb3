/** A hole to wind to: X and Y large, the depth beside them; at a tap that runs on where it is switched off. */
import { asMm } from '../../shop/quantities.ts';
import { mainReading, type Reading, secondReading } from '../panel/panel.ts';
import { axisOf, axisText, scaleNote } from './axis-text.ts';
import { backOutBrief, backOutWords } from './back-out.ts';
import { depthReading, depthText } from './depth-reading.ts';
import { shortestStopWords, shortStopWords, stopWords } from './stop-words.ts';
import { briefOf, dialBriefs, dialFacts } from './windings.ts';
import { type Face, nextFacts, speedFact, type Where } from './work-facts.ts';

/** X and Y to wind to; the depth after them, for it differs from hole to hole at a cone. */
export function pointFace(where: Where): Face {
  const { batch, target, machine, stops } = where;
  const units = batch.plan.units;
  const x = axisText(target.x ?? asMm(0), axisOf(machine, 'x'), units);
  const y = axisText(target.y ?? asMm(0), axisOf(machine, 'y'), units);
  const of = stops > 1 ? `   ${stopWords(where)}` : '';
  const off = switchOffReading(where);
  const needed = [...dialFacts(where), ...turnsFact(where), ...backOut(where)];
  return {
    headline: `WIND TO${of}`,
    ...pointBrief(where),
    readings:
      off === null
        ? [mainReading(x.text, 'X', scaleNote(x)), mainReading(y.text, 'Y', scaleNote(y)), ...depthReading(where)]
        : [off, secondReading(x.text, 'X', scaleNote(x)), secondReading(y.text, 'Y', scaleNote(y))],
    facts: [...needed, speedFact(where), ...nextFacts(where)],
    needed: needed.length,
  };
}

/** Where a tap that runs on is switched off: one number too late it meets the floor, so it stands before X and Y. */
function switchOffReading(where: Where): Reading | null {
  const { point, z } = where.target;
  if (point?.switchOff === undefined || point.z === null || z === null) return null;
  const at = asMm(point.switchOff + z - point.z);
  return mainReading(depthText(where, at), 'OFF', `switch off here, rests at Z ${depthText(where, z)}`);
}

/** The same in turns, and where it would meet the floor. */
function turnsFact({ target: { point } }: Where): readonly string[] {
  const [turns] = (point?.note ?? '').split(';');
  return point?.switchOff === undefined || turns === undefined ? [] : [`${turns}.`];
}

/** What must not be missed at a hole where nothing else has room: how the tap comes out, else how dials are wound. */
function pointBrief(where: Where): Pick<Face, 'brief'> {
  const { machine, target, stops } = where;
  const tap = backOutBrief(machine, target.cut);
  const which = stops > 1 ? [shortStopWords(where), shortestStopWords(where)] : [];
  return tap === '' ? briefOf(dialBriefs(where), which, dialFacts(where)) : briefOf([tap], which, backOut(where));
}

/** How a tap comes out again; nothing of another tool. */
export function backOut({ batch, machine, target }: Where): readonly string[] {
  return target.cut === null || target.cut.thread === null ? [] : [backOutWords(batch.plan, machine, target.cut)];
}
