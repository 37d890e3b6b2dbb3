import { isFault } from '../../src/store/fault.ts';
import { createBatch, type Journal, openJournal } from '../../src/store/journal.ts';
import type { JournalLine, LineDraft, LineForm } from '../../src/store/journal-line.ts';
import { type FailPlan, PowerCut, type SimulatedDisk } from '../store/simulated-disk.ts';

// A whole batch at the machine, played on a disk that may fail or lose its power, with a ledger of what the operator was shown.

/** What is counted: any batch that can be begun and pressed. */
export interface Subject<C, E> {
  readonly batch: string;
  readonly form: LineForm<C, E>;
  begin(): LineDraft<C, E>;
  press(number: number): LineDraft<C, E>;
  /** The numbers of the presses that these lines count. */
  pressesOf(lines: readonly JournalLine<C, E>[]): readonly number[];
}

/** What the operator was shown, and what was under way and may or may not have reached the disk. */
export interface Ledger {
  begun: boolean;
  shown: readonly number[];
  /** Presses since the last one that was shown: under way, or refused while the disk failed. One of them may be there. */
  inFlight: readonly (readonly number[])[];
}

export interface Script {
  readonly sittings: readonly (readonly number[])[];
  readonly fail: FailPlan | undefined;
}

const BATCHES = '/data/batches';

/** Plays the script until its end or the power cut; the ledger says what must hold afterwards. */
export async function play<C, E>(disk: SimulatedDisk, subject: Subject<C, E>, script: Script): Promise<Ledger> {
  const ledger: Ledger = { begun: false, shown: [], inFlight: [] };
  disk.fail = script.fail;
  try {
    const created = await createBatch(disk, BATCHES, subject.batch, subject.form, subject.begin());
    ledger.begun = created.kind === 'created';
    let next = 1;
    for (const presses of script.sittings) next = await playSitting(disk, subject, ledger, presses, next);
  } catch (error) {
    if (!(error instanceof PowerCut)) throw error;
  }
  disk.fail = undefined;
  return ledger;
}

async function playSitting<C, E>(
  disk: SimulatedDisk,
  subject: Subject<C, E>,
  ledger: Ledger,
  presses: readonly number[],
  first: number,
): Promise<number> {
  const opened = await reopen(disk, subject);
  if (isFault(opened)) return first;
  ledger.shown = opened.presses;
  ledger.inFlight = [];
  let next = first;
  for (const together of presses) {
    await press(opened.journal, subject, ledger, next, together);
    next += together;
  }
  await opened.journal.close();
  return next;
}

async function press<C, E>(
  journal: Journal<C, E>,
  subject: Subject<C, E>,
  ledger: Ledger,
  next: number,
  together: number,
) {
  const numbers = Array.from({ length: together }, (_, index) => next + index);
  ledger.inFlight = [...ledger.inFlight, numbers];
  const answer = await journal.append(
    journal.seq,
    numbers.map((number) => subject.press(number)),
  );
  if (answer.kind !== 'appended') return;
  ledger.shown = [...ledger.shown, ...numbers];
  ledger.inFlight = [];
}

/** Opens the batch again and tells what it counts. */
export async function reopen<C, E>(disk: SimulatedDisk, subject: Subject<C, E>) {
  const lines: JournalLine<C, E>[] = [];
  const opened = await openJournal(disk, `${BATCHES}/${subject.batch}`, subject.form, (line) => lines.push(line));
  if (isFault(opened)) return opened;
  return { ...opened, presses: subject.pressesOf(lines) };
}
