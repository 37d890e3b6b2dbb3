import { describe, expect, it } from 'vitest';
import { crc32, crc32Plain } from '../../src/store/crc32.ts';
import { decodeLine, encodeLine, START } from '../../src/store/journal-line.ts';
import { BATCH, beginDraft, countDraft, form } from './counting.ts';

const first = encodeLine(form, beginDraft(), START, BATCH);
const second = encodeLine(form, countDraft(1), first.position, BATCH);
const third = encodeLine(form, countDraft(2), second.position, BATCH);
const body = (bytes: Buffer) => bytes.subarray(0, -1);

describe('the checksum', () => {
  it('is CRC-32: 0xcbf43926 for the digits 1 to 9 (check value of ISO 3309)', () => {
    expect(crc32(Buffer.from('123456789'))).toBe(0xcbf43926);
  });

  it('is the same in plain code', () => {
    const bytes = Uint8Array.from({ length: 1000 }, (_, index) => (index * 7919) & 0xff);
    expect(crc32Plain(bytes)).toBe(crc32(bytes));
    expect(crc32Plain(Buffer.from('123456789'))).toBe(0xcbf43926);
  });
});

describe('a journal line', () => {
  it('[P2] reads back as it was written, with its number, batch and place', () => {
    const read = decodeLine(form, body(second.bytes), first.position);
    expect(read).toMatchObject({
      kind: 'line',
      line: { v: 2, seq: 2, batch: BATCH, by: 'AB', prev: first.position.crc },
    });
  });

  it('[P2] any single flipped bit is noticed', () => {
    const bytes = body(second.bytes);
    const passed: number[] = [];
    for (let bit = 0; bit < bytes.length * 8; bit += 1) {
      const spoiled = Buffer.from(bytes);
      spoiled[bit >> 3] = (spoiled[bit >> 3] ?? 0) ^ (1 << (bit & 7));
      if (decodeLine(form, spoiled, first.position).kind !== 'damaged') passed.push(bit);
    }
    expect(passed).toEqual([]);
  });

  it('[P2] a doubled, skipped or foreign line is out of place', () => {
    const foreign = encodeLine(form, beginDraft(), START, 'zzzzzzzzzzzz');
    const foreignSecond = encodeLine(
      form,
      countDraft(1),
      { ...foreign.position, crc: first.position.crc },
      'zzzzzzzzzzzz',
    );
    expect(decodeLine(form, body(second.bytes), second.position)).toMatchObject({
      kind: 'misplaced',
      reason: expect.stringMatching(/copy|leftover/),
    });
    expect(decodeLine(form, body(third.bytes), first.position)).toMatchObject({ kind: 'misplaced' });
    expect(decodeLine(form, body(foreignSecond.bytes), first.position)).toMatchObject({ kind: 'misplaced' });
  });

  it('[P2] a line left over from before a repair does not follow the one written in its stead', () => {
    const rewritten = encodeLine(form, countDraft(7), first.position, BATCH);
    expect(decodeLine(form, body(third.bytes), rewritten.position)).toMatchObject({ kind: 'misplaced' });
  });

  it('[P13] a whole line of a newer version is told apart from damage', () => {
    const text = body(second.bytes)
      .toString()
      .replace('"v":2', '"v":3')
      .replace(/,"crc".*/, '');
    const line = `${text},"crc":"${crc32(Buffer.from(text)).toString(16).padStart(8, '0')}"}`;
    expect(decodeLine(form, Buffer.from(line), first.position)).toMatchObject({ kind: 'newer' });
  });

  it('[P13] a whole line of an unknown shape is not damage', () => {
    const text = body(second.bytes)
      .toString()
      .replace('"counted"', '"polished"')
      .replace(/,"crc".*/, '');
    const line = `${text},"crc":"${crc32(Buffer.from(text)).toString(16).padStart(8, '0')}"}`;
    expect(decodeLine(form, Buffer.from(line), first.position)).toMatchObject({ kind: 'unknown form' });
  });

  it('a draft that could not be read again is never written', () => {
    const spoiled = { ...countDraft(1), at: { ...countDraft(1).at, mono_ms: Number.NaN } };
    expect(() => encodeLine(form, spoiled, first.position, BATCH)).toThrow(/not be readable/);
    expect(() => encodeLine(form, beginDraft('x'.repeat(5_000_000)), START, BATCH)).toThrow(/longer/);
  });
});
