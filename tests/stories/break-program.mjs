// Loaded before the program in a story: once a file is there, what is written in it happens to the program, as if it had a
// bug: `drawing` makes a built-in function throw while a frame is drawn, `rejection` leaves a promise rejected.
import { existsSync, readFileSync } from 'node:fs';

const file = process.env['BREAK_PROGRAM_FILE'];
const isTo = (what) => existsSync(file) && readFileSync(file, 'utf8') === what;

const { repeat, padEnd } = String.prototype;
const breaking = (known) =>
  function broken(...given) {
    if (isTo('drawing') && /\bdrawApp\b/.test(new Error('where').stack)) throw new TypeError('no such sign');
    return known.apply(this, given);
  };
Error.stackTraceLimit = 50;
String.prototype.repeat = breaking(repeat);
String.prototype.padEnd = breaking(padEnd);

const watch = setInterval(() => {
  if (!isTo('rejection')) return;
  clearInterval(watch);
  void Promise.reject(new RangeError('no such piece'));
}, 20);
watch.unref();
