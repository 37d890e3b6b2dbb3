/** How the handles are wound to a stop of a load: to a hole, or to where a pass stands and begins. */
import { cellAt, inHandAt, throughAt } from '../../batch/flow.ts';
import type { Stop } from '../../batch/stops.ts';
import { asMm, type Mm } from '../../shop/quantities.ts';
import { axisOf, axisText } from './axis-text.ts';
import { windBrief, windWords } from './dial-words.ts';
import { type Target, targetAt } from './targets.ts';
import type { Face, Where } from './work-facts.ts';

type Axis = 'x' | 'y';

/** One axis of a stop: from where its handle is wound (null: nobody knows), to where, and how its zero was touched. */
type Winding = Parameters<typeof windWords>;

/** How to wind on dials from where the axis stands: always approached the way the zero was touched. */
export function dialFacts(where: Where): readonly string[] {
  return windings(where).flatMap((one) => windWords(...one) ?? []);
}

/**
 * The same in fewer and fewer words, for a screen that has no row for more; none without dials. The last says no more than
 * which way first, and what the scale shows where it turns back.
 */
export function dialBriefs(where: Where): readonly string[] {
  const said = (withTurns: boolean) =>
    windings(where)
      .flatMap((one) => windBrief(withTurns, ...one) ?? [])
      .join(', ');
  return [...new Set([said(true), said(false)])].filter((words) => words !== '');
}

/** Columns of the narrowest screen that has a headline, less its two blanks. */
const briefRoom = 48;

/**
 * The brief headline that says most: of `words` and of `which` (the stop in hand) the fuller ones come first, and which stop
 * is said before how far is turned. Nothing where there are no words.
 */
export function briefOf(
  words: readonly string[],
  which: readonly string[],
  insteadOf: readonly string[],
): Pick<Face, 'brief'> {
  const tried = words.flatMap((said) => which.map((stop) => `${said}   ${stop}`));
  const all = [...tried, ...words];
  const text = all.find((one) => one.length <= briefRoom) ?? all.at(-1);
  return text === undefined ? {} : { brief: { text, insteadOf } };
}

function windings(where: Where): readonly Winding[] {
  const { batch, target, machine, operation } = where;
  const setup = batch.plan.setups.find((one) => one.id === operation.setup);
  const before = stopBefore(where);
  const from = before === undefined ? null : standOf(targetAt(batch, where.at, before), 'end');
  const to = standOf(target, 'start');
  return axesOf(target).flatMap((axis): readonly Winding[] => {
    const at = to[axis];
    if (at === null || (axis === target.passes[0]?.feed && at === from?.[axis])) return [];
    const touched = setup?.[axis]?.touchedGoing ?? null;
    return [[axis.toUpperCase(), from?.[axis] ?? null, at, axisOf(machine, axis), touched]];
  });
}

/** Where a pass stands makes the wall; where it begins matters only if it ends in the work, and where it is not there yet. */
function axesOf({ passes }: Target): readonly Axis[] {
  const [pass] = passes;
  if (pass === undefined) return ['x', 'y'];
  const other = pass.feed === 'x' ? 'y' : 'x';
  return pass.runsOut ? [other] : [other, pass.feed];
}

/** The stop before; before the first, the last of the piece before; undefined at the first piece: nobody knows where it is. */
function stopBefore({ batch, at, position }: Where): Stop | undefined {
  const { stops } = inHandAt(batch, at);
  if (position > 0) return stops[position - 1];
  return throughAt(cellAt(batch, at)) === 0 ? undefined : stops.at(-1);
}

/** Where both axes stand when a stop is begun and when it is left. */
function standOf(target: Target, when: 'start' | 'end'): Readonly<Record<Axis, Mm | null>> {
  const pass = when === 'start' ? target.passes[0] : target.passes.at(-1);
  if (pass === undefined) return { x: target.x, y: target.y };
  const along = when === 'start' ? pass.from : pass.to;
  return pass.feed === 'x' ? { x: along, y: pass.stands } : { x: pass.stands, y: along };
}

/**
 * A pass that ends in the work and is fed against the way its zero was touched: the nut bears on its other flank, so the
 * dial has run ahead by the lost motion when the tool is there.
 */
export function playFact({ batch, target, machine, operation }: Where): readonly string[] {
  const [pass] = target.passes;
  if (pass === undefined || pass.runsOut) return [];
  const scale = axisOf(machine, pass.feed);
  const setup = batch.plan.setups.find((one) => one.id === operation.setup);
  const touched = setup?.[pass.feed]?.touchedGoing ?? null;
  if (scale.kind !== 'dial' || scale.backlash <= 0 || touched === null || touched === pass.pass.feedTowards) return [];
  const ahead = pass.pass.feedTowards === '+' ? scale.backlash : -scale.backlash;
  const end = axisText(asMm(pass.to + ahead), scale, batch.plan.units).words;
  return [`${pass.feed.toUpperCase()} is fed against its touch: with the play its end is at ${end} on the dial.`];
}
