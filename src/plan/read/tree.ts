/**
 * YAML text to a plain tree with the place of every key and value. Values stay the text that was written (`1.10`, `0042`,
 * `5/16` keep their meaning): the schema converts them. Nothing of YAML beyond maps, lists and text is taken: no aliases,
 * no tags, no merge keys, no keys that are themselves maps. The text must have passed `capText`.
 */
import { isAlias, isMap, isScalar, isSeq, LineCounter, type ParsedNode, parseDocument } from 'yaml';
import { MAX_DEPTH } from './caps.ts';
import { formatPath, neutral, type PathStep, type Place, type Problem } from './problem.ts';

/** A value as written: text, a list or a map. */
export type Written = string | readonly Written[] | { readonly [key: string]: Written };

/** Where each key and value of a plan stands, by path. */
export interface Positions {
  /** The place of the value at a path; of the nearest written part around it when it is not in the file. */
  placeOf(path: readonly PathStep[]): Place;
  /** The place of the key at the end of a path; that of its value when it is an item of a list. */
  keyPlaceOf(path: readonly PathStep[]): Place;
  /** The text of a value as written, or `undefined` when it is a map, a list or not in the file. */
  textOf(path: readonly PathStep[]): string | undefined;
  /** Is anything written at this path? */
  has(path: readonly PathStep[]): boolean;
}

/** What reading gave: the tree (in part, when there were problems) and where all of it stands. */
export interface Tree {
  readonly written: Written;
  readonly positions: Positions;
  readonly problems: readonly Problem[];
}

/** Keys that mean something to the language this program is written in. */
const REFUSED_KEYS = new Set(['__proto__', 'constructor', 'prototype', 'toString', 'valueOf', 'hasOwnProperty']);
/** Most problems of one file that are gathered; more are of no use to a reader. */
const MAX_PROBLEMS = 100;

interface Entry extends Place {
  readonly text: string | undefined;
  readonly key?: Place;
}

interface Walk {
  readonly entries: Map<string, Entry>;
  readonly problems: Problem[];
  readonly placeAt: (offset: number) => Place;
}

/** Reads capped text into a tree. Faults of the YAML itself leave an empty tree with the problems. */
export function readTree(text: string): Tree {
  const counter = new LineCounter();
  const document = parseDocument(text, {
    schema: 'failsafe',
    version: '1.2',
    uniqueKeys: false,
    merge: false,
    prettyErrors: false,
    logLevel: 'error',
    lineCounter: counter,
  });
  const walk: Walk = { entries: new Map(), problems: [], placeAt: (offset) => placeAt(counter, offset) };
  for (const error of [...document.errors, ...document.warnings].slice(0, MAX_PROBLEMS)) {
    walk.problems.push(problemOfYaml(error.code, error.message, walk.placeAt(error.pos[0])));
  }
  const root = walk.problems.length === 0 ? document.contents : null;
  const written = root === null ? '' : readNode(root, [], walk);
  return { written, positions: makePositions(walk.entries), problems: walk.problems.slice(0, MAX_PROBLEMS) };
}

/** Positions of nothing: every place is the beginning of the text. For plans that were not read from text. */
export const noPositions: Positions = makePositions(new Map());

function makePositions(entries: ReadonlyMap<string, Entry>): Positions {
  const placeOf = (path: readonly PathStep[]): Place => {
    for (let length = path.length; length >= 0; length -= 1) {
      const entry = entries.get(keyOf(path.slice(0, length)));
      if (entry !== undefined) return { line: entry.line, column: entry.column };
    }
    return { line: 1, column: 1 };
  };
  return {
    placeOf,
    keyPlaceOf: (path) => entries.get(keyOf(path))?.key ?? placeOf(path),
    textOf: (path) => entries.get(keyOf(path))?.text,
    has: (path) => entries.has(keyOf(path)),
  };
}

const keyOf = (path: readonly PathStep[]): string => JSON.stringify(path);

function placeAt(counter: LineCounter, offset: number): Place {
  const { line, col } = counter.linePos(offset);
  return { line: Math.max(1, line), column: Math.max(1, col) };
}

function readNode(node: ParsedNode, path: readonly PathStep[], walk: Walk): Written {
  const place = walk.placeAt(node.range[0]);
  const note = (entry: string | undefined) => walk.entries.set(keyOf(path), { ...place, text: entry });
  if (path.length > MAX_DEPTH) return refuseNode(walk, path, place, 'deep nesting', 'the plan is nested too deeply');
  if (isAlias(node)) {
    note(undefined);
    return refuseNode(walk, path, place, `*${neutral(node.source)}`, 'a plan takes no aliases', 'write the value out');
  }
  if (node.tag !== undefined && !node.tag.startsWith('tag:yaml.org,2002:')) {
    return refuseNode(walk, path, place, neutral(node.tag), 'a plan takes no tags', 'leave the tag out');
  }
  if (isScalar(node)) {
    const text = typeof node.value === 'string' ? node.value : '';
    note(text);
    return text;
  }
  note(undefined);
  if (isSeq(node)) {
    return node.items.map((item, index) => readNode(item as ParsedNode, [...path, index], walk));
  }
  return isMap(node) ? readMap(node, path, walk) : '';
}

function readMap(node: Extract<ParsedNode, { items: unknown[] }>, path: readonly PathStep[], walk: Walk): Written {
  const map: Record<string, Written> = Object.create(null) as Record<string, Written>;
  for (const pair of node.items as { key: ParsedNode; value: ParsedNode | null }[]) {
    const key = readKey(pair.key, path, walk);
    if (key === undefined) continue;
    const at = walk.placeAt(pair.key.range[0]);
    const inside = [...path, key];
    if (key in map) {
      const first = walk.entries.get(keyOf(inside));
      const where = first === undefined ? 'before' : `on line ${first.line}`;
      add(walk, inside, at, `${key} again`, 'each key once', `"${neutral(key)}" stands here twice, first ${where}`, {
        tryThis: 'delete one of them, or give it another name',
      });
      continue;
    }
    map[key] = pair.value === null ? '' : readNode(pair.value, inside, walk);
    const value = walk.entries.get(keyOf(inside));
    const isEmpty = value === undefined || map[key] === '';
    walk.entries.set(keyOf(inside), isEmpty ? { ...at, text: '', key: at } : { ...value, key: at });
  }
  return map;
}

/** A key as text; `undefined` after a problem was added. */
function readKey(node: ParsedNode, path: readonly PathStep[], walk: Walk): string | undefined {
  const place = walk.placeAt(node.range[0]);
  if (!isScalar(node) || typeof node.value !== 'string') {
    add(walk, path, place, 'a list or map as a key', 'a word as a key', 'a key must be plain text', {
      tryThis: 'write `name: value`; a brace or bracket at the beginning needs quotes',
    });
    return undefined;
  }
  if (node.value.trim() === '' || REFUSED_KEYS.has(node.value) || node.value.length > 80) {
    const found = node.value.trim() === '' ? 'an empty key' : `"${neutral(node.value)}"`;
    add(walk, path, place, found, 'a short name', `${found} cannot be a key`, { tryThis: 'choose another name' });
    return undefined;
  }
  return node.value;
}

function refuseNode(
  walk: Walk,
  path: readonly PathStep[],
  place: Place,
  found: string,
  why: string,
  tryThis = '',
): string {
  add(walk, path, place, found, 'maps, lists and text', why, { tryThis });
  return '';
}

function add(
  walk: Walk,
  path: readonly PathStep[],
  place: Place,
  found: string,
  wanted: string,
  message: string,
  more: { readonly tryThis: string },
): void {
  if (walk.problems.length >= MAX_PROBLEMS) return;
  walk.problems.push({ ...place, path: formatPath(path), found: neutral(found), wanted, message, ...more });
}

/** Usual faults of the YAML in the words of someone who writes a plan; others in the reader's own, made harmless. */
const YAML_FAULTS: Readonly<Record<string, readonly [message: string, tryThis: string]>> = {
  TAB_AS_INDENT: ['a tab is used to indent', 'indent with spaces, two a level'],
  BAD_INDENT: ['the line is indented wrongly', 'line it up with its neighbours, two spaces a level'],
  MISSING_CHAR: ['a sign is missing here', 'close the quote or bracket that was opened before'],
  MULTIPLE_DOCS: ['the file holds more than one document', 'keep one plan in a file, without `---` in the middle'],
  BAD_ALIAS: ['a plan takes no aliases', 'write the value out'],
  IMPOSSIBLE: ['this cannot be read', 'look at the line before it'],
  TAG_RESOLVE_FAILED: ['a plan takes no tags', 'leave the word with the exclamation mark out, or quote it'],
};

const NOT_YAML =
  'look at this line and the one before it; a value that contains ": " or begins with a sign needs quotes';

function problemOfYaml(code: string, given: string, place: Place): Problem {
  const first = neutral(given.split('\n')[0] ?? '', 120);
  const [message, tryThis] = YAML_FAULTS[code] ?? [`not YAML: ${first}`, NOT_YAML];
  return { ...place, path: 'the plan', found: first, wanted: 'YAML', message, tryThis };
}
