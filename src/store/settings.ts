import { chmodSync, existsSync, mkdirSync, readFileSync, renameSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type * as z from 'zod';
import { type Fault, faultOf, isDiskError, makeFault } from './fault.ts';

// Settings, kept through `conf` in one JSON file. Part of P14: a file that is missing, spoiled or unreadable costs nothing but
// the settings in it. One that is not an object in JSON is set aside and named before `conf` sees it; a single value that does
// not fit is named, its default taken, and the file left alone. P11: 0700 and 0600.
// The shape comes from above, a section for each floor; every key must have a default.

const CONFIG_NAME = 'settings';
const SETTINGS_CAP = 256 * 1024;

export interface OpenedSettings<T> {
  readonly values: T;
  readonly path: string;
  /** What the file states, as it stands there, values that do not fit included; empty without a sound file. */
  readonly stated: Readonly<Record<string, unknown>>;
  /** What was wrong with the file; the program goes on with what was sound, or with the defaults. */
  readonly notes: readonly Fault[];
}

/**
 * The settings in `folder`, completed with the schema's defaults. Never fails: what is spoiled is named in `notes`.
 *
 * Example: with no file there, the values are `schema.parse({})` and `notes` is empty.
 */
export function openSettings<S extends z.ZodObject>(folder: string, schema: S): OpenedSettings<z.infer<S>> {
  const path = join(folder, `${CONFIG_NAME}.json`);
  try {
    if (!existsSync(path)) return { values: schema.parse({}), path, stated: {}, notes: [] };
    const raw = readObject(path);
    if (raw === undefined) return { values: schema.parse({}), path, stated: {}, notes: [setAside(path)] };
    const { sound, wrong } = sortOut(path, raw, schema);
    return { values: schema.parse(sound), path, stated: raw, notes: wrong };
  } catch (error) {
    return {
      values: schema.parse({}),
      path,
      stated: {},
      notes: [faultOf(error, { doing: 'the settings could not be read', where: path, code: 74 })],
    };
  }
}

/**
 * Writes `patch` over the settings in `folder`, keeping what else is in the file (keys of a newer version too); a key whose
 * value is `undefined` is taken out. The whole is checked first: a value that the schema refuses is a fault and nothing is written.
 */
export async function saveSettings<S extends z.ZodObject>(
  folder: string,
  schema: S,
  patch: Partial<z.input<S>>,
): Promise<OpenedSettings<z.infer<S>> | Fault> {
  const path = join(folder, `${CONFIG_NAME}.json`);
  const before = openSettings(folder, schema);
  const checked = schema.safeParse({ ...before.values, ...patch });
  if (!checked.success) return refused(path, checked.error);
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    chmodSync(folder, 0o700);
    const { default: Conf } = await import('conf');
    const options = { cwd: folder, configName: CONFIG_NAME, configFileMode: 0o600, projectSuffix: '' };
    const conf = new Conf<Record<string, unknown>>(options);
    conf.store = { ...conf.store, ...patch };
    chmodSync(path, 0o600);
    return { values: checked.data, path, stated: conf.store, notes: before.notes };
  } catch (error) {
    return faultOf(error, { doing: 'the settings were not kept', where: path, code: 74 });
  }
}

type Raw = Record<string, unknown>;

function readObject(path: string): Raw | undefined {
  const facts = statSync(path);
  if (!facts.isFile() || facts.size > SETTINGS_CAP) return undefined;
  try {
    const value: unknown = JSON.parse(readFileSync(path, 'utf8'));
    return typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Raw) : undefined;
  } catch (error) {
    if (error instanceof SyntaxError) return undefined;
    throw error;
  }
}

/** Keys whose value the schema takes, and a note for each other. Keys that it does not know stay in the file unused. */
function sortOut(path: string, raw: Raw, schema: z.ZodObject): { sound: Raw; wrong: Fault[] } {
  const sound: Raw = {};
  const wrong: Fault[] = [];
  for (const [key, field] of Object.entries(schema.shape)) {
    if (!Object.hasOwn(raw, key)) continue;
    const checked = (field as z.ZodType).safeParse(raw[key]);
    if (checked.success) sound[key] = raw[key];
    else wrong.push(misfit(path, key, checked.error));
  }
  return { sound, wrong };
}

function misfit(path: string, key: string, error: z.ZodError): Fault {
  const words = error.issues.map((issue) => `${[key, ...issue.path].join('.')}: ${issue.message}`).join('; ');
  const what = `a setting does not fit and its default is used (${words})`;
  return makeFault({ what, where: path, tryThis: `set it again: millside settings ${key}`, code: 65 });
}

function setAside(path: string): Fault {
  let number = 1;
  while (existsSync(asideName(path, number))) number += 1;
  const aside = asideName(path, number);
  const what = 'the settings file was spoiled, the defaults are used';
  try {
    renameSync(path, aside);
    return makeFault({
      what,
      where: aside,
      tryThis: 'the old file was kept there; set again what is missing',
      code: 65,
    });
  } catch (error) {
    if (!isDiskError(error)) throw error;
    return makeFault({ what, where: path, tryThis: 'put it right or remove it', code: 65 });
  }
}

function asideName(path: string, number: number): string {
  return path.replace(/\.json$/, `.spoiled-${number}.json`);
}

function refused(path: string, error: z.ZodError): Fault {
  const what = `not set: ${error.issues.map((issue) => `${issue.path.join('.')}: ${issue.message}`).join('; ')}`;
  return makeFault({ what, where: path, tryThis: 'give a value of the form that is asked for', code: 65 });
}
