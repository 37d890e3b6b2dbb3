/** From what the batch is at to the moments of the binding table. */
import type { Card } from '../../batch/cards.ts';
import type { Moment } from '../keys/key-map.ts';

/** The moment of a card: what its keys are. */
export function momentOfCard(card: Card): Moment {
  switch (card.kind) {
    case 'resume':
    case 'recount':
      return 'resume';
    case 'setup':
      return 'setup';
    case 'zero':
      return 'zero';
    case 'tool':
    case 'speed':
    case 'variant':
    case 'parting':
    case 'shortage':
    case 'away':
      return 'gate';
    case 'check':
      return 'check';
    case 'operation ended':
      return 'end-operation';
    case 'batch ended':
      return 'end-batch';
    default:
      return card satisfies never;
  }
}
