/**
 * A key press as the rest of the program sees it, whatever bytes the terminal sent for it.
 * `keyId` gives the one written form that the binding table and the settings use: 'enter', 'kp-plus', 'ctrl-c', 'p'.
 */

/** What was pressed: 'char' for a printable character (see `text`), else the key's own name. */
export type KeyName =
  | 'char'
  | 'space'
  | 'enter'
  | 'tab'
  | 'backspace'
  | 'escape'
  | 'up'
  | 'down'
  | 'left'
  | 'right'
  | 'begin'
  | 'home'
  | 'end'
  | 'insert'
  | 'delete'
  | 'page-up'
  | 'page-down'
  | 'menu'
  | 'break'
  | `f${number}`
  | `kp-${0 | 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 9}`
  | 'kp-enter'
  | 'kp-plus'
  | 'kp-minus'
  | 'kp-multiply'
  | 'kp-divide'
  | 'kp-decimal'
  | 'kp-comma'
  | 'kp-equal'
  | 'kp-space'
  | 'kp-tab'
  | 'paste'
  | 'focus-in'
  | 'focus-out';

/**
 * One key press. `text` is the character a value field would take ('char', 'space' and the keypad's printing keys);
 * the modifiers are present only when held. 'paste' stands for a whole bracketed paste, whose text is thrown away.
 */
export type Key = {
  readonly name: KeyName;
  readonly text?: string;
  readonly ctrl?: true;
  readonly alt?: true;
  readonly shift?: true;
};

/**
 * The written form of a key, for tables and settings: modifiers in the order ctrl, alt, shift, then the character or
 * the name. A printable character carries its own shift ('?' and not 'shift-/').
 * Example: `keyId({ name: 'char', text: 'c', ctrl: true })` is 'ctrl-c'; `keyId({ name: 'kp-plus', text: '+' })` is 'kp-plus'.
 */
export function keyId(key: Key): string {
  const body = key.name === 'char' ? (key.text ?? '') : key.name;
  return `${key.ctrl ? 'ctrl-' : ''}${key.alt ? 'alt-' : ''}${key.shift && key.name !== 'char' ? 'shift-' : ''}${body}`;
}

/**
 * The character that this press puts into a value field, or undefined when it types nothing (a named key, or one
 * with ctrl or alt held). Example: keypad 7 in application mode types '7'; Ctrl-c types nothing.
 */
export function typedText(key: Key): string | undefined {
  return key.ctrl || key.alt ? undefined : key.text;
}
