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
const jsonShape: Option = {
  flag: 'json-shape',
  value: null,
  meaning: 'tell what --json answers, as a JSON Schema, and end',
};
const force: Option = { flag: 'force', value: null, meaning: 'write over a file that exists' };

export const subcommands: readonly Subcommand[] = [
  {
    name: 'check',
    usage: 'check PLAN',
    summary: 'prove a job plan before metal is cut; exit 65 when it must not be cut as it stands',
    options: [
      json,
      jsonShape,
      { flag: 'strict', value: null, meaning: 'exit 65 on warnings too' },
      { flag: 'rules', value: null, meaning: 'list every rule instead: code, severity, what it catches, an example' },
    ],
    example: 'millside check jobs/keeper-plates.yaml',
  },
  {
    name: 'steps',
    usage: 'steps PLAN',
    summary: 'every operation with its points, depths, speeds and times',
    options: [json, jsonShape],
    example: 'millside steps jobs/keeper-plates.yaml',
  },
  {
    name: 'sheet',
    usage: 'sheet PLAN',
    summary: 'the plan on paper: setups with drawings, numbers, checks, tally; Markdown unless a file is named',
    options: [
      { flag: 'html', value: 'FILE', meaning: 'write one page with drawings, to print' },
      { flag: 'markdown', value: 'FILE', meaning: 'write it as Markdown' },
      { flag: 'with-stops', value: null, meaning: 'also when a check says stop; the stops stand at its top' },
      force,
    ],
    example: 'millside sheet jobs/keeper-plates.yaml --html keeper-plates.html',
  },
  {
    name: 'bars',
    usage: 'bars PLAN',
    summary: 'the cut list: bars, blanks, kerf, offcuts; exit 1 when the bars are too few',
    options: [json, jsonShape],
    example: 'millside bars jobs/keeper-plates.yaml',
  },
  {
    name: 'new',
    usage: 'new [FILE]',
    summary: 'write a plan by answering questions; never over a file that exists',
    options: [],
    example: 'millside new gate-latch.yaml',
  },
  {
    name: 'batches',
    usage: 'batches',
    summary: 'open and finished batches, batches of one plan side by side, estimates from past work',
    options: [
      json,
      jsonShape,
      { flag: 'open', value: null, meaning: 'only those that are not over' },
      { flag: 'finished', value: null, meaning: 'only those that are over' },
      { flag: 'plan', value: 'ID', meaning: 'only those of the plan with this id' },
      { flag: 'job', value: 'TEXT', meaning: 'only those whose job has this in its name' },
      { flag: 'since', value: 'DATE', meaning: 'opened on this date or later, such as 2027-03-01' },
      { flag: 'before', value: 'DATE', meaning: 'opened before this date' },
      { flag: 'compare', value: 'ID', meaning: 'the finished batches of one plan side by side' },
      { flag: 'estimates', value: null, meaning: 'what past batches say of each kind of work, tool and material' },
    ],
    example: 'millside batches --open',
  },
  {
    name: 'status',
    usage: 'status [BATCH]',
    summary: 'where a batch stands and when it ends; without a name the batch worked on last',
    options: [
      json,
      jsonShape,
      { flag: 'until', value: 'TIME', meaning: 'what if I stop at this time of day, such as 21:30' },
      { flag: 'more', value: 'N', meaning: 'what if I make N more' },
      { flag: 'loads', value: 'N', meaning: 'what if the rest of this operation is made in N loads' },
    ],
    example: 'millside status --until 21:30',
  },
  {
    name: 'report',
    usage: 'report [BATCH]',
    summary: 'the time report of a batch, finished or running',
    options: [
      json,
      jsonShape,
      { flag: 'csv', value: 'FILE', meaning: 'write one row an operation' },
      { flag: 'pieces-csv', value: 'FILE', meaning: 'write one row a load' },
      { flag: 'markdown', value: 'FILE', meaning: 'write it as Markdown' },
      { flag: 'html', value: 'FILE', meaning: 'write one page with charts, to print or to send' },
      {
        flag: 'write-back',
        value: 'PLAN',
        meaning: 'write the better estimates into this plan file; PLAN.before is kept',
      },
      force,
    ],
    example: 'millside report',
  },
  {
    name: 'rehearse',
    usage: 'rehearse PLAN',
    summary: 'play the batch at speed with an invented operator; touches no real batch',
    options: [json, jsonShape],
    example: 'millside rehearse jobs/keeper-plates.yaml',
  },
  {
    name: 'reckon',
    usage: 'reckon TOPIC …',
    summary: 'one piece of shop arithmetic: speed, drill, tap, countersink, circle, dial, fit, blanks, spares …',
    options: [json, jsonShape],
    example: 'millside reckon speed --cutting-speed "30 m/min" --diameter "10 mm"',
  },
  {
    name: 'settings',
    usage: 'settings [KEY [VALUE]]',
    summary: 'show the settings and where each comes from, or change one',
    options: [json, jsonShape, { flag: 'default', value: null, meaning: 'put KEY back to its default' }],
    example: 'millside settings report.allowance_pct 12',
  },
  {
    name: 'completions',
    usage: 'completions SHELL',
    summary: 'completions for bash, zsh or fish, on standard output',
    options: [],
    example: 'millside completions bash > ~/.local/share/bash-completion/completions/millside',
  },
  {
    name: 'man-page',
    usage: 'man-page',
    summary: 'the manual page, on standard output',
    options: [],
    example: 'millside man-page > ~/.local/share/man/man1/millside.1',
  },
];
