/**
 * The keys of millside: the content of the binding table (binding-table.ts is the mechanism). The order of the rows is
 * the order of the hint line and of the help screen. Keypad keys are given as they come with NumLock on, with NumLock
 * off and in application mode.
 */
import type { Binding, BindingTable } from './binding-table.ts';

/** What the person is doing when a key is pressed. */
export type Moment =
  | 'choose'
  | 'resume'
  | 'setup'
  | 'zero'
  | 'points'
  | 'count'
  | 'line'
  | 'gate'
  | 'check'
  | 'value'
  | 'pause'
  | 'end-operation'
  | 'end-batch'
  | 'help'
  | 'list';

export type KeyCommand =
  | 'count'
  | 'pass-card'
  | 'take'
  | 'take-back'
  | 'reject'
  | 'measure'
  | 'pause'
  | 'go-on'
  | 'next-operation'
  | 'look-point-before'
  | 'look-point-after'
  | 'look-operation-before'
  | 'look-operation-after'
  | 'look-live'
  | 'tool-changed'
  | 'bumped'
  | 'note'
  | 'cautions'
  | 'menu'
  | 'digit-size'
  | 'sound'
  | 'back'
  | 'leave'
  | 'help';

/** Where pieces are being made. */
const live: readonly Moment[] = ['points', 'count', 'line'];
/** Where a card wants an answer. */
const cards: readonly Moment[] = ['resume', 'setup', 'zero', 'gate', 'check', 'end-operation', 'end-batch'];
const running: readonly Moment[] = [...live, ...cards, 'pause'];
const lists: readonly Moment[] = ['choose', 'list'];
const everywhere: readonly Moment[] = [...running, ...lists];

const bigTarget = ['enter', 'kp-enter', '+', 'kp-plus'];
const leftTarget = [...bigTarget, '0', 'insert', 'kp-0', '1', 'end', 'kp-1'];
const eight = ['8', 'up', 'kp-8'];
const two = ['2', 'down', 'kp-2'];
const four = ['4', 'left', 'kp-4'];
const six = ['6', 'right', 'kp-6'];

const notLive = 'no pieces are being made now';
const noCard = 'there is no card to answer';

const bindings: readonly Binding<Moment, KeyCommand>[] = [
  {
    id: 'count',
    command: 'count',
    keys: { keyboard: ['enter', 'space'], keypad: bigTarget, 'left-hand': leftTarget, pedal: ['f9'] },
    label: 'count',
    help: 'Counts the piece, the load or the point in hand; one press is one, however long it is held.',
    moments: live,
    reasonWhenNot: 'a card is waiting: answer it with Enter',
  },
  {
    id: 'pass-card',
    command: 'pass-card',
    keys: { keyboard: ['enter', 'space'], keypad: bigTarget, 'left-hand': leftTarget },
    label: 'done',
    help: 'Answers the card: what it asks is proved or done. The pedal never does.',
    moments: cards,
    reasonWhenNot: noCard,
  },
  {
    id: 'take',
    command: 'take',
    keys: { keyboard: ['enter', 'space'], keypad: bigTarget, 'left-hand': ['enter', 'kp-enter', '+', 'kp-plus'] },
    label: 'take',
    help: 'Takes the line in hand of a list.',
    moments: lists,
    reasonWhenNot: 'there is no list to choose from',
  },
  {
    id: 'take-back',
    command: 'take-back',
    keys: { keyboard: ['backspace', 'u'], keypad: ['-', 'kp-minus'], 'left-hand': ['-', 'kp-minus'] },
    label: 'take back',
    help: 'Undoes the newest count, scrap, rework or recount; can be pressed again for the one before.',
    moments: [...live, 'check', 'gate', 'end-operation', 'end-batch'],
    reasonWhenNot: 'nothing can be taken back here',
  },
  {
    id: 'reject',
    command: 'reject',
    keys: { keyboard: ['r'], keypad: ['0', 'insert', 'kp-0'], 'left-hand': ['3', 'page-down', 'kp-3'] },
    label: 'reject',
    help: 'Rejects the piece in hand or part of the last load; asks for the reason.',
    moments: [...live, 'check', 'end-operation'],
    reasonWhenNot: notLive,
  },
  {
    id: 'measure',
    command: 'measure',
    keys: { keyboard: ['m'], keypad: ['1', 'end', 'kp-1'], 'left-hand': ['9', 'page-up', 'kp-9'] },
    label: 'measure',
    help: 'Enters a check value, due or not.',
    moments: [...live, 'check'],
    reasonWhenNot: notLive,
  },
  {
    id: 'pause',
    command: 'pause',
    keys: { keyboard: ['p'], keypad: ['*', 'kp-multiply'], 'left-hand': ['*', 'kp-multiply'] },
    label: 'pause',
    help: 'Stops the timing until it is pressed again.',
    moments: [...live, ...cards],
    reasonWhenNot: 'nothing is being timed now',
  },
  {
    id: 'go-on',
    command: 'go-on',
    keys: {
      keyboard: ['p', 'enter', 'space'],
      keypad: ['*', 'kp-multiply', ...bigTarget],
      'left-hand': ['*', 'kp-multiply', ...leftTarget],
    },
    label: 'go on',
    help: 'Ends a pause.',
    moments: ['pause'],
    reasonWhenNot: 'nothing is paused',
  },
  {
    id: 'next-operation',
    command: 'next-operation',
    keys: { keyboard: ['n'] },
    label: 'next operation',
    help: 'Goes to the next operation that has pieces waiting; going back is as easy.',
    moments: [...live, 'end-operation', 'gate', 'setup', 'zero'],
    reasonWhenNot: notLive,
  },
  {
    id: 'menu',
    command: 'menu',
    keys: { keyboard: ['/'], keypad: ['/', 'kp-divide'], 'left-hand': ['/', 'kp-divide'] },
    label: 'menu',
    help: 'Lists everything that can be done now.',
    moments: running,
    reasonWhenNot: 'there is no menu here',
    isKept: true,
  },
  {
    id: 'look-point-before',
    command: 'look-point-before',
    keys: { keyboard: ['up'], keypad: eight, 'left-hand': eight },
    label: 'point before',
    help: 'Looks at the point before, or leafs back in a card, a list or a page; counts nothing.',
    moments: [...live, ...cards, ...lists, 'help'],
    reasonWhenNot: 'there is nothing to look at',
    isQuiet: true,
  },
  {
    id: 'look-point-after',
    command: 'look-point-after',
    keys: { keyboard: ['down'], keypad: two, 'left-hand': two },
    label: 'point after',
    help: 'Looks at the point after, or leafs on in a card, a list or a page; counts nothing.',
    moments: [...live, ...cards, ...lists, 'help'],
    reasonWhenNot: 'there is nothing to look at',
    isQuiet: true,
  },
  {
    id: 'look-operation-before',
    command: 'look-operation-before',
    keys: { keyboard: ['left'], keypad: four, 'left-hand': four },
    label: 'operation before',
    help: 'Looks at the operation before; counts nothing.',
    moments: running,
    reasonWhenNot: 'there are no operations to look at',
    isQuiet: true,
  },
  {
    id: 'look-operation-after',
    command: 'look-operation-after',
    keys: { keyboard: ['right'], keypad: six, 'left-hand': six },
    label: 'operation after',
    help: 'Looks at the operation after; counts nothing.',
    moments: running,
    reasonWhenNot: 'there are no operations to look at',
    isQuiet: true,
  },
  {
    id: 'look-live',
    command: 'look-live',
    keys: { keyboard: ['5'], keypad: ['5', 'begin', 'kp-5'], 'left-hand': ['5', 'begin', 'kp-5'] },
    label: 'live',
    help: 'Comes back from looking to what is being made.',
    moments: running,
    reasonWhenNot: 'this is not a batch',
    isQuiet: true,
  },
  {
    id: 'tool-changed',
    command: 'tool-changed',
    keys: { keyboard: ['t'] },
    label: 'tool changed',
    help: 'Says that the tool was changed or sharpened; the zero is proved again and checks come closer.',
    moments: running,
    reasonWhenNot: notLive,
    isQuiet: true,
  },
  {
    id: 'bumped',
    command: 'bumped',
    keys: { keyboard: ['b'] },
    label: 'bumped',
    help: 'Says that the vice, stop or work was knocked; the zero is proved again.',
    moments: running,
    reasonWhenNot: notLive,
    isQuiet: true,
  },
  {
    id: 'note',
    command: 'note',
    keys: { keyboard: ['e'] },
    label: 'note',
    help: 'Writes a line into the record of the batch.',
    moments: running,
    reasonWhenNot: notLive,
    isQuiet: true,
  },
  {
    id: 'cautions',
    command: 'cautions',
    keys: { keyboard: ['h'] },
    label: 'cautions',
    help: 'Shows the cautions of this work again.',
    moments: running,
    reasonWhenNot: notLive,
    isQuiet: true,
  },
  {
    id: 'digit-size',
    command: 'digit-size',
    keys: { keyboard: ['z'] },
    label: 'digit size',
    help: 'Makes the digits larger, and from the largest the smallest again.',
    moments: everywhere,
    reasonWhenNot: 'there are no digits here',
    isQuiet: true,
  },
  {
    id: 'sound',
    command: 'sound',
    keys: { keyboard: ['s'] },
    label: 'sound',
    help: 'Turns the bell at a count on or off.',
    moments: everywhere,
    reasonWhenNot: 'there is no sound here',
    isQuiet: true,
  },
  {
    id: 'back',
    command: 'back',
    keys: { keyboard: ['escape'] },
    label: 'back',
    help: 'Goes back one step, or from looking to what is being made. It never leaves the program.',
    moments: [...everywhere, 'help', 'value'],
    reasonWhenNot: 'there is nothing to go back from',
    isQuiet: true,
  },
  {
    id: 'leave',
    command: 'leave',
    keys: { keyboard: ['q', 'ctrl-c'] },
    label: 'leave',
    help: 'Leaves the program; everything is saved and goes on from here next time.',
    moments: [...everywhere, 'help'],
    reasonWhenNot: 'finish the entry first, or go back with Esc',
  },
  {
    id: 'help',
    command: 'help',
    keys: { keyboard: ['?', 'f1'] },
    label: 'keys',
    help: 'Shows all keys.',
    moments: [...everywhere, 'help'],
    reasonWhenNot: 'finish the entry first, or go back with Esc',
  },
];

/** The table for a hand, before the user's own keys. */
export function keyMapFor(hand: 'right' | 'left'): BindingTable<Moment, KeyCommand> {
  return {
    bindings,
    hand,
    dead: ['3', 'page-down', 'kp-3', '.', 'delete', 'kp-decimal'],
    reserved: ['ctrl-c', 'ctrl-z', 'ctrl-l', 'escape', 'enter'],
  };
}
