/** `millside man-page`: the manual page, made from the tables of subcommands, exit codes and environment. */
import { readWords } from './arguments.ts';
import { environment, exitMeanings } from './conventions.ts';
import { exitCodes } from './exit-codes.ts';
import type { Io } from './io.ts';
import { type Subcommand, subcommands } from './subcommands.ts';

export function runManPage(args: readonly string[], io: Io): number {
  const words = readWords('man-page', args, [0, 0], io);
  if (typeof words === 'number') return words;
  io.out(manPage());
  return exitCodes.done;
}

/** The page in the man macros. */
export function manPage(): string {
  return [
    `.TH MILLSIDE 1 "" "millside ${escapeRoff(MILLSIDE_VERSION)}"`,
    '.SH NAME',
    'millside \\- run a batch of parts on manual machines',
    '.SH SYNOPSIS',
    '.B millside',
    '.RI [ PLAN | BATCH ]',
    '.br',
    '.B millside',
    '.I SUBCOMMAND',
    '\\&...',
    '.SH DESCRIPTION',
    line(
      'Loads a job plan, proves its numbers, steps through setups and operations, counts and times every piece, says when',
    ),
    line(
      'the batch will end and gives a time report. Without a subcommand it takes over the terminal: a plan goes on with its',
    ),
    line('open batch or begins one; a batch goes on where it stood; with nothing named one chooses.'),
    '.PP',
    line(
      "The numbers are starting values and arithmetic: your machine's manual, your training and the local rules come first.",
    ),
    '.SH SUBCOMMANDS',
    ...subcommands.flatMap(entry),
    '.SH "EXIT STATUS"',
    ...exitMeanings.flatMap(([code, meaning]) => item(String(code), `${meaning}.`)),
    '.SH ENVIRONMENT',
    ...environment.flatMap(({ name, meaning }) => item(name, `${meaning}.`)),
    '.SH FILES',
    ...item('batches/', 'in the data folder, a folder for each batch with its journal.'),
    ...item('settings.json', 'in the settings folder.'),
    '',
  ].join('\n');
}

function entry(one: Subcommand): string[] {
  const first = `${one.summary.charAt(0).toUpperCase()}${one.summary.slice(1)}.`;
  return [
    `.SS ${escapeRoff(one.usage)}`,
    line(first),
    ...one.options.flatMap((option) =>
      item(option.value === null ? `--${option.flag}` : `--${option.flag} ${option.value}`, `${option.meaning}.`),
    ),
    '.PP',
    `Example: \\fB${escapeRoff(one.example)}\\fR`,
  ];
}

const item = (name: string, meaning: string): string[] => ['.TP', `.B ${escapeRoff(name)}`, line(meaning)];

/** A line of text: it must not begin a request. */
const line = (text: string): string => escapeRoff(text).replace(/^([.'])/, '\\&$1');

const escapeRoff = (text: string): string =>
  text.replaceAll('\\', '\\e').replaceAll('-', '\\-').replaceAll('…', '\\&...').replaceAll("'", '\\(aq');
