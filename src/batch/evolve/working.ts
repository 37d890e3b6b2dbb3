/** How work moves between operations, and what a bump, a tool change or a correction does to what stood ready. */
import type { BatchEvent, EventOf } from '../events.ts';
import { cellAt, placeAt } from '../flow.ts';
import type { Instant } from '../instant.ts';
import { commonLane } from '../lanes.ts';
import { holesMade } from '../machines.ts';
import type { Batch, Cell, Correction } from '../state.ts';
import { withMachine } from './cards.ts';
import { positionOf, withEntry } from './counting.ts';
import { withFirstOffs } from './first-off.ts';
import { withTimingSpoiled } from './opening.ts';
import { withZeroLost } from './zero-lost.ts';

/** Work goes to another cell; tools that are not used there go out of the machine. */
export function operationBegun(batch: Batch, event: EventOf<'OperationBegun'>): Batch {
  const at = positionOf(batch, event.operation, event.lane);
  const left = batch.current === at ? batch : withTimingSpoiled(batch, 'switched');
  const used = new Set(placeAt(batch, at).operation.cuts.map((cut) => cut.tool));
  const readied = withMachine(left, event.operation, (machine) => ({
    ...machine,
    tools: machine.tools.filter((tool) => used.has(tool)),
    depths: machine.depths.filter((depth) => used.has(depth.tool)),
  }));
  return {
    ...readied,
    current: at,
    cells: readied.cells.with(at, { ...cellAt(readied, at), begun: true }),
    cards: [],
    needs: { ...batch.needs, asked: [], toolBack: null, endSeen: false },
    variantInHand: event.lane === commonLane ? null : batch.variantInHand,
  };
}

/** The work or its holding was knocked: the zero no longer stands, and the next piece is a first-off again. */
export function bumped(batch: Batch, event: EventOf<'Bumped'>): Batch {
  return withFirstOffs(withZeroLost(batch, event.operation, 'bumped'), positionOf(batch, event.operation, event.lane));
}

/** A tool was changed or sharpened: it goes in again, the zero is proved, its holes are counted from here. */
export function toolChanged(batch: Batch, event: EventOf<'ToolChanged'>): Batch {
  const { tool, sharpened } = event;
  const lost = withZeroLost(batch, event.operation, sharpened ? 'tool sharpened' : 'tool changed', tool);
  const out = withMachine(lost, event.operation, (machine) => ({
    ...machine,
    tools: machine.tools.filter((there) => there !== tool),
    lostDepths: machine.lostDepths.filter((there) => there !== tool),
  }));
  const changed: Batch = {
    ...out,
    holesAtChange: { ...batch.holesAtChange, [tool]: holesMade(batch, tool) },
    needs: { ...out.needs, toolBack: { tool, sharpened } },
  };
  return withFirstOffs(changed, positionOf(batch, event.operation, event.lane));
}

/** A target is altered from here on; the next piece is a first-off again. */
export function targetCorrected(batch: Batch, event: EventOf<'TargetCorrected'>, when: Instant): Batch {
  const at = positionOf(batch, event.operation, event.lane);
  const { operation, lane, cut, axis, by, reading, reason, also = [] } = event;
  const said = { entry: batch.nextEntry, lane, axis, by, reading, reason, at: when, takenBack: false };
  // One entry for all of them, so that they are taken back together.
  const corrections = [{ operation, cut, point: event.point }, ...also].map(
    ({ point, ...target }): Correction => ({ ...said, ...target, ...(point === undefined ? {} : { point }) }),
  );
  const counted = withEntry(batch, at, event.kind, { beyond: { kind: 'correction' } }, {});
  const corrected = { ...counted, corrections: [...batch.corrections, ...corrections] };
  return withFirstOffs(withFirstOffsIn(corrected, new Set(also.map((one) => one.operation))), at);
}

/** Operations that are corrected from an earlier one: pieces begun there are measured again. */
function withFirstOffsIn(batch: Batch, operations: ReadonlySet<number>): Batch {
  return batch.cells.reduce(
    (after, cell, at) => (cell.begun && operations.has(cell.operation) ? withFirstOffs(after, at) : after),
    batch,
  );
}

/** The operator counts this operation otherwise from now on. */
export function countingChanged(batch: Batch, event: EventOf<'CountingChanged'>): Batch {
  const at = positionOf(batch, event.operation, event.lane);
  const cell: Cell = { ...cellAt(batch, at), counting: event.counting };
  return { ...batch, cards: [], cells: batch.cells.with(at, cell) };
}

/** Events kept as they are for the report, beside whatever else they do. */
export const remarked: ReadonlySet<BatchEvent['kind']> = new Set<BatchEvent['kind']>([
  'CountedScrapped',
  'PieceRejected',
  'SentToRework',
  'Recounted',
  'TrialMade',
  'TakenBack',
  'SuspectsCleared',
  'SuspectsSettled',
  'Bumped',
  'ToolChanged',
  'ZeroProved',
  'NoteMade',
  'Paused',
  'Resumed',
  'SuspendNoticed',
  'ClockStepped',
  'SentAway',
  'CameBack',
  'MoreStarted',
  'PoolAllotted',
  'CountingChanged',
  'InitialsGiven',
  'PlanAmended',
  'PlanChangeDeclined',
  'HoursChanged',
]);
