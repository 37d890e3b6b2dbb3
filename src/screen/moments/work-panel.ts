/**
 * What stands largest while pieces are made: the position to wind to at holes, the one axis in hand at a line cut, the
 * depth at a cone or a face, turns at a hand tap, the count where nothing is wound. Second and third come as facts.
 */
import { cellAt, inHandAt, placeAt } from '../../batch/flow.ts';
import type { Batch } from '../../batch/state.ts';
import { drawSetup } from '../../plan/drawing.ts';
import { drawAsText, type HoleState } from '../../plan/drawing-text.ts';
import type { AxisReading, ResolvedMachine, ResolvedOperation } from '../../plan/resolved.ts';
import { windText } from '../../report/sheet/positions.ts';
import { asMm, type Mm } from '../../shop/quantities.ts';
import { formatTrimmed } from '../../shop/units.ts';
import type { Panel, Picture, Reading } from '../panel/panel.ts';
import { axisOf, axisText, lengthWithUnit } from './axis-text.ts';
import { toolOf } from './place-names.ts';
import { type Target, targetAt } from './targets.ts';

export type WorkFace = Pick<Panel, 'headline' | 'readings' | 'facts' | 'picture'>;

/** The face of the work in hand at cell `at`, looking `ahead` stops on (0: the live one). */
export function workFace(batch: Batch, at: number, ahead: number, ascii: boolean): WorkFace {
  const { operation } = placeAt(batch, at);
  const hand = inHandAt(batch, at);
  const position = Math.max(0, Math.min(hand.stops.length - 1, hand.stop + ahead));
  const stop = hand.stops[position];
  const machine = batch.plan.machines.find((one) => one.id === operation.machine);
  if (stop === undefined) return { ...countFace(batch, at, operation, null), picture: null };
  const target = targetAt(batch, at, stop);
  const where = { batch, at, operation, machine, target, position, stops: hand.stops.length };
  const face = faceOf(where);
  const next = nextStops({ ...where, hand });
  return {
    ...face,
    facts: [...face.facts, ...target.corrected.map((text) => `Corrected ${text}`), ...next],
    picture: pictureOf(where, ascii),
  };
}

type Where = {
  readonly batch: Batch;
  readonly at: number;
  readonly operation: ResolvedOperation;
  readonly machine: ResolvedMachine | undefined;
  readonly target: Target;
  readonly position: number;
  readonly stops: number;
};

function faceOf(where: Where): Omit<WorkFace, 'picture'> {
  const { target, operation, batch, at } = where;
  if (target.pass !== null) return passFace(where);
  if (target.cut?.thread?.byHand === true) return handTapFace(where);
  if (target.x !== null && target.y !== null && operation.station === 'mill') return pointFace(where);
  if (target.z !== null && target.z !== 0 && operation.station !== 'saw') return depthFace(where);
  return countFace(batch, at, operation, target);
}

/** X and Y to wind to, depth and speed as facts; a cone's depth differs from hole to hole, so it is large as well. */
function pointFace(where: Where): Omit<WorkFace, 'picture'> {
  const { batch, target, machine, position, stops } = where;
  const units = batch.plan.units;
  const x = axisText(target.x ?? asMm(0), axisOf(machine, 'x'), units);
  const y = axisText(target.y ?? asMm(0), axisOf(machine, 'y'), units);
  const of = stops > 1 ? `   ${target.point?.name ?? 'point'}, ${position + 1} of ${stops}` : '';
  return {
    headline: { text: `WIND TO${of}`, role: 'strong' },
    readings: [reading('X', x.text), reading('Y', y.text)],
    facts: [...depthFacts(where), speedFact(where), ...dialFacts(where)],
  };
}

/** One axis in hand: where it ends large, which way it is fed, which pass it is. */
function passFace(where: Where): Omit<WorkFace, 'picture'> {
  const { batch, target, machine, position, stops } = where;
  const pass = target.pass;
  if (pass === null) return countFace(batch, where.at, where.operation, target);
  const units = batch.plan.units;
  const hand = pass.feedAxis;
  const other = hand === 'x' ? 'y' : 'x';
  const stands = axisText(other === 'x' ? pass.from.x : pass.from.y, axisOf(machine, other), units);
  const from = axisText(hand === 'x' ? pass.from.x : pass.from.y, axisOf(machine, hand), units);
  const to = axisText((hand === 'x' ? target.x : target.y) ?? asMm(0), axisOf(machine, hand), units);
  const z = axisText(target.z ?? asMm(0), axisOf(machine, 'z'), units);
  const arrow =
    hand === 'x'
      ? pass.feedTowards === '+'
        ? 'right'
        : 'left'
      : pass.feedTowards === '+'
        ? 'away from you'
        : 'towards you';
  return {
    headline: {
      text: `FEED ${hand.toUpperCase()} ${arrow.toUpperCase()}   pass ${position + 1} of ${stops}${pass.last ? ', last' : ''}`,
      role: 'strong',
    },
    readings: [reading(hand.toUpperCase(), to.text), reading('Z', z.text)],
    facts: [
      `${other.toUpperCase()} stands at ${stands.text}; ${hand.toUpperCase()} from ${from.text} to ${to.text}`,
      speedFact(where),
    ],
  };
}

/** Depth large: facing, milling to length, countersinking on a pillar drill. */
function depthFace(where: Where): Omit<WorkFace, 'picture'> {
  const { batch, target, machine, operation } = where;
  const units = batch.plan.units;
  const z = axisText(target.z ?? asMm(0), axisOf(machine, 'z'), units);
  const length = target.length === null ? [] : [`Stop length ${lengthWithUnit(target.length, units)}.`];
  const located = operation.located === null ? [] : [`Located by ${operation.located}.`];
  return {
    headline: { text: operation.station === 'pillar drill' ? 'DEPTH' : 'DOWN TO', role: 'strong' },
    readings: [reading('Z', z.text)],
    facts: [...topFact(where), ...length, speedFact(where), ...located],
  };
}

/** A tap turned by hand: full turns to the depth. */
function handTapFace(where: Where): Omit<WorkFace, 'picture'> {
  const { batch, at, operation, target, position, stops } = where;
  const thread = target.cut?.thread ?? null;
  if (thread === null || thread.turns === null) return countFace(batch, at, operation, target);
  return {
    headline: {
      text: `TURNS BY HAND   ${thread.name}${stops > 1 ? `, ${position + 1} of ${stops}` : ''}`,
      role: 'strong',
    },
    readings: [reading('', formatTrimmed(thread.turns, 1))],
    facts: ['Start square, half a turn back to break the chip; stop when it grips.', ...toolFact(where)],
  };
}

/** Saw, bench, drill press by feel: the count itself is what must be seen. */
function countFace(
  batch: Batch,
  at: number,
  operation: ResolvedOperation,
  target: Target | null,
): Omit<WorkFace, 'picture'> {
  const cell = cellAt(batch, at);
  const units = batch.plan.units;
  const length = target?.length ?? operation.stopLength;
  const where = target === null ? null : { batch, at, operation, machine: undefined, target, position: 0, stops: 1 };
  return {
    headline: { text: operation.title.toUpperCase(), role: 'strong' },
    readings: [
      reading('', String(cell.good)),
      ...(length === null ? [] : [reading('STOP', lengthWithUnit(length, units).split(' ')[0] ?? '')]),
    ],
    facts: [
      ...(operation.located === null ? [] : [`Located by ${operation.located}.`]),
      ...(where === null ? [] : [...topFact(where), speedFact(where)]),
      ...operation.notes,
    ].filter((fact) => fact !== ''),
  };
}

function depthFacts(where: Where): readonly string[] {
  const { batch, target, machine } = where;
  if (target.z === null) return [];
  const z = axisText(target.z, axisOf(machine, 'z'), batch.plan.units);
  const note = target.point?.note == null ? '' : ` (${target.point.note})`;
  return [`Depth Z ${z.text}${note}`];
}

function topFact(where: Where): readonly string[] {
  const top = where.target.cut?.topDiameter ?? null;
  return top === null ? [] : [`Top diameter ${lengthWithUnit(top, where.batch.plan.units)}.`];
}

function toolFact(where: Where): readonly string[] {
  const tool = toolOf(where.batch.plan, where.target.cut?.tool ?? null);
  return tool === undefined ? [] : [tool.name];
}

/** "1350 rpm, drill 5; 3 to 5 s a hole"; what the machine turns and what the hand should feel. */
function speedFact(where: Where): string {
  const cut = where.target.cut;
  if (cut === null) return '';
  const speed = cut.speed.set === null ? [] : [`${cut.speed.set} rpm`];
  const tool = toolOf(where.batch.plan, cut.tool);
  const feel =
    cut.feel === null ? [] : [`${formatTrimmed(cut.feel.from, 0)} to ${formatTrimmed(cut.feel.to, 0)} s by feel`];
  const peck = cut.peck === null ? [] : [`clear chips every ${lengthWithUnit(cut.peck, where.batch.plan.units)}`];
  return [...speed, ...(tool === undefined ? [] : [tool.name]), ...feel, ...peck].join(', ');
}

/** How to wind on dials from where the axis stands: always approached the way the zero was touched. */
function dialFacts(where: Where): readonly string[] {
  const { batch, target, machine, operation, position, at } = where;
  const setup = batch.plan.setups.find((one) => one.id === operation.setup);
  const before = position === 0 ? null : inHandAt(batch, at).stops[position - 1];
  const from = before == null ? null : targetAt(batch, at, before);
  const words = (axis: 'x' | 'y'): string[] => {
    const scale: AxisReading = axisOf(machine, axis);
    const to = target[axis];
    if (scale.kind !== 'dial' || to === null) return [];
    const zero = setup?.[axis] ?? null;
    const text = windText(asMm(from?.[axis] ?? 0), to, scale, zero?.touchedGoing ?? null);
    return text === null ? [] : [`${axis.toUpperCase()} dial: ${text}`];
  };
  return [...words('x'), ...words('y')];
}

/** The next three stops of the load with the move to the first of them. */
function nextStops(where: Where & { readonly hand: ReturnType<typeof inHandAt> }): readonly string[] {
  const { batch, at, hand, position, machine, target } = where;
  const units = batch.plan.units;
  const ahead = hand.stops.slice(position + 1, position + 4).map((stop) => targetAt(batch, at, stop));
  const points = ahead.filter((one) => one.x !== null && one.y !== null && one.point !== null);
  const first = points[0];
  if (first === undefined) return [];
  const text = (value: Mm, axis: 'x' | 'y'): string => axisText(value, axisOf(machine, axis), units).text;
  const names = points.map((one) =>
    `${one.point?.name ?? ''} ${text(one.x ?? asMm(0), 'x')} ${text(one.y ?? asMm(0), 'y')}`.trim(),
  );
  const move = [moveWord('X', target.x, first.x, units), moveWord('Y', target.y, first.y, units)].filter(
    (word) => word !== '',
  );
  return [`Next: ${names.join('; ')}${move.length === 0 ? '' : ` (move ${move.join(', ')})`}`];
}

function moveWord(axis: string, from: Mm | null, to: Mm | null, units: 'mm' | 'inch'): string {
  if (from === null || to === null || Math.abs(to - from) < 1e-9) return '';
  const text = axisText(asMm(to - from), { kind: 'none' }, units).text;
  return `${axis} ${to > from ? '+' : ''}${text}`;
}

function pictureOf(where: Where, ascii: boolean): Picture | null {
  const { batch, operation, target, position, at } = where;
  if (operation.setup === null || (target.point === null && target.pass === null && target.z === null)) return null;
  const drawing = drawSetup(batch.plan, operation.setup, operation.number);
  if (drawing === null) return null;
  const stops = inHandAt(batch, at).stops;
  const places = new Map(
    stops.map((stop, index) => [`${stop.cut}/${(stop.place ?? 1) - 1}/${stop.kind}/${stop.index}`, index]),
  );
  const stateOf = (cut: number, place: number, kind: string, index: number): HoleState => {
    const found = places.get(`${cut}/${place}/${kind}/${index}`);
    if (found === undefined) return cut === target.stop.cut ? 'now' : 'todo';
    return found === position ? 'now' : found < position ? 'done' : 'todo';
  };
  return (columns, rows) =>
    drawAsText(drawing, {
      columns,
      rows,
      ascii,
      stateOf: (shape) =>
        shape.kind === 'hole'
          ? stateOf(shape.cut, shape.place, 'point', shape.point)
          : stateOf(shape.cut, shape.place, 'pass', shape.pass),
    });
}

function reading(label: string, text: string): Reading {
  return { label, text, below: null, fresh: false };
}
