import { isFault } from '../../src/store/fault.ts';
import { type FailPlan, PowerCut, SimulatedDisk } from '../store/simulated-disk.ts';
import { type Chance, makeChance, pickBelow } from './chance.ts';
import { type Ledger, play, type Reopened, reopen, type Script, type Subject } from './sitting-script.ts';

// Builds the states that a crash can leave, opens each again, and crashes the repair too. For whole batches: the power goes (or
// the program is killed) behind every call; what was not flushed is lost, torn or kept in every combination that is small
// enough, else by chance from a seed; before that a call may have failed, once or for good, at each place.

export interface Figures {
  /** States of the disk that differ in what a program can see or in what the operator had been shown. */
  states: number;
  opened: number;
  /** Openings that had to set something aside. */
  repaired: number;
  /** Repairs that were crashed in turn, at some call. */
  repairsCrashed: number;
  refused: Record<string, number>;
  /** What went wrong; empty when the promises hold. */
  broken: string[];
}

interface Search<C, E, S> {
  readonly subject: Subject<C, E, S>;
  readonly chance: Chance;
  readonly figures: Figures;
  readonly seen: Set<string>;
  readonly wanted: number;
}

/** How a batch is played: presses of a sitting at most, and the share of its calls that are made to fail (1: each in turn). */
export interface Manner {
  readonly presses: number;
  readonly failures: number;
}

/** Explores until `wanted` distinct states were opened; the same seed gives the same states. */
export async function exploreCrashes<C, E, S>(
  subject: Subject<C, E, S>,
  seed: number,
  wanted: number,
  manner: Manner,
): Promise<Figures> {
  const figures: Figures = { states: 0, opened: 0, repaired: 0, repairsCrashed: 0, refused: {}, broken: [] };
  const search = { subject, chance: makeChance(seed), figures, seen: new Set<string>(), wanted };
  while (!isEnough(search)) {
    const script = makeScript(search.chance, manner.presses);
    await exploreScript(search, script);
    for (const fail of failPlans(await countCalls(search, script), search.chance)) {
      if (search.chance() < manner.failures) await exploreScript(search, { ...script, fail });
    }
  }
  return figures;
}

function isEnough<C, E, S>(search: Search<C, E, S>): boolean {
  return search.figures.states >= search.wanted || search.figures.broken.length > 20;
}

const BATCHES_APART = 1000;
const BATCHES_BY_NUMBER = 100_000;

function makeScript(chance: Chance, presses: number): Script {
  const sittings = Array.from({ length: 1 + pickBelow(chance, 2) }, () =>
    Array.from({ length: 1 + pickBelow(chance, presses) }, () => (chance() < 0.75 ? 1 : 1 + pickBelow(chance, 4))),
  );
  return { first: BATCHES_APART * pickBelow(chance, BATCHES_BY_NUMBER), sittings, fail: undefined };
}

async function countCalls<C, E, S>(search: Search<C, E, S>, script: Script): Promise<number> {
  const disk = new SimulatedDisk();
  await play(disk, search.subject, script);
  return disk.calls;
}

/** A failure at every call in turn: once or for good, a full disk with half a write, or a flush of which a part arrived. */
function failPlans(calls: number, chance: Chance): FailPlan[] {
  return Array.from({ length: calls }, (_, call) => {
    const isFull = chance() < 0.5;
    const plan = { atCall: call + 1, forever: chance() < 0.3, short: isFull, reached: pickBelow(chance, 3) / 2 };
    return { ...plan, code: isFull ? 'ENOSPC' : 'EIO' };
  });
}

async function exploreScript<C, E, S>(search: Search<C, E, S>, script: Script): Promise<void> {
  for (let stop = 0; !isEnough(search); stop += 1) {
    const disk = new SimulatedDisk();
    disk.stopAfter = stop;
    const ledger = await play(disk, search.subject, script);
    const name = `${JSON.stringify(script)} stopped behind call ${stop} (${disk.log.at(-1)})`;
    for (const crashed of crashesOf(disk, search.chance)) await check(search, crashed, ledger, name);
    if (disk.calls < stop) return;
  }
}

/** The share of the repairs that is crashed at each of its calls. */
const REPAIRS_CRASHED = 0.3;
const ALL_COMBINATIONS_UP_TO = 4;
const BY_CHANCE = 8;

/** The states that a kill or a power cut at this moment can leave. */
function crashesOf(disk: SimulatedDisk, chance: Chance): SimulatedDisk[] {
  const unflushed = disk.unflushed;
  const crashed = [disk.afterKill()];
  if (unflushed <= ALL_COMBINATIONS_UP_TO) {
    for (let choice = 0; choice < 2 ** unflushed; choice += 1)
      crashed.push(disk.afterPowerCut((change) => (choice >> change) & 1));
  }
  for (let turn = 0; unflushed > 0 && turn < BY_CHANCE; turn += 1) {
    crashed.push(
      disk.afterPowerCut((_, length) => (length > 1 ? pickBelow(chance, length + 1) / length : pickBelow(chance, 2))),
    );
  }
  return crashed;
}

async function check<C, E, S>(
  search: Search<C, E, S>,
  crashed: SimulatedDisk,
  ledger: Ledger,
  name: string,
): Promise<void> {
  const key = `${crashed.fingerprint()} ${ledger.shown.length} ${ledger.inFlight.length} ${ledger.begun}`;
  if (search.seen.has(key)) return;
  search.seen.add(key);
  search.figures.states += 1;
  const before = crashed.afterKill();
  const opened = await open(search, crashed, ledger, name);
  if (opened?.damage !== undefined) {
    search.figures.repaired += 1;
    compareAside(search, before, crashed, name);
    if (search.chance() < REPAIRS_CRASHED) await crashRepair(search, before, ledger, name);
  }
  if (opened !== undefined) await goOn(search, crashed, opened, name);
}

async function open<C, E, S>(search: Search<C, E, S>, disk: SimulatedDisk, ledger: Ledger, name: string) {
  const { figures, subject } = search;
  figures.opened += 1;
  const opened = await reopen(disk, subject);
  if (isFault(opened)) {
    figures.refused[opened.what] = (figures.refused[opened.what] ?? 0) + 1;
    const isThere = disk.namesIn('/data/batches').includes(subject.batch);
    if (ledger.begun || isThere) figures.broken.push(`a batch does not open (${opened.what}): ${name}`);
    return undefined;
  }
  const shown = opened.presses.slice(0, ledger.shown.length);
  const more = opened.presses.slice(ledger.shown.length);
  if (
    !isStartOf(ledger.shown, shown) ||
    !(more.length === 0 || ledger.inFlight.some((presses) => isStartOf(more, presses)))
  ) {
    figures.broken.push(
      `shown ${ledger.shown}, in flight ${JSON.stringify(ledger.inFlight)}, found ${opened.presses}: ${name}`,
    );
  }
  const told = toldAfter(subject, opened, ledger.shown.length);
  if (told !== ledger.told) figures.broken.push(`told ${ledger.told}, then ${told}: ${name}`);
  return opened;
}

/** What the lines that were opened tell behind so many presses. */
function toldAfter<C, E, S>(subject: Subject<C, E, S>, opened: Reopened<C, E, S>, presses: number): string {
  if (opened.presses.length === presses) return subject.tell(opened.state);
  const lines = opened.lines.slice(0, 1 + presses);
  return subject.tell(lines.reduce((state, line) => subject.fold(state, line), subject.nothing));
}

function isStartOf(start: readonly string[], whole: readonly string[]): boolean {
  return start.length <= whole.length && start.every((press, index) => press === whole[index]);
}

/** Every durable byte of the journal before the repair is in the journal after it or in a side file. */
function compareAside<C, E, S>(
  search: Search<C, E, S>,
  before: SimulatedDisk,
  after: SimulatedDisk,
  name: string,
): void {
  if (before.unflushed > 0) return;
  const folder = `/data/batches/${search.subject.batch}`;
  const was = before.bytesOf(`${folder}/journal.jsonl`);
  const is = after.bytesOf(`${folder}/journal.jsonl`);
  const kept = was.subarray(0, is.length).equals(is);
  if (!kept || !sideFiles(after, folder).some((side) => side.equals(was.subarray(is.length)))) {
    search.figures.broken.push(`bytes were cut that are in no side file: ${name}`);
  }
}

function sideFiles(disk: SimulatedDisk, folder: string): Buffer[] {
  return disk
    .namesIn(folder)
    .filter((file) => file.startsWith('damaged-'))
    .map((file) => disk.bytesOf(`${folder}/${file}`));
}

/** Cuts the power behind each call of the repair, and opens what is left. */
async function crashRepair<C, E, S>(
  search: Search<C, E, S>,
  damaged: SimulatedDisk,
  ledger: Ledger,
  name: string,
): Promise<void> {
  for (let stop = 0; ; stop += 1) {
    const disk = damaged.afterKill();
    disk.stopAfter = stop;
    const finished = await reopen(disk, search.subject).then(
      () => true,
      (error: unknown) => {
        if (error instanceof PowerCut) return false;
        throw error;
      },
    );
    if (finished) return;
    search.figures.repairsCrashed += 1;
    const fates = [() => 0, () => 1, () => search.chance()];
    for (const fate of fates) {
      const again = disk.afterPowerCut(fate);
      await open(search, again, ledger, `${name}, then the repair stopped behind call ${stop}`);
      compareAside(search, damaged, again, `${name}, then the repair stopped behind call ${stop}`);
    }
  }
}

/** The number of a press that comes after every other. */
const AFTERWARDS = BATCHES_APART * (BATCHES_BY_NUMBER + 1);

/** What opening showed must survive the next power cut, and counting must go on behind it. */
async function goOn<C, E, S>(
  search: Search<C, E, S>,
  disk: SimulatedDisk,
  opened: Reopened<C, E, S>,
  name: string,
): Promise<void> {
  const { subject } = search;
  const shown: Ledger = { begun: true, shown: opened.presses, told: subject.tell(opened.state), inFlight: [] };
  await open(
    search,
    disk.afterPowerCut(() => 0),
    shown,
    `${name}, opened, then the power cut again`,
  );
  const draft = subject.press(opened.state, AFTERWARDS, true);
  const answer = await opened.journal.append(opened.journal.seq, [draft]);
  const told = subject.tell(subject.fold(opened.state, draft));
  const after: Ledger = { ...shown, shown: [...shown.shown, subject.mark(draft)], told };
  if (answer.kind !== 'appended') search.figures.broken.push(`counting does not go on (${answer.kind}): ${name}`);
  await open(
    search,
    disk.afterPowerCut(() => 0),
    after,
    `${name}, opened, counted on, then the power cut again`,
  );
}
