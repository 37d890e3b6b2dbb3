// Loaded before the program in a story: sets its wall clock, or lets the computer seem to have slept, by what stands in a
// file. The monotonic clock is left alone, as the system leaves it.
import { readFileSync } from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
import os from 'node:os';

const now = Date.now;
const uptime = os.uptime;
const shift = () => JSON.parse(readFileSync(process.env['SHIFT_CLOCK_FILE'], 'utf8'));

Date.now = () => now() + shift().wall_ms;
os.uptime = () => uptime() + shift().slept_ms / 1000;
syncBuiltinESMExports();
