/**
 * `millside settings [KEY [VALUE]]`: shows the settings and where each value comes from, or changes one. A value is JSON or
 * plain text, whichever the schema takes; a refused value changes nothing (65), an unknown key is a usage fault (64).
 *
 * `--json`: `{ "format": 1, "file": "/home/a/.config/millside/settings.json", "settings": [{ "key": "report.allowance_pct",
 * "value": 5, "from": "default", "meaning": "…" }], "folders": [{ "holds": "data", "path": "/home/a/.local/share/millside",
 * "from": "default" }], "notes": [{ "what": "…", "where": "…", "tryThis": "…" }] }`; `from` is `default`, `settings` or
 * `environment`; `value` is null where nothing is set; `notes` say what in the file was not used. With KEY only its rows.
 */

import { homedir } from 'node:os';
import { plainLine } from '../report/neutral-text.ts';
import { type Settings, settingsSchema } from '../sitting/settings.ts';
import { isFault } from '../store/fault.ts';
import { findConfigFolder, findHome } from '../store/home.ts';
import { type OpenedSettings, openSettings, saveSettings } from '../store/settings.ts';
import { readWords } from './arguments.ts';
import { exitCodes } from './exit-codes.ts';
import { type Io, writeJson } from './io.ts';
import { sayFault } from './say.ts';
import { misnamedKey, type SettingKey, settingKeys } from './setting-keys.ts';
import { valueAt, valueWith, valueWithout } from './setting-values.ts';

type Row = SettingKey & { readonly value: unknown; readonly from: 'default' | 'settings' | 'environment' };

export async function runSettings(args: readonly string[], io: Io): Promise<number> {
  const words = readWords('settings', args, [0, 2], io);
  if (typeof words === 'number') return words;
  const [key, value] = words.names;
  const toDefault = words.has('default');
  if (toDefault && (key === undefined || value !== undefined)) return usage(io, '--default wants a KEY and no VALUE');
  const path = key?.split('.') ?? [];
  const wrong = misnamedKey(path);
  if (wrong !== undefined) return usage(io, wrong);
  const folder = findConfigFolder(io.env, homedir());
  const before = openSettings(folder, settingsSchema);
  for (const note of before.notes) sayFault(io, note);
  if (toDefault) return change(io, folder, path, before, [undefined]);
  if (value !== undefined) return change(io, folder, path, before, readings(value));
  const rows = rowsFor(key, before, io.env);
  if (words.has('json')) writeJson(io, jsonOf(rows, before, io.env));
  else io.out(key === undefined ? listText(rows, before, io.env) : rows.map(rowWithMeaning).join(''));
  return exitCodes.done;
}

/** What a word on the command line may mean: JSON where it is some, else or also the text itself. */
function readings(text: string): readonly unknown[] {
  try {
    return [JSON.parse(text), text];
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error;
    return [text];
  }
}

/** Takes the first reading that the schema takes; `undefined` takes the key out of the file. */
async function change(
  io: Io,
  folder: string,
  path: readonly string[],
  before: OpenedSettings<Settings>,
  candidates: readonly unknown[],
): Promise<number> {
  const [top = '', ...rest] = path;
  const section = before.stated[top];
  let refused: number = exitCodes.badPlanOrJournal;
  let said = '';
  for (const value of candidates) {
    const patch = { [top]: value === undefined ? valueWithout(section, rest) : valueWith(section, rest, value) };
    const saved = await saveSettings(folder, settingsSchema, patch as Partial<Settings>);
    if (!isFault(saved)) {
      const now = valueAt(saved.values, path);
      io.err(`millside: ${path.join('.')} is now ${valueText(now)}${value === undefined ? ' (default)' : ''}\n`);
      return exitCodes.done;
    }
    if (said === '') {
      said = `millside: ${plainLine(saved.what)}\n  where: ${saved.where}\n  try:   ${plainLine(saved.tryThis)}\n`;
      refused = saved.code;
    }
  }
  io.err(said);
  return refused;
}

function rowsFor(key: string | undefined, opened: OpenedSettings<Settings>, env: Io['env']): readonly Row[] {
  const all = settingKeys();
  const within = key === undefined ? all : all.filter((one) => one.key === key || one.key.startsWith(`${key}.`));
  const above = all.find((one) => key?.startsWith(`${one.key}.`));
  const chosen = within.length > 0 || key === undefined ? within : [{ key, meaning: above?.meaning ?? '' }];
  return chosen.map((one) => rowOf(one, opened, env));
}

function rowOf(one: SettingKey, { values, stated }: OpenedSettings<Settings>, env: Io['env']): Row {
  const path = one.key.split('.');
  // FORCE_COLOR and NO_COLOR go before the settings (see screen/theme.ts).
  const force = env['FORCE_COLOR'];
  if (one.key === 'screen.colour' && (force || env['NO_COLOR'])) {
    return { ...one, value: force && force !== '0' && force !== 'false' ? 'on' : 'off', from: 'environment' };
  }
  const [top = ''] = path;
  const schema = settingsSchema.shape[top as keyof typeof settingsSchema.shape];
  const isUsed = Object.hasOwn(stated, top) && schema.safeParse(stated[top]).success;
  const isStated = isUsed && valueAt(stated, path) !== undefined;
  return { ...one, value: valueAt(values, path) ?? null, from: isStated ? 'settings' : 'default' };
}

function jsonOf(rows: readonly Row[], opened: OpenedSettings<Settings>, env: Io['env']) {
  const settings = rows.map(({ key, value, from, meaning }) => ({ key, value, from, meaning }));
  const notes = opened.notes.map(({ what, where, tryThis }) => ({ what, where, tryThis }));
  return { format: 1, file: opened.path, settings, folders: foldersOf(env), notes };
}

function foldersOf(env: Io['env']) {
  const from = (own: string, xdg: string) => (env[own] ? own : env[xdg]?.startsWith('/') ? xdg : 'default');
  return [
    { holds: 'data', path: findHome(env, homedir()).root, from: from('MILLSIDE_HOME', 'XDG_DATA_HOME') },
    {
      holds: 'settings',
      path: findConfigFolder(env, homedir()),
      from: from('MILLSIDE_CONFIG', 'XDG_CONFIG_HOME'),
    },
  ];
}

function listText(rows: readonly Row[], opened: OpenedSettings<Settings>, env: Io['env']): string {
  const width = Math.max(...rows.map((row) => row.key.length)) + 2;
  const lines = rows.map((row) => `${row.key.padEnd(width)}${valueText(row.value).padEnd(24)}  ${row.from}\n`);
  const folders = foldersOf(env).map((one) => `${one.holds.padEnd(10)}${plainLine(one.path)}  (${one.from})\n`);
  const file = `file      ${plainLine(opened.path)}\n`;
  return `${lines.join('')}\n${folders.join('')}${file}\nmillside settings KEY says what it means; KEY VALUE changes it.\n`;
}

const rowWithMeaning = (row: Row): string => `${row.key} = ${valueText(row.value)}  (${row.from})\n  ${row.meaning}\n`;

/** A value as it would be typed; nothing set is a dash. */
function valueText(value: unknown): string {
  if (value === null || value === undefined) return '-';
  return plainLine(typeof value === 'string' ? value : JSON.stringify(value));
}

function usage(io: Io, why: string): number {
  io.err(`millside settings: ${plainLine(why)}\nSee millside settings --help.\n`);
  return exitCodes.usage;
}
