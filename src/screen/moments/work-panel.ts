/**
 * What stands largest while pieces are made: the position to wind to at holes, the one axis in hand at a line cut, the
 * depth at a cone or a face, turns at a hand tap, the count where nothing is wound. Second and third come as facts.
 */
import { leftByCell } from '../../batch/expected.ts';
import { cellAt, inHandAt, placeAt, throughAt } from '../../batch/flow.ts';
import type { Batch } from '../../batch/state.ts';
import { formatTrimmed } from '../../shop/units.ts';
import { mainReading, type Panel, type Reading, secondReading } from '../panel/panel.ts';
import { lengthWithUnit } from './axis-text.ts';
import { depthReading, depthText } from './depth-reading.ts';
import { passFace } from './pass-face.ts';
import { toolOf } from './place-names.ts';
import { backOut, pointFace } from './point-face.ts';
import { rimFacts, rimGroups, rimReading } from './rim-depths.ts';
import { placeFacts, stopWords } from './stop-words.ts';
import { skippedFacts, suspectFacts } from './suspect-words.ts';
import { depthGroups, targetAt } from './targets.ts';
import { afterwardsFacts, type Face, loadWords, speedFact, type Where, wearFacts, workCautions } from './work-facts.ts';
import { workPicture } from './work-picture.ts';

export type WorkFace = Pick<
  Panel,
  'headline' | 'weight' | 'readings' | 'facts' | 'cautions' | 'warnsAfter' | 'picture'
>;

/** The face of the work at cell `at`, looking `ahead` stops on (0: the live one). */
export function workFace(batch: Batch, at: number, ahead: number, ascii: boolean): WorkFace {
  const { operation } = placeAt(batch, at);
  const hand = inHandAt(batch, at);
  const position = Math.max(0, Math.min(hand.stops.length - 1, hand.stop + ahead));
  const stop = hand.stops[position] ?? { kind: 'whole' as const, cut: 0, place: null, index: 0 as const };
  const machine = batch.plan.machines.find((one) => one.id === operation.machine);
  const target = targetAt(batch, at, stop);
  const where: Where = { batch, at, operation, machine, target, position, stops: hand.stops.length };
  const face = faceOf(where, ascii);
  const around = [
    ...target.corrected,
    ...skippedFacts(batch, at),
    ...suspectFacts(batch, at),
    ...wearFacts(where),
    ...afterwardsFacts(batch, at),
  ];
  const isLooking = position !== hand.stop;
  const isFirst = throughAt(cellAt(batch, at)) === 0 && hand.stop === 0;
  return {
    headline: isLooking
      ? { text: `LOOKING AT${whichWords(where)}`, role: 'reverse' }
      : { text: face.headline, role: 'strong', ...(face.brief === undefined ? {} : { brief: face.brief }) },
    weight: 'digits',
    readings: isLooking ? lookedAt(face.readings) : face.readings,
    facts: [...around, ...face.facts].filter((fact) => fact !== ''),
    cautions: workCautions(batch, at),
    ...(isFirst && face.needed !== undefined ? { warnsAfter: around.length + face.needed } : {}),
    picture: workPicture(batch, at, operation, { target, position, ascii }),
  };
}

/** Numbers that are only looked at give way to the word that says so: nobody winds to them from across the shop. */
export function lookedAt(readings: readonly Reading[]): readonly Reading[] {
  return [mainReading('LOOKING'), ...readings.map((one): Reading => ({ ...one, rank: 'second' }))];
}

function faceOf(where: Where, ascii: boolean): Face {
  const { target, operation } = where;
  const [pass] = target.passes;
  if (pass !== undefined) return passFace(where, pass, ascii);
  if (target.cut?.thread?.byHand === true) return handTapFace(where);
  if (target.x !== null && target.y !== null && operation.station === 'mill') return pointFace(where);
  const set = stopReading(where);
  if (set !== null) return isStopProved(where) ? countFace(where, [set]) : setStopFace(where, set);
  if (isDepthWork(where)) return depthFace(where);
  return countFace(where, operation.station === 'bench' ? [] : depthReading(where));
}

/** Depth large: facing, countersinking and chamfering; the diameter that it gives is its proof. */
function depthFace(where: Where): Face {
  const { operation } = where;
  const [depth] = depthReading(where);
  return {
    headline: `${operation.station === 'pillar drill' ? 'DEPTH' : 'DOWN TO'}${whichWords(where)}`,
    readings: depth === undefined ? [] : [{ ...depth, rank: 'main' }, ...proofReading(where)],
    facts: depthFacts(where),
  };
}

/** The stop is what the hands set until a piece has proved it; the count stands beside it. */
function setStopFace(where: Where, set: Reading): Face {
  const isLength = where.target.length !== null;
  return {
    headline: `SET THE ${isLength ? 'STOP' : 'DEPTH STOP'}${whichWords(where)}`,
    readings: [{ ...set, rank: 'main' }, ...proofReading(where)],
    facts: [...(isDepthWork(where) ? depthFacts(where) : countFacts(where))],
  };
}

/**
 * Second beside a depth: the diameter at the top that proves it, where there is one for all holes; else the count. A travel
 * from the rim has its top under it.
 */
function proofReading(where: Where): readonly Reading[] {
  const { operation, batch } = where;
  if (rimGroups(batch, operation).length > 0) return [];
  const tops = new Set(operation.cuts.map((cut) => cut.topDiameter));
  const [top] = tops;
  return tops.size === 1 && top != null
    ? [secondReading(bare(lengthWithUnit(top, batch.plan.units)), 'TOP')]
    : countReadings(where, 'second');
}

function depthFacts(where: Where): readonly string[] {
  return [
    ...depthPurposes(where),
    ...placeFacts(where),
    speedFact(where),
    ...locatedFact(where),
    ...lengthFact(where.target.length, where),
    ...where.operation.notes,
  ];
}

/** A tap turned by hand: full turns to the depth. */
function handTapFace(where: Where): Face {
  const { target, position, stops } = where;
  const thread = target.cut?.thread ?? null;
  if (thread === null || thread.turns === null) return countFace(where);
  return {
    headline: `TURNS BY HAND   ${thread.name}${stops > 1 ? `, ${position + 1} of ${stops}` : ''}`,
    readings: [mainReading(formatTrimmed(thread.turns, 1), 'TURNS'), ...countReadings(where, 'second')],
    facts: ['Start square; stop when it grips.', ...backOut(where), ...pointNote(where), speedFact(where)],
  };
}

/** Saw, bench, drilling to a stop that is proved: the count itself is what must be seen, then what the stop stands at. */
function countFace(where: Where, set: readonly Reading[] = []): Face {
  const [count, left] = countReadings(where, 'main');
  return {
    headline: `${where.operation.title.toUpperCase()}${whichWords(where)}`,
    readings: [count, ...set, left].flatMap((one) => one ?? []),
    facts: isDepthWork(where) ? depthFacts(where) : countFacts(where),
  };
}

function countFacts(where: Where): readonly string[] {
  const isVaried = depthGroups(where.batch, where.operation).length > 1;
  const purposes =
    isVaried || rimGroups(where.batch, where.operation).length > 0 ? depthPurposes(where) : topFact(where);
  return [
    ...placeFacts(where),
    ...purposes,
    ...locatedFact(where),
    speedFact(where),
    ...backOut(where),
    ...where.operation.notes,
  ];
}

/** "   load 3 of 14, 3 pieces", or the hole in hand where a piece is counted by its holes; '' for one piece at a time. */
function whichWords(where: Where): string {
  const { batch, at, target, stops } = where;
  const load = loadWords(batch, at);
  if (target.stop.kind === 'pass' || (target.stop.kind === 'point' && stops > 1)) return `   ${stopWords(where)}`;
  return load === null ? '' : `   ${load}`;
}

/** What is set for all pieces alike: the stop of a saw, or a drill's depth stop at one depth or at two in turn. */
function stopReading(where: Where): Reading | null {
  const { target, operation, machine, batch } = where;
  if (target.length !== null) return secondReading(bare(lengthWithUnit(target.length, batch.plan.units)), 'STOP');
  if (operation.station !== 'pillar drill' || machine?.zReadOn !== 'depth stop') return null;
  if (rimGroups(batch, operation).length > 0) return rimReading(where);
  const depths = [...new Set(depthGroups(batch, operation).map(({ z }) => depthText(where, z)))];
  const isInTurn = depths.length === 2 && target.stop.kind === 'whole';
  if (depths.length !== 1 && !isInTurn) return null;
  return secondReading(depths.join(' / '), 'Z');
}

/** A stop is proved by its first-off, which comes due again after a correction or a knock; else by the first piece. */
function isStopProved({ batch, at, operation }: Where): boolean {
  const cell = cellAt(batch, at);
  const first = operation.checks.filter((check) => check.firstOff);
  return first.length === 0
    ? throughAt(cell) > 0
    : first.every((check) => (cell.checks[check.id]?.dueAbove ?? null) === null);
}

/** Pieces made and pieces left; beside a main number the count alone. */
function countReadings({ batch, at }: Where, rank: 'main' | 'second'): readonly Reading[] {
  const good = String(cellAt(batch, at).good);
  if (rank === 'second') return [secondReading(good, 'COUNT')];
  return [mainReading(good), secondReading(`${Math.max(0, leftByCell(batch)[at] ?? 0)} MORE`)];
}

/** Work whose depth makes the size: a cone, or a face without points. */
function isDepthWork({ target, operation }: Where): boolean {
  if (target.z === null || target.z === 0 || operation.station === 'saw' || operation.station === 'bench') return false;
  return target.cut?.topDiameter != null || target.cut?.points.length === 0;
}

/** What the depth is for: one line, or one for every depth where a piece is counted whole and its holes differ. */
function depthPurposes(where: Where): readonly string[] {
  const { batch, operation, target } = where;
  const rims = rimFacts(where);
  if (rims.length > 0) return rims;
  const groups = target.stop.kind === 'whole' ? depthGroups(batch, operation) : [];
  if (groups.length < 2) return [...topFact(where), ...pointNote(where)];
  const tools = new Set(operation.cuts.map((cut) => cut.tool));
  return groups.map(({ cut, z, points }) => {
    const [first, last] = [points[0], points.at(-1)];
    const names = points.length > 1 ? `${first?.name} to ${last?.name}` : first?.name;
    const tool = tools.size > 1 ? `${toolOf(batch.plan, cut.tool)?.name ?? cut.tool}: ` : '';
    return `${tool}Z ${depthText(where, z)} at ${names}${first?.note == null ? '' : `: ${first.note}`}.`;
  });
}

function topFact({ target, batch }: Where): readonly string[] {
  const top = target.cut?.topDiameter ?? null;
  return top === null ? [] : [`Makes ${lengthWithUnit(top, batch.plan.units)} across the top.`];
}

/** What the depth of the hole in hand is for, or of the first where all are cut to one depth. */
function pointNote({ target }: Where): readonly string[] {
  const note = (target.point ?? target.cut?.points[0])?.note ?? null;
  return note === null ? [] : [`${note.charAt(0).toUpperCase()}${note.slice(1)}.`];
}

function locatedFact({ operation }: Where): readonly string[] {
  return operation.located === null ? [] : [`Located: ${operation.located}.`];
}

function lengthFact(length: Where['target']['length'], { batch }: Where): readonly string[] {
  return length === null ? [] : [`Stop length ${lengthWithUnit(length, batch.plan.units)}.`];
}

function bare(text: string): string {
  return text.split(' ')[0] ?? text;
}
