/** Lines that stand under the digits while pieces are made: speed, tool, what comes next, what is suspect. */
import { leftByCell, nextCellAt } from '../../batch/expected.ts';
import { cellAt, fullLoad, inHandAt, placeAt, throughAt } from '../../batch/flow.ts';
import { toolUse } from '../../batch/questions/tool-use.ts';
import type { Batch } from '../../batch/state.ts';
import { cautionsFor } from '../../plan/cautions.ts';
import type { ResolvedCut, ResolvedMachine, ResolvedOperation } from '../../plan/resolved.ts';
import { asMm, type Mm } from '../../shop/quantities.ts';
import { formatTrimmed, roundToResolution } from '../../shop/units.ts';
import type { Brief, Reading } from '../panel/panel.ts';
import { axisOf, axisText, lengthWithUnit } from './axis-text.ts';
import { placeCalled, placeName, toolOf } from './place-names.ts';
import { type Target, targetAt } from './targets.ts';

/** Where the hands are: a stop of a cell with its target. */
export type Where = {
  readonly batch: Batch;
  readonly at: number;
  readonly operation: ResolvedOperation;
  readonly machine: ResolvedMachine | undefined;
  readonly target: Target;
  readonly position: number;
  readonly stops: number;
};

/** What the kind of work decides of a panel; the rest is the same for all. */
export type Face = {
  readonly headline: string;
  /** In its place where the facts that it stands for have no room. */
  readonly brief?: Brief;
  readonly readings: readonly Reading[];
  readonly facts: readonly string[];
  /** The first so many facts come before any caution; without it all of them do. */
  readonly needed?: number;
};

/** "1350 rpm, drill 5, 3 to 5 s by feel"; '' where nothing turns. */
export function speedFact({ batch, target }: Where): string {
  const cut = target.cut;
  if (cut === null) return '';
  const speed = cut.speed.set === null ? [] : [`${cut.speed.set} rpm`];
  const tool = toolOf(batch.plan, cut.tool);
  const peck = cut.peck === null ? [] : [`clear chips every ${lengthWithUnit(cut.peck, batch.plan.units)}`];
  return [...speed, ...(tool === undefined ? [] : [tool.name]), ...feelWords(cut), ...peck].join(', ');
}

function feelWords(cut: ResolvedCut): readonly string[] {
  if (cut.feel === null) return [];
  const [from, to] = [formatTrimmed(cut.feel.from, 1), formatTrimmed(cut.feel.to, 1)];
  return [from === to ? `${from} s by feel` : `${from} to ${to} s by feel`];
}

/** A tool that has done its holes since it was sharpened. */
export function wearFacts({ batch, target }: Where): readonly string[] {
  const tool = toolOf(batch.plan, target.cut?.tool ?? null);
  if (tool === undefined) return [];
  const use = toolUse(batch, tool.id);
  return use.isDue ? [`${use.holes} holes since sharpening: sharpen or change the ${tool.name}, then press t.`] : [];
}

/** The next three stops with a position, and the move to the first of them. */
export function nextFacts(where: Where): readonly string[] {
  const { batch, at, operation, position, machine, target } = where;
  const units = batch.plan.units;
  const ahead = inHandAt(batch, at)
    .stops.slice(position + 1, position + 4)
    .map((stop) => targetAt(batch, at, stop));
  const setup = batch.plan.setups.find((one) => one.id === operation.setup);
  const piece = ({ stop }: Target): string =>
    stop.place === null || stop.place === target.stop.place ? '' : `${placeCalled(setup, stop.place)}, `;
  const text = (value: Mm | null, axis: 'x' | 'y'): string =>
    value === null ? '' : `${axis.toUpperCase()} ${axisText(value, axisOf(machine, axis), units).words}`;
  return ahead.flatMap((one, index) => {
    if (one.point === null) return [];
    const tool = one.cut?.tool === target.cut?.tool ? '' : `, ${toolOf(batch.plan, one.cut?.tool ?? null)?.name ?? ''}`;
    const moves =
      index > 0
        ? []
        : (['x', 'y'] as const).map((axis) => moveWord(axis, target[axis], one[axis], axisOf(machine, axis), units));
    const move = moves.filter((word) => word !== '').join(' ');
    const line = `${index === 0 ? 'Next' : 'Then'} ${piece(one)}${one.point.name}${tool}:  ${text(one.x, 'x')}  ${text(one.y, 'y')}`;
    return [move === '' || machine?.x.kind === 'dial' ? line : `${line}   (move ${move})`];
  });
}

function moveWord(
  axis: string,
  from: Mm | null,
  to: Mm | null,
  scale: ReturnType<typeof axisOf>,
  units: 'mm' | 'inch',
): string {
  if (from === null || to === null || scale.kind === 'dial' || Math.abs(to - from) < 1e-9) return '';
  // From number to number as they are shown, so that they add up.
  const shown = (at: Mm): number => (scale.kind === 'readout' ? roundToResolution(at, scale.resolution) : at);
  const text = axisText(asMm(shown(to) - shown(from)), scale, units).text;
  return `${axis.toUpperCase()} ${to > from ? '+' : ''}${text}`;
}

/** What comes after the last piece or load of this operation, said before it is done. */
export function afterwardsFacts(batch: Batch, at: number): readonly string[] {
  const left = leftByCell(batch)[at] ?? 0;
  if (left > fullLoad(batch, at)) return [];
  const next = batch.lanes.places[at]?.next ?? (at === batch.current ? null : nextCellAt(batch));
  if (next === null || next === at) return [];
  const { operation, lane } = cellAt(batch, next);
  return [`After this one: ${placeName(batch.plan, operation, lane).replace(/ {2,}/g, ', ')}.`];
}

/** "load 3 of 14": loads of this operation, the last one perhaps smaller. Null where pieces are held one at a time. */
export function loadWords(batch: Batch, at: number): string | null {
  const size = fullLoad(batch, at);
  if (size < 2) return null;
  const done = Math.ceil(throughAt(cellAt(batch, at)) / size);
  const left = Math.ceil(Math.max(0, leftByCell(batch)[at] ?? 0) / size);
  const here = inHandAt(batch, at).pieces;
  return `load ${done + 1} of ${done + Math.max(1, left)}, ${here} ${here === 1 ? 'piece' : 'pieces'}`;
}

/** All cautions until the first piece is done, then one that is due while the work goes on. */
export function workCautions(batch: Batch, at: number): readonly string[] {
  const { operation } = placeAt(batch, at);
  const rows = cautionsOf(batch, operation);
  if (throughAt(cellAt(batch, at)) === 0) return rows.map((row) => row.text);
  return rows
    .filter((row) => row.when === 'during' || row.when === 'each-piece')
    .slice(0, 1)
    .map((row) => row.text);
}

/** The cautions of an operation, injury first, at most three. */
export function cautionsOf(batch: Batch, operation: ResolvedOperation) {
  const byHand = operation.cuts.some((cut) => cut.thread?.byHand === true);
  return cautionsFor({
    kind: operation.kind,
    station: operation.station,
    byHand,
    material: batch.plan.material,
    wanted: operation.cautions,
  });
}
