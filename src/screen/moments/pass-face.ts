/**
 * A line cut or a face cut in passes: the one axis that makes the size large, the way it is fed with an arrow, the pass in
 * hand. Where the feed runs out of the work, what makes the size is where the other axis stands.
 */
import { asMm } from '../../shop/quantities.ts';
import { mainReading, type Reading, secondReading } from '../panel/panel.ts';
import { type AxisText, axisOf, axisText } from './axis-text.ts';
import { stopWords } from './stop-words.ts';
import type { PassTarget } from './targets.ts';
import { dialFacts, type Face, loadWords, speedFact, type Where } from './work-facts.ts';

/** The face of a pass; where a whole load is counted at once, of the last pass with the ones before it as a fact. */
export function passFace(where: Where, pass: PassTarget, ascii: boolean): Face {
  const { batch, at, target } = where;
  const [feed, other] = pass.feed === 'x' ? (['X', 'Y'] as const) : (['Y', 'X'] as const);
  const isWhole = target.stop.kind === 'whole';
  const load = loadWords(batch, at);
  const which = isWhole ? load : `${stopWords(where)}${pass.pass.last && load === null ? ', last' : ''}`;
  const size = pass.runsOut
    ? mainReading(shown(where, other, pass.stands).text, other)
    : mainReading(shown(where, feed, pass.to).text, feed);
  return {
    headline: `${feedWords(pass, ascii)}${which === null ? '' : `   ${which}`}`,
    readings: isFace(where)
      ? [mainReading(shown(where, 'Z', pass.z).text, 'Z'), ...(target.passes.length === 1 ? [asSecond(size)] : [])]
      : [size, secondReading(shown(where, 'Z', pass.z).text, 'Z')],
    facts: [
      pass.runsOut
        ? `${feed} runs from ${text(where, feed, pass.from)} to ${text(where, feed, pass.to)}, out of the work.`
        : `${other} stands at ${text(where, other, pass.stands)}; ${feed} runs from ${text(where, feed, pass.from)}.`,
      ...(isWhole ? passList(where, pass) : []),
      ...dialFacts(where),
      speedFact(where),
      ...where.operation.notes,
    ],
  };
}

/** A face has one depth for all its strips, and that depth makes its size; where a strip stands is no matter of hundredths. */
const isFace = ({ target }: Where): boolean => target.cut?.z != null;

const asSecond = (reading: Reading): Reading => ({ ...reading, rank: 'second' });

/** "FEED Y AWAY FROM YOU" with its arrow, as the cutter goes over the part. */
function feedWords({ feed, pass }: PassTarget, ascii: boolean): string {
  const way =
    feed === 'x'
      ? pass.feedTowards === '+'
        ? { arrow: '→', plain: '->', words: 'RIGHT' }
        : { arrow: '←', plain: '<-', words: 'LEFT' }
      : pass.feedTowards === '+'
        ? { arrow: '↑', plain: '^', words: 'AWAY FROM YOU' }
        : { arrow: '↓', plain: 'v', words: 'TOWARDS YOU' };
  return `${ascii ? way.plain : way.arrow} FEED ${feed.toUpperCase()} ${way.words}`;
}

/** Every pass of a cut that is counted at once, in order. */
function passList(where: Where, last: PassTarget): readonly string[] {
  const { passes } = where.target;
  if (passes.length < 2) return [];
  const depths = new Set(passes.map((pass) => pass.z));
  const other = last.feed === 'x' ? 'Y' : 'X';
  if (where.target.cut?.loadPasses?.some((pass) => pass.places.length < where.operation.loadSize) === true) {
    const each = passes.map((pass) => passWords(where, pass));
    return [`${passes.length} passes:`, ...each.map((one) => `${one}.`)];
  }
  const words = passes.map((pass) => (depths.size > 1 ? text(where, 'Z', pass.z) : text(where, other, pass.stands)));
  return [`${passes.length} passes, ${depths.size > 1 ? 'Z' : other}: ${words.join(', then ')}.`];
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
