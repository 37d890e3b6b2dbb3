import { describe, expect, it } from 'vitest';
import { ansiOf } from '../../../src/screen/parts/ansi.ts';
import type { Role } from '../../../src/screen/parts/lines.ts';

const roles: readonly Role[] = ['plain', 'strong', 'reverse', 'good', 'alarm', 'mark'];
const codesOf = (role: Role, colour: boolean): readonly number[] =>
  [...ansiOf([{ text: 'x', role }], colour).matchAll(/\[([\d;]*)m/g)].flatMap((found) =>
    (found[1] ?? '').split(';').map(Number),
  );
const isColour = (code: number): boolean => code >= 30;

describe('attributes', () => {
  it.each(roles)('of %s are without colour when colour is off, as on a light ground', (role) => {
    expect(codesOf(role, false).filter(isColour)).toEqual([]);
  });

  it.each(roles)('of %s use none but the eight colours (ECMA-48 SGR 30 to 37, 40 to 47)', (role) => {
    for (const code of codesOf(role, true).filter(isColour)) {
      expect(code % 10).toBeLessThan(8);
      expect([3, 4]).toContain(Math.floor(code / 10));
    }
  });

  it.each(roles)('of %s say the same with colour as without it, so that colour alone means nothing', (role) => {
    expect(codesOf(role, true).filter((code) => !isColour(code))).toEqual(codesOf(role, false));
  });
});
