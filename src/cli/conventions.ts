/** What the command line keeps to everywhere, as tables: help, manual page and `settings` are made from them. */
import { exitCodes } from './exit-codes.ts';

/** What each exit code says. */
export const exitMeanings: readonly (readonly [code: number, meaning: string])[] = [
  [exitCodes.done, 'done'],
  [exitCodes.refused, 'refused, or nothing to do'],
  [exitCodes.usage, 'the words on the command line are wrong'],
  [exitCodes.badPlanOrJournal, 'the plan or journal is bad, or a check says stop'],
  [exitCodes.noSuchInput, 'there is no such plan or batch'],
  [exitCodes.ourBug, 'a fault of the program itself'],
  [exitCodes.cannotCreate, 'a file or folder cannot be created'],
  [exitCodes.cannotWrite, 'a file cannot be read or written'],
  [exitCodes.heldByAnother, 'the batch is open in another terminal'],
];

/** Variables of the environment that are honoured. */
export const environment: readonly { readonly name: string; readonly meaning: string }[] = [
  { name: 'MILLSIDE_HOME', meaning: 'folder of the data; else millside in $XDG_DATA_HOME or ~/.local/share' },
  { name: 'MILLSIDE_CONFIG', meaning: 'folder of the settings; else millside in $XDG_CONFIG_HOME or ~/.config' },
  {
    name: 'MILLSIDE_GUARD_MS',
    meaning: 'guard between two counts in milliseconds, 1200 when it is not set; 0 turns it and that of cards off',
  },
  { name: 'NO_COLOR', meaning: 'no colour when it is set and not empty' },
];
