/**
 * What a session stands on, gathered once at the edge: disk, folders, clock, who asks for a lock. Tests pass their own.
 */
import { homedir, hostname } from 'node:os';
import { type Command, commandSchema } from '../batch/commands.ts';
import { type BatchEvent, eventSchema } from '../batch/events.ts';
import { type Clock, makeClock } from '../store/clock.ts';
import type { Disk } from '../store/disk.ts';
import { type Environment, findConfigFolder, findHome, type Home } from '../store/home.ts';
import { type LineForm, makeLineForm } from '../store/journal-line.ts';
import { makeSelf, type Self } from '../store/lock.ts';
import { realDisk } from '../store/real-disk.ts';

export type World = {
  readonly disk: Disk;
  readonly home: Home;
  readonly configFolder: string;
  readonly clock: Clock;
  readonly self: Self;
  readonly host: string;
};

/** This computer and this user, with the folders that the environment names. Touches no disk. */
export function makeWorld(env: Environment): World {
  const userHome = homedir();
  return {
    disk: realDisk,
    home: findHome(env, userHome),
    configFolder: findConfigFolder(env, userHome),
    clock: makeClock(),
    self: makeSelf(),
    host: hostname(),
  };
}

/** The form of this program's journal lines. */
export const batchLineForm: LineForm<Command, BatchEvent> = makeLineForm({
  command: commandSchema,
  event: eventSchema,
});
