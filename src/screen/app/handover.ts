/** What the one who takes over must know before the first cut: where it stands, what is not as planned, what to prove. */
import { newestFirst } from '../../batch/chain.ts';
import { cellAt, waitingAt } from '../../batch/flow.ts';
import { durationBetween } from '../../batch/instant.ts';
import type { Batch } from '../../batch/state.ts';
import { asMm } from '../../shop/quantities.ts';
import { lengthWithUnit } from '../moments/axis-text.ts';
import { operationOf, placeName } from '../moments/place-names.ts';

/** Notes that are shown, the newest first. */
const mostNotes = 9;

/** The lines of the handover page; what there is nothing of is said to be none, so that nobody has to ask. */
export function handoverLines(batch: Batch): readonly string[] {
  return [
    ...standing(batch),
    '',
    ...listed('Corrected targets', correctionLines(batch)),
    ...listed('Suspect pieces', suspectLines(batch)),
    ...listed('Notes of this sitting', noteLines(batch)),
    '',
    ...proveLines(batch),
  ];
}

function standing(batch: Batch): readonly string[] {
  if (batch.current === null) return ['No operation is at hand.'];
  const cell = cellAt(batch, batch.current);
  const where = placeName(batch.plan, cell.operation, cell.lane).replace(/ {2,}/g, ', ');
  const stop = cell.load.stop > 0 ? ` The load in hand is begun: ${cell.load.stop} of its stops are done.` : '';
  return [
    `${where}: ${cell.good} good, ${cell.scrap} scrap, ${waitingAt(batch, batch.current)} waiting.${stop}`,
    ...(batch.presence === 'paused' ? ['It is paused.'] : []),
  ];
}

const listed = (title: string, lines: readonly string[]): readonly string[] =>
  lines.length === 0 ? [`${title}: none.`] : [`${title}:`, ...lines.map((line) => `  ${line}`)];

function correctionLines(batch: Batch): readonly string[] {
  return batch.corrections
    .filter((one) => !one.takenBack)
    .map((one) => {
      const axis = one.axis === 'stop' ? 'stop' : one.axis.toUpperCase();
      const by = `${one.by > 0 ? '+' : ''}${lengthWithUnit(asMm(one.by), batch.plan.units)}`;
      const hole = one.point === undefined ? undefined : cutOf(batch, one)?.points[one.point]?.name;
      const only = hole === undefined ? '' : `, ${hole} alone`;
      return `op ${one.operation}, cut ${one.cut + 1}${only}, ${axis} by ${by}: ${one.reason}`;
    });
}

const cutOf = (batch: Batch, { operation, cut }: Batch['corrections'][number]) =>
  operationOf(batch.plan, operation)?.cuts[cut];

function suspectLines(batch: Batch): readonly string[] {
  return batch.suspects.map((one) => {
    const title = operationOf(batch.plan, one.operation)?.checks.find((check) => check.id === one.check)?.title;
    return `op ${one.operation}, ${one.from === one.to ? `piece ${one.from}` : `pieces ${one.from} to ${one.to}`}: ${title ?? one.check}`;
  });
}

function noteLines(batch: Batch): readonly string[] {
  const began = batch.sittings?.item.began;
  return newestFirst(batch.remarks)
    .filter(({ at }) => began === undefined || !durationBetween(began, at).doubtful)
    .flatMap(({ event }) => (event.kind === 'NoteMade' ? [`op ${event.operation}: ${event.text}`] : []))
    .slice(0, mostNotes);
}

function proveLines(batch: Batch): readonly string[] {
  const number = batch.current === null ? null : cellAt(batch, batch.current).operation;
  const setup = batch.plan.setups.find((one) => one.id === operationOf(batch.plan, number ?? -1)?.setup);
  const hasZero = setup !== undefined && (setup.x !== null || setup.y !== null);
  return [
    ...(hasZero ? ['PROVE before the next cut: touch off again; vice, stop and speed as they stood.'] : []),
    ...(setup?.prove.map((line) => `PROVE: ${line}`) ?? []),
    'Count the tray. Read the cautions of this work: h, or menu, show.',
  ];
}
