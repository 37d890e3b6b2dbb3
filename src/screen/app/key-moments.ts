/** From what the screen and its batch are at to the moments of the binding table. */
import type { Card } from '../../batch/cards.ts';
import { inHandAt, placeAt } from '../../batch/flow.ts';
import type { Batch } from '../../batch/state.ts';
import type { Moment } from '../keys/key-map.ts';
import type { AppState } from './state.ts';

/** The batch on the screen, or null while none is. */
export function batchOf(app: AppState): Batch | null {
  if (app.stage.kind !== 'batch') return null;
  const { state } = app.stage.opened.sitting.read();
  return state.kind === 'none' ? null : state;
}

/** The id of the batch on the screen; '' while none is. */
export function batchIdOf({ stage }: AppState): string {
  return stage.kind === 'batch' ? stage.opened.id : '';
}

/** The card that is up, if the batch is open, here and not paused. */
export function cardOf(app: AppState): Card | undefined {
  const batch = batchOf(app);
  return batch !== null && batch.kind === 'open' && batch.presence === 'here' ? batch.cards[0] : undefined;
}

/** Moment of the binding table: which keys work now. */
export function momentOf(app: AppState): Moment {
  if (app.page !== null) return 'help';
  if (app.stage.kind !== 'batch') return app.stage.kind === 'choose' ? 'choose' : 'list';
  const batch = batchOf(app);
  if (batch === null || batch.kind !== 'open') return 'end-batch';
  if (batch.presence === 'paused') return 'pause';
  const card = batch.cards[0];
  return card === undefined ? workMoment(batch) : momentOfCard(card);
}

/** Which kind of work: points, a line, or counting alone. */
function workMoment(batch: Batch): Moment {
  if (batch.current === null) return 'count';
  const { stops, stop } = inHandAt(batch, batch.current);
  const cut = placeAt(batch, batch.current).operation.cuts[stops[stop]?.cut ?? 0];
  if (cut === undefined) return 'count';
  if (cut.passes.length > 0) return 'line';
  return cut.points.length > 0 ? 'points' : 'count';
}

/** The moment of a card: what its keys are. */
function momentOfCard(card: Card): Moment {
  switch (card.kind) {
    case 'resume':
    case 'recount':
      return 'resume';
    case 'setup':
      return 'setup';
    case 'zero':
    case 'z zero':
      return 'zero';
    case 'tool':
    case 'speed':
    case 'variant':
    case 'parting':
    case 'suspects':
    case 'shortage':
    case 'away':
      return 'gate';
    case 'check':
    case 'correction':
      return 'check';
    case 'operation ended':
      return 'end-operation';
    case 'batch ended':
      return 'end-batch';
    default:
      return card satisfies never;
  }
}
