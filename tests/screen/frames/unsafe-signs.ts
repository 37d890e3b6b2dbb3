/** Signs of a drawing that some console cannot show. */
import { safeGlyphs } from '../../../src/screen/parts/showable.ts';

const drawable = new Set(safeGlyphs);

/** Every sign of the text that is neither ASCII nor a letter nor one that every console font has. */
export const unsafeSigns = (text: string): readonly string[] =>
  [...text].filter((char) => !/[ -~]|\p{L}/u.test(char) && !drawable.has(char));
