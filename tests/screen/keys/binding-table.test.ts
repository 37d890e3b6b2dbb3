import { describe, expect, it } from 'vitest';
import {
  type BindingTable,
  conflicts,
  helpFor,
  hintsFor,
  keyLabel,
  lookup,
  pairHint,
  remap,
  withOwnKeys,
} from '../../../src/screen/keys/binding-table.ts';
import { type KeyCommand, keyMapFor, type Moment } from '../../../src/screen/keys/key-map.ts';
import { decode, flush, startOfKeys } from '../../../src/screen/terminal/decoder.ts';
import type { Key } from '../../../src/screen/terminal/key.ts';

const right = keyMapFor('right');
const left = keyMapFor('left');

/** The key that these bytes are. */
function keyOf(bytes: string): Key {
  const { state, keys } = decode(startOfKeys, Buffer.from(bytes, 'latin1'));
  const key = [...keys, ...flush(state).keys][0];
  if (!key) throw new Error('no key');
  return key;
}

function commandOf(table: BindingTable<Moment, KeyCommand>, moment: Moment, bytes: string): string {
  const found = lookup(table, moment, keyOf(bytes));
  return found.kind === 'command' ? found.binding.command : found.kind;
}

describe('the table', () => {
  it('gives no key two commands at one moment, with either hand', () => {
    expect(conflicts(right)).toEqual([]);
  });

  it('every command has an id of its own, keys, a label, a help, moments and a reason', () => {
    expect(new Set(right.bindings.map(({ id }) => id)).size).toBe(right.bindings.length);
    for (const { keys, label, help, moments, reasonWhenNot } of right.bindings) {
      expect(Object.values(keys).flat().length).toBeGreaterThan(0);
      expect(label.length).toBeGreaterThan(1);
      expect(label.length).toBeLessThanOrEqual(16);
      expect(help).toMatch(/^[A-Z].*\.$/);
      expect(moments.length).toBeGreaterThan(0);
      expect(reasonWhenNot).not.toBe('');
    }
  });

  it('a finding of two commands on one key names both', () => {
    const doubled = {
      ...right,
      bindings: right.bindings.map((one) => (one.id === 'note' ? { ...one, keys: { keyboard: ['b'] } } : one)),
    };
    expect(conflicts(doubled)[0]).toEqual({ key: 'b', moment: 'points', ids: ['bumped', 'note'] });
  });
});

describe('a bare keypad', () => {
  // Bytes: xterm and Linux console, NumLock on; NumLock off; application mode (control-sequence document, k_pad).
  it.each([
    ['count', ['\r', '+', '\x1bOM', '\x1bOk', '\x1bOl']],
    ['take-back', ['-', '\x1bOm']],
    ['pause', ['*', '\x1bOj']],
    ['menu', ['/', '\x1bOo']],
    ['reject', ['0', '\x1b[2~', '\x1bOp']],
    ['measure', ['1', '\x1b[4~', '\x1b[F', '\x1bOF', '\x1bOq']],
    ['look-point-before', ['8', '\x1b[A', '\x1bOA', '\x1bOx']],
    ['look-point-after', ['2', '\x1b[B', '\x1bOr']],
    ['look-operation-before', ['4', '\x1b[D', '\x1bOt']],
    ['look-operation-after', ['6', '\x1b[C', '\x1bOv']],
    ['look-live', ['5', '\x1b[G', '\x1b[E', '\x1bOu']],
    ['dead', ['3', '\x1b[6~', '\x1bOs', '.', '\x1b[3~', '\x1bOn']],
  ])('gives %s however NumLock stands', (command, sequences) => {
    for (const bytes of sequences) expect([bytes, commandOf(right, 'count', bytes)]).toEqual([bytes, command]);
  });

  it('with the left hand 0 and 1 count, 3 rejects, 9 measures', () => {
    for (const bytes of ['0', '\x1b[2~', '\x1bOp', '1', '\x1b[4~', '\x1bOq', '\r', '+'])
      expect(commandOf(left, 'points', bytes)).toBe('count');
    for (const bytes of ['3', '\x1b[6~', '\x1bOs']) expect(commandOf(left, 'points', bytes)).toBe('reject');
    for (const bytes of ['9', '\x1b[5~', '\x1bOy']) expect(commandOf(left, 'points', bytes)).toBe('measure');
  });

  it('answers every card, goes on after a pause and takes from a list', () => {
    for (const table of [right, left]) {
      for (const moment of ['resume', 'setup', 'zero', 'gate', 'check', 'end-operation', 'end-batch'] as const) {
        expect(commandOf(table, moment, '\r')).toBe('pass-card');
        expect(commandOf(table, moment, '\x1bOk')).toBe('pass-card');
      }
      expect(commandOf(table, 'pause', '*')).toBe('go-on');
      expect(commandOf(table, 'list', '\r')).toBe('take');
      expect(commandOf(table, 'list', '2')).toBe('look-point-after');
    }
  });
});

describe('the pedal', () => {
  it('counts while pieces are made and never answers a card', () => {
    for (const moment of ['points', 'count', 'line'] as const)
      expect(commandOf(right, moment, '\x1b[20~')).toBe('count');
    for (const moment of [
      'resume',
      'setup',
      'zero',
      'gate',
      'check',
      'end-operation',
      'end-batch',
      'pause',
      'list',
      'value',
    ] as const) {
      expect(lookup(right, moment, keyOf('\x1b[20~'))).toEqual({
        kind: 'not now',
        reason: 'a card is waiting: answer it with Enter',
      });
    }
  });
});

describe('the plain keyboard', () => {
  it.each([
    [' ', 'count'],
    ['\x7f', 'take-back'],
    ['u', 'take-back'],
    ['p', 'pause'],
    ['n', 'next-operation'],
    ['r', 'reject'],
    ['m', 'measure'],
    ['t', 'tool-changed'],
    ['b', 'bumped'],
    ['h', 'cautions'],
    ['?', 'help'],
    ['z', 'digit-size'],
    ['s', 'sound'],
    ['\x1b', 'back'],
    ['q', 'leave'],
    ['\x03', 'leave'],
    ['x', 'unknown'],
    ['\x1bn', 'unknown'],
  ])('%j while counting is %s', (bytes, command) => expect(commandOf(right, 'count', bytes)).toBe(command));

  it('Escape never leaves', () => {
    const moments = new Set(right.bindings.flatMap((one) => one.moments));
    for (const moment of moments) expect(commandOf(right, moment, '\x1b')).not.toBe('leave');
  });
});

describe('hints', () => {
  it('are those of the moment, as many as fit, and always the way to everything and to all keys', () => {
    expect(hintsFor(right, 'count', 50)).toEqual(['Enter count', 'u or - take back', '/ menu', '? keys']);
    expect(hintsFor(right, 'count', 33)).toEqual(['Enter count', '/ menu', '? keys']);
    expect(hintsFor(right, 'count', 10)).toEqual(['? keys']);
    expect(hintsFor(right, 'count', 3)).toEqual([]);
  });

  it('name a key of keyboard and keypad, as the table has them for its hand and for its user', () => {
    const all = (table: typeof right) => hintsFor(table, 'count', 170);
    expect(all(right).slice(1, 5)).toEqual(['u or - take back', 'r or 0 reject', 'm or 1 measure', 'p or * pause']);
    expect(all(left).slice(1, 5)).toEqual(['u or - take back', 'r or 3 reject', 'm or 9 measure', 'p or * pause']);
    const own = withOwnKeys(right, { reject: { keyboard: ['x'] } });
    expect(all(own)).toContain('x or 0 reject');
    expect(hintsFor(right, 'pause', 50)[0]).toBe('Enter go on');
    expect(pairHint(right, ['look-point-before', 'look-point-after'], 'leaf')).toBe('8 2 or Up Down leaf');
  });

  it('name no key that means something else at a card', () => {
    const hints = hintsFor(right, 'check', 170, ['Enter', '0', '1']);
    expect(hints).toContain('r reject');
    expect(hints).toContain('m measure');
    expect(hints.some((hint) => hint.startsWith('Enter'))).toBe(false);
  });

  it.each([right, left])('name keys that give that command, at every moment', (table) => {
    for (const moment of new Set(table.bindings.flatMap((one) => one.moments))) {
      for (const hint of hintsFor(table, moment, 500)) {
        const binding = table.bindings.find(({ label }) => hint.endsWith(` ${label}`) && hint.split(' ')[0] !== '');
        const caps = hint.slice(0, hint.length - (binding?.label.length ?? 0) - 1).split(' or ');
        const row = helpFor(table).find(({ label }) => label === binding?.label);
        const known = Object.values(row?.keys ?? {}).flatMap((keys) => keys.split(' '));
        expect(known, hint).toEqual(expect.arrayContaining(caps));
      }
    }
  });

  it.each([50, 80, 100, 170])('fit into %i columns at every moment', (columns) => {
    for (const moment of new Set(right.bindings.flatMap((one) => one.moments))) {
      expect(hintsFor(right, moment, columns).join('  ').length).toBeLessThanOrEqual(columns);
    }
  });
});

describe('help', () => {
  it('has every binding with its keys as the caps show them', () => {
    const rows = helpFor(right);
    expect(rows.length).toBe(right.bindings.length);
    expect(rows[0]?.keys).toEqual({
      keyboard: 'Enter Space',
      keypad: 'Enter +',
      'left-hand': 'Enter + 0 Ins 1 End',
      pedal: 'F9',
    });
    expect(['ctrl-c', 'shift-tab', 'kp-7', 'f9', 'page-up', 'x'].map(keyLabel)).toEqual([
      'Ctrl-c',
      'Shift-Tab',
      '7',
      'F9',
      'PgUp',
      'x',
    ]);
  });
});

describe("the user's own keys", () => {
  it('a pedal is learned by pressing it', () => {
    const answer = remap(right, {}, 'count', 'pedal', keyOf('\x1b[24~'));
    expect(answer).toEqual({ kind: 'taken', ownKeys: { count: { pedal: ['f12'] } } });
    const table = withOwnKeys(right, answer.kind === 'taken' ? answer.ownKeys : {});
    expect(commandOf(table, 'count', '\x1b[24~')).toBe('count');
    expect(commandOf(table, 'count', '\x1b[20~')).toBe('unknown');
    expect(commandOf(table, 'count', '\r')).toBe('count');
  });

  it('a key with another meaning, a reserved key and a paste are refused with the reason', () => {
    expect(remap(right, {}, 'count', 'pedal', keyOf('b'))).toEqual({
      kind: 'refused',
      reason: 'b already means bumped',
    });
    expect(remap(right, {}, 'note', 'keyboard', keyOf('9'))).toEqual({
      kind: 'refused',
      reason: '9 already means measure',
    });
    expect(remap(right, {}, 'count', 'pedal', keyOf('\x03'))).toEqual({
      kind: 'refused',
      reason: 'Ctrl-c keeps its meaning',
    });
    expect(remap(right, {}, 'count', 'pedal', { name: 'paste' }).kind).toBe('refused');
    expect(remap(right, {}, 'nothing', 'pedal', keyOf('x')).kind).toBe('refused');
  });

  it('settings edited by hand never make a key give two commands or take a reserved one', () => {
    const table = withOwnKeys(right, {
      note: { keyboard: ['b'] },
      sound: { keyboard: ['escape'] },
      bumped: { keyboard: ['k'] },
      nothing: { pedal: ['y'] },
    });
    expect(conflicts(table)).toEqual([]);
    expect(commandOf(table, 'count', 'e')).toBe('note');
    expect(commandOf(table, 'count', '\x1b')).toBe('back');
    expect(commandOf(table, 'count', 'k')).toBe('bumped');
  });
});
