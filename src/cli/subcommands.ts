/**
 * The table of subcommands: name, one-line summary, usage, options, an example. `--help`, shell completions and the man page are made from it, so that none of them can fall behind.
 */
export type Option = { readonly flag: string; readonly value: string | null; readonly meaning: string };

export type Subcommand = {
  readonly name: string;
  readonly usage: string;
  readonly summary: string;
  readonly options: readonly Option[];
  readonly example: string;
};

const json: Option = { flag: 'json', value: null, meaning: 'answer as JSON on standard output' };
const force: Option = { flag: 'force', value: null, meaning: 'write over a file that exists' };

export const subcommands: readonly Subcommand[] = [
  {
    name: 'check',
    usage: 'check PLAN',
    summary: 'prove a job plan before metal is cut; exit 65 when it must not be cut as it stands',
    options: [
      json,
      { flag: 'strict', value: null, meaning: 'exit 65 on warnings too' },
      { flag: 'rules', value: null, meaning: 'list every rule instead: code, severity, what it catches, an example' },
    ],
    example: 'millside check jobs/keeper-plates.yaml',
  },
  {
    name: 'steps',
    usage: 'steps PLAN',
    summary: 'every operation with its points, depths, speeds and times',
    options: [json],
    example: 'millside steps jobs/keeper-plates.yaml',
  },
  {
    name: 'batches',
    usage: 'batches',
    summary: 'open and finished batches',
    options: [json],
    example: 'millside batches',
  },
  {
    name: 'status',
    usage: 'status [BATCH]',
    summary: 'where a batch stands now; without a name the batch worked on last',
    options: [json],
    example: 'millside status --json',
  },
  {
    name: 'report',
    usage: 'report [BATCH]',
    summary: 'the time report of a batch, finished or running',
    options: [
      json,
      { flag: 'csv', value: 'FILE', meaning: 'write one row an operation' },
      { flag: 'pieces-csv', value: 'FILE', meaning: 'write one row a load' },
      { flag: 'markdown', value: 'FILE', meaning: 'write it as Markdown' },
      { flag: 'html', value: 'FILE', meaning: 'write one page with charts, to print or to send' },
      force,
    ],
    example: 'millside report',
  },
  {
    name: 'rehearse',
    usage: 'rehearse PLAN',
    summary: 'play the batch at speed with an invented operator; touches no real batch',
    options: [json],
    example: 'millside rehearse jobs/keeper-plates.yaml',
  },
  {
    name: 'reckon',
    usage: 'reckon TOPIC …',
    summary: 'one piece of shop arithmetic: speed, drill, tap, countersink, circle, dial, fit, blanks, spares …',
    options: [json],
    example: 'millside reckon speed --cutting-speed "30 m/min" --diameter "10 mm"',
  },
];
