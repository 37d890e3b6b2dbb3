import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

// The promises stand in DEVELOPERS.md, each by its number. Here: that every one is still named by the module that keeps it, in
// the comment at its head, and by a test that holds it, in its title or at the head of its file.

const top = fileURLToPath(new URL('..', import.meta.url));
const promises = Array.from({ length: 15 }, (_, index) => `P${index + 1}`);
const HEAD_LINES = 45;

interface Source {
  readonly name: string;
  readonly text: string;
}

function filesUnder(folder: string, ending: RegExp): Source[] {
  return readdirSync(join(top, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => ending.test(name))
    .map((name) => ({ name: `${folder}/${name}`, text: readFileSync(join(top, folder, name), 'utf8') }));
}

/** The comment lines among the first lines of a file. */
function headOf({ text }: Source): string {
  const lines = text.split('\n').slice(0, HEAD_LINES);
  return lines.filter((line) => /^\s*(\/\/|\/\*|\*)/.test(line)).join('\n');
}

function names(text: string, promise: string): boolean {
  return new RegExp(`\\b${promise}\\b`).test(text);
}

const modules = filesUnder('src', /\.tsx?$/);
const tests = filesUnder('tests', /\.test\.tsx?$/).filter(({ name }) => name !== 'tests/promises.test.ts');
const guide = readFileSync(join(top, 'DEVELOPERS.md'), 'utf8');

describe('each promise', () => {
  it.each(promises)('%s is named at the head of a module that keeps it', (promise) => {
    expect(modules.filter((source) => names(headOf(source), promise)).map(({ name }) => name)).not.toEqual([]);
  });

  it.each(promises)('%s is named by a test that holds it', (promise) => {
    const holding = tests.filter((source) => source.text.includes(`[${promise}]`) || names(headOf(source), promise));
    expect(holding.map(({ name }) => name)).not.toEqual([]);
  });

  it.each(promises)('%s stands in the guide with modules and tests that are there', (promise) => {
    const section = guide.slice(guide.indexOf('\n## Promises'));
    const row = section.split('\n').find((line) => line.startsWith(`| ${promise} |`)) ?? '';
    const paths = [...row.matchAll(/`([a-z-]+\/[\w./-]+)`/g)].map(([, path]) => path ?? '');
    expect(paths.length).toBeGreaterThan(1);
    const there = [...modules, ...tests].map(({ name }) => name.replace(/^(src|tests)\//, ''));
    for (const path of paths) {
      expect(
        there.some((name) => name === path || name.startsWith(`${path}/`) || name.startsWith(path)),
        path,
      ).toBe(true);
    }
    expect(
      paths.some((path) => path.endsWith('.test.ts') || path.startsWith('stories/') || path.startsWith('faults/')),
    ).toBe(true);
  });
});
