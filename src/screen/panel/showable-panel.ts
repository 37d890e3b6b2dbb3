/** A panel in characters that the terminal can show: done before it is laid out, because a sign may grow by it. */
import { showable } from '../parts/showable.ts';
import type { Panel } from './panel.ts';

/** Every word of the panel made showable; the picture draws itself in the right set already. */
export function showablePanel(panel: Panel, ascii: boolean): Panel {
  const text = (words: string): string => showable(words, ascii);
  const texts = (lines: readonly string[]): readonly string[] => lines.map(text);
  const { banner, headline, message } = panel;
  return {
    ...panel,
    banner: {
      place: texts(banner.place),
      title: text(banner.title),
      counts: text(banner.counts),
      right: text(banner.right),
    },
    headline:
      headline === null
        ? null
        : {
            ...headline,
            text: text(headline.text),
            ...(headline.brief === undefined
              ? {}
              : { brief: { text: text(headline.brief.text), insteadOf: texts(headline.brief.insteadOf) } }),
          },
    readings: panel.readings.map((one) => ({
      ...one,
      label: text(one.label),
      text: text(one.text),
      below: one.below === null ? null : text(one.below),
    })),
    facts: texts(panel.facts),
    cautions: texts(panel.cautions),
    pace: texts(panel.pace),
    message: message === null ? null : { ...message, text: text(message.text) },
    hints: texts(panel.hints),
  };
}
