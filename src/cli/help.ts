/** Help texts, made from the table of subcommands. */
import { hanging } from './hanging.ts';
import { type Option, type Subcommand, subcommands } from './subcommands.ts';

const helpOption: Option = { flag: 'help', value: null, meaning: 'this page' };

/** The whole command line on one page of at most 80 columns. */
export function helpOfAll(): string {
  const width = Math.max(...subcommands.map((one) => one.usage.length)) + 2;
  const rows = subcommands.flatMap((one) => hanging(`  ${one.usage.padEnd(width)}`, one.summary));
  return [
    'millside runs a batch of parts on manual machines: numbers, counts, times.',
    '',
    'Usage: millside [PLAN|BATCH]      open a plan, go on with a batch, or choose',
    '       millside SUBCOMMAND …',
    '',
    ...rows,
    '',
    '  --version                       the version',
    '  --help                          this page; after a subcommand, its own',
    '',
    'Data lies in $MILLSIDE_HOME, settings in $MILLSIDE_CONFIG, else in XDG folders.',
    "The numbers it shows are starting values and arithmetic: your machine's manual,",
    'your training and the local rules come first.',
    '',
  ].join('\n');
}

/** Usage, options and an example of one subcommand. */
export function helpOf(one: Subcommand): string {
  const options = [...one.options, helpOption].flatMap((option) => {
    const flag = option.value === null ? `--${option.flag}` : `--${option.flag} ${option.value}`;
    return hanging(`  ${flag.padEnd(22)}`, option.meaning);
  });
  return [
    `Usage: millside ${one.usage} [options]`,
    '',
    ...hanging('', `${one.summary[0]?.toUpperCase() ?? ''}${one.summary.slice(1)}.`),
    '',
    'Options:',
    ...options,
    '',
    `Example: ${one.example}`,
    '',
  ].join('\n');
}
