/** What an xterm sends for a key, with the keypad in numeric mode and NumLock on. */

const named = {
  enter: '\r',
  'kp-enter': '\r',
  'kp-plus': '+',
  'kp-minus': '-',
  'kp-multiply': '*',
  'kp-divide': '/',
  space: ' ',
  tab: '\t',
  backspace: '\u007f',
  escape: '\u001b',
  up: '\u001b[A',
  down: '\u001b[B',
  right: '\u001b[C',
  left: '\u001b[D',
  home: '\u001b[H',
  end: '\u001b[F',
  insert: '\u001b[2~',
  delete: '\u001b[3~',
  'page-up': '\u001b[5~',
  'page-down': '\u001b[6~',
  f1: '\u001bOP',
  f9: '\u001b[20~',
  'ctrl-c': '\u0003',
  'ctrl-d': '\u0004',
  'ctrl-l': '\u000c',
  'ctrl-z': '\u001a',
} as const;

/** A named key, or one printable character. */
export type KeyPress = keyof typeof named | (string & {});

/** The bytes of one key. An unknown name of more than one character is an error of the story. */
export function keyBytes(key: KeyPress): string {
  if (key in named) return named[key as keyof typeof named];
  if ([...key].length === 1) return key;
  throw new Error(`no bytes are known for the key ${key}`);
}
