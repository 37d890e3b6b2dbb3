/** The menu of the screen itself: digit size, the hand, and keys changed by pressing them. */
import type { Choice, Next, Step } from '../flow/flow.ts';
import { type BindingTable, helpFor, type KeyPlace, type OwnKeys, remap } from '../keys/binding-table.ts';
import type { KeyCommand, Moment } from '../keys/key-map.ts';

export type Table = BindingTable<Moment, KeyCommand>;

/** What can be changed of the screen. */
export function screenMenu(table: Table, ownKeys: OwnKeys): Step {
  const other = table.hand === 'left' ? 'right' : 'left';
  return {
    kind: 'choice',
    prompt: 'SCREEN',
    about: [],
    options: [
      { label: 'digit size: the distance trial again', next: { kind: 'do', action: { kind: 'distance trial' } } },
      { label: 'the pedal: press it now', next: pressNext(table, ownKeys, { id: 'count', place: 'pedal' }) },
      { label: 'change another key by pressing it', next: { kind: 'step', step: whichStep(table, ownKeys) } },
      { label: 'all keys as they came', next: { kind: 'do', action: { kind: 'own keys', ownKeys: {} } } },
      { label: `keypad for the ${other} hand`, next: { kind: 'do', action: { kind: 'hand', hand: other } } },
    ],
  };
}

function whichStep(table: Table, ownKeys: OwnKeys): Step {
  const rows = helpFor(table);
  return {
    kind: 'choice',
    prompt: 'WHICH COMMAND',
    about: [],
    options: table.bindings.map(
      (binding, at): Choice => ({
        label: `${binding.label}: ${rows[at]?.keys.keyboard ?? ''}`,
        next: { kind: 'step', step: whereStep(table, ownKeys, binding.id) },
      }),
    ),
  };
}

function whereStep(table: Table, ownKeys: OwnKeys, id: string): Step {
  const keypad: KeyPlace = table.hand === 'left' ? 'left-hand' : 'keypad';
  const option = (label: string, place: KeyPlace): Choice => ({
    label,
    next: pressNext(table, ownKeys, { id, place }),
  });
  return {
    kind: 'choice',
    prompt: 'WHERE IS THE NEW KEY',
    about: ['It takes the place of the keys that the command has there.'],
    options: [option('on the keyboard', 'keyboard'), option('on the keypad', keypad)],
  };
}

function pressNext(table: Table, ownKeys: OwnKeys, at: { readonly id: string; readonly place: KeyPlace }): Next {
  return {
    kind: 'step',
    step: {
      kind: 'press',
      prompt: at.place === 'pedal' ? 'PRESS YOUR PEDAL NOW' : 'PRESS THE NEW KEY NOW',
      about: ['Esc goes back and changes nothing.'],
      take: (key) => {
        const answer = remap(table, ownKeys, at.id, at.place, key);
        return answer.kind === 'refused'
          ? `not taken: ${answer.reason}`
          : { kind: 'do', action: { kind: 'own keys', ownKeys: answer.ownKeys } };
      },
    },
  };
}
