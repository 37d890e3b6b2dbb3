/**
 * Choosing from a menu by what its line says: the digit that stands before the line is looked up on the screen, so that a menu
 * can grow or change its order and a test still presses what it means, or fails.
 */

/** A line of a menu, by the words that it begins with. */
export type MenuLine = { readonly line: string };

export const line = (text: string): MenuLine => ({ line: text });

/** The digit before the line that begins with the text, as shown; undefined when there is no such line, or it has no digit. */
export function digitBefore(shown: readonly string[], { line: text }: MenuLine): string | undefined {
  const found = shown.flatMap((row) => {
    const [, digit, label] = /^[\s>]*(\d) {2}(.*)$/.exec(row) ?? [];
    return digit !== undefined && label?.startsWith(text) ? [digit] : [];
  });
  if (found.length > 1) throw new Error(`"${text}" begins ${found.length} lines of the menu; say more of it`);
  return found[0];
}
