import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decode, flush, startOfKeys, waitMs } from '../../../src/screen/terminal/decoder.ts';
import { keyId, typedText } from '../../../src/screen/terminal/key.ts';

const bytesOf = (text: string): number[] => [...Buffer.from(text, 'latin1')];

/** The ids of all keys that a byte string gives, the wait for more included. */
function idsOf(text: string): string[] {
  const { state, keys } = decode(startOfKeys, bytesOf(text));
  return [...keys, ...flush(state).keys].map(keyId);
}

describe('keys of the Linux console (terminfo linux, defkeymap.map, k_pad and k_cur of the kernel keyboard driver)', () => {
  it.each([
    ['\x1b[[A', 'f1'],
    ['\x1b[[B', 'f2'],
    ['\x1b[[C', 'f3'],
    ['\x1b[[D', 'f4'],
    ['\x1b[[E', 'f5'],
    ['\x1b[17~', 'f6'],
    ['\x1b[18~', 'f7'],
    ['\x1b[19~', 'f8'],
    ['\x1b[20~', 'f9'],
    ['\x1b[21~', 'f10'],
    ['\x1b[23~', 'f11'],
    ['\x1b[24~', 'f12'],
    ['\x1b[25~', 'f13'],
    ['\x1b[34~', 'f20'],
    ['\x1b[1~', 'home'],
    ['\x1b[2~', 'insert'],
    ['\x1b[3~', 'delete'],
    ['\x1b[4~', 'end'],
    ['\x1b[5~', 'page-up'],
    ['\x1b[6~', 'page-down'],
    ['\x1b[A', 'up'],
    ['\x1b[B', 'down'],
    ['\x1b[C', 'right'],
    ['\x1b[D', 'left'],
    ['\x1b[G', 'begin'],
    ['\x1b\t', 'shift-tab'],
    ['\x1b[P', 'break'],
    ['\x7f', 'backspace'],
  ])('%j is %s', (bytes, id) => expect(idsOf(bytes)).toEqual([id]));

  it('the keypad in application mode gives keypad keys (k_pad, app_map)', () => {
    const keys = [...'pqrstuvwxy'].map((char) => `\x1bO${char}`).join('');
    expect(idsOf(keys)).toEqual(['kp-0', 'kp-1', 'kp-2', 'kp-3', 'kp-4', 'kp-5', 'kp-6', 'kp-7', 'kp-8', 'kp-9']);
    expect(idsOf('\x1bOl\x1bOM\x1bOn')).toEqual(['kp-plus', 'kp-enter', 'kp-decimal']);
  });

  it('the keypad in numeric mode with NumLock gives its characters, without NumLock navigation (k_pad)', () => {
    expect(idsOf('0123456789+-*/.\r')).toEqual([...'0123456789+-*/.', 'enter']);
    expect(idsOf('\x1b[2~\x1b[4~\x1b[B\x1b[6~\x1b[D\x1b[G\x1b[C\x1b[1~\x1b[A\x1b[5~\x1b[3~')).toEqual([
      'insert',
      'end',
      'down',
      'page-down',
      'left',
      'begin',
      'right',
      'home',
      'up',
      'page-up',
      'delete',
    ]);
  });
});

describe('keys of xterm (control-sequence document: PC-style function keys and the keypad table; terminfo xterm)', () => {
  it.each([
    ['\x1bOP', 'f1'],
    ['\x1bOQ', 'f2'],
    ['\x1bOR', 'f3'],
    ['\x1bOS', 'f4'],
    ['\x1b[15~', 'f5'],
    ['\x1b[24~', 'f12'],
    ['\x1b[1;2P', 'shift-f1'],
    ['\x1b[1;5S', 'ctrl-f4'],
    ['\x1b[20;5~', 'ctrl-f9'],
    ['\x1bOH', 'home'],
    ['\x1bOF', 'end'],
    ['\x1b[H', 'home'],
    ['\x1b[F', 'end'],
    ['\x1bOA', 'up'],
    ['\x1bOE', 'begin'],
    ['\x1b[E', 'begin'],
    ['\x1b[1;2A', 'shift-up'],
    ['\x1b[1;3B', 'alt-down'],
    ['\x1b[1;5C', 'ctrl-right'],
    ['\x1b[1;6D', 'ctrl-shift-left'],
    ['\x1b[3;5~', 'ctrl-delete'],
    ['\x1b[Z', 'shift-tab'],
    ['\x1b[27;5;13~', 'ctrl-enter'],
    ['\x1bO5A', 'ctrl-up'],
    ['\x1bx', 'alt-x'],
  ])('%j is %s', (bytes, id) => expect(idsOf(bytes)).toEqual([id]));

  it.each([
    ['j', 'kp-multiply', '*'],
    ['k', 'kp-plus', '+'],
    ['m', 'kp-minus', '-'],
    ['n', 'kp-decimal', '.'],
    ['o', 'kp-divide', '/'],
    ['p', 'kp-0', '0'],
    ['y', 'kp-9', '9'],
    ['X', 'kp-equal', '='],
    ['M', 'kp-enter', undefined],
    ['I', 'kp-tab', undefined],
  ])('keypad application mode: ESC O %s is %s and types %j', (char, id, text) => {
    const { keys } = decode(startOfKeys, bytesOf(`\x1bO${char}`));
    expect(keys.map(keyId)).toEqual([id]);
    expect(keys.map(typedText)).toEqual([text]);
  });

  it('focus reports are named, mouse reports are swallowed (SGR, urxvt and X10 forms)', () => {
    expect(idsOf('\x1b[I\x1b[O')).toEqual(['focus-in', 'focus-out']);
    expect(idsOf('a\x1b[<0;10;20Mb\x1b[<0;10;20mc\x1b[32;10;20Md\x1b[M !!e')).toEqual(['a', 'b', 'c', 'd', 'e']);
  });

  it('a bracketed paste is one key and types nothing', () => {
    expect(idsOf('a\x1b[200~q\r\x1b[Az\x1b[201b~\x1b[201~b')).toEqual(['a', 'paste', 'b']);
  });

  it('answers of the terminal are swallowed whole: device attributes, cursor place, colours, title, settings', () => {
    expect(idsOf('\x1b[?64;1;2;6c\x1b[>0;136;0c\x1b[24;80R\x1b[1;1R\x1b[1;2R\x1b[0n\x1b[8;24;80t')).toEqual([]);
    expect(idsOf('\x1b]10;rgb:ffff/ffff/ffff\x07\x1b]l title \x1b\\\x1bP1$r0m\x1b\\\x1b[?2026;2$y')).toEqual([]);
    expect(idsOf('\x1b(B\x1b)0x')).toEqual(['x']);
  });
});

describe('keys of a VT220 (terminfo vt220)', () => {
  it.each([
    ['\x08', 'backspace'],
    ['\x1b[1~', 'home'],
    ['\x1b[4~', 'end'],
    ['\x1b[17~', 'f6'],
    ['\x1b[28~', 'f15'],
    ['\x1b[29~', 'f16'],
    ['\x9b17~', 'f6'],
    ['\x9bA', 'up'],
    ['\x8fP', 'f1'],
    ['\x8fM', 'kp-enter'],
  ])('%j is %s', (bytes, id) => expect(idsOf(bytes)).toEqual([id]));
});

describe('keys of rxvt, screen and tmux (terminfo rxvt, screen, tmux)', () => {
  it.each([
    ['\x1b[7~', 'home'],
    ['\x1b[8~', 'end'],
    ['\x1b[11~', 'f1'],
    ['\x1b[14~', 'f4'],
    ['\x1b[a', 'shift-up'],
    ['\x1bOd', 'ctrl-left'],
    ['\x1b[3$', 'shift-delete'],
    ['\x1b[3^', 'ctrl-delete'],
    ['\x1b[3@', 'ctrl-shift-delete'],
    ['\x1b[23$', 'shift-f11'],
  ])('%j is %s', (bytes, id) => expect(idsOf(bytes)).toEqual([id]));
});

describe('reports of the kitty keyboard protocol (its table of functional key codes)', () => {
  it.each([
    ['\x1b[97u', 'a'],
    ['\x1b[97:65;2u', 'A'],
    ['\x1b[47:63;2u', '?'],
    ['\x1b[99;5u', 'ctrl-c'],
    ['\x1b[13u', 'enter'],
    ['\x1b[27u', 'escape'],
    ['\x1b[32u', 'space'],
    ['\x1b[57399u', 'kp-0'],
    ['\x1b[57413u', 'kp-plus'],
    ['\x1b[57414;129u', 'kp-enter'],
    ['\x1b[57423u', 'home'],
    ['\x1b[57376u', 'f13'],
    ['\x1b[13~', 'f3'],
    ['\x1b[1;1:2A', 'up'],
  ])('%j is %s', (bytes, id) => expect(idsOf(bytes)).toEqual([id]));

  it('key releases and bare modifier keys are silent', () => {
    expect(idsOf('\x1b[97;1:3u\x1b[1;1:3A\x1b[5;1:3~\x1b[57441;2u\x1b[57358u\x1b[?1u')).toEqual([]);
  });
});

describe('characters and control keys', () => {
  it.each([
    ['\x03', 'ctrl-c'],
    ['\x04', 'ctrl-d'],
    ['\x0c', 'ctrl-l'],
    ['\x1a', 'ctrl-z'],
    ['\x00', 'ctrl-space'],
    ['\x1d', 'ctrl-]'],
    ['\t', 'tab'],
    [' ', 'space'],
    ['\n', 'enter'],
  ])('%j is %s', (bytes, id) => expect(idsOf(bytes)).toEqual([id]));

  it('CR LF is one Enter (new-line mode), two returns are two', () => {
    expect(idsOf('\r\n')).toEqual(['enter']);
    expect(idsOf('\r\r')).toEqual(['enter', 'enter']);
    expect(idsOf('\ra\n')).toEqual(['enter', 'a', 'enter']);
  });

  it('UTF-8 is read across reads; broken UTF-8 types nothing and swallows no key', () => {
    const bytes = [...Buffer.from('ü漢😀')];
    expect(decode(startOfKeys, bytes).keys.map(typedText)).toEqual(['ü', '漢', '😀']);
    expect(decode(startOfKeys, [0xc3, 0x0d]).keys.map(keyId)).toEqual(['enter']);
    expect(decode(startOfKeys, [0xff, 0xc0, 0xed, 0xa0, 0x80, 0x61]).keys.map(keyId)).toEqual(['a']);
  });
});

describe('waiting for the rest', () => {
  it('a lone ESC is Escape only once the wait is over', () => {
    const { state, keys } = decode(startOfKeys, [0x1b]);
    expect(keys).toEqual([]);
    expect(waitMs(state)).toBe(40);
    expect(flush(state).keys.map(keyId)).toEqual(['escape']);
    expect(idsOf('\x1b\x1b')).toEqual(['escape', 'escape']);
    expect(idsOf('\x1b\x1b[A')).toEqual(['escape', 'up']);
  });

  it('a sequence broken off types nothing; a paste that never ends is a paste', () => {
    for (const begun of ['\x1b[', '\x1b[12;', '\x1bO', '\x1b[[', '\x1b]0;title', '\x1b[M!', '\xe6\xbc']) {
      const { state } = decode(startOfKeys, bytesOf(begun));
      expect(waitMs(state)).toBeGreaterThan(40);
      expect(flush(state)).toEqual({ state: startOfKeys, keys: [] });
    }
    expect(idsOf('\x1b[200~abc')).toEqual(['paste']);
  });

  it('a control key within a begun sequence is still a press', () => {
    expect(idsOf('\x1b[\r')).toEqual(['enter']);
    expect(idsOf('\x1bO\x03')).toEqual(['ctrl-c']);
  });
});

describe('laws', () => {
  const piece = fc.oneof(
    fc.constantFrom(
      '\x1b',
      '\x1b[',
      '\x1bO',
      '\x1b[[',
      '\x1b[200~',
      '\x1b[201~',
      '\x1b]',
      '\x07',
      '\x1b[M',
      '\x1b[<',
      '~',
      'M',
      '\r',
      '\n',
    ),
    fc.string({ maxLength: 4 }),
    fc.uint8Array({ maxLength: 4 }).map((bytes) => Buffer.from(bytes).toString('latin1')),
  );
  const stream = fc.array(piece, { maxLength: 12 }).map((parts) => bytesOf(parts.join('')));

  it('any split of a byte string gives the same keys', () => {
    fc.assert(
      fc.property(stream, fc.array(fc.nat(40), { maxLength: 6 }), (bytes, cuts) => {
        const whole = decode(startOfKeys, bytes);
        const edges = [0, ...cuts.map((cut) => Math.min(cut, bytes.length)).sort((a, b) => a - b), bytes.length];
        let state = startOfKeys;
        const keys = edges.slice(1).flatMap((edge, index) => {
          const part = decode(state, bytes.slice(edges[index], edge));
          state = part.state;
          return part.keys;
        });
        expect(keys).toEqual(whole.keys);
        expect(state).toEqual(whole.state);
      }),
    );
  });

  it('no control sequence leaks a letter, whatever its parameters and final byte', () => {
    const parameters = fc.string({ unit: fc.constantFrom(...'0123456789;:<=>? !"'), maxLength: 90 });
    const final = fc.integer({ min: 0x40, max: 0x7e }).map((code) => String.fromCharCode(code));
    fc.assert(
      fc.property(parameters, final, (middle, last) => {
        fc.pre(!(middle === '' && '[M'.includes(last)) && !(middle === '200' && last === '~'));
        const ids = idsOf(`\x1b[${middle}${last}Q`);
        expect(ids.at(-1)).toBe('Q');
        expect(ids.length).toBeLessThanOrEqual(2);
        if (last !== 'u' && last !== '~')
          expect(decode(startOfKeys, bytesOf(`\x1b[${middle}${last}`)).keys.every((key) => key.name !== 'char')).toBe(
            true,
          );
      }),
    );
  });

  it('what is decoded is always finished by one flush', () => {
    fc.assert(fc.property(stream, (bytes) => waitMs(flush(decode(startOfKeys, bytes).state).state) === undefined));
  });
});
