/**
 * `millside new [FILE]`: a plan written by answering questions on the terminal. Every operation is proved as it is answered,
 * so that the file passes `check`; it never goes over another. Ended early (end of input: 1, interrupt: 130) it writes
 * nothing. What is not asked (line cuts, more setups, checks) is added in the file.
 */

import { homedir } from 'node:os';
import { createInterface, type Interface } from 'node:readline';
import { formatFindings } from '../plan/checks/findings-text.ts';
import { wrapText } from '../report/forms/text-table.ts';
import { plainLine } from '../report/neutral-text.ts';
import type { ShopMachines } from '../sitting/shop-machines.ts';
import { loadShopMachines } from '../sitting/shop-machines-loading.ts';
import { findConfigFolder } from '../store/home.ts';
import { realDisk } from '../store/real-disk.ts';
import { readWords } from './arguments.ts';
import { exitCodes } from './exit-codes.ts';
import type { Io } from './io.ts';
import type { Turn } from './new-plan/asking.ts';
import { type Draft, draftText, proveDraft } from './new-plan/draft.ts';
import { interviewPlan } from './new-plan/interview.ts';
import { writeFileFor } from './written-file.ts';

/** Shows a turn and answers what was typed; `end` when there is no more, `interrupt` on Ctrl-C. */
export type Teller = (turn: Turn) => Promise<string | { readonly kind: 'end' | 'interrupt' }>;

const interrupted = 130;

export async function runNew(args: readonly string[], io: Io): Promise<number> {
  const words = readWords('new', args, [0, 1], io);
  if (typeof words === 'number') return words;
  if (!io.isTerminal) {
    io.err(
      'millside new: asks its questions on a terminal, and this is none. Without one copy a plan of the folder jobs and change it.\n',
    );
    return exitCodes.usage;
  }
  const name = words.names[0];
  if (name !== undefined && (await realDisk.statLink(name)) !== undefined) {
    io.err(`millside new: ${plainLine(name)} exists already; nothing is written over it.\n`);
    return exitCodes.cannotCreate;
  }
  const machines = await loadShopMachines(findConfigFolder(io.env, homedir()));
  const terminal = createInterface({ input: process.stdin, output: process.stdout });
  try {
    return await writeNewPlan(name, io, machines, tellerOn(terminal, io.columns));
  } finally {
    terminal.close();
  }
}

/** Holds the interview with `tell` and writes the plan; without a name the file is named for the job. */
export async function writeNewPlan(
  name: string | undefined,
  io: Io,
  machines: ShopMachines,
  tell: Teller,
): Promise<number> {
  const interview = interviewPlan(machines);
  let step = interview.next('');
  while (!step.done) {
    const answer = await tell(step.value);
    if (typeof answer !== 'string') {
      io.err('\nmillside new: ended early; nothing was written.\n');
      return answer.kind === 'end' ? exitCodes.refused : interrupted;
    }
    step = interview.next(answer);
  }
  if (step.value === null) {
    io.err('millside new: a plan without an operation is none; nothing was written.\n');
    return exitCodes.refused;
  }
  return writeDraft(name ?? `${String(step.value['id'])}.yaml`, step.value, io, machines);
}

async function writeDraft(name: string, draft: Draft, io: Io, machines: ShopMachines): Promise<number> {
  const text = draftText(draft);
  const written = await writeFileFor(io, name, text, { force: false });
  if (written !== exitCodes.done) {
    io.err('The plan follows, so that it is not lost:\n');
    io.out(text);
    return written;
  }
  const { findings, plan } = proveDraft(draft, machines);
  if (findings.length > 0 && plan !== null) io.err(formatFindings(findings, plan, text, name));
  io.err(
    `Add checks, notes, line cuts and further setups in the file; then: millside check ${plainLine(name)}, millside steps ${plainLine(name)}\n`,
  );
  return exitCodes.done;
}

/** Asks on the terminal. Ctrl-D ends, Ctrl-C interrupts; both close it. */
function tellerOn(terminal: Interface, columns: number): Teller {
  let over: { readonly kind: 'end' | 'interrupt' } | null = null;
  let waiting: ((answer: { readonly kind: 'end' | 'interrupt' }) => void) | null = null;
  terminal.on('SIGINT', () => {
    over = { kind: 'interrupt' };
    terminal.close();
  });
  terminal.on('close', () => {
    over ??= { kind: 'end' };
    waiting?.(over);
  });
  return (turn) => {
    if (turn.kind === 'say') {
      process.stdout.write(`${printableLines(turn.text, columns)}\n`);
      return Promise.resolve('');
    }
    if (over !== null) return Promise.resolve(over);
    const fallback = turn.fallback === null ? '' : ` [${turn.fallback}]`;
    return new Promise((resolve) => {
      waiting = resolve;
      const end = fallback === '' && turn.text.endsWith('?') ? ' ' : ': ';
      terminal.question(`${printableLines(`${turn.text}${fallback}`, columns)}${end}`, resolve);
    });
  };
}

/** Control signs made visible, broken between words where a line has no room; two columns are left for the end of a question. */
const printableLines = (text: string, columns: number): string =>
  text
    .split('\n')
    .flatMap((line) => wrapText(plainLine(line), Math.max(20, columns - 3)))
    .join('\n');
