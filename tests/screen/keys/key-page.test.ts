import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { keyMapFor } from '../../../src/screen/keys/key-map.ts';
import { keyPage } from '../../../src/screen/keys/key-page.ts';

describe('the page of keys', () => {
  it('in the README is the one that the binding table makes', () => {
    const readme = readFileSync(fileURLToPath(new URL('../../../README.md', import.meta.url)), 'utf8');
    const between = /<!-- keys -->\n([\s\S]*)<!-- \/keys -->/.exec(readme)?.[1];
    expect(between).toBe(keyPage(keyMapFor('right')));
  });

  it('has a row of six cells for every command', () => {
    const table = keyMapFor('right');
    const rows = keyPage(table).trimEnd().split('\n');
    expect(rows.length).toBe(table.bindings.length + 2);
    for (const row of rows) expect(row.split(' | ').length === 6 || row.startsWith('|---')).toBe(true);
  });
});
