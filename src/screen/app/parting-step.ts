/** Shares of a parting other than the proposed ones. */
import type { Card } from '../../batch/cards.ts';
import type { Batch } from '../../batch/state.ts';
import type { Next } from '../flow/flow.ts';
import { laneName } from '../moments/place-names.ts';
import { close, open, piecesEntry, send } from './steps.ts';

/**
 * The other numbers of a parting, where more than two kinds part: each in turn, the last takes the rest.
 * `given` are those already said; `card` and `shown_ms` go into the command.
 */
export function partingStep(
  batch: Batch,
  card: Extract<Card, { kind: 'parting' }>,
  given: Readonly<Record<string, number>>,
  shown_ms: number,
): Next | string {
  const lanes = Object.keys(card.proposal);
  const total = Object.values(card.proposal).reduce((sum, pieces) => sum + pieces, 0);
  const rest = total - Object.values(given).reduce((sum, pieces) => sum + pieces, 0);
  if (rest < 0) return `only ${total} pieces part here`;
  const missing = lanes.filter((lane) => given[lane] === undefined);
  const [next] = missing;
  if (next === undefined || missing.length === 1) {
    const shares = next === undefined ? given : { ...given, [next]: rest };
    return send({ kind: 'passCard', id: card.id, shown_ms, answer: { kind: 'shares', shares } });
  }
  return open(
    piecesEntry(`HOW MANY ARE ${laneName(batch.plan, next)}?`, rest, (pieces) => {
      const answer = partingStep(batch, card, { ...given, [next]: pieces }, shown_ms);
      return typeof answer === 'string' ? close : answer;
    }),
  );
}
