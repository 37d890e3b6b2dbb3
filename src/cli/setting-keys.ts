/** The keys of the settings, read off their schema: `report.allowance_pct` and its like, with what each means. */
import * as z from 'zod';
import { suggestName } from '../shop/suggest-name.ts';
import { settingsSchema } from '../sitting/settings.ts';

export type SettingKey = { readonly key: string; readonly meaning: string };

/** Every key that holds one thing; a section is taken apart unless it may be absent as a whole. */
export function settingKeys(): readonly SettingKey[] {
  return keysOf(settingsSchema.shape, '');
}

function keysOf(shape: z.ZodRawShape, before: string): readonly SettingKey[] {
  return Object.entries(shape).flatMap(([name, field]) => {
    const schema = field as z.ZodType;
    const inner = filledIn(schema);
    if (inner instanceof z.ZodObject) return keysOf(inner.shape, `${before}${name}.`);
    return [{ key: `${before}${name}`, meaning: schema.description ?? '' }];
  });
}

/** What is wrong with a dotted key, in words, or undefined when the settings have such a place. */
export function misnamedKey(path: readonly string[]): string | undefined {
  let here: z.ZodType = settingsSchema;
  for (const [at, step] of path.entries()) {
    const inner = present(here);
    if (inner instanceof z.ZodRecord) {
      here = inner.valueType as z.ZodType;
    } else if (inner instanceof z.ZodObject) {
      const next: unknown = Object.hasOwn(inner.shape, step) ? inner.shape[step] : undefined;
      if (next === undefined) return unknown(path.slice(0, at), step, Object.keys(inner.shape));
      here = next as z.ZodType;
    } else if (inner instanceof z.ZodTuple || inner instanceof z.ZodArray || !isOpen(inner)) {
      return `${path.slice(0, at).join('.')} holds one value; there is no "${step}" in it`;
    }
  }
  return undefined;
}

function unknown(before: readonly string[], step: string, known: readonly string[]): string {
  const near = suggestName(step, known);
  const within = before.length === 0 ? 'the settings' : before.join('.');
  return `there is no "${step}" in ${within}: ${near === undefined ? `it has ${known.join(', ')}` : `did you mean ${[...before, near].join('.')}?`}`;
}

/** A schema without the default around it. */
const filledIn = (schema: z.ZodType): z.ZodType =>
  schema instanceof z.ZodDefault ? filledIn(schema.unwrap() as z.ZodType) : schema;

/** A schema without what stands around it for a value that is absent. */
function present(schema: z.ZodType): z.ZodType {
  return schema instanceof z.ZodDefault || schema instanceof z.ZodOptional || schema instanceof z.ZodNullable
    ? present(schema.unwrap() as z.ZodType)
    : schema;
}

/** May anything stand below it (JSON that is proved as a whole)? */
const isOpen = (schema: z.ZodType): boolean => schema instanceof z.ZodLazy || schema instanceof z.ZodUnion;
