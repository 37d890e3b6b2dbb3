/**
 * Text as a cheap console can show it. By default only glyphs that every console font of the western sets has; in ASCII
 * mode only ASCII. What cannot be shown is written otherwise, at the same width where that can be, never left to a box.
 */

/**
 * Signs beside letters that every Debian console font of the western code sets and the kernel's own font have (measured
 * from console-setup 1.221 and cp437.uni).
 */
export const safeGlyphs = '£¤§¨©®°±´¶·¸×÷•←↑→↓≤≥─│┌┐└┘├┤┬┴┼═║╒╓╔╕╖╗╘╙╚╛╜╝╞╟╠╡╢╣╤╥╦╧╨╩╪╫╬█░▒■▲▶▼◀♦';

const safe = new Set(safeGlyphs);
/** Other signs in safe ones. */
const safeFor: Readonly<Record<string, string>> = {
  '‐': '-',
  '‑': '-',
  '‒': '-',
  '–': '-',
  '—': '-',
  '−': '-',
  '‘': "'",
  '’': "'",
  '“': '"',
  '”': '"',
  '…': '...',
  '⌀': 'dia ',
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '²': '2',
  '³': '3',
  '\u00a0': ' ',
  '\u202f': ' ',
};
/** Safe signs in ASCII ones. */
const asciiFor: Readonly<Record<string, string>> = {
  '←': '<-',
  '→': '->',
  '↑': '^',
  '↓': 'v',
  '°': ' deg',
  '±': '+-',
  '×': 'x',
  '÷': '/',
  '•': '*',
  '·': '.',
  '≤': '<=',
  '≥': '>=',
  ß: 'ss',
  Ø: 'dia ',
  ø: 'dia ',
  æ: 'ae',
  Æ: 'AE',
  µ: 'u',
  μ: 'u',
};

/**
 * The text with every sign that cannot be shown written otherwise; a letter without its accent in ASCII, '?' at the last.
 * Example: `showable('⌀ 6 – 8', false)` is 'dia  6 - 8'; `showable('Größe 45°', true)` is 'Grosse 45 deg'.
 */
export function showable(text: string, ascii: boolean): string {
  if (isAscii(text)) return text;
  return [...text].map((char) => (isAscii(char) ? char : shown(char, ascii))).join('');
}

function shown(char: string, ascii: boolean): string {
  const mild = safeFor[char];
  if (mild !== undefined) return mild;
  const isSafe = safe.has(char) || /\p{L}|\p{M}/u.test(char);
  if (!ascii) return isSafe ? char : '?';
  const plain = asciiFor[char];
  if (plain !== undefined) return plain;
  const bare = char.normalize('NFD').replace(/\p{M}/gu, '');
  return isAscii(bare) ? bare : '?';
}

function isAscii(text: string): boolean {
  for (let index = 0; index < text.length; index += 1) if (text.charCodeAt(index) > 126) return false;
  return true;
}
