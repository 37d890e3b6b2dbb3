/** The question that a batch puts to its forecast at a moment: what is at hand, how far it is, and what is left. */
import { accountOf } from '../batch/accounts.ts';
import type { Card } from '../batch/cards.ts';
import { leftByCell } from '../batch/expected.ts';
import { cellAt, inHandAt, placeAt } from '../batch/flow.ts';
import { durationBetween, type Instant } from '../batch/instant.ts';
import { machineFor } from '../batch/machines.ts';
import type { Batch } from '../batch/state.ts';
import { hoursOf } from './batch-hours.ts';
import { benchSeconds } from './bench-clock.ts';
import type { ForecastAsk } from './projection.ts';
import type { ShopHours } from './shop-hours.ts';

/** Whether the cell at hand is being set up: before its first load any setting card, later only the setup's own. */
export function isSettingUp(batch: Batch, at: number): boolean {
  const isFresh = cellAt(batch, at).loads === null;
  return batch.cards.some((card) => card.kind === 'setup' || (isFresh && isSettingCard(card)));
}

function isSettingCard(card: Card): boolean {
  if (card.kind === 'zero' || card.kind === 'z zero') return card.why === null;
  return card.kind === 'tool' || card.kind === 'speed' || card.kind === 'variant';
}

/** What to ask of the forecast at `now`. Away operations are no bench work and never at hand. */
export function forecastAskOf(batch: Batch, now: Instant, hours: ShopHours = hoursOf(batch)): ForecastAsk {
  const left = leftByCell(batch);
  const at = batch.current;
  const isBench = at !== null && placeAt(batch, at).operation.kind !== 'away';
  const begun = new Set<number>();
  return {
    operation: isBench ? cellAt(batch, at).key : null,
    sinceLastPress_s: isBench ? sinceLastPress(batch, at, now, hours) : 0,
    shareDone: isBench ? shareDone(batch, at) : 0,
    left: batch.cells.map((cell, i) => {
      const { operation } = placeAt(batch, i);
      const pieces = operation.kind === 'away' ? 0 : Math.max(0, left[i] ?? 0);
      const setupAhead = pieces > 0 && !begun.has(cell.operation) && isSetupAhead(batch, i);
      if (pieces > 0) begun.add(cell.operation);
      return { pieces, setupAhead };
    }),
  };
}

/** Whether an operation must be set up, or set up again because other work has taken its machine since. */
function isSetupAhead(batch: Batch, at: number): boolean {
  const { operation } = placeAt(batch, at);
  if (!batch.cells.some((cell) => cell.operation === operation.number && cell.begun)) return true;
  if (batch.current === at && isSettingUp(batch, at)) return true;
  return operation.setup !== null && machineFor(batch, operation).setup !== operation.setup;
}

/**
 * Bench seconds of the setup or load in hand up to `now`; those of the last point on, where points of the load are done.
 * They stand still while nobody is there, during a pause and while a card other than for setting is up.
 */
function sinceLastPress(batch: Batch, at: number, now: Instant, hours: ShopHours): number {
  const account = batch.kind === 'open' ? accountOf(batch) : 'away';
  const isWork = account === 'run' || account === 'setup';
  const running_ms = isWork ? durationBetween(batch.last, now).ms : 0;
  const cell = cellAt(batch, at);
  const setup_ms = cell.accounts.setup - (cell.loads?.item.setup_ms ?? 0);
  const booked_ms = shareDone(batch, at) > 0 ? 0 : isSettingUp(batch, at) ? setup_ms : cell.loadRun_ms;
  const so_far_ms = booked_ms + running_ms;
  return so_far_ms <= 0 ? 0 : benchSeconds(hours, now.wall_ms - so_far_ms, now.wall_ms);
}

/** Part of the load in hand that is done, by its points: 0 with none, below 1 always. */
function shareDone(batch: Batch, at: number): number {
  const { stop, stops } = inHandAt(batch, at);
  return stops.length === 0 ? 0 : Math.min(stop, stops.length - 1) / stops.length;
}
