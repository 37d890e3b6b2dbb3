/** Values inside values, by the steps of a dotted key. */

const isMap = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The value at the path, or undefined. `valueAt({ a: { b: 1 } }, ['a', 'b'])` is 1. */
export function valueAt(value: unknown, path: readonly string[]): unknown {
  const [step, ...rest] = path;
  if (step === undefined) return value;
  return isMap(value) && Object.hasOwn(value, step) ? valueAt(value[step], rest) : undefined;
}

/** The value with another at the path; what is missing on the way is made. `valueWith(undefined, ['a'], 1)` is `{ a: 1 }`. */
export function valueWith(value: unknown, path: readonly string[], other: unknown): unknown {
  const [step, ...rest] = path;
  if (step === undefined) return other;
  const map = isMap(value) ? value : {};
  return { ...map, [step]: valueWith(Object.hasOwn(map, step) ? map[step] : undefined, rest, other) };
}

/** The value without what is at the path; nothing is left of an empty path. `valueWithout({ a: 1, b: 2 }, ['a'])` is `{ b: 2 }`. */
export function valueWithout(value: unknown, path: readonly string[]): unknown {
  const [step, ...rest] = path;
  if (step === undefined || !isMap(value)) return undefined;
  const { [step]: taken, ...others } = value;
  return rest.length === 0 || !isMap(taken) ? others : { ...others, [step]: valueWithout(taken, rest) };
}
