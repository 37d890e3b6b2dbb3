// Takes each flush, checksum, lock and guard out in turn and runs the tests of store, sitting and faults: one must fail.
// Works on a copy of the sources in a temporary folder. Run: node tests/faults/mutation-trial.mjs [parts of names]
// With --list it takes nothing out: it names the entries whose text no longer stands in its file, and ends with 1 if there are any.
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { text } from 'node:stream/consumers';
import { fileURLToPath } from 'node:url';

/** Name, file, the text taken out (it must stand there exactly once), what stands in its place. */
const mutations = [
  [
    'flush of a new batch’s first line',
    'journal.ts',
    'await writeAll(file, bytes);\n      await file.sync();',
    'await writeAll(file, bytes);',
  ],
  ['flush of a new batch’s folder', 'journal.ts', 'await disk.syncFolder(aside);', ''],
  ['flush of the folder of batches', 'journal.ts', 'await disk.syncFolder(batches);', ''],
  [
    'making a batch aside',
    'journal.ts',
    'const aside = join(batches, `.making-$' + '{id}`);',
    'const aside = join(batches, id);',
  ],
  [
    'guard against a taken id',
    'journal.ts',
    'if ((await disk.statLink(folder)) !== undefined) throw',
    'if (bytes.length < 0) throw',
  ],
  ['flush of an append', 'journal-writer.ts', 'await this.#file.dataSync();', ''],
  [
    'setting a damaged rest aside',
    'journal.ts',
    'const aside = stop === undefined ? undefined : await setRestAside(disk, folder, file, stop);',
    'const aside = undefined as { keptIn: string } | undefined;',
  ],
  [
    'writing the end again on opening',
    'journal.ts',
    'await writeAll(file, await readBack(file, start, to), start);',
    '',
  ],
  ['flush on opening', 'journal.ts', 'start, to), start);\n    await file.sync();', 'start, to), start);'],
  [
    'flush of the batch’s folder on opening',
    'journal.ts',
    'await disk.syncFolder(folder);\n    await disk',
    'await disk',
  ],
  ['flush of the folder of batches on opening', 'journal.ts', 'await disk.syncFolder(dirname(folder));', ''],
  [
    'refusal of a newer or unknown form',
    'journal.ts',
    'if (stop !== undefined && meant.includes(stop.kind)) {',
    "if (stop?.kind === 'too long') {",
  ],
  ['refusal without a good first line', 'journal.ts', 'if (position.seq === 0) {', 'if (position.seq < 0) {'],
  [
    'refusal of another batch’s folder',
    'journal.ts',
    'if (position.batch !== basename(folder)) {',
    'if (position.seq < 0) {',
  ],
  ['turns of appends', 'journal-writer.ts', 'const answer = this.#turn.then(act);', 'const answer = act();'],
  [
    'check of the place before an append',
    'journal-writer.ts',
    'this.#trusted ? await this.#checkPlace() : await this.#regain()',
    'this.#trusted ? undefined : await this.#regain()',
  ],
  [
    'conflict on an outdated number',
    'journal-writer.ts',
    'if (expectedSeq !== this.#position.seq) return',
    'if (expectedSeq < 0) return',
  ],
  [
    'distrust after a failure',
    'journal-writer.ts',
    'this.#attempted = bytes;\n    this.#trusted = false;',
    'this.#attempted = bytes;',
  ],
  [
    'regaining after a failure',
    'journal-writer.ts',
    'await this.#regain();\n      return failed;',
    'this.#trusted = true;\n      return failed;',
  ],
  [
    'comparison of the end after a failure',
    'journal-writer.ts',
    'if (!end.equals(this.#end)) return',
    'if (end.length < 0) return',
  ],
  ['cut of an unfinished line', 'journal-writer.ts', 'await this.#file.truncate(this.#position.offset);', ''],
  ['flush after a cut', 'journal-writer.ts', 'await this.#file.sync();', ''],
  [
    'bound of an append of several lines',
    'journal-writer.ts',
    'if (parts.length > 1 && bytes.length > APPEND_CAP)',
    'if (parts.length < 0)',
  ],
  ['fault of a journal that is a pipe', 'journal-file.ts', "kind === 'other') throw", "kind === 'link') throw"],
  [
    'checksum',
    'journal-line.ts',
    'return stated === crc32(bytes.subarray(start, tail)) ? stated : undefined;',
    'return stated;',
  ],
  ['running number', 'journal-line.ts', 'if (seq !== after.seq + 1) {', 'if (seq === -1) {'],
  [
    'link to the line before',
    'journal-line.ts',
    "return raw['prev'] === after.crc ? undefined",
    "return raw['prev'] !== undefined ? undefined",
  ],
  [
    'batch of a line',
    'journal-line.ts',
    "if (after.batch !== undefined && raw['batch'] !== after.batch)",
    "if (raw['batch'] === undefined)",
  ],
  ['version of a line', 'journal-line.ts', 'version > JOURNAL_VERSION', 'version > 99'],
  ['lifting of older forms', 'journal-line.ts', 'const lifted = lift(raw, after);', 'const lifted = raw;'],
  [
    'reading back what is to be written',
    'journal-line.ts',
    "if (readBack.kind !== 'line') throw",
    "if (readBack.kind === 'damaged') throw",
  ],
  ['longest line when writing', 'journal-line.ts', 'if (bytes.length > LINE_CAP) throw', 'if (bytes.length < 0) throw'],
  [
    'longest line when reading',
    'journal-reader.ts',
    "if (rest.length > LINE_CAP) return { kind: 'damaged'",
    "if (rest.length < 0) return { kind: 'damaged'",
  ],
  [
    'longest journal that is read',
    'journal-reader.ts',
    "if (beyond !== undefined) return { kind: 'too long', reason: beyond };",
    '',
  ],
  ['most lines of a journal', 'journal-limits.ts', 'if (seq > limits.lines) return', 'if (seq < 0) return'],
  ['most bytes of a journal', 'journal-limits.ts', 'return offset > limits.bytes ?', 'return offset < 0 ?'],
  ['room kept for the end of a batch', 'journal-limits.ts', "if (lines <= 0 || bytes <= 0) return 'full';", ''],
  [
    'no line beyond what is read again',
    'journal-writer.ts',
    'if (beyond !== undefined) return this.#tooLong(beyond);',
    '',
  ],
  [
    'closing the file that was looked at',
    'journal-look.ts',
    'await closeQuietly(file);\n  return looked;',
    'return looked;',
  ],
  ['closing the file that was read on', 'journal-look.ts', 'await file.close();\n    }\n  }', '}\n  }'],
  [
    'end of the file that was looked at',
    'journal-look.ts',
    'if (!(await endBefore(file, offset)).equals(this.#seen.end)) return',
    'if (seq < 0) return',
  ],
  ['words that lie across two chunks', 'journal-search.ts', 'Math.max(1, got - overlap)', 'got'],
  [
    'no count in a full journal',
    '../sitting/sitting.ts',
    "if (full !== null) return { kind: 'refused',",
    "if (full === '') return { kind: 'refused',",
  ],
  [
    'words of a journal that fills up',
    '../sitting/sitting.ts',
    'view = { ...view, state: next, roomNote: roomNote(journal.fill) };',
    'view = { ...view, state: next };',
  ],
  [
    'bounds of a state before it is written',
    '../sitting/sitting.ts',
    "if (tooMuch !== null) return { kind: 'refused',",
    "if (tooMuch === '') return { kind: 'refused',",
  ],
  ['bounds of lists in a state', '../sitting/bounds.ts', 'next[list].length > most[list]', 'next[list].length < 0'],
  [
    'bounds of names in a cell',
    '../sitting/bounds.ts',
    'Object.keys(cell.checks).length > mostNames',
    'Object.keys(cell.checks).length < 0',
  ],
  ['flush of a side file', 'journal-repair.ts', 'await copy.sync();', ''],
  ['flush of a side file’s name', 'journal-repair.ts', 'await disk.syncFolder(folder);', ''],
  ['copying before cutting', 'journal-repair.ts', '?? (await makeCopy(disk, folder, journal, stop))', "?? ''"],
  [
    'finding a finished copy again',
    'journal-repair.ts',
    'if (await isSame(disk, path, journal, stop)) return path;',
    '',
  ],
  ['comparing a copy before it is taken', 'journal-repair.ts', 'if (!kept.equals(rest)) return false;', ''],
  ['bound of the rest', 'journal-repair.ts', 'if (stop.length > REST_CAP) return', 'if (stop.length < 0) return'],
  ['removal of unfinished copies', 'journal-repair.ts', 'await throwAwayParts(disk, folder);', ''],
  [
    'lock by socket',
    'lock.ts',
    "if (isDiskError(error) && error.code === 'EADDRINUSE') answer('taken');",
    'if (isDiskError(error)) answer(server);',
  ],
  ['length of the socket’s name', 'lock.ts', "padEnd(NAME_BYTES, '-')", "padEnd(NAME_BYTES - 9, '-')"],
  [
    'lock by owner file',
    'owner-file.ts',
    'await linkOrRename(disk, part, join(folder, NAME));',
    'await disk.rename(part, join(folder, NAME));',
  ],
  [
    'second look at a stale owner',
    'owner-file.ts',
    'if (moved !== undefined && moved.text !== text) await putBack',
    'if (moved === undefined) await putBack',
  ],
  [
    'asking before taking another computer’s lock',
    'lock.ts',
    "return takeFromOtherHost ? 'stale' : 'held elsewhere';",
    "return 'stale';",
  ],
  ['boot of an owner', 'lock.ts', "if (isOtherBoot(owner.boot, self.boot)) return 'stale';", ''],
  [
    'start of an owner',
    'lock.ts',
    "self.startOf(owner.pid) === owner.started ? 'held' : 'stale'",
    "self.startOf(owner.pid) !== undefined ? 'held' : 'stale'",
  ],
  ['life of an owner', 'lock.ts', "self.startOf(owner.pid) === owner.started ? 'held' : 'stale'", "'held'"],
  ['freeing of a lock', 'open-batch.ts', 'await answer.lock.release();', ''],
  ['flush of a whole file', 'whole-file.ts', 'await file.sync();', ''],
  ['flush of a whole file’s name', 'whole-file.ts', 'await disk.syncFolder(folder);', ''],
  [
    'writing a whole file aside',
    'whole-file.ts',
    "if (over === 'anything') await disk.rename(part, path);",
    "if (over === 'anything') await writeFlushed(disk, path, bytes);",
  ],
  ['not over an existing file', 'whole-file.ts', 'await disk.link(part, path);', 'await disk.rename(part, path);'],
  ['bound of a small file', 'whole-file.ts', 'if (got > cap) throw', 'if (got < 0) throw'],
  [
    'no pipe or device for a small file',
    'whole-file.ts',
    "if (there.kind !== 'file') throw",
    "if (there.kind === 'link') throw",
  ],
  [
    'export never over an existing file',
    'exports.ts',
    "(there.kind !== 'file' || !options.overwrite)",
    "there.kind !== 'file'",
  ],
  ['export never through a link', 'exports.ts', 'disk.statLink(target)', 'disk.stat(target)'],
  ['bound of a plan', 'plan-files.ts', 'there.size > PLAN_CAP', 'there.size < 0'],
  ['text of a plan', 'plan-files.ts', 'if (fault !== undefined) return fault;', ''],
  ['flush of a folder that was made', 'home.ts', 'await disk.syncFolder(dirname(path));', ''],
  ['proof that the data folder can be written', 'home.ts', 'await proveWritable(disk, home.batches);', ''],
  ['folders closed to others', 'real-disk.ts', 'await chmod(path, FOLDER_MODE);', ''],
  ['files closed to others', 'real-disk.ts', "if (how === 'new') await handle.chmod(FILE_MODE);", ''],
  [
    'opening without waiting',
    'real-disk.ts',
    'const careful = constants.O_NONBLOCK | constants.O_NOCTTY;',
    'const careful = constants.O_NOCTTY;',
  ],
  ['names of batches', 'batches.ts', '.filter((name) => ID.test(name))', ''],
  [
    'checksum of a summary',
    'summary.ts',
    'if (envelope.data.crc !== checksum(envelope.data.payload)) return undefined;',
    '',
  ],
  ['size of the journal of a summary', 'summary.ts', '|| envelope.data.journalBytes !== read.journal?.size', ''],
  ['setting a spoiled settings file aside', 'settings.ts', 'renameSync(path, aside);', ''],
  [
    'sound settings beside a wrong one',
    'settings.ts',
    'if (checked.success) sound[key] = raw[key];\n    else wrong',
    'if (!checked.success) wrong',
  ],
  [
    'no negative duration',
    '../batch/instant.ts',
    'return ms < 0 ? { ms: 0, by, doubtful: true } : { ms, by, doubtful: false };',
    'return { ms, by, doubtful: false };',
  ],
  [
    'no monotonic value across a boot',
    '../batch/instant.ts',
    "from.boot === to.boot ? 'monotonic' : 'wall'",
    "from.boot !== '' ? 'monotonic' : 'wall'",
  ],
  ['a zone that calendars know', 'clock.ts', "?? 'UTC'", "?? ''"],
  ['a TZ without an answer', 'clock.ts', "tz?.replace(/^:/, ''), link]", 'link]'],
  ['stopping before an impossible line', 'journal-reader.ts', 'if (impossible !== undefined) return impossible;', ''],
  [
    'refusal of an impossible line',
    'journal.ts',
    "'unknown form', 'impossible', 'too long'",
    "'unknown form', 'too long'",
  ],
  [
    'a reason for an impossible line',
    '../sitting/following.ts',
    'if (!(error instanceof Error)) throw error;',
    'throw error;',
  ],
  [
    'soundness of counts that were read',
    '../sitting/following.ts',
    'if (at === null) return;',
    'if (at !== -1) return;',
  ],
  [
    'bounds of a plan that is read',
    '../sitting/following.ts',
    'if (problem !== null) throw',
    'if (problem !== null && seq < 0) throw',
  ],
  ['bounds of pieces that are begun', '../sitting/bounds.ts', '> 2 * bounds.pieces ?', '> Number.POSITIVE_INFINITY ?'],
  ['a first line that opens', '../sitting/following.ts', "if (next.kind === 'none') throw", 'if (false) throw'],
  ['moments within the calendar', '../sitting/following.ts', '< LAST_MS', '< Number.POSITIVE_INFINITY'],
  [
    'flush before a number is told',
    '../sitting/sitting.ts',
    'const appended = await journal.append(folded, [{ by, at, command, events: outcome.events }]);',
    'const before = view.state; tell({ state: foldLine(before, { at, events: outcome.events }) }); ' +
      'const appended = await journal.append(folded, [{ by, at, command, events: outcome.events }]); ' +
      'view = { ...view, state: before };',
  ],
  [
    'a fault that is told',
    '../sitting/sitting.ts',
    "if (isFault(appended)) return { kind: 'fault', fault: appended, mono_ms: at.mono_ms };",
    "if (isFault(appended)) return { kind: 'done', command: command.kind, mono_ms: at.mono_ms };",
  ],
  [
    'nothing counted after a fault',
    '../sitting/sitting.ts',
    'if (isFault(appended)) return {',
    'if (isFault(appended)) view = { ...view, state: foldLine(view.state, { at, events: outcome.events }) }; ' +
      'if (isFault(appended)) return {',
  ],
  [
    'reading on after a conflict',
    '../sitting/sitting.ts',
    'const unread = await readOn();',
    "const unread = { kind: 'fault', what: 'changed', where: '', tryThis: '', code: 74 } as Fault;",
  ],
  [
    'deciding on what is folded',
    '../sitting/sitting.ts',
    'await journal.append(folded, [',
    'await journal.append(journal.seq, [',
  ],
  [
    'no command behind the end',
    '../sitting/sitting.ts',
    'if (isClosed) return answer(',
    'if (isClosed && false) return answer(',
  ],
  [
    'the end of a sitting is awaited',
    '../sitting/sitting.ts',
    'const said = await ending;',
    "const said = { kind: 'done' } as unknown as Said;",
  ],
  ['guard of counts', '../sitting/guard.ts', 'if (afterMs < settings.guardMs) {', 'if (afterMs < 0) {'],
  [
    'guard that starts anew with each suppressed press',
    '../sitting/guard.ts',
    "return { guard: next, verdict: { kind: 'suppressed', why, waitMs: settings.guardMs } };",
    "return { guard, verdict: { kind: 'suppressed', why, waitMs: settings.guardMs } };",
  ],
  ['guard of a held key at a card', '../sitting/guard.ts', 'if (isHeld(guard, press, restMs)) {', 'if (restMs < 0) {'],
  [
    'a card deaf when it is new',
    '../sitting/guard.ts',
    'if (afterMs < Math.min(CARD_DEAF_MS, restMs)) {',
    'if (afterMs < 0) {',
  ],
  [
    'guard of keys that act',
    '../sitting/guard.ts',
    'if (isHeld(guard, press, settings.guardMs)) {',
    'if (settings.guardMs < 0) {',
  ],
  [
    'mark of a quick count',
    '../sitting/guard.ts',
    'settings.guardMs > 0 && press.usualMs',
    'press.usualMs === 0 && press.usualMs',
  ],
  ['mark of a card passed in haste', '../sitting/guard.ts', 'afterMs < CARD_HASTY_MS ?', 'afterMs < 0 ?'],
  [
    'the lock is freed when the beginning fails',
    '../sitting/opening.ts',
    "await sitting.close('fault');\n    await release();",
    "await sitting.close('fault');",
  ],
  ['exit code of a fault', '../cli/say.ts', 'return fault.code;', 'return 0;'],
  [
    'exit code of a journal without a state',
    '../cli/status.ts',
    "if (looked.state.kind === 'none') return exitCodes.badPlanOrJournal;",
    "if (looked.state.kind === 'none') return exitCodes.done;",
  ],
  ['words for the damage', '../cli/status.ts', 'if (looked.damage !== undefined) sayDamage(io, looked.damage);', ''],
];

/** The quick tests first, then the crash explorer; what needs the built program sees no mutation and is left out. */
const rounds = [
  [
    'tests/store',
    'tests/sitting/guard',
    'tests/sitting/sitting',
    'tests/sitting/looking-on',
    'tests/sitting/room',
    'tests/faults/damage',
    'tests/faults/sitting',
    'tests/faults/real-damage',
    'tests/faults/impossible',
  ],
  ['tests/faults/crash'],
];

const PATIENCE_MS = 240_000;

const top = dirname(dirname(dirname(fileURLToPath(import.meta.url))));
if (process.argv[2] === '--list') process.exit(listEntries());
const wanted = process.argv.slice(2);
const copy = mkdtempSync(join(tmpdir(), 'mutations-'));
let survivors = 0;
try {
  for (const part of ['src', 'tests', 'jobs', 'package.json', 'tsconfig.json'])
    cpSync(join(top, part), join(copy, part), { recursive: true });
  symlinkSync(join(top, 'node_modules'), join(copy, 'node_modules'));
  const chosen = mutations.filter(([name]) => wanted.length === 0 || wanted.some((part) => name.includes(part)));
  if (wanted.length === 0)
    report('nothing taken out', (await runTests()) === undefined ? 'all tests pass' : 'FAILS ALREADY');
  for (const [name, file, text, instead] of chosen) await tryOut(name, join(copy, 'src/store', file), text, instead);
  process.stdout.write(`${chosen.length} taken out, ${survivors} not noticed\n`);
} finally {
  rmSync(copy, { recursive: true });
}
process.exitCode = survivors === 0 ? 0 : 1;

/** Names the entries that cannot be tried, as an exit code: 0 when there are none. */
function listEntries() {
  const lost = mutations.filter(
    ([, file, text, instead]) =>
      !standsOnce(readFileSync(join(top, 'src/store', file), 'utf8'), text) || text === instead,
  );
  for (const [name] of lost) report(name, 'NOT FOUND ONCE');
  process.stdout.write(`${mutations.length} entries, ${lost.length} not found once\n`);
  return lost.length === 0 ? 0 : 1;
}

function standsOnce(source, text) {
  return source.split(text).length === 2;
}

async function tryOut(name, path, text, instead) {
  const sound = readFileSync(path, 'utf8');
  if (!standsOnce(sound, text)) {
    survivors += 1;
    return report(name, 'NOT FOUND ONCE');
  }
  writeFileSync(
    path,
    sound.replace(text, () => instead),
  );
  const failed = await runTests();
  writeFileSync(path, sound);
  if (failed === undefined) survivors += 1;
  report(name, failed ?? 'NOT NOTICED');
}

/** Runs the tests; answers the name of the first that fails. */
async function runTests() {
  for (const files of rounds) {
    const { code, out } = await runVitest(files);
    if (code !== 0)
      return /"fullName":"([^"]*)","status":"failed"/.exec(out)?.[1] ?? 'the tests do not end, or not well';
  }
  return undefined;
}

/** A process group of its own, so that tests which never end are ended with all their workers. */
async function runVitest(files) {
  const words = ['vitest', 'run', '--config', 'tests/vitest.config.ts', '--bail', '1', '--reporter', 'json', ...files];
  const env = { ...process.env, MILLSIDE_FAULTS: 'few', MILLSIDE_FAULTS_STATES: '2500' };
  const run = spawn('npx', words, { cwd: copy, env, detached: true, stdio: ['ignore', 'pipe', 'ignore'] });
  const timer = setTimeout(() => process.kill(-run.pid, 'SIGKILL'), PATIENCE_MS);
  const [out, [code]] = await Promise.all([text(run.stdout), once(run, 'exit')]);
  clearTimeout(timer);
  return { code, out };
}

function report(name, verdict) {
  process.stdout.write(`${name.padEnd(52)} ${verdict}\n`);
}
