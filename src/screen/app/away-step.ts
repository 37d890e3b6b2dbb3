/** Fewer pieces came back from away than went out: what became of the others is asked before anything is written. */
import type { Card } from '../../batch/cards.ts';
import type { Choice, Next, Step } from '../flow/flow.ts';
import { choice, open, send, textEntry } from './steps.ts';

const fates = ['lost there', 'spoiled there', 'not to size when they came', 'kept as a sample'] as const;

/**
 * Asks what became of the pieces that did not come.
 *
 * @param back pieces that came, fewer than `card.pieces`
 * @param shown_ms how long the card stood
 */
export function missingStep(card: Extract<Card, { kind: 'away' }>, back: number, shown_ms: number): Step {
  const missing = card.pieces - back;
  const answer = (lost: number, reason: string | null): Next =>
    send({ kind: 'passCard', id: card.id, shown_ms, answer: { kind: 'back', pieces: back, lost, reason } });
  const later: Choice[] = back === 0 ? [] : [{ label: 'still there: they come later', next: answer(0, null) }];
  return choice(
    missing === 1 ? 'WHERE IS THE MISSING PIECE?' : `WHERE ARE THE OTHER ${missing}?`,
    [
      ...later,
      ...fates.map((fate): Choice => ({ label: fate, next: answer(missing, fate) })),
      { label: 'other: type it', next: open(textEntry('WHAT BECAME OF THEM?', (reason) => answer(missing, reason))) },
    ],
    [`${back} of ${card.pieces} came back. Lost pieces are scrap, with the reason in the report.`],
  );
}
