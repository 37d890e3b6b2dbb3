/**
 * The one binding table: which key gives which command, when, and what to say when not. Key handling, hint line, help
 * screen and README page all read it; nothing else in the program knows a key. This is the mechanism, without any
 * command of its own; the content is key-map.ts. Pure.
 */
import { type Key, keyId } from '../terminal/key.ts';

/** Where a key lies: each binding may have keys on several of these. */
export type KeyPlace = 'keyboard' | 'keypad' | 'left-hand' | 'pedal';

/** One command and the keys that give it. Keys are written as `keyId` writes them. */
export type Binding<Moment extends string, Command extends string> = {
  /** Stands in the settings where the user changed its keys: never reused for another meaning. */
  readonly id: string;
  readonly command: Command;
  readonly keys: Readonly<Partial<Record<KeyPlace, readonly string[]>>>;
  /** One or two words for the hint line. */
  readonly label: string;
  /** One sentence for the help screen. */
  readonly help: string;
  readonly moments: readonly Moment[];
  /** Said when the key is pressed at another moment. */
  readonly reasonWhenNot: string;
  /** Left out of the hint line, where room is short; on the help screen all the same. */
  readonly isQuiet?: true;
  /** Gets its place in the hint line before the others: from here everything else is reached. */
  readonly isKept?: true;
};

export type BindingTable<Moment extends string, Command extends string> = {
  readonly bindings: readonly Binding<Moment, Command>[];
  /** The left-hand keys stand in for those of the keypad. */
  readonly hand: 'right' | 'left';
  /** Keys that do nothing on purpose: the neighbours of a large target. */
  readonly dead: readonly string[];
  /** Keys that the user may not take: without them nothing could be put right. */
  readonly reserved: readonly string[];
};

export type Found<Moment extends string, Command extends string> =
  | { readonly kind: 'command'; readonly binding: Binding<Moment, Command> }
  | { readonly kind: 'not now'; readonly reason: string }
  | { readonly kind: 'dead' }
  | { readonly kind: 'unknown' };

/**
 * What a key means at a moment. A key bound at other moments only is 'not now' with the reason of the first such
 * binding; a key of a remapped table that is bound nowhere is 'unknown'.
 */
export function lookup<Moment extends string, Command extends string>(
  table: BindingTable<Moment, Command>,
  moment: Moment,
  key: Key,
): Found<Moment, Command> {
  const id = keyId(key);
  const bound = table.bindings.filter((binding) => keysOf(table, binding).includes(id));
  const now = bound.find((binding) => binding.moments.includes(moment));
  if (now) return { kind: 'command', binding: now };
  if (bound[0]) return { kind: 'not now', reason: bound[0].reasonWhenNot };
  return { kind: table.dead.includes(id) ? 'dead' : 'unknown' };
}

/** All keys of a binding that count in this table: keyboard and pedal, and the keypad as the hand has it. */
function keysOf<Moment extends string, Command extends string>(
  table: BindingTable<Moment, Command>,
  binding: Binding<Moment, Command>,
): readonly string[] {
  return placesOf(table).flatMap((place) => binding.keys[place] ?? []);
}

function placesOf(table: { readonly hand: 'right' | 'left' }): readonly KeyPlace[] {
  return ['keyboard', keypadOf(table), 'pedal'];
}

/**
 * Hints for the keys that work at a moment, in the order of the table, as many as fit into `columns` with three blanks
 * between; the last binding of the table (help) and the kept ones (menu) get their place first. Each names the key that
 * keyboard and keypad share, else one of both as the table has them for its hand; keys in `taken` mean something else now.
 *
 * Example: ['Enter count', 'u or - take back', '/ menu', '? keys'].
 */
export function hintsFor<Moment extends string, Command extends string>(
  table: BindingTable<Moment, Command>,
  moment: Moment,
  columns: number,
  taken: readonly string[] = [],
): string[] {
  const hints = table.bindings
    .filter((binding) => binding.moments.includes(moment) && !binding.isQuiet)
    .flatMap((binding) => {
      const shown = hintKeys(table, binding, taken);
      return shown === null ? [] : [{ text: `${shown} ${binding.label}`, isKept: binding.isKept === true }];
    });
  const last = hints.at(-1);
  if (last === undefined || last.text.length > columns) return [];
  const kept = hints.slice(0, -1).filter((hint) => hint.isKept);
  let room = columns - [...kept, last].reduce((sum, { text }) => sum + text.length + GAP, -GAP);
  const fitting = hints.slice(0, -1).filter(({ text, isKept }) => {
    if (isKept) return room >= 0;
    const fits = text.length + GAP <= room;
    if (fits) room -= text.length + GAP;
    return fits;
  });
  return [...fitting, last].map(({ text }) => text);
}

/** `Enter` where both have it, `u or -`, `n` where only one has a key; null where what it would name is taken. */
function hintKeys<Moment extends string, Command extends string>(
  table: BindingTable<Moment, Command>,
  binding: Binding<Moment, Command>,
  taken: readonly string[],
): string | null {
  const [keyboard, keypad] = (['keyboard', keypadOf(table)] as const).map((place) => capsOf(binding.keys[place]));
  const shared = keyboard?.find((cap) => keypad?.includes(cap));
  if (shared !== undefined) return taken.includes(shared) ? null : shared;
  const [short] = (keyboard ?? []).filter((cap) => !taken.includes(cap)).sort((a, b) => a.length - b.length);
  // The other caps of a keypad key (Ins on 0) are the same key: where one is taken, all are.
  const [pad] = (keypad ?? []).some((cap) => taken.includes(cap)) ? [] : (keypad ?? []);
  const free = [short, pad].filter((cap) => cap !== undefined);
  return free.length === 0 ? null : free.join(' or ');
}

/**
 * One hint for two bindings that go to and fro. Example: `8 2 or Up Down leaf`.
 *
 * @param ids of the bindings, in the order in which their keys are named
 */
export function pairHint<Moment extends string, Command extends string>(
  table: BindingTable<Moment, Command>,
  ids: readonly [string, string],
  label: string,
): string {
  const keysAt = (place: KeyPlace): string =>
    ids.flatMap((id) => capsOf(table.bindings.find((one) => one.id === id)?.keys[place])[0] ?? []).join(' ');
  const named = [...new Set([keysAt(keypadOf(table)), keysAt('keyboard')])].filter((keys) => keys !== '');
  return `${named.join(' or ')} ${label}`;
}

const keypadOf = ({ hand }: { readonly hand: 'right' | 'left' }): KeyPlace =>
  hand === 'left' ? 'left-hand' : 'keypad';

const capsOf = (keys: readonly string[] = []): readonly string[] => [...new Set(keys.map(keyLabel))];

const GAP = 3;

export type HelpRow = {
  readonly keys: Readonly<Record<KeyPlace, string>>;
  readonly label: string;
  readonly help: string;
};

/** Every binding as a row of the help screen and of the README's page: keys by place as the keyboard prints them. */
export function helpFor<Moment extends string, Command extends string>(
  table: BindingTable<Moment, Command>,
): HelpRow[] {
  return table.bindings.map(({ keys, label, help }) => ({
    keys: {
      keyboard: labelsOf(keys.keyboard),
      keypad: labelsOf(keys.keypad),
      'left-hand': labelsOf(keys['left-hand']),
      pedal: labelsOf(keys.pedal),
    },
    label,
    help,
  }));
}

function labelsOf(keys: readonly string[] = []): string {
  return capsOf(keys).join(' ');
}

const labels: Readonly<Record<string, string>> = {
  enter: 'Enter',
  space: 'Space',
  backspace: 'Backspace',
  escape: 'Esc',
  tab: 'Tab',
  up: 'Up',
  down: 'Down',
  left: 'Left',
  right: 'Right',
  home: 'Home',
  end: 'End',
  insert: 'Ins',
  delete: 'Del',
  'page-up': 'PgUp',
  'page-down': 'PgDn',
  begin: '5',
  'kp-enter': 'Enter',
  'kp-plus': '+',
  'kp-minus': '-',
  'kp-multiply': '*',
  'kp-divide': '/',
  'kp-decimal': '.',
};

/** A key as its cap shows it. Examples: 'kp-plus' is '+', 'ctrl-c' is 'Ctrl-c', 'f9' is 'F9', 'p' is 'p'. */
export function keyLabel(id: string): string {
  const known = labels[id];
  if (known) return known;
  const held = /^(ctrl|alt|shift)-(.+)$/.exec(id);
  if (held?.[1] && held[2]) return `${held[1][0]?.toUpperCase()}${held[1].slice(1)}-${keyLabel(held[2])}`;
  if (/^f\d+$/.test(id)) return id.toUpperCase();
  return /^kp-\d$/.test(id) ? id.slice(3) : id;
}

export type Conflict<Moment extends string> = {
  readonly key: string;
  readonly moment: Moment;
  readonly ids: readonly string[];
};

/** Every key that would give two commands at one moment, with either hand; a sound table has none. */
export function conflicts<Moment extends string, Command extends string>(
  table: BindingTable<Moment, Command>,
): Conflict<Moment>[] {
  const found = new Map<string, Conflict<Moment>>();
  for (const hand of ['right', 'left'] as const) {
    for (const conflict of conflictsOfHand({ ...table, hand }))
      found.set(`${conflict.moment} ${conflict.key}`, conflict);
  }
  return [...found.values()];
}

function conflictsOfHand<Moment extends string, Command extends string>(
  table: BindingTable<Moment, Command>,
): Conflict<Moment>[] {
  const takers = new Map<string, { key: string; moment: Moment; ids: Set<string> }>();
  for (const binding of table.bindings) {
    for (const key of keysOf(table, binding)) {
      for (const moment of binding.moments) {
        const taker = takers.get(`${moment} ${key}`) ?? { key, moment, ids: new Set() };
        taker.ids.add(binding.id);
        takers.set(`${moment} ${key}`, taker);
      }
    }
  }
  return [...takers.values()]
    .filter(({ ids }) => ids.size > 1)
    .map(({ key, moment, ids }) => ({ key, moment, ids: [...ids] }));
}

/** The user's own keys, as the settings keep them: binding id to place to keys. */
export type OwnKeys = Readonly<Record<string, Readonly<Partial<Record<KeyPlace, readonly string[]>>>>>;

export type Remapped =
  | { readonly kind: 'taken'; readonly ownKeys: OwnKeys }
  | { readonly kind: 'refused'; readonly reason: string };

/**
 * Gives the pressed key to a binding at a place, in place of the keys it has there ("press your pedal now"). Refused,
 * with the reason, when the key is reserved or gives another command at one of the same moments.
 */
export function remap<Moment extends string, Command extends string>(
  table: BindingTable<Moment, Command>,
  ownKeys: OwnKeys,
  id: string,
  place: KeyPlace,
  key: Key,
): Remapped {
  const pressed = keyId(key);
  const binding = table.bindings.find((candidate) => candidate.id === id);
  if (!binding) return { kind: 'refused', reason: `there is no command ${id}` };
  if (key.name === 'paste') return { kind: 'refused', reason: 'that was a paste, not a key' };
  if (table.reserved.includes(pressed)) return { kind: 'refused', reason: `${keyLabel(pressed)} keeps its meaning` };
  const changed = { ...ownKeys, [id]: { ...ownKeys[id], [place]: [pressed] } };
  const clash = conflicts(replaceKeys(table, changed)).find((conflict) => conflict.key === pressed);
  if (!clash) return { kind: 'taken', ownKeys: changed };
  const other = table.bindings.find((candidate) => candidate.id !== id && clash.ids.includes(candidate.id));
  return { kind: 'refused', reason: `${keyLabel(pressed)} already means ${other?.label ?? 'something else'}` };
}

/**
 * The table with the user's own keys put in. What would make a conflict, takes a reserved key or names no binding is
 * left out: settings edited by hand may hold anything, and must never make a key give two commands.
 */
export function withOwnKeys<Moment extends string, Command extends string>(
  table: BindingTable<Moment, Command>,
  ownKeys: OwnKeys,
): BindingTable<Moment, Command> {
  let sound = table;
  for (const [id, places] of Object.entries(ownKeys)) {
    if (Object.values(places).some((keys) => keys?.some((key) => table.reserved.includes(key)))) continue;
    const next = replaceKeys(sound, { [id]: places });
    if (conflicts(next).length <= conflicts(sound).length) sound = next;
  }
  return sound;
}

function replaceKeys<Moment extends string, Command extends string>(
  table: BindingTable<Moment, Command>,
  ownKeys: OwnKeys,
): BindingTable<Moment, Command> {
  const bindings = table.bindings.map((binding) => ({ ...binding, keys: { ...binding.keys, ...ownKeys[binding.id] } }));
  return { ...table, bindings };
}
