import { isFault } from '../../src/store/fault.ts';
import { createBatch, type Journal, openJournal } from '../../src/store/journal.ts';
import type { JournalLine, LineDraft, LineForm } from '../../src/store/journal-line.ts';
import { type FailPlan, PowerCut, type SimulatedDisk } from '../store/simulated-disk.ts';

// A whole batch at the machine, played on a disk that may fail or lose its power, with a ledger of what the operator was shown.

/** What is counted: any batch that can be begun and pressed, and whose state `S` follows from its lines. */
export interface Subject<C, E, S> {
  readonly batch: string;
  readonly form: LineForm<C, E>;
  /** The state before the first line. */
  readonly nothing: S;
  begin(): LineDraft<C, E>;
  /** The line of press `number` in this state; the first press of a sitting is told so. */
  press(state: S, number: number, isFirst: boolean): LineDraft<C, E>;
  fold(state: S, line: LineDraft<C, E>): S;
  /** Which press a line is of: no two lines of a batch have the same. */
  mark(line: LineDraft<C, E>): string;
  /** What the operator sees of a state: counts, lanes, the next point. */
  tell(state: S): string;
}

/** What the operator was shown, and what was under way and may or may not have reached the disk. */
export interface Ledger {
  begun: boolean;
  /** The presses that were answered as counted. */
  shown: readonly string[];
  /** What the screen told behind them. */
  told: string;
  /** Presses since the last one that was shown: under way, or refused while the disk failed. One of them may be there. */
  inFlight: readonly (readonly string[])[];
}

export interface Script {
  /** The number before the first press: batches of other numbers are pressed otherwise. */
  readonly first: number;
  readonly sittings: readonly (readonly number[])[];
  readonly fail: FailPlan | undefined;
}

/** A batch that was opened again: its journal, its state, and the presses that it counts. */
export interface Reopened<C, E, S> {
  readonly journal: Journal<C, E>;
  readonly damage: { readonly offset: number } | undefined;
  readonly lines: readonly JournalLine<C, E>[];
  readonly presses: readonly string[];
  readonly state: S;
}

const BATCHES = '/data/batches';

/** Plays the script until its end or the power cut; the ledger says what must hold afterwards. */
export async function play<C, E, S>(disk: SimulatedDisk, subject: Subject<C, E, S>, script: Script): Promise<Ledger> {
  const begun = subject.fold(subject.nothing, subject.begin());
  const ledger: Ledger = { begun: false, shown: [], told: subject.tell(begun), inFlight: [] };
  disk.fail = script.fail;
  try {
    const created = await createBatch(disk, BATCHES, subject.batch, subject.form, subject.begin());
    ledger.begun = created.kind === 'created';
    let next = script.first + 1;
    for (const presses of script.sittings) next = await playSitting(disk, subject, ledger, presses, next);
  } catch (error) {
    if (!(error instanceof PowerCut)) throw error;
  }
  disk.fail = undefined;
  return ledger;
}

async function playSitting<C, E, S>(
  disk: SimulatedDisk,
  subject: Subject<C, E, S>,
  ledger: Ledger,
  presses: readonly number[],
  first: number,
): Promise<number> {
  const opened = await reopen(disk, subject);
  if (isFault(opened)) return first;
  ledger.shown = opened.presses;
  ledger.told = subject.tell(opened.state);
  ledger.inFlight = [];
  let { state } = opened;
  let next = first;
  for (const together of presses) {
    state = await press(opened.journal, subject, ledger, state, { next, together, isFirst: next === first });
    next += together;
  }
  await opened.journal.close();
  return next;
}

async function press<C, E, S>(
  journal: Journal<C, E>,
  subject: Subject<C, E, S>,
  ledger: Ledger,
  state: S,
  { next, together, isFirst }: { readonly next: number; readonly together: number; readonly isFirst: boolean },
): Promise<S> {
  const drafts: LineDraft<C, E>[] = [];
  let after = state;
  for (let number = next; number < next + together; number += 1) {
    const draft = subject.press(after, number, isFirst && number === next);
    drafts.push(draft);
    after = subject.fold(after, draft);
  }
  const marks = drafts.map((draft) => subject.mark(draft));
  ledger.inFlight = [...ledger.inFlight, marks];
  const answer = await journal.append(journal.seq, drafts);
  if (answer.kind !== 'appended') return state;
  ledger.shown = [...ledger.shown, ...marks];
  ledger.told = subject.tell(after);
  ledger.inFlight = [];
  return after;
}

/** Opens the batch again and tells what it counts. */
export async function reopen<C, E, S>(disk: SimulatedDisk, subject: Subject<C, E, S>) {
  const lines: JournalLine<C, E>[] = [];
  let state = subject.nothing;
  const opened = await openJournal(disk, `${BATCHES}/${subject.batch}`, subject.form, (line) => {
    state = subject.fold(state, line);
    lines.push(line);
  });
  if (isFault(opened)) return opened;
  const presses = lines.slice(1).map((line) => subject.mark(line));
  return { ...opened, lines, presses, state } satisfies Reopened<C, E, S>;
}
