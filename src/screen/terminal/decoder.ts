/**
 * Bytes from the terminal into key presses: a pure state machine, one byte at a time, so that a sequence may arrive
 * in any pieces. It promises that nothing it does not know leaks as letters (P6): an escape sequence is swallowed
 * whole, a bracketed paste becomes one 'paste' key without its text, mouse and device reports vanish.
 * It knows no clock: the reader (key-reader.ts) waits `waitMs(state)` after the last byte and then calls `flush`.
 */
import type { Key } from './key.ts';
import { csiKey, linuxFunctionKey, ss3Key } from './sequences.ts';

/** What has been read of an unfinished sequence. Start from `startOfKeys`; pass on what `decode` returns. */
export type DecoderState =
  | { readonly kind: 'ground'; readonly afterReturn: boolean }
  | { readonly kind: 'escape' }
  | { readonly kind: 'csi'; readonly parameters: string }
  | { readonly kind: 'linux-function' }
  | { readonly kind: 'ss3'; readonly parameters: string }
  | { readonly kind: 'charset' }
  | { readonly kind: 'string'; readonly ending: boolean }
  | { readonly kind: 'mouse'; readonly bytesLeft: number }
  | { readonly kind: 'paste'; readonly tail: string }
  | { readonly kind: 'utf8'; readonly bytes: readonly number[]; readonly wanted: number; readonly alt: boolean };

export type Decoded = { readonly state: DecoderState; readonly keys: readonly Key[] };

/** The state before the first byte. */
export const startOfKeys: DecoderState = { kind: 'ground', afterReturn: false };

const ground = startOfKeys;
const ESC = 0x1b;
const BEL = 0x07;
const CAN = 0x18;
const SUB = 0x1a;
/**
 * ESC, one of these and a final byte speak of character sets (ECMA-35), never of a key. Space and the marks of the
 * keypad are left out: Escape and then a count, joined by a slow line, must not swallow a third press.
 */
const CHARSET_INTERMEDIATES = '!"#$%&\'(),';
const PASTE_END = '\u001b[201~';
/** A longer control sequence is not a key of any terminal; its rest is still swallowed up to the final byte. */
const LONGEST_PARAMETERS = 64;

/**
 * Decodes `bytes` from `state` on: the keys they complete, in order, and the state for the next bytes. Total: any
 * byte is accepted. Example: `decode(startOfKeys, [0x1b, 0x4f, 0x4d])` gives one key, 'kp-enter'.
 */
export function decode(state: DecoderState, bytes: Iterable<number>): Decoded {
  const keys: Key[] = [];
  let now = state;
  for (const byte of bytes) now = step(now, byte, keys);
  return { state: now, keys };
}

/**
 * Says that the rest of a begun sequence is not coming. A lone ESC becomes the Escape key; a paste without its end
 * is reported as a paste; anything else unfinished is dropped without a key.
 */
export function flush(state: DecoderState): Decoded {
  if (state.kind === 'escape') return { state: ground, keys: [{ name: 'escape' }] };
  if (state.kind === 'paste') return { state: ground, keys: [{ name: 'paste' }] };
  if (state.kind === 'ground') return { state, keys: [] };
  return { state: ground, keys: [] };
}

/**
 * How long to wait for more bytes before calling `flush`, in ms; undefined when nothing is unfinished. A lone ESC
 * waits 40 ms, which is less than a person needs and more than a terminal takes between the bytes of one key. A
 * sequence that has begun waits longer: to drop it early would leak its rest as letters on a slow line.
 */
export function waitMs(state: DecoderState): number | undefined {
  if (state.kind === 'ground') return undefined;
  if (state.kind === 'escape') return 40;
  return state.kind === 'paste' ? 1000 : 500;
}

function step(state: DecoderState, byte: number, keys: Key[]): DecoderState {
  switch (state.kind) {
    case 'ground':
      return stepGround(state.afterReturn, byte, keys);
    case 'escape':
      return stepEscape(byte, keys);
    case 'csi':
      return stepCsi(state.parameters, byte, keys);
    case 'linux-function':
      return isPrintable(byte) ? finish(linuxFunctionKey(String.fromCharCode(byte)), keys) : stepAnew(byte, keys);
    case 'ss3':
      return stepSs3(state.parameters, byte, keys);
    case 'charset':
      return isPrintable(byte) ? ground : stepAnew(byte, keys);
    case 'string':
      return stepString(state.ending, byte, keys);
    case 'mouse':
      return state.bytesLeft > 1 ? { kind: 'mouse', bytesLeft: state.bytesLeft - 1 } : ground;
    case 'paste':
      return stepPaste(state.tail, byte, keys);
    case 'utf8':
      return stepUtf8(state, byte, keys);
    default:
      return unreachable(state);
  }
}

function unreachable(state: never): never {
  throw new Error(`unknown decoder state ${JSON.stringify(state)}`);
}

function finish(key: Key | undefined, keys: Key[]): DecoderState {
  if (key) keys.push(key);
  return ground;
}

function stepAnew(byte: number, keys: Key[]): DecoderState {
  return stepGround(false, byte, keys);
}

function isPrintable(byte: number): boolean {
  return byte >= 0x20 && byte < 0x7f;
}

function stepGround(afterReturn: boolean, byte: number, keys: Key[]): DecoderState {
  if (byte === ESC) return { kind: 'escape' };
  // A terminal in new-line mode sends CR LF for one press of Enter.
  if (byte === 0x0a && afterReturn) return ground;
  if (byte === 0x0d) {
    keys.push({ name: 'enter' });
    return { kind: 'ground', afterReturn: true };
  }
  if (byte < 0x80) return finish(asciiKey(byte), keys);
  return stepHighByte(byte, false);
}

/** A byte of 0x80 and more where a character may begin: UTF-8, or the 8-bit CSI and SS3 of a VT220. */
function stepHighByte(byte: number, alt: boolean): DecoderState {
  if (byte === 0x9b) return { kind: 'csi', parameters: '' };
  if (byte === 0x8f) return { kind: 'ss3', parameters: '' };
  const wanted =
    byte >= 0xc2 && byte <= 0xdf ? 2 : byte >= 0xe0 && byte <= 0xef ? 3 : byte >= 0xf0 && byte <= 0xf4 ? 4 : 0;
  return wanted === 0 ? ground : { kind: 'utf8', bytes: [byte], wanted, alt };
}

function asciiKey(byte: number): Key {
  if (byte === 0x0a) return { name: 'enter' };
  if (byte === 0x09) return { name: 'tab' };
  if (byte === 0x7f || byte === 0x08) return { name: 'backspace' };
  if (byte === 0x20) return { name: 'space', text: ' ' };
  if (byte === 0x00) return { name: 'space', text: ' ', ctrl: true };
  if (byte >= 0x20) return { name: 'char', text: String.fromCharCode(byte) };
  return { name: 'char', text: String.fromCharCode(byte + 0x40).toLowerCase(), ctrl: true };
}

function stepEscape(byte: number, keys: Key[]): DecoderState {
  switch (byte) {
    case ESC:
      keys.push({ name: 'escape' });
      return { kind: 'escape' };
    case 0x5b: // [
      return { kind: 'csi', parameters: '' };
    case 0x4f: // O
      return { kind: 'ss3', parameters: '' };
    case 0x5d: // ] P X ^ _ : OSC, DCS, SOS, PM, APC carry a text up to BEL or ESC \
    case 0x50:
    case 0x58:
    case 0x5e:
    case 0x5f:
      return { kind: 'string', ending: false };
    case 0x09: // terminfo linux: kcbt is ESC TAB
      return finish({ name: 'tab', shift: true }, keys);
    default:
      break;
  }
  if (byte >= 0x80) return stepHighByte(byte, true);
  if (CHARSET_INTERMEDIATES.includes(String.fromCharCode(byte))) return { kind: 'charset' };
  return finish({ ...asciiKey(byte), alt: true }, keys);
}

function stepCsi(parameters: string, byte: number, keys: Key[]): DecoderState {
  if (byte === ESC) return { kind: 'escape' };
  if (byte === CAN || byte === SUB) return ground;
  // A control character cannot be part of a key's sequence: the sequence is broken off, the press is real.
  if (byte < 0x20 || byte >= 0x7f) return stepAnew(byte, keys);
  const char = String.fromCharCode(byte);
  if (parameters === '' && char === '[') return { kind: 'linux-function' };
  if (parameters === '' && char === 'M') return { kind: 'mouse', bytesLeft: 3 };
  const isRxvtFinal = char === '$' && /^\d+$/.test(parameters);
  if (byte >= 0x40 || isRxvtFinal) return endCsi(parameters, char, keys);
  return { kind: 'csi', parameters: parameters.length < LONGEST_PARAMETERS ? parameters + char : parameters };
}

function endCsi(parameters: string, final: string, keys: Key[]): DecoderState {
  if (final === '~' && parameters === '200') return { kind: 'paste', tail: '' };
  if (parameters.length >= LONGEST_PARAMETERS) return ground;
  return finish(csiKey(parameters, final), keys);
}

function stepSs3(parameters: string, byte: number, keys: Key[]): DecoderState {
  if (byte === ESC) return { kind: 'escape' };
  if (!isPrintable(byte)) return stepAnew(byte, keys);
  const char = String.fromCharCode(byte);
  if (/[0-9;]/.test(char) && parameters.length < LONGEST_PARAMETERS)
    return { kind: 'ss3', parameters: parameters + char };
  return finish(ss3Key(parameters, char), keys);
}

function stepString(ending: boolean, byte: number, keys: Key[]): DecoderState {
  if (ending && byte !== 0x5c) return stepEscape(byte, keys);
  if (ending || byte === BEL || byte === CAN || byte === SUB) return ground;
  return { kind: 'string', ending: byte === ESC };
}

function stepPaste(tail: string, byte: number, keys: Key[]): DecoderState {
  const seen = (tail + String.fromCharCode(byte)).slice(-PASTE_END.length);
  return seen === PASTE_END ? finish({ name: 'paste' }, keys) : { kind: 'paste', tail: seen };
}

function stepUtf8(state: Extract<DecoderState, { kind: 'utf8' }>, byte: number, keys: Key[]): DecoderState {
  if (byte < 0x80 || byte > 0xbf) return stepAnew(byte, keys);
  const bytes = [...state.bytes, byte];
  if (bytes.length < state.wanted) return { ...state, bytes };
  const text = new TextDecoder().decode(new Uint8Array(bytes));
  if (text.includes('\ufffd') || /\p{Cc}/u.test(text)) return ground;
  return finish({ name: 'char', text, ...(state.alt ? { alt: true } : {}) }, keys);
}
