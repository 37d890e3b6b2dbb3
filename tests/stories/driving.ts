/**
 * Plays a batch through its real keys, told by what the journal says and never by the words on the screen: a story states
 * what shall have happened, and the keys that make it happen.
 */
import type { Card } from '../../src/batch/cards.ts';
import type { BatchEvent } from '../../src/batch/events.ts';
import { digitBefore, line, type MenuLine } from '../menu-lines.ts';
import type { Program } from './harness.ts';
import type { KeyPress } from './key-bytes.ts';
import { answerTo, type Shop } from './shop.ts';

/** What a card is answered with instead of a bare Enter. */
export type Answers = (card: Card) => readonly Step[] | null;

/** So long a line of a menu is waited for, and Esc for whatever it may close. */
const patience_ms = 10_000;
const escape_ms = 1000;
const tries = 8;

/** A key, or a line of the menu that is on the screen, chosen with the digit before it. */
export type Step = KeyPress | MenuLine;

/** Every key of a text, one after the other. */
export const typed = (text: string): readonly KeyPress[] => [...text];

const aboutSteps = (steps: readonly Step[]): string =>
  steps.map((step) => (typeof step === 'string' ? step : `"${step.line}"`)).join(' ');

/**
 * Presses keys, and waits for a line of a menu to be shown before its digit is pressed, and to be gone before the next key:
 * a digit with a number right behind it comes at the pace of a gauge, and would be taken for one value.
 */
export async function pressSteps(t: Program, steps: readonly Step[]): Promise<void> {
  for (const step of steps) {
    if (typeof step === 'string') t.press(step);
    else {
      const shown = await t.waitFor((screen) => digitBefore(screen.lines, step) !== undefined, step.line, patience_ms);
      t.press(digitBefore(shown.lines, step) ?? '');
      await t.waitFor(
        (screen) => digitBefore(screen.lines, step) === undefined,
        `${step.line} to be taken`,
        patience_ms,
      );
    }
  }
}

/** The card that is up, by the journal. */
export const cardUp = (shop: Shop): Card | undefined => shop.state().cards[0];

/**
 * Presses `keys` and waits until one more event of a kind is in the journal. A press that met a screen of the moment
 * before is answered by nothing: then the flow is closed and the keys are given again.
 */
export async function perform<Kind extends BatchEvent['kind']>(
  shop: Shop,
  t: Program,
  kind: Kind,
  steps: readonly Step[],
): Promise<Extract<BatchEvent, { kind: Kind }>> {
  const before = shop.events(kind).length;
  const isDone = (): boolean => shop.events(kind).length > before;
  const go = async (): Promise<void> => {
    const { isThere } = answerTo(t, isDone);
    await pressSteps(t, steps);
    await t.waitFor(isThere, `${kind} after ${aboutSteps(steps)}`, patience_ms);
    if (!isDone()) throw new Error(`${kind} did not follow on ${aboutSteps(steps)}: it was refused`);
  };
  for (let i = 1; shop.events(kind).length === before; i += 1) {
    await (i < 5 ? go().catch(() => closeFlow(t)) : go());
  }
  return shop.events(kind).at(-1) as Extract<BatchEvent, { kind: Kind }>;
}

/** Goes back from whatever is asked. Each Esc stands alone: with a key right behind it, it would be another key. */
async function closeFlow(t: Program): Promise<void> {
  for (let i = 0; i < 3; i += 1) {
    const before = t.mark();
    t.press('escape');
    await t.waitFor(() => t.mark() > before, 'an answer to Esc', escape_ms).catch(() => undefined);
  }
}

/** Works on, passing cards and counting with Enter, until it is so; `answers` says which cards get more than Enter. */
export async function workUntil(
  shop: Shop,
  t: Program,
  isSo: () => boolean,
  answers: Answers = () => null,
): Promise<void> {
  let unanswered = 0;
  while (!isSo()) {
    const before = shop.journalBytes();
    const card = cardUp(shop);
    const steps = (card === undefined ? null : answers(card)) ?? ['enter'];
    const about = `an answer to ${aboutSteps(steps)} at ${JSON.stringify(card ?? 'no card')}`;
    const { isThere, patienceMs } = answerTo(t, () => isSo() || shop.journalBytes() > before);
    const waited = pressSteps(t, steps).then(() => t.waitFor(isThere, about, patienceMs));
    unanswered += 1;
    await (unanswered < tries ? waited.catch(() => (unanswered > 1 ? closeFlow(t) : undefined)) : waited);
    if (shop.journalBytes() > before) unanswered = 0;
  }
}

/** Whether work is at an operation with no card before the next piece. */
export const isWorkingAt = (shop: Shop, operation: number) => (): boolean => {
  const { current, cells, cards } = shop.state();
  return cards.length === 0 && current !== null && cells[current]?.operation === operation;
};

/** Good pieces of an operation, over its lanes. */
export const goodAt = (shop: Shop, operation: number): number =>
  shop
    .state()
    .cells.filter((cell) => cell.operation === operation)
    .reduce((sum, cell) => sum + cell.good, 0);

/** Goes to an operation by the list of the menu. */
export async function goTo(shop: Shop, t: Program, operation: number): Promise<void> {
  const row = shop.state().cells.findIndex((cell) => cell.operation === operation);
  const down = Array.from({ length: row }, (): KeyPress => 'down');
  const way = ['/', line('work:'), line('other operation'), ...down, 'enter'];
  const begun = await perform(shop, t, 'OperationBegun', way);
  if (begun.operation !== operation) throw new Error(`work went to operation ${begun.operation}, not ${operation}`);
}
