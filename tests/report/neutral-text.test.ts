import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { columnsOf, csvLine, escapeHtml, escapeMarkdown, plainLine } from '../../src/report/neutral-text.ts';
import { readCsv } from './read-csv.ts';

describe('text made harmless', () => {
  it('[P8] keeps escape sequences, line breaks and marks that turn writing round from the terminal', () => {
    expect(plainLine('a\u001b[31mb')).toBe('a?[31mb');
    expect(plainLine('a\nb\u202ec\u009b')).toBe('a?b?c?');
    expect(plainLine('Zapfen Ø 6')).toBe('Zapfen Ø 6');
  });

  it('[P9] escapes what a page would take for markup', () => {
    expect(escapeHtml(`<b>&"'`)).toBe('&lt;b&gt;&amp;&quot;&#39;');
  });

  it('[P9] escapes what Markdown would take for a table cell, a tag or a link', () => {
    expect(escapeMarkdown('a|b *c* <d> [e](f)')).toBe('a\\|b \\*c\\* \\<d\\> \\[e\\]\\(f\\)');
  });

  it('[P9] guards text that a spreadsheet would run, and leaves numbers alone', () => {
    const cells = readCsv(csvLine(['=1+1', '+x', '-x', '@x', '\t=x', ' =x', 'x=1', -2.5, 3]))[0];
    expect(cells).toEqual(["'=1+1", "'+x", "'-x", "'@x", "' =x", "' =x", 'x=1', '-2.5', '3']);
  });

  it('writes lines that an independent reader of RFC 4180 reads back', () => {
    const cell = fc.oneof(fc.string(), fc.constantFrom('a "b"', 'c,d', 'e', '', '"', ',,'), fc.integer());
    fc.assert(
      fc.property(fc.array(cell, { minLength: 2, maxLength: 6 }), (cells) => {
        const read = readCsv(csvLine(cells));
        expect(read).toHaveLength(1);
        expect(read[0]).toHaveLength(cells.length);
        for (const [index, given] of cells.entries()) {
          const got = read[0]?.[index] ?? '';
          const want = typeof given === 'number' ? String(given) : plainLine(given.replace(/\r\n?|\n/g, ' '));
          expect([want, `'${want}`]).toContain(got);
        }
      }),
    );
  });

  it('counts two columns for wide signs and none for combining marks', () => {
    expect(columnsOf('Plate')).toBe(5);
    expect(columnsOf('\u677f')).toBe(2);
    expect(columnsOf('e\u0301')).toBe(1);
  });
});
