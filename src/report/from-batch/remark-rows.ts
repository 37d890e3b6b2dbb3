/** Losses with their reasons, notes, and what a reader must know to judge the numbers, from the remarks of a batch. */
import { newestFirst, oldestFirst } from '../../batch/chain.ts';
import type { Batch, Remark } from '../../batch/state.ts';
import type { CheckReport, LoadRow, ReportModel } from '../model.ts';
import { counted } from '../row-names.ts';
import { formatSpan, isoInstant } from '../time-text.ts';

const isoOf = ({ at }: Remark): string => isoInstant(at.wall_ms, at.zone);

/** Scrap, rework and pieces lost away, in the order in which they happened; those taken back are gone. */
export function lossRows(batch: Batch): ReportModel['losses'] {
  const remarks = oldestFirst(batch.remarks);
  const takenBack = new Set(remarks.flatMap(({ event }) => (event.kind === 'TakenBack' ? [event.entry] : [])));
  return remarks.filter((remark) => !takenBack.has(remark.entry)).flatMap(lossesIn);
}

function lossesIn(remark: Remark): ReportModel['losses'] {
  const { event } = remark;
  const at = isoOf(remark);
  switch (event.kind) {
    case 'LoadCounted': {
      const { operation, lane } = event;
      return event.scrap.map(({ reason }) => ({ operation, lane, what: 'scrap' as const, pieces: 1, reason, at }));
    }
    case 'PieceRejected':
      return [{ operation: event.operation, lane: event.lane, what: 'scrap', pieces: 1, reason: event.reason, at }];
    case 'CountedScrapped': {
      const { operation, lane, pieces, reason } = event;
      return [{ operation, lane, what: 'scrap', pieces, reason, at }];
    }
    case 'SentToRework': {
      const { operation, lane, pieces } = event;
      return [{ operation, lane, what: 'rework', pieces, reason: `to ${event.to}: ${event.reason}`, at }];
    }
    case 'CameBack': {
      const { operation, lane, lost } = event;
      return lost === 0 ? [] : [{ operation, lane, what: 'lost away', pieces: lost, reason: event.reason ?? '-', at }];
    }
    default:
      return [];
  }
}

/** Notes made at the machine. */
export const noteRows = (batch: Batch): ReportModel['notes'] =>
  oldestFirst(batch.remarks).flatMap((remark) =>
    remark.event.kind === 'NoteMade'
      ? [{ operation: remark.event.operation, lane: remark.event.lane, text: remark.event.text, at: isoOf(remark) }]
      : [],
  );

/** Plain sentences about what bears on the numbers; none when all went its usual way. */
export function remarkSentences(batch: Batch, loads: readonly LoadRow[], checks: readonly CheckReport[]): string[] {
  const remarks = oldestFirst(batch.remarks);
  const unproved = newestFirst(batch.unproved).length;
  const skipped = checks.reduce((sum, check) => sum + check.skipped, 0);
  const quick = loads.filter((load) => load.quick).length;
  const sentences = [
    unproved === 0 ? '' : `${counted(unproved, 'card')} passed without being proved (within two seconds, or skipped).`,
    skipped === 0 ? '' : `${counted(skipped, 'check')} skipped.`,
    quick === 0 ? '' : `${counted(quick, 'count')} came quickly after the one before and may be a double press.`,
    batch.more === 0 ? '' : `${counted(batch.more, 'piece')} started beyond the plan.`,
    batch.accounts.unknown === 0
      ? ''
      : `${formatSpan(batch.accounts.unknown / 1000)} around power cuts belong to no known work.`,
    trialSentence(batch),
    ...remarks.map(({ event }) => eventSentence(event)),
  ];
  return sentences.filter((sentence) => sentence !== '');
}

function trialSentence(batch: Batch): string {
  const trials = batch.cells.reduce((sum, cell) => sum + cell.trials, 0);
  return trials === 0 ? '' : `${counted(trials, 'trial piece')} made, counted apart.`;
}

function eventSentence(event: Remark['event']): string {
  switch (event.kind) {
    case 'SuspendNoticed':
      return `The computer slept for ${formatSpan(event.ms / 1000)}; that time is in no piece.`;
    case 'ClockStepped':
      return `The wall clock was set ${event.ms < 0 ? 'back' : 'forward'} by ${formatSpan(Math.abs(event.ms) / 1000)}; durations are not touched.`;
    case 'PlanAmended':
      return `The plan was amended while the batch ran: ${event.changes.join('; ')}.`;
    case 'Recounted':
      return `Operation ${event.operation} was recounted from ${event.before} to ${event.good}: ${event.reason}.`;
    default:
      return '';
  }
}
