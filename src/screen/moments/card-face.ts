/** The part of a panel that a card decides, and the makers that the cards share. */
import { type CautionMoment, cautionById, cautionsAt } from '../../plan/cautions.ts';
import { mainReading, type Panel, type Reading } from '../panel/panel.ts';

export type CardFace = Pick<Panel, 'headline' | 'readings' | 'facts' | 'cautions' | 'weight' | 'warnsAfter'> & {
  /** Setup and operation whose drawing belongs beside it; null for none. */
  readonly drawing: { readonly setup: string; readonly operation: number } | null;
};

/** A card of words: the headline names what is done, the facts how. */
export function wordsCard(headline: string, facts: readonly string[], more: Partial<CardFace> = {}): CardFace {
  return {
    headline: { text: headline, role: 'strong' },
    weight: 'words',
    readings: [],
    facts: facts.filter((fact) => fact !== ''),
    cautions: [],
    drawing: null,
    ...more,
  };
}

/** A card whose one word is read from across the shop. */
export function shoutedCard(word: string, facts: readonly string[], more: Partial<CardFace> = {}): CardFace {
  return wordsCard('', facts, { headline: null, readings: [mainReading(word)], ...more });
}

/** What is typed so far, in place of the number that the card showed. */
export function typedReading(typed: string, label: string, below: string): Reading {
  return mainReading(typed, label, below);
}

/** The first cautions of a moment. */
export function momentCautions(moment: CautionMoment, most: number): readonly string[] {
  return cautionsAt(moment)
    .slice(0, most)
    .map((row) => row.text);
}

/** Single cautions by their keys, for a moment that has none of its own. */
export function namedCautions(...ids: readonly string[]): readonly string[] {
  return ids.flatMap((id) => cautionById(id)?.text ?? []);
}
