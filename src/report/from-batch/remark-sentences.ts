/** What a reader must know to judge the numbers, as plain sentences; none when all went its usual way. */
import { newestFirst, oldestFirst } from '../../batch/chain.ts';
import type { Batch, Remark } from '../../batch/state.ts';
import type { CheckReport, LoadRow } from '../model.ts';
import { counted } from '../row-names.ts';
import { formatSpan } from '../time-text.ts';
import { standingRemarks } from './remark-rows.ts';

/** First what concerns the whole batch, then what happened, in its order; what was taken back is only counted. */
export function remarkSentences(batch: Batch, loads: readonly LoadRow[], checks: readonly CheckReport[]): string[] {
  const happened = standingRemarks(batch).map(({ event }) => eventSentence(batch, event));
  return [...sumSentences(batch, loads, checks), ...happened].filter((sentence) => sentence !== '');
}

function sumSentences(batch: Batch, loads: readonly LoadRow[], checks: readonly CheckReport[]): string[] {
  const remarks = oldestFirst(batch.remarks);
  const unproved = newestFirst(batch.unproved).length;
  const proved = remarks.filter(({ event }) => event.kind === 'ZeroProved').length;
  const skipped = checks.reduce((sum, check) => sum + check.skipped, 0);
  const quick = loads.filter((load) => load.quick).length;
  const takenBack = remarks.filter(({ event }) => event.kind === 'TakenBack').length;
  return [
    unproved === 0 ? '' : `${counted(unproved, 'card')} passed without being proved (within two seconds, or skipped).`,
    proved === 0 ? '' : `The zero of an axis was proved ${counted(proved, 'time')}.`,
    skipped === 0 ? '' : `${counted(skipped, 'check')} skipped.`,
    quick === 0 ? '' : `${counted(quick, 'count')} came quickly after the one before and may be a double press.`,
    takenBack === 0 ? '' : `${counted(takenBack, 'entry', 'entries')} taken back.`,
    batch.accounts.unknown === 0
      ? ''
      : `${formatSpan(batch.accounts.unknown / 1000)} around power cuts belong to no known work.`,
    trialSentence(batch),
  ];
}

function trialSentence(batch: Batch): string {
  const trials = batch.cells.reduce((sum, cell) => sum + cell.trials, 0);
  if (trials === 0) return '';
  const words = oldestFirst(batch.remarks).flatMap(({ event }) =>
    event.kind === 'TrialMade' && event.note !== null ? [event.note] : [],
  );
  return `${counted(trials, 'trial piece')} made, counted apart${words.length === 0 ? '' : `: ${words.join('; ')}`}.`;
}

function eventSentence(batch: Batch, event: Remark['event']): string {
  switch (event.kind) {
    case 'SuspendNoticed':
      return `The computer slept for ${formatSpan(event.ms / 1000)}; that time is in no piece.`;
    case 'ClockStepped':
      return `The wall clock was set ${event.ms < 0 ? 'back' : 'forward'} by ${formatSpan(Math.abs(event.ms) / 1000)}; durations are not touched.`;
    case 'PlanAmended':
      return `The plan was amended while the batch ran: ${event.changes.join('; ')}.`;
    case 'PlanChangeDeclined':
      return 'A changed plan file was left alone.';
    case 'HoursChanged':
      return 'The hours of the shop were changed for this batch.';
    case 'Recounted':
      return `Operation ${event.operation} was recounted from ${event.before} to ${event.good}: ${event.reason}.`;
    case 'MoreStarted':
      return `${counted(event.pieces, 'piece')} started beyond the plan: ${event.reason}.`;
    case 'Bumped':
      return `Something was bumped at operation ${event.operation}; the zero had to be proved again.`;
    case 'ToolChanged':
      return `${toolName(batch, event.tool)} was ${event.sharpened ? 'sharpened' : 'changed'} at operation ${event.operation}.`;
    case 'CountingChanged':
      return `Operation ${event.operation} was counted by the ${event.counting} from then on.`;
    case 'SentAway':
      return `${counted(event.pieces, 'piece')}${ofKind(batch, event.lane)} went out to ${event.to}.`;
    case 'CameBack':
      return `${counted(event.pieces, 'piece')}${ofKind(batch, event.lane)} came back, ${event.lost} lost${event.reason === null ? '' : `: ${event.reason}`}.`;
    case 'PoolAllotted':
      return `After operation ${event.operation} the kinds parted: ${sharesText(batch, event.shares)}.`;
    default:
      return '';
  }
}

const toolName = (batch: Batch, id: string): string => batch.plan.tools.find((tool) => tool.id === id)?.name ?? id;

const kindName = (batch: Batch, lane: string): string =>
  batch.plan.variants.find((variant) => variant.id === lane)?.title ?? lane;

const ofKind = (batch: Batch, lane: string): string => (lane === '*' ? '' : ` (${kindName(batch, lane)})`);

const sharesText = (batch: Batch, shares: Readonly<Record<string, number>>): string =>
  Object.entries(shares)
    .map(([lane, pieces]) => `${pieces} ${kindName(batch, lane)}`)
    .join(', ');
