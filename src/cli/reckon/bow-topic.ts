/** The topic of strips that bow as they are released from their bar. */
import { andThen, answer } from '../../shop/refusal.ts';
import { bowOfLength } from '../../shop/strip-bow.ts';
import { allowance, positiveLength } from './readers.ts';
import { read, type Topic, withAll } from './topic.ts';
import { sayLength } from './words.ts';

const bow: Topic = {
  name: 'bow',
  summary: 'how far a piece of a bowed strip stands from straight: why to cut to length before milling',
  flags: [
    { name: 'bow', value: 'LENGTH', meaning: 'gap in the middle under a straight edge' },
    { name: 'over', value: 'LENGTH', meaning: 'length of the strip that was measured' },
    { name: 'length', value: 'LENGTH', meaning: 'length of the piece' },
  ],
  needs: [['bow'], ['over'], ['length']],
  example: 'bow --bow "3 mm" --over "300 mm" --length "60 mm"',
  run: (asked) =>
    withAll(
      {
        gap: read(asked, 'bow', allowance),
        over: read(asked, 'over', positiveLength),
        length: read(asked, 'length', positiveLength),
      },
      ({ gap, over, length }) =>
        andThen(bowOfLength(gap, over, length), (found) =>
          answer({
            text: `${sayLength(found, asked.unit)} over ${sayLength(length, asked.unit)}`,
            working: [
              'bow x (length / over) squared, a flat arc',
              'a thin strip sawn from drawn bar may bow by some millimetres in 300 mm: cut to length, then mill (common practice)',
            ],
            fields: { bow_mm: found, length_mm: length, measured_bow_mm: gap, over_mm: over },
          }),
        ),
    ),
};

export const bowTopics: readonly Topic[] = [bow];
