/**
 * What each escape sequence means, as tables. The state machine that finds where a sequence ends is decoder.ts.
 *
 * Sources: xterm's control-sequence document (`ctlseqs`, "PC-Style Function Keys", "VT220-Style Function Keys", the
 * keypad table); the terminfo entries linux, xterm, vt220, rxvt, screen and tmux; the Linux console's keyboard driver
 * (`k_pad`, `k_cur`, `applkey`) and its default keymap (`defkeymap.map`); the kitty keyboard protocol's published
 * table of key codes. Each entry has a test that names its own.
 */
import type { Key, KeyName } from './key.ts';

type Modifiers = Pick<Key, 'ctrl' | 'alt' | 'shift'>;

const letterKeys: Readonly<Record<string, KeyName>> = {
  A: 'up',
  B: 'down',
  C: 'right',
  D: 'left',
  E: 'begin',
  // The Linux console sends ESC [ G for keypad 5 with NumLock off.
  G: 'begin',
  H: 'home',
  F: 'end',
};

const numberedKeys: Readonly<Record<number, KeyName>> = {
  1: 'home',
  2: 'insert',
  3: 'delete',
  4: 'end',
  5: 'page-up',
  6: 'page-down',
  7: 'home',
  8: 'end',
  11: 'f1',
  12: 'f2',
  13: 'f3',
  14: 'f4',
  15: 'f5',
  17: 'f6',
  18: 'f7',
  19: 'f8',
  20: 'f9',
  21: 'f10',
  23: 'f11',
  24: 'f12',
  25: 'f13',
  26: 'f14',
  // A VT220 names these two Help and Do; the Linux console F15 and F16. A PC keyboard has neither.
  28: 'f15',
  29: 'f16',
  31: 'f17',
  32: 'f18',
  33: 'f19',
  34: 'f20',
};

type Plain = { readonly name: KeyName; readonly text?: string };

/** Keypad application mode (ESC =) and PF keys, both introduced by SS3 (ESC O). */
const ss3Keys: Readonly<Record<string, Plain>> = {
  ' ': { name: 'kp-space', text: ' ' },
  I: { name: 'kp-tab' },
  M: { name: 'kp-enter' },
  P: { name: 'f1' },
  Q: { name: 'f2' },
  R: { name: 'f3' },
  S: { name: 'f4' },
  X: { name: 'kp-equal', text: '=' },
  j: { name: 'kp-multiply', text: '*' },
  k: { name: 'kp-plus', text: '+' },
  // The Linux console sends l for keypad plus; a DEC keypad has its comma key in the very place where a PC has plus.
  l: { name: 'kp-plus', text: '+' },
  m: { name: 'kp-minus', text: '-' },
  n: { name: 'kp-decimal', text: '.' },
  o: { name: 'kp-divide', text: '/' },
  p: { name: 'kp-0', text: '0' },
  q: { name: 'kp-1', text: '1' },
  r: { name: 'kp-2', text: '2' },
  s: { name: 'kp-3', text: '3' },
  t: { name: 'kp-4', text: '4' },
  u: { name: 'kp-5', text: '5' },
  v: { name: 'kp-6', text: '6' },
  w: { name: 'kp-7', text: '7' },
  x: { name: 'kp-8', text: '8' },
  y: { name: 'kp-9', text: '9' },
};

/** Functional keys of the kitty keyboard protocol that have a name here; other codes of its private area are silent. */
const kittyKeys: Readonly<Record<number, Plain>> = {
  9: { name: 'tab' },
  13: { name: 'enter' },
  27: { name: 'escape' },
  32: { name: 'space', text: ' ' },
  127: { name: 'backspace' },
  57362: { name: 'break' },
  57363: { name: 'menu' },
  57399: { name: 'kp-0', text: '0' },
  57400: { name: 'kp-1', text: '1' },
  57401: { name: 'kp-2', text: '2' },
  57402: { name: 'kp-3', text: '3' },
  57403: { name: 'kp-4', text: '4' },
  57404: { name: 'kp-5', text: '5' },
  57405: { name: 'kp-6', text: '6' },
  57406: { name: 'kp-7', text: '7' },
  57407: { name: 'kp-8', text: '8' },
  57408: { name: 'kp-9', text: '9' },
  57409: { name: 'kp-decimal', text: '.' },
  57410: { name: 'kp-divide', text: '/' },
  57411: { name: 'kp-multiply', text: '*' },
  57412: { name: 'kp-minus', text: '-' },
  57413: { name: 'kp-plus', text: '+' },
  57414: { name: 'kp-enter' },
  57415: { name: 'kp-equal', text: '=' },
  57416: { name: 'kp-comma', text: ',' },
  57417: { name: 'left' },
  57418: { name: 'right' },
  57419: { name: 'up' },
  57420: { name: 'down' },
  57421: { name: 'page-up' },
  57422: { name: 'page-down' },
  57423: { name: 'home' },
  57424: { name: 'end' },
  57425: { name: 'insert' },
  57426: { name: 'delete' },
  57427: { name: 'begin' },
};
const KITTY_F13 = 57376;
const KITTY_F35 = 57398;
const KITTY_PRIVATE_FROM = 57344;
const KITTY_PRIVATE_TO = 63743;

/**
 * The key of a complete control sequence: `parameters` and intermediates as sent (between `ESC [` and the final
 * byte), `final` the last character. Undefined for reports (device, cursor place, mouse), key releases and
 * sequences we do not know: they are swallowed whole.
 * Example: `csiKey('1;5', 'A')` is Ctrl-up; `csiKey('?1;2', 'c')` is undefined.
 */
export function csiKey(parameters: string, final: string): Key | undefined {
  if (parameters === '') {
    if (final === 'Z') return { name: 'tab', shift: true };
    // The Linux console's Pause key (defkeymap.map).
    if (final === 'P') return { name: 'break' };
    if (final === 'I') return { name: 'focus-in' };
    if (final === 'O') return { name: 'focus-out' };
  }
  if (final === '$' || final === '^' || final === '@') return rxvtKey(parameters, final);
  if (!/^[0-9;:]*$/.test(parameters)) return undefined;
  const [first = [], second = [], third = []] = parameters.split(';').map((part) => part.split(':').map(Number));
  if (second[1] === RELEASED) return undefined;
  const held = modifiersOf(second[0]);
  if (final === 'u') return kittyKey((held.shift && first[1]) || (first[0] ?? 0), held);
  if (final === '~') return tildeKey(first[0] ?? 0, third[0], held);
  if ((first[0] ?? 0) > 1) return undefined;
  return letterKey(final, held, parameters !== '');
}

/** Third kind of event in the kitty protocol: 1 press, 2 repeat, 3 release. */
const RELEASED = 3;

/** xterm and kitty send 1 + the sum of shift 1, alt 2, ctrl 4 (and lock bits, which say nothing here). */
function modifiersOf(code: number | undefined): Modifiers {
  const bits = Math.max(0, (code || 1) - 1);
  return {
    ...(bits & 4 ? { ctrl: true } : {}),
    ...(bits & 2 ? { alt: true } : {}),
    ...(bits & 1 ? { shift: true } : {}),
  };
}

function letterKey(final: string, held: Modifiers, withParameters: boolean): Key | undefined {
  const cursor = letterKeys[final];
  if (cursor) return { name: cursor, ...held };
  // CSI 1 ; 2 R may be shift-F3 or the report of a cursor in row 1: a report must never act as a key, so not R.
  const pf = withParameters && /[PQS]/.test(final) ? ss3Keys[final] : undefined;
  if (pf) return { ...pf, ...held };
  const shifted = { a: 'up', b: 'down', c: 'right', d: 'left' } as const;
  if (!withParameters && final in shifted) return { name: shifted[final as keyof typeof shifted], shift: true };
  return undefined;
}

function tildeKey(number: number, code: number | undefined, held: Modifiers): Key | undefined {
  // xterm's modifyOtherKeys: CSI 27 ; modifiers ; character ~
  if (number === 27 && code !== undefined) return kittyKey(code, held);
  const name = numberedKeys[number];
  return name ? { name, ...held } : undefined;
}

/** rxvt marks shift, ctrl and both by the final byte: $ ^ @. */
function rxvtKey(parameters: string, final: string): Key | undefined {
  const name = /^\d+$/.test(parameters) ? numberedKeys[Number(parameters)] : undefined;
  if (!name) return undefined;
  return { name, ...(final === '$' ? {} : { ctrl: true }), ...(final === '^' ? {} : { shift: true }) };
}

function kittyKey(code: number, held: Modifiers): Key | undefined {
  const named = kittyKeys[code];
  if (named) return { ...named, ...held };
  if (code >= KITTY_F13 && code <= KITTY_F35) return { name: `f${code - KITTY_F13 + 13}`, ...held };
  if (code >= KITTY_PRIVATE_FROM && code <= KITTY_PRIVATE_TO) return undefined;
  if (code < 32 || code > 0x10ffff || (code >= 0xd800 && code <= 0xdfff) || (code >= 0x7f && code < 0xa0))
    return undefined;
  const text = String.fromCodePoint(code);
  return { name: 'char', text: held.shift ? text.toUpperCase() : text, ...held };
}

/**
 * The key of an SS3 sequence (`ESC O`, perhaps digits for the modifiers, and `final`). Undefined when unknown.
 * Example: `ss3Key('', 'M')` is the keypad's Enter; `ss3Key('5', 'A')` is Ctrl-up.
 */
export function ss3Key(parameters: string, final: string): Key | undefined {
  const held = modifiersOf(Number(parameters.split(';').at(-1)) || undefined);
  const plain = ss3Keys[final];
  if (plain) return { ...plain, ...held };
  const cursor = letterKeys[final];
  if (cursor) return { name: cursor, ...held };
  // rxvt sends ESC O a..d for Ctrl with an arrow.
  const arrows = { a: 'up', b: 'down', c: 'right', d: 'left' } as const;
  return final in arrows ? { name: arrows[final as keyof typeof arrows], ctrl: true } : undefined;
}

/** F1 to F5 of the Linux console: ESC [ [ A .. E (terminfo linux). Undefined for another letter. */
export function linuxFunctionKey(final: string): Key | undefined {
  const index = 'ABCDE'.indexOf(final);
  return final.length === 1 && index >= 0 ? { name: `f${index + 1}` } : undefined;
}
