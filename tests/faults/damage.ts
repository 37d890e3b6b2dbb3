import { type Chance, pickBelow } from './chance.ts';

// Ways in which a journal gets spoiled: by a bad card, by an editor, by a copy of another one.

export interface Spoiled {
  readonly name: string;
  readonly bytes: Buffer;
}

/** Makes one spoiled copy of `lines` (each with its newline); `foreign` are the lines of another batch. */
type Spoiler = (lines: readonly Buffer[], foreign: readonly Buffer[], chance: Chance) => Buffer;

const at = <T>(items: readonly T[], index: number): T => items[index] as T;

const spoilers: Readonly<Record<string, Spoiler>> = {
  'one bit flipped': (lines, _, chance) => flip(Buffer.concat(lines), chance, 1),
  'several bits flipped': (lines, _, chance) => flip(Buffer.concat(lines), chance, 2 + pickBelow(chance, 30)),
  'cut short': (lines, _, chance) => {
    const whole = Buffer.concat(lines);
    return whole.subarray(0, pickBelow(chance, whole.length));
  },
  'a line doubled': (lines, _, chance) => {
    const line = pickBelow(chance, lines.length);
    return Buffer.concat([...lines.slice(0, line + 1), ...lines.slice(line)]);
  },
  'two lines swapped': (lines, _, chance) => {
    const line = pickBelow(chance, lines.length - 1);
    return Buffer.concat([...lines.slice(0, line), at(lines, line + 1), at(lines, line), ...lines.slice(line + 2)]);
  },
  'a line missing': (lines, _, chance) => {
    const line = pickBelow(chance, lines.length - 1);
    return Buffer.concat([...lines.slice(0, line), ...lines.slice(line + 1)]);
  },
  'a line of another batch': (lines, foreign, chance) => {
    const line = 1 + pickBelow(chance, lines.length - 1);
    return Buffer.concat([...lines.slice(0, line), at(foreign, line), ...lines.slice(line + 1)]);
  },
  'a line cut in the middle': (lines, _, chance) => {
    const line = pickBelow(chance, lines.length);
    const short = at(lines, line).subarray(0, pickBelow(chance, at(lines, line).length));
    return Buffer.concat([...lines.slice(0, line), short, ...lines.slice(line + 1)]);
  },
  'a sector of zeros': (lines, _, chance) => {
    const whole = Buffer.concat(lines);
    const from = pickBelow(chance, whole.length);
    return Buffer.concat([
      whole.subarray(0, from),
      Buffer.alloc(Math.min(512, whole.length - from)),
      whole.subarray(from + 512),
    ]);
  },
  'zeros at the end': (lines, _, chance) => Buffer.concat([...lines, Buffer.alloc(1 + pickBelow(chance, 5000))]),
  'noise at the end': (lines, _, chance) =>
    Buffer.concat([
      ...lines,
      Buffer.from(Array.from({ length: 1 + pickBelow(chance, 3000) }, () => pickBelow(chance, 256))),
    ]),
  'Windows line ends': (lines) => Buffer.from(Buffer.concat(lines).toString().replaceAll('\n', '\r\n')),
  'a byte order mark': (lines) => Buffer.concat([Buffer.from([0xef, 0xbb, 0xbf]), ...lines]),
  'a count edited by hand': (lines, _, chance) => {
    const line = 1 + pickBelow(chance, lines.length - 1);
    const edited = Buffer.from(
      at(lines, line)
        .toString()
        .replace(/"good":1/, '"good":9'),
    );
    return Buffer.concat([...lines.slice(0, line), edited, ...lines.slice(line + 1)]);
  },
};

/** `count` spoiled journals, each kind in turn. */
export function spoiledJournals(
  lines: readonly Buffer[],
  foreign: readonly Buffer[],
  count: number,
  chance: Chance,
): Spoiled[] {
  const kinds = Object.entries(spoilers);
  return Array.from({ length: count }, (_, index) => {
    const [name, spoil] = at(kinds, index % kinds.length);
    return { name: `${index}: ${name}`, bytes: spoil(lines, foreign, chance) };
  });
}

function flip(bytes: Buffer, chance: Chance, times: number): Buffer {
  for (let turn = 0; turn < times; turn += 1) {
    const place = pickBelow(chance, bytes.length);
    bytes[place] = (bytes[place] ?? 0) ^ (1 << pickBelow(chance, 8));
  }
  return bytes;
}
