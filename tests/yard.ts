/**
 * Time told in yards: how many times as long as a fixed piece of work something takes, both in processor time of this
 * process and in the same minute. A machine that is busy slows both, so a bound in yards holds where one in milliseconds
 * would not. On the quiet machine that the bounds were set on a yard took 7.5 ms.
 */

const numbers = Array.from({ length: 24_000 }, (_, at) => (at * 7919) % 24_007);

function yard(): number {
  const sorted = JSON.parse(JSON.stringify([...numbers].sort((a, b) => a - b))) as number[];
  const words = new Map(sorted.map((number) => [`n${number}`, number]));
  return words.size;
}

/** Processor time of this process that `run` takes, in ms. */
function spent(run: () => unknown): number {
  const before = process.cpuUsage();
  run();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

const ROUNDS = 5;
const middle = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1] ?? 0;
const yardNow = (): number => middle(Array.from({ length: ROUNDS }, () => spent(yard)));

/** Yards in a second of a quiet machine. */
export const YARDS_IN_A_SECOND = 130;

/** Yards that `run` takes. */
export function yardsOf(run: () => unknown): number {
  yard();
  const before = yardNow();
  const taken = spent(run);
  return taken / ((before + yardNow()) / 2);
}
