// Any text at all: within a second and 200 MB either a plan or located problems. Each text is proved by a process of its own,
// as the program would prove it, and the most memory that this process ever held is measured.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { beforeAll, describe, expect, it } from 'vitest';
import { YARDS_IN_A_SECOND } from '../yard.ts';
import { textOf } from './plan-samples.ts';

const MOST_MB = 200;

const folder = mkdtempSync(join(tmpdir(), 'prove-text-'));
const program = join(folder, 'prove.mjs');

beforeAll(async () => {
  await build({
    entryPoints: [fileURLToPath(new URL('prove-text.ts', import.meta.url))],
    outfile: program,
    bundle: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    banner: { js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);" },
    logLevel: 'warning',
  });
});

interface Proof {
  readonly ended: 'refused' | 'resolved';
  readonly found: number;
  readonly yards: number;
  readonly mb: number;
}

function prove(name: string, text: string): Proof {
  const file = join(folder, `${name.replace(/\W+/g, '-')}.yaml`);
  writeFileSync(file, text);
  return JSON.parse(execFileSync(process.execPath, [program, file], { encoding: 'utf8', timeout: 20_000 })) as Proof;
}

const base = textOf('tests/samples/wrong-plans/burr-seat.neighbour.yaml');
const head = (base.split('points:')[0] ?? '').replace(
  'tools:',
  'tools:\n  d: { kind: drill, diameter: 20 }\n  fine: { kind: drill, diameter: 1 }\n  hair: { kind: end mill, diameter: 0.05 }',
);
const wide = head
  .replace('length: 100, width: 25', 'length: 2000, width: 2000')
  .replace('opening: 100', 'opening: 2500');
const drilling = (number: number, points: string, tool = 'd') =>
  `  - { number: ${number}, title: Drill, kind: drill, setup: top, tool: ${tool}, points: ${points}, depth: 5 }`;
const list = (count: number, line: (at: number) => string) =>
  Array.from({ length: count }, (_, at) => line(at)).join('\n');
const plan = (start: string, points: string, operations: string, lines = '') =>
  `${start}points:\n${points}\n${lines === '' ? '' : `lines:\n${lines}\n`}operations:\n${operations}\n`;

const field = (count: number, pitch: number) =>
  `  f: { row: { start: { x: 10, y: 10 }, count: ${count}, pitch: ${pitch} } }`;
const grid = '  f: { grid: { start: { x: 10, y: 10 }, columns: 5, rows: 4, column pitch: 100, row pitch: 100 } }';
const bomb = `a: &a [x,x,x,x,x,x,x,x,x]\n${[...'bcdefghi'].map((name, at) => `${name}: &${name} [${`*${'abcdefgh'[at]},`.repeat(9)}]`).join('\n')}\n`;
const edge =
  '  edge: { machine: mill, hold: fixture, lies: on edge, zero: { x: { how: pin, tip: 10, against: pin, end: left }, y: { how: pin, tip: 10, against: pin, end: rear }, z: { how: touch } } }\n';
const slots = (count: number, passes: number) =>
  list(
    count,
    (at) =>
      `  l${at}: { kind: slot, along: x, at: ${at / 10}, from: 0, to: 100, depth: 5, passes: ${passes}, width: 6 }`,
  );
const names = (count: number, of: number) => Array.from({ length: count }, (_, at) => `l${at % of}`).join(', ');

const hostile: readonly (readonly [name: string, ended: Proof['ended'], text: string])[] = [
  [
    'the largest plan: 99 operations at 20 points',
    'resolved',
    plan(
      wide,
      grid,
      list(99, (at) => drilling(at + 1, 'f', 'fine')),
    ),
  ],
  [
    '200 points within a hair, by ten tools',
    'resolved',
    plan(
      head,
      field(200, 0.0001),
      list(10, (at) => drilling(at + 1, 'f')),
    ),
  ],
  ['2000 holes that all cut into one another', 'resolved', plan(head, field(2000, 0.01), drilling(10, 'f'))],
  [
    'a thousand cross holes through a thousand holes',
    'resolved',
    plan(
      `${head}${edge}`,
      `${field(999, 0.08)}\n  side: { row: { start: { x: 1, y: -5 }, count: 999, pitch: 0.1 } }`,
      `${drilling(10, 'f')}\n  - { number: 20, title: Side, kind: drill, setup: edge, tool: d, points: side, depth: 3 }`,
    ),
  ],
  [
    'a thousand passes beside a thousand holes',
    'resolved',
    plan(
      head,
      field(1000, 0.08),
      `${drilling(10, 'f')}\n  - { number: 20, title: S, kind: slot, setup: top, tool: end-mill-6, lines: [${names(50, 50)}] }`,
      slots(50, 20),
    ),
  ],
  [
    'one point named 12,000 times',
    'refused',
    plan(
      head,
      field(1990, 0.04),
      list(60, (at) => drilling(20 + at, `[${'f 1989,'.repeat(199)}f 1]`)),
    ),
  ],
  [
    '400,000 passes',
    'refused',
    plan(
      head,
      field(2, 1),
      list(
        40,
        (at) =>
          `  - { number: ${20 + at}, title: S, kind: slot, setup: top, tool: end-mill-6, lines: [${names(100, 200)}] }`,
      ),
      slots(200, 100),
    ),
  ],
  [
    'a step of 5 m by a cutter of a hair',
    'refused',
    plan(
      head,
      field(2, 1),
      '  - { number: 20, title: S, kind: step, setup: top, tool: hair, lines: s }',
      '  s: { kind: step, along: x, at: 0, from: 0, to: 100, side: front, width: 5000, depth: 5, passes: 100 }',
    ),
  ],
  [
    '20 million points by lists of names',
    'refused',
    plan(
      head,
      field(1990, 0.04),
      list(99, (at) => drilling(20 + at, `[${'f,'.repeat(100)}f]`)),
    ),
  ],
  [
    'mirrors of 2000 points a hundred times',
    'refused',
    plan(
      head,
      `${field(2000, 0.04)}\n${list(90, (at) => `  m${at}: { mirrored: { points: [${'f,'.repeat(100)}f], about x: 50 } }`)}`,
      drilling(10, 'f'),
    ),
  ],
  ['aliases that explode', 'refused', `format: 1\n${bomb}`],
  ['5 MB of spaces', 'refused', ' '.repeat(5_000_000)],
  ['brackets 10,000 deep', 'refused', `a: ${'['.repeat(10_000)}`],
  ['40,000 anchors', 'refused', '&a '.repeat(40_000)],
  ['60,000 question marks', 'refused', '? '.repeat(60_000)],
  ['128 KiB of quotes', 'refused', "'".repeat(130_000)],
];

describe('[P8] any text is proved in bounds', () => {
  it.each(hostile)('%s: %s', (name, ended, text) => {
    const proof = prove(name, text);
    expect(proof.ended).toBe(ended);
    expect(proof.mb).toBeLessThan(MOST_MB);
    expect(proof.yards).toBeLessThan(YARDS_IN_A_SECOND);
    // A slip in two thousand points is not told two thousand times.
    expect(proof.found).toBeLessThan(1500);
  });
});
