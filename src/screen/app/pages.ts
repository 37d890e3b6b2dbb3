/** Pages over the stage: keys, cautions, when it ends, the report. They are leafed through and count nothing. */
import type { Batch } from '../../batch/state.ts';
import { DEFERRING_LINE } from '../../plan/cautions.ts';
import { type BindingTable, helpFor } from '../keys/binding-table.ts';
import type { KeyCommand, Moment } from '../keys/key-map.ts';
import { operationOf } from '../moments/place-names.ts';
import { cautionsOf } from '../moments/work-facts.ts';
import { leafFrom } from '../panel/fitted-lines.ts';
import type { Services } from './services.ts';
import type { Page } from './state.ts';

export type PageName = 'keys' | 'cautions' | 'report' | 'finish';

/** The page of that name; null where there is no batch to say it of. */
export function pageOf(
  name: PageName,
  batch: Batch | null,
  input: {
    readonly services: Services;
    readonly table: BindingTable<Moment, KeyCommand>;
    readonly columns: number;
    readonly id: string;
  },
): Page | null {
  const { services, table, columns, id } = input;
  if (name === 'keys') return { title: 'KEYS', lines: keyLines(table), from: 0 };
  if (batch === null) return null;
  switch (name) {
    case 'cautions':
      return { title: 'CAUTIONS', lines: cautionLines(batch), from: 0 };
    case 'report':
      return {
        title: batch.kind === 'open' ? 'REPORT SO FAR' : 'REPORT',
        lines: services.report(batch, id, columns),
        from: 0,
      };
    case 'finish':
      return { title: 'WHEN IT ENDS', lines: services.outlook(batch, services.now()).grounds, from: 0 };
    default:
      return name satisfies never;
  }
}

/** The page leafed on or back, as far as every panel shows. */
export function leafPage(page: Page, way: 1 | -1, columns: number): Page {
  return { ...page, from: leafFrom(page.lines, page.from, way, columns) };
}

function cautionLines(batch: Batch): readonly string[] {
  const cell = batch.current === null ? undefined : batch.cells[batch.current];
  const operation = cell === undefined ? undefined : operationOf(batch.plan, cell.operation);
  const rows = operation === undefined ? [] : cautionsOf(batch, operation);
  return [...rows.map((row) => `! ${row.text}`), '', DEFERRING_LINE];
}

function keyLines(table: BindingTable<Moment, KeyCommand>): readonly string[] {
  return helpFor(table).flatMap((row) => {
    const keypad = table.hand === 'left' ? row.keys['left-hand'] : row.keys.keypad;
    const keys = [
      row.keys.keyboard,
      keypad === '' ? '' : `keypad ${keypad}`,
      row.keys.pedal === '' ? '' : `pedal ${row.keys.pedal}`,
    ];
    return [`${row.label.padEnd(18)}${keys.filter((part) => part !== '').join(' | ')}`, `  ${row.help}`];
  });
}
