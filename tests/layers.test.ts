import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

// The floors of the house, lowest first: a file may import from its own floor and from those before it.
const floors = ['shop', 'plan', 'batch', 'forecast', 'report', 'store', 'sitting', 'screen', 'cli'];
const pureFloors = new Set(['shop', 'plan', 'batch', 'forecast', 'report']);
const inkPackages = new Set(['ink', 'react', 'react/jsx-runtime']);
const src = fileURLToPath(new URL('../src', import.meta.url));

type Import = {
  readonly file: string;
  readonly floor: string;
  readonly target: string;
  readonly dynamic: boolean;
  readonly typeOnly: boolean;
};

function sourceFiles(): string[] {
  return readdirSync(src, { recursive: true, encoding: 'utf8' }).filter((name) => /\.tsx?$/.test(name));
}

function importsOf(file: string): Import[] {
  const text = readFileSync(join(src, file), 'utf8');
  const floor = file.split('/')[0] ?? '';
  const fixed = [...text.matchAll(/^\s*(?:import|export)\b([^'";]*?)from\s*'([^']+)'|^\s*import\s+'([^']+)'/gm)];
  const dynamic = [...text.matchAll(/\bimport\(\s*'([^']+)'\s*\)/g)];
  return [
    ...fixed.map((match) => {
      const typeOnly = /^\s*type\b/.test(match[1] ?? '');
      return { file, floor, target: match[2] ?? match[3] ?? '', dynamic: false, typeOnly };
    }),
    ...dynamic.map((match) => ({ file, floor, target: match[1] ?? '', dynamic: true, typeOnly: false })),
  ];
}

function floorOf(entry: Import): string | undefined {
  if (!entry.target.startsWith('.')) return undefined;
  const path = relative(src, join(src, entry.file, '..', entry.target));
  return path.split('/')[0];
}

describe('the floors of the house', () => {
  const all = sourceFiles().flatMap(importsOf);

  it('finds the sources and their imports', () => {
    expect(all.length).toBeGreaterThan(0);
  });

  it('every source file stands on a known floor', () => {
    expect(sourceFiles().filter((file) => !floors.includes(file.split('/')[0] ?? ''))).toEqual([]);
  });

  it('a lower floor never imports a higher one', () => {
    const wrong = all.filter((entry) => {
      const target = floorOf(entry);
      return target !== undefined && floors.indexOf(target) > floors.indexOf(entry.floor);
    });
    expect(wrong.map((entry) => `${entry.file} imports ${entry.target}`)).toEqual([]);
  });

  it('only screen imports Ink and React', () => {
    const wrong = all.filter((entry) => inkPackages.has(entry.target) && entry.floor !== 'screen');
    expect(wrong.map((entry) => `${entry.file} imports ${entry.target}`)).toEqual([]);
  });

  it('cli reaches screen only through import(), but for types', () => {
    const fixed = all.filter((entry) => !entry.dynamic && !entry.typeOnly);
    const wrong = fixed.filter((entry) => entry.floor === 'cli' && floorOf(entry) === 'screen');
    expect(wrong.map((entry) => `${entry.file} imports ${entry.target}`)).toEqual([]);
  });

  it('pure floors see no Node module', () => {
    const wrong = all.filter((entry) => pureFloors.has(entry.floor) && entry.target.startsWith('node:'));
    expect(wrong.map((entry) => `${entry.file} imports ${entry.target}`)).toEqual([]);
  });

  it('pure floors read no clock, no chance, no environment', () => {
    const banned = /\bMath\.random\b|\bnew Date\b|\bDate\.now\b|\bprocess\.|\bperformance\.now\b|\bcrypto\./;
    const exempt = new Set(['forecast/calendar.ts']);
    const wrong = sourceFiles()
      .filter((file) => pureFloors.has(file.split('/')[0] ?? '') && !exempt.has(file))
      .filter((file) => banned.test(readFileSync(join(src, file), 'utf8').replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, '')));
    expect(wrong).toEqual([]);
  });
});
