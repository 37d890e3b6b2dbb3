/**
 * A line cut or a face cut in passes: the one axis that makes the size large, the way it is fed with an arrow, the pass in
 * hand. Where the feed runs out of the work, what makes the size is where the other axis stands.
 */
import { asMm } from '../../shop/quantities.ts';
import { mainReading, type Reading, secondReading } from '../panel/panel.ts';
import { type AxisText, axisOf, axisText, scaleNote } from './axis-text.ts';
import { shortestStopWords, shortStopWords, stopWords } from './stop-words.ts';
import type { PassTarget } from './targets.ts';
import { briefOf, dialBriefs, dialFacts, playFact } from './windings.ts';
import { type Face, loadWords, speedFact, type Where } from './work-facts.ts';

/** The face of a pass; where a piece or load is counted at once, of the first pass with all of them in order as facts. */
export function passFace(where: Where, pass: PassTarget, ascii: boolean): Face {
  const [feed, other] = pass.feed === 'x' ? (['X', 'Y'] as const) : (['Y', 'X'] as const);
  const isWhole = where.target.stop.kind === 'whole';
  const winding = dialFacts(where);
  const needed = [...(isWhole ? passList(where, pass) : []), ...winding];
  const size = shown(where, pass.runsOut ? other : feed, pass.runsOut ? pass.stands : pass.to);
  const reading = mainReading(size.text, pass.runsOut ? other : feed, scaleNote(size));
  const z = shown(where, 'Z', pass.z);
  return {
    headline: [feedWords(pass, ascii), ...whichPass(where, pass)].join('   '),
    ...briefOf(
      dialBriefs(where).flatMap((words) => [
        `${feedWords(pass, ascii, 'short')}   ${words}`,
        `${feedWords(pass, ascii, 'arrow')}   ${words}`,
      ]),
      isWhole ? [] : [shortStopWords(where).replace(/\d+ of/, 'pass $&'), shortestStopWords(where)],
      needed,
    ),
    readings: isFace(where)
      ? [mainReading(z.text, 'Z', scaleNote(z)), ...(where.target.passes.length === 1 ? [asSecond(reading)] : [])]
      : [reading, secondReading(z.text, 'Z', scaleNote(z))],
    facts: [
      ...needed,
      ...(winding.length > 1 ? [] : [runWords(where, pass)]),
      ...playFact(where),
      speedFact(where),
      ...where.operation.notes,
    ],
    needed: needed.length,
  };
}

/** `X runs from 10.00 to -8.00, out of the work.` or `Y stands at -15.00; X runs from 20.00.` */
function runWords(where: Where, pass: PassTarget): string {
  const [feed, other] = pass.feed === 'x' ? (['X', 'Y'] as const) : (['Y', 'X'] as const);
  return pass.runsOut
    ? `${feed} runs from ${text(where, feed, pass.from)} to ${text(where, feed, pass.to)}, out of the work.`
    : `${other} stands at ${text(where, other, pass.stands)}; ${feed} runs from ${text(where, feed, pass.from)}.`;
}

/** `pass 1 of 4`; counted at once the load in hand, and that what stands large is the first of several passes. */
function whichPass(where: Where, { pass }: PassTarget): readonly string[] {
  const { batch, at, target } = where;
  const load = loadWords(batch, at);
  if (target.stop.kind !== 'whole') return [`${stopWords(where)}${pass.last && load === null ? ', last' : ''}`];
  const several = target.passes.length > 1 && !isFace(where) ? [`first of ${target.passes.length} passes`] : [];
  return [...several, ...(load === null ? [] : [load])];
}

/** A face has one depth for all its strips, and that depth makes its size; where a strip stands is no matter of hundredths. */
const isFace = ({ target }: Where): boolean => target.cut?.z != null;

const asSecond = (reading: Reading): Reading => ({ ...reading, rank: 'second' });

/** "FEED Y AWAY FROM YOU" with its arrow, as the cutter goes over the part, or less of it. */
function feedWords({ feed, pass }: PassTarget, ascii: boolean, form: 'long' | 'short' | 'arrow' = 'long'): string {
  const way =
    feed === 'x'
      ? pass.feedTowards === '+'
        ? { arrow: '→', plain: '->', words: 'RIGHT' }
        : { arrow: '←', plain: '<-', words: 'LEFT' }
      : pass.feedTowards === '+'
        ? { arrow: '↑', plain: '^', words: 'AWAY FROM YOU' }
        : { arrow: '↓', plain: 'v', words: 'TOWARDS YOU' };
  const arrow = ascii ? way.plain : way.arrow;
  const axis = feed.toUpperCase();
  if (form === 'arrow') return `${arrow} ${axis}`;
  return form === 'short' ? `${arrow} ${axis} ${way.words.split(' ')[0]}` : `${arrow} FEED ${axis} ${way.words}`;
}

/**
 * Every pass of a cut that is counted at once, in order: what differs from one to the next, or each whole where the way of
 * the feed does too.
 *
 * Example: `4 passes:`, `1: X right, Y 3 + 148.5, Z 0 + 65.`, …; of a face `2 passes, Y: 6.00, then 21.00.`
 */
function passList(where: Where, first: PassTarget): readonly string[] {
  const { passes } = where.target;
  if (passes.length < 2) return [];
  const other = first.feed === 'x' ? 'Y' : 'X';
  if (where.target.cut?.loadPasses?.some((pass) => pass.places.length < where.operation.loadSize) === true) {
    const each = passes.map((pass) => passWords(where, pass));
    return [`${passes.length} passes:`, ...each.map((one) => `${one}.`)];
  }
  if (isFace(where))
    return [
      `${passes.length} passes, ${other}: ${passes.map((pass) => text(where, other, pass.stands)).join(', then ')}.`,
    ];
  return passes.map((pass, index) => `${index + 1} of ${passes.length}: ${shortPass(where, pass)}.`);
}

/** `X right to 17 + 164, Y 3 + 148.5, Z 0 + 65`. */
function shortPass(where: Where, { pass, feed, stands, to, z, runsOut }: PassTarget): string {
  const [fed, other] = feed === 'x' ? (['X', 'Y'] as const) : (['Y', 'X'] as const);
  const [right, left] = feed === 'x' ? ['right', 'left'] : ['away', 'towards you'];
  const run = `${fed} ${pass.feedTowards === '+' ? right : left}${runsOut ? '' : ` to ${text(where, fed, to)}`}`;
  return `${run}, ${other} ${text(where, other, stands)}, Z ${text(where, 'Z', z)}`;
}

/** `M: slot: Y -15.00, Z -2.00, X -7.00 to 67.00`. */
function passWords(where: Where, { pass, feed, stands, z, from, to }: PassTarget): string {
  const [fed, other] = feed === 'x' ? (['X', 'Y'] as const) : (['Y', 'X'] as const);
  const run = `${fed} ${text(where, fed, from)} to ${text(where, fed, to)}`;
  return `${pass.name}: ${other} ${text(where, other, stands)}, Z ${text(where, 'Z', z)}, ${run}`;
}

function shown({ machine, batch }: Where, axis: 'X' | 'Y' | 'Z', value: number): AxisText {
  const scale = axisOf(machine, axis === 'X' ? 'x' : axis === 'Y' ? 'y' : 'z');
  return axisText(asMm(value), scale, batch.plan.units);
}

const text = (where: Where, axis: 'X' | 'Y' | 'Z', value: number): string => shown(where, axis, value).words;
