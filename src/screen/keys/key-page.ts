/** The key list of the README, made from the binding table. */
import { type BindingTable, helpFor } from './binding-table.ts';

/**
 * A Markdown table of every command: keyboard, keypad, keypad for the left hand, pedal, what it does.
 * Example of a row: `| count | Enter Space | Enter + | Enter + 0 Ins 1 End | F9 | Counts the piece, … |`.
 */
export function keyPage<Moment extends string, Command extends string>(table: BindingTable<Moment, Command>): string {
  const rows = helpFor(table).map(({ label, keys, help }) =>
    [label, cell(keys.keyboard), cell(keys.keypad), cell(keys['left-hand']), cell(keys.pedal), help].join(' | '),
  );
  return [
    '| command | keyboard | keypad | keypad, left hand | pedal | what it does |',
    '|---|---|---|---|---|---|',
    ...rows.map((row) => `| ${row} |`),
    '',
  ].join('\n');
}

/** Keys as code, so that `*` and `-` are no Markdown. */
function cell(keys: string): string {
  return keys === ''
    ? ''
    : keys
        .split(' ')
        .map((key) => `\`${key}\``)
        .join(' ');
}
