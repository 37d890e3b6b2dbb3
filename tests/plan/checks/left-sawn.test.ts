import { describe, expect, it } from 'vitest';
import { findingsOf, textOf } from '../plan-samples.ts';

// Invented: the straps of the bundled job are 240 long and sawn to 240.
const straps = textOf('jobs/hinge-straps.yaml');
const codes = (text: string) => findingsOf(text).map((one) => `${one.code} ${one.severity} ${one.operation}`);

describe('a part that is only sawn', () => {
  it('to its own length is sound', () => {
    expect(codes(straps).some((code) => code.startsWith('blank-short'))).toBe(false);
  });

  it('longer than it is to be, and never brought to its length, is warned of', () => {
    const long = straps.replace('part: { length: 240,', 'part: { length: 238,');
    expect(codes(long)).toContain('blank-short warn 10');
  });
});
