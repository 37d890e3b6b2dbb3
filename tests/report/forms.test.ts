import { describe, expect, it } from 'vitest';
import { describeReport } from '../../src/report/describe.ts';
import { formatLoadsCsv, formatReportCsv } from '../../src/report/forms/csv.ts';
import { formatReportJson } from '../../src/report/forms/json.ts';
import { formatReportMarkdown } from '../../src/report/forms/markdown.ts';
import { formatReportHtml } from '../../src/report/forms/page.ts';
import { formatReportText } from '../../src/report/forms/text.ts';
import { type ReportModel, reportSchema } from '../../src/report/model.ts';
import { columnsOf } from '../../src/report/neutral-text.ts';
import { readCsv } from './read-csv.ts';
import { elementsNamed, readMarkup, textOf } from './read-markup.ts';
import { aLoad, aRow, emptyReport, sampleReport } from './sample-report.ts';

const hostile = '<script>alert(1)</script> | *bold* \u001b[31m "q" =1+1 \u202e & \n new';

function hostileReport(): ReportModel {
  const report = sampleReport({ job: hostile, material: hostile, because: hostile });
  return {
    ...report,
    operations: report.operations.map((row) => ({ ...row, title: hostile, variant: hostile })),
    losses: report.losses.map((loss) => ({ ...loss, reason: hostile })),
    checks: report.checks.map((check) => ({ ...check, title: hostile })),
    notes: report.notes.map((note) => ({ ...note, text: hostile })),
    sittings: report.sittings.map((one) => ({ ...one, by: hostile })),
  };
}

const allScrap = (): ReportModel => {
  const loads = [aLoad(1, 40, { good: 0, scrap: 1 })];
  return sampleReport({
    good: 0,
    scrap: 1,
    operations: [aRow(loads)],
    loads,
    money: { ...sampleReport().money!, per_good_piece: null },
  });
};

const reports: readonly (readonly [string, () => ReportModel])[] = [
  ['a full batch', sampleReport],
  ['a batch with no pieces', emptyReport],
  ['a batch of one piece', () => sampleReport({ operations: [aRow([aLoad(1, 40)])], loads: [aLoad(1, 40)] })],
  ['a batch that is all scrap', allScrap],
  ['names with markup', hostileReport],
];

describe.each(reports)('%s', (_, make) => {
  it('is a report of format 1', () => {
    expect(reportSchema.safeParse(make()).error).toBeUndefined();
  });

  it('fits 80 columns as text, and 50 and 132, without a sign that a terminal would obey', () => {
    for (const columns of [50, 80, 132]) {
      const text = formatReportText(make(), { columns });
      expect(text.split('\n').filter((line) => columnsOf(line) > columns)).toEqual([]);
      expect(text.replace(/\n/g, '')).not.toMatch(/[\p{Cc}\p{Cf}]/u);
    }
  });

  it('is a page that is well formed, with no script, no link and no picture from outside', () => {
    const page = formatReportHtml(make());
    const root = readMarkup(page);
    for (const name of ['script', 'link', 'img', 'iframe', 'a']) expect(elementsNamed(root, name)).toEqual([]);
    expect(page).not.toMatch(/url\(|@import|https?:|\son\w+=/);
    expect(elementsNamed(root, 'h1').map(textOf)).toHaveLength(1);
  });

  it('shows no NaN, undefined or infinity in any form', () => {
    const model = make();
    const forms = [
      formatReportText(model),
      formatReportMarkdown(model),
      formatReportHtml(model),
      formatReportCsv(model),
    ];
    for (const form of [...forms, formatReportJson(model), formatLoadsCsv(model)]) {
      expect(form).not.toMatch(/NaN|undefined|Infinity/);
    }
  });

  it('has the same tables, cell by cell, in Markdown and on the page, and their words in the text', () => {
    const model = make();
    const tables = describeReport(model).blocks.flatMap((block) => (block.kind === 'table' ? [block] : []));
    const clean = (cells: readonly (readonly string[])[]) => cells.map((row) => row.map((cell) => cell.trim()));
    const wanted = clean(tables.flatMap((one) => one.rows).map((row) => row.map(plain)));
    expect(clean(pageRows(formatReportHtml(model)))).toEqual(wanted);
    expect(clean(markdownRows(formatReportMarkdown(model)))).toEqual(wanted);
    const text = formatReportText(model, { columns: 400 }).replace(/\s+/g, ' ');
    for (const row of wanted) for (const cell of row) expect(text).toContain(cell.replace(/\s+/g, ' '));
  });
});

const plain = (text: string): string => text.replace(/[\p{Cc}\p{Cf}]/gu, '?');

const pageRows = (page: string): string[][] =>
  elementsNamed(readMarkup(page), 'tbody').flatMap((body) =>
    elementsNamed(body, 'tr').map((row) => elementsNamed(row, 'td').map(textOf)),
  );

/** Rows below a rule line, split at bars without a backslash, escapes undone. */
function markdownRows(text: string): string[][] {
  const rows: string[][] = [];
  let inTable = false;
  for (const line of text.split('\n')) {
    if (/^\| -{3}/.test(line)) inTable = true;
    else if (!line.startsWith('|')) inTable = false;
    else if (inTable) {
      const cells = line.slice(1, -1).split(/(?<!\\)\|/);
      rows.push(cells.map((cell) => cell.trim().replace(/\\([\\`*_{}[\]<>()#|~!&])/g, '$1')));
    }
  }
  return rows;
}

describe('the forms of one report', () => {
  it('give the numbers of an operation alike in text, Markdown, page, CSV and JSON', () => {
    const model = sampleReport();
    const row = model.operations[1]!;
    const [heads, , drill] = readCsv(formatReportCsv(model));
    const cell = (name: string) => drill?.[heads?.indexOf(name) ?? -1];
    expect(Number(cell('median_s'))).toBeCloseTo(row.piece!.median_s, 3);
    expect(Number(cell('setup_s'))).toBe(row.elapsed_s.setup);
    expect(cell('good')).toBe(String(row.good));
    const read = reportSchema.parse(JSON.parse(formatReportJson(model)));
    expect(read).toEqual(model);
    const median = '2:08'; // 127.1 and 128.8 in the middle: 127.95 s
    for (const form of [formatReportText(model), formatReportMarkdown(model), formatReportHtml(model)]) {
      expect(form).toContain(median);
      expect(form).toContain('0:21:01'); // 1260.5 s of set-up, halves up
    }
  });

  it('shows accounts that add up to the total shown, in a column that adds up', () => {
    const cells = pageRows(formatReportHtml(sampleReport()));
    const start = cells.findIndex((row) => row[0] === 'Set-up' && row.length === 4);
    const end = cells.findIndex((row) => row[0] === 'In all');
    const seconds = (text = '') => text.split(':').reduce((sum, part) => sum * 60 + Number(part), 0);
    const parts = cells.slice(start, end).map((row) => seconds(row[1]));
    expect(parts.length).toBe(7);
    expect(parts.reduce((sum, part) => sum + part, 0)).toBe(seconds(cells[end]?.[1]));
    expect(seconds(cells[end]?.[1])).toBe(Math.round(83_991.649));
  });

  it('draws every piece time, hollow where it was left out, and the limits of a check', () => {
    const root = readMarkup(formatReportHtml(sampleReport()));
    const titles = elementsNamed(root, 'figcaption').map(textOf);
    expect(titles).toEqual([
      'Where the time went, away left out',
      'Time a piece, 10 Saw blanks',
      'Time a piece, 40 Drill (Threaded M6)',
      'Plan against actual, set-up and run',
      'Width, as measured',
    ]);
    const circles = elementsNamed(root, 'figure').map((figure) => elementsNamed(figure, 'circle'));
    // the piece of 15 min is drawn as a triangle at the edge, so that it does not squash the others
    expect(circles[2]).toHaveLength(12);
    expect(elementsNamed(elementsNamed(root, 'figure')[2]!, 'polygon')).toHaveLength(1);
    expect(circles[4]?.filter((one) => one.attributes['class'] === 'hollow')).toHaveLength(1);
  });

  it('names rating, allowance, a rate without a currency, and suspects that were never cleared', () => {
    const money = { ...sampleReport().money!, currency: '' };
    const text = formatReportText(sampleReport({ money }));
    expect(text).toContain('rating 100 %');
    expect(text).toMatch(/normal x \(1 \+ 5 %\)/);
    expect(text.replace(/\s+/g, ' ')).toContain('the rate was stated without a currency');
    expect(text).toContain('NOT CLEARED');
  });

  it('keeps one row a load apart from one row an operation, both readable by RFC 4180', () => {
    const model = hostileReport();
    const operations = readCsv(formatReportCsv(model));
    const loads = readCsv(formatLoadsCsv(model));
    expect(operations).toHaveLength(1 + model.operations.length);
    expect(loads).toHaveLength(1 + model.loads.length);
    for (const table of [operations, loads]) expect(new Set(table.map((row) => row.length)).size).toBe(1);
    expect(loads.at(-1)?.[loads[0]?.indexOf('left_out') ?? -1]).toBe('suspended');
  });
});
