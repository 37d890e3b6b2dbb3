/** Losses with their reasons, and notes, from the remarks of a batch. */
import { oldestFirst } from '../../batch/chain.ts';
import type { Batch, Remark } from '../../batch/state.ts';
import type { ReportModel } from '../model.ts';
import { isoInstant } from '../time-text.ts';

const isoOf = ({ at }: Remark): string => isoInstant(at.wall_ms, at.zone);

/** Scrap, rework and pieces lost away, in the order in which they happened; those taken back are gone. */
export function lossRows(batch: Batch): ReportModel['losses'] {
  return standingRemarks(batch).flatMap(lossesIn);
}

/** What happened, oldest first, without what was taken back. */
export function standingRemarks(batch: Batch): readonly Remark[] {
  const remarks = oldestFirst(batch.remarks);
  const takenBack = new Set(remarks.flatMap(({ event }) => (event.kind === 'TakenBack' ? [event.entry] : [])));
  return remarks.filter(({ event, entry }) => !(isEntry(event) && takenBack.has(entry)));
}

/** Only entries have an ordinal of their own; any other remark carries that of the entry to come. */
const isEntry = ({ kind }: Remark['event']): boolean => entryKinds.has(kind);
const entryKinds: ReadonlySet<Remark['event']['kind']> = new Set<Remark['event']['kind']>([
  'LoadCounted',
  'PieceRejected',
  'CountedScrapped',
  'SuspectsSettled',
  'SentToRework',
  'Recounted',
  'SentAway',
  'CameBack',
  'MoreStarted',
  'PoolAllotted',
]);

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
    case 'SuspectsSettled': {
      const { scrapAt, from, to, reason } = event;
      return scrapAt === null ? [] : [{ ...scrapAt, what: 'scrap', pieces: to - from + 1, reason, at }];
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
