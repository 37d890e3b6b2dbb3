import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setFlagsFromString } from 'node:v8';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { keptCodePath, loadCommands, sealCode } from '../../src/cli/commands.ts';

// The form in which .ci/bundle.mjs writes the subcommands: one function over `module` and `require`.
const text = (answer: string): string =>
  `(function (module, require) { module.exports = { runners: { check: () => "${answer}" } }; })`;
// Else the engine answers from its own memory of the same text, whatever is kept beside it.
setFlagsFromString('--no-compilation-cache');
let folder = '';
let path = '';

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'millside-commands-'));
  path = join(folder, 'commands.cjs');
  writeFileSync(path, text('one'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** What the file answers now, and what the engine made of the compiled code that was kept: nothing when none was given. */
async function answerNow(): Promise<{ readonly answer: unknown; readonly rejected: boolean | undefined }> {
  const { commands, script } = loadCommands(path);
  return { answer: await commands.runners['check']?.(), rejected: script.cachedDataRejected };
}

function keep(): Buffer {
  const sealed = sealCode(readFileSync(path), loadCommands(path).script.createCachedData());
  writeFileSync(keptCodePath(path), sealed);
  return sealed;
}

describe('the subcommands of the built program', () => {
  it('are compiled as ever where no compiled code is kept', async () => {
    expect(await answerNow()).toEqual({ answer: 'one', rejected: undefined });
  });

  it('are taken from the compiled code that was kept when they were built', async () => {
    keep();
    expect(await answerNow()).toEqual({ answer: 'one', rejected: false });
  });

  it('never use compiled code of another file, be it as long', async () => {
    keep();
    writeFileSync(path, text('two'));
    expect(await answerNow()).toEqual({ answer: 'two', rejected: undefined });
  });

  it.each([0, 31, 32, 100, -1])('never show the engine compiled code that is spoilt at byte %i', async (at) => {
    const sealed = keep();
    const place = at < 0 ? sealed.length + at : at;
    sealed[place] = (sealed[place] ?? 0) ^ 0x10;
    writeFileSync(keptCodePath(path), sealed);
    expect(await answerNow()).toEqual({ answer: 'one', rejected: undefined });
  });

  it.each([0, 10, 32])('never use what is left of %i bytes', async (length) => {
    writeFileSync(keptCodePath(path), keep().subarray(0, length));
    expect((await answerNow()).answer).toBe('one');
  });

  it('compile anew where the kept code was made by another engine', async () => {
    const code = loadCommands(path).script.createCachedData();
    // The engine writes its version behind the first word; see the refusal that it gives.
    code.writeUInt32LE((code.readUInt32LE(4) ^ 0xffff) >>> 0, 4);
    writeFileSync(keptCodePath(path), sealCode(readFileSync(path), code));
    expect(await answerNow()).toEqual({ answer: 'one', rejected: true });
  });
});
