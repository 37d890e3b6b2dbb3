/** Help texts, made from the table of subcommands. */
import { type Subcommand, subcommands } from './subcommands.ts';

/** The whole command line on one page of at most 80 columns. */
export function helpOfAll(): string {
  const width = Math.max(...subcommands.map((one) => one.usage.length)) + 2;
  const rows = subcommands.map((one) => `  ${one.usage.padEnd(width)}${one.summary}`);
  return [
    'millside runs a batch of parts on manual machines: numbers, counts, times, finish.',
    '',
    'Usage: millside [PLAN|BATCH]      open a plan, go on with a batch, or choose',
    '       millside SUBCOMMAND …',
    '',
    ...rows,
    '',
    '  --version                       the version',
    '  --help                          this page; after a subcommand, its own',
    '',
    'Data lies in $MILLSIDE_HOME, settings in $MILLSIDE_CONFIG (else the XDG folders).',
    "The numbers it shows are starting values and arithmetic: your machine's manual,",
    'your training and the local rules come first.',
    '',
  ].join('\n');
}

/** Usage, options and an example of one subcommand. */
export function helpOf(one: Subcommand): string {
  const options = one.options.map((option) => {
    const flag = option.value === null ? `--${option.flag}` : `--${option.flag} ${option.value}`;
    return `  ${flag.padEnd(22)}${option.meaning}`;
  });
  return [
    `Usage: millside ${one.usage}${one.options.length > 0 ? ' [options]' : ''}`,
    '',
    `${one.summary[0]?.toUpperCase() ?? ''}${one.summary.slice(1)}.`,
    '',
    ...(options.length > 0 ? ['Options:', ...options, ''] : []),
    `Example: ${one.example}`,
    '',
  ].join('\n');
}
