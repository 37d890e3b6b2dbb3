/**
 * Gates: which cards are due in a state. Nothing is remembered of how a card came up: it is due while its condition
 * holds, so a card that was interrupted by a night, a jump or a take-back comes up again by itself. `decide` puts what
 * is due and not yet up behind its events.
 */
import type { ResolvedCut, ResolvedOperation, ResolvedSetup, ResolvedTool } from '../../plan/resolved.ts';
import type { Card } from '../cards.ts';
import { leftByCell, nextCellAt } from '../expected.ts';
import { cellAt, countedAt, inHandAt, placeAt, shortageOf, throughAt, unallotted, waitingAt } from '../flow.ts';
import { commonLane } from '../lanes.ts';
import { facedBefore, hasSpindle, machineFor, setupOf } from '../machines.ts';
import { proposeShares } from '../parting.ts';
import { correctedJust } from '../questions/corrections.ts';
import type { Batch, Cell, CheckFact } from '../state.ts';

type WithoutId<Kind> = Kind extends Card ? Omit<Kind, 'id'> : never;
/** A card before it is numbered. */
type Draft = WithoutId<Card>;
type Named = { readonly operation: number; readonly lane: string };

/** The cards to raise now: due and not up yet, numbered. */
export function cardsToRaise(batch: Batch): readonly Card[] {
  const up = new Set(batch.cards.map(({ id: _, ...draft }) => faceOf(draft)));
  const missing = dueCards(batch).filter((draft) => !up.has(faceOf(draft)));
  return missing.map((draft, i): Card => ({ id: `card ${batch.cardsRaised + i + 1}`, ...draft }));
}

/** Cards with the same face ask the same thing. Keys in order, so that a card read from a journal compares equal. */
const faceOf = (draft: Draft): string => JSON.stringify(Object.entries(draft).sort(([a], [b]) => (a < b ? -1 : 1)));

/** Every card that is due, in the order in which they are answered. */
export function dueCards(batch: Batch): readonly Draft[] {
  const at = batch.current;
  if (batch.kind !== 'open' || batch.presence === 'left' || at === null) return [];
  const { operation, lane } = cellAt(batch, at);
  const named = { operation, lane };
  const work = waitingAt(batch, at) > 0 ? gatesOfWork(batch, at, named) : gatesOfEnd(batch, at, named);
  return [...placeCards(batch, at, named), ...work];
}

function placeCards(batch: Batch, at: number, named: Named): readonly Draft[] {
  const { resume, recount } = batch.needs;
  return [
    ...(resume === null ? [] : [{ ...named, kind: 'resume', ...resume } as const]),
    ...(recount ? [{ ...named, kind: 'recount', expected: cellAt(batch, at).good } as const] : []),
  ];
}

/** Pieces wait here: what must stand before the next of them is touched. */
function gatesOfWork(batch: Batch, at: number, named: Named): readonly Draft[] {
  if (placeAt(batch, at).operation.kind === 'away')
    return [...variantCards(batch, named), ...awayCards(batch, at, named)];
  return [
    ...variantCards(batch, named),
    ...setupCards(batch, at, named),
    ...checkCards(batch, at, named),
    ...shortageCards(batch, named),
    ...correctionCards(batch, named, ['x', 'y']),
    ...toolCards(batch, at, named),
    ...spindleCards(batch, at, named),
    ...correctionCards(batch, named, ['z']),
  ];
}

/** Nothing waits here: what is put in order before work goes on elsewhere or the batch ends. */
function gatesOfEnd(batch: Batch, at: number, named: Named): readonly Draft[] {
  const checks = checkCards(batch, at, named);
  // The last check may find pieces suspect, and those are asked for before the end of the operation is told.
  const isChecked = checks.every((card) => card.kind === 'check' && card.due === 'asked');
  const before = [
    ...checks,
    ...(isChecked ? suspectCards(batch, named) : []),
    ...(placeAt(batch, at).operation.kind === 'away' ? awayCards(batch, at, named) : []),
    ...restoreCards(batch, at, named),
    ...shortageCards(batch, named),
    ...partingCards(batch, named),
  ];
  const settled = isChecked && unallotted(batch) === 0 && cellAt(batch, at).out === 0;
  return settled ? [...before, ...endCards(batch, named)] : before;
}

function variantCards(batch: Batch, named: Named): readonly Draft[] {
  const same = named.lane === commonLane || named.lane === batch.variantInHand;
  return same ? [] : [{ ...named, kind: 'variant', from: batch.variantInHand, to: named.lane }];
}

function setupCards(batch: Batch, at: number, named: Named): readonly Draft[] {
  const { operation } = placeAt(batch, at);
  const setup = setupOf(batch, operation);
  if (setup === null) return [];
  const machine = machineFor(batch, operation);
  const standing = machine.setup === setup.id;
  const axes = (['x', 'y'] as const).filter((axis) => setup[axis] !== null && !(standing && machine[axis]));
  const why = standing ? machine.why : null;
  return [
    ...(standing ? [] : [{ ...named, kind: 'setup', setup: setup.id } as const]),
    ...axes.map((axis): Draft => ({ ...named, kind: 'zero', setup: setup.id, axis, why })),
  ];
}

function cutInHand(batch: Batch, at: number): ResolvedCut | undefined {
  const { stops, stop } = inHandAt(batch, at);
  const next = stops[stop] ?? stops.at(-1);
  return next === undefined ? undefined : placeAt(batch, at).operation.cuts[next.cut];
}

function toolCards(batch: Batch, at: number, named: Named): readonly Draft[] {
  const { operation } = placeAt(batch, at);
  const back = batch.needs.toolBack;
  if (back !== null) return [{ ...named, kind: 'tool', tool: back.tool, moment: back.sharpened ? 'sharpened' : 'in' }];
  const id = cutInHand(batch, at)?.tool ?? null;
  const tool = batch.plan.tools.find((candidate) => candidate.id === id);
  if (tool === undefined) return [];
  if (isTakenUpPlainly(tool, operation, setupOf(batch, operation))) return [];
  const goesIn = operation.machine !== null || operation.setup !== null || tool.prepare !== null;
  const standing = machineFor(batch, operation);
  const setupStands = operation.setup === null || standing.setup === operation.setup;
  return goesIn && !(setupStands && standing.tools.includes(tool.id))
    ? [{ ...named, kind: 'tool', tool: tool.id, moment: 'in' }]
    : [];
}

/** A hand tool with nothing to prepare, no size to tell and no zero needs no word before it is taken up. */
function isTakenUpPlainly(tool: ResolvedTool, operation: ResolvedOperation, setup: ResolvedSetup | null): boolean {
  const isBare = tool.prepare === null && tool.diameter === null && (setup?.zZero ?? null) === null;
  return operation.station === 'bench' && isBare;
}

/** A tool is touched off at a standing spindle; a face is skimmed at its speed. */
function spindleCards(batch: Batch, at: number, named: Named): readonly Draft[] {
  const [depth, speed] = [depthZeroCards(batch, at, named), speedCards(batch, at, named)];
  return cutInHand(batch, at)?.zZero?.how === 'skim' ? [...speed, ...depth] : [...depth, ...speed];
}

/** The Z zero of the tool in hand does not stand on the top that it meets here. */
function depthZeroCards(batch: Batch, at: number, named: Named): readonly Draft[] {
  const { operation } = placeAt(batch, at);
  const cut = cutInHand(batch, at);
  if (cut?.zZero === undefined || cut.tool === null || operation.setup === null) return [];
  const { tool } = cut;
  const machine = machineFor(batch, operation);
  const isSetUp = machine.setup === operation.setup;
  const faced = facedBefore(batch.plan, operation);
  if (isSetUp && machine.depths.some((depth) => depth.tool === tool && depth.faced === faced)) return [];
  const why = isSetUp && machine.lostDepths.includes(tool) ? machine.why : null;
  return [{ ...named, kind: 'z zero', setup: operation.setup, tool, why }];
}

/** Targets of this operation that were corrected before their zero was set anew. */
function correctionCards(batch: Batch, named: Named, axes: readonly string[]): readonly Draft[] {
  return batch.needs.corrections.flatMap(({ operation, ...target }): Draft[] => {
    if (operation !== named.operation || !axes.includes(target.axis)) return [];
    const by = correctedJust(batch, { operation, ...target });
    return by === 0 ? [] : [{ ...named, kind: 'correction', ...target, by }];
  });
}

/** The spindle turns otherwise than the next stop wants, or nobody knows how it turns. */
function speedCards(batch: Batch, at: number, named: Named): readonly Draft[] {
  const { operation } = placeAt(batch, at);
  const cut = cutInHand(batch, at);
  if (cut === undefined || !hasSpindle(batch, operation)) return [];
  const tapping = cut.thread !== null;
  const to = cut.speed.set;
  const now = machineFor(batch, operation).rpm;
  if (now === to || (to === null && !tapping)) return [];
  return [{ ...named, kind: 'speed', tool: cut.tool, from: now ?? null, to, tapping }];
}

function checkCards(batch: Batch, at: number, named: Named): readonly Draft[] {
  const cell = cellAt(batch, at);
  const asked = batch.needs.asked;
  const nothingLeft = (leftByCell(batch)[at] ?? 0) <= 0;
  return placeAt(batch, at).operation.checks.flatMap((check): Draft[] => {
    const fact = cell.checks[check.id];
    if (asked.includes(check.id)) return [{ ...named, kind: 'check', check: check.id, due: 'asked' }];
    const due = fact === undefined ? null : dueReason(fact, check, cell, nothingLeft);
    return due === null ? [] : [{ ...named, kind: 'check', check: check.id, due }];
  });
}

/**
 * Why a check is due, or null. Each waits for a good piece, since one that is rejected proves nothing: the first-off for the
 * first good one since it came due, every Nth for one that is not scrap itself, the last for one that was not checked yet.
 */
function dueReason(
  fact: CheckFact,
  check: { readonly firstOff: boolean; readonly every: number | null; readonly last: boolean },
  cell: Cell,
  nothingLeft: boolean,
): 'first-off' | 'every' | 'last' | null {
  const piece = countedAt(cell);
  if (fact.dueAbove !== null && cell.good > fact.dueAbove) return check.firstOff ? 'first-off' : 'every';
  const isNth = check.every !== null && nthOf(piece, check.every) > nthOf(fact.checkedAt, check.every);
  if (isNth && isNewestGood(cell)) return 'every';
  return check.last && nothingLeft && piece > fact.checkedAt && cell.good > fact.goodThen ? 'last' : null;
}

/** Whether the newest load left a good piece that can be measured. */
function isNewestGood({ loads, lastGood, entries }: Cell): boolean {
  if (loads !== null && loads.item.good === 0) return false;
  const what = entries?.item.what;
  return !(lastGood === 0 && (what === 'CountedScrapped' || what === 'SuspectsSettled'));
}

/** Every fifth is the 5th, 10th, 15th piece, whatever was checked in between. */
const nthOf = (piece: number, every: number): number => Math.floor(piece / every);

function awayCards(batch: Batch, at: number, named: Named): readonly Draft[] {
  const { out } = cellAt(batch, at);
  const waiting = waitingAt(batch, at);
  if (out > 0) return [{ ...named, kind: 'away', moment: 'back', pieces: out }];
  return waiting > 0 ? [{ ...named, kind: 'away', moment: 'out', pieces: waiting }] : [];
}

/** Tools that are put right because nothing in the batch needs them any more. */
function restoreCards(batch: Batch, at: number, named: Named): readonly Draft[] {
  if (throughAt(cellAt(batch, at)) === 0) return [];
  const left = leftByCell(batch);
  const needed = new Set(
    batch.lanes.places.flatMap((place, i) => ((left[i] ?? 0) > 0 ? place.operation.cuts.map((cut) => cut.tool) : [])),
  );
  const tools = new Set(placeAt(batch, at).operation.cuts.map((cut) => cut.tool));
  return batch.plan.tools
    .filter((tool) => tools.has(tool.id) && tool.restore !== null)
    .filter((tool) => !needed.has(tool.id) && !batch.restored.includes(tool.id))
    .map((tool) => ({ ...named, kind: 'tool', tool: tool.id, moment: 'restore' }));
}

/** Pieces out of limits that nobody has settled or said to keep apart: asked once they would go on with the good ones. */
function suspectCards(batch: Batch, named: Named): readonly Draft[] {
  const isOpen = batch.suspects.some(
    (one) => one.operation === named.operation && one.lane === named.lane && one.apart !== true,
  );
  return isOpen ? [{ ...named, kind: 'suspects' }] : [];
}

function shortageCards(batch: Batch, named: Named): readonly Draft[] {
  const short = shortageOf(batch);
  return short > batch.needs.shortageSeen ? [{ ...named, kind: 'shortage', short }] : [];
}

function partingCards(batch: Batch, named: Named): readonly Draft[] {
  const pool = unallotted(batch);
  return pool > 0 ? [{ ...named, kind: 'parting', proposal: { ...proposeShares(batch, pool) } }] : [];
}

function endCards(batch: Batch, named: Named): readonly Draft[] {
  const next = nextCellAt(batch);
  if (batch.needs.endSeen && next === null) return [{ ...named, kind: 'batch ended' }];
  if (next === null) return [{ ...named, kind: 'operation ended', next: null }];
  const { operation, lane } = cellAt(batch, next);
  return [{ ...named, kind: 'operation ended', next: { operation, lane } }];
}
