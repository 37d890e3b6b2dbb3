/**
 * An interview as a generator: it yields what is to be asked or said and is given the answers, so that it knows neither
 * terminal nor file and a test can hold it with a list of answers. Whoever leads it may stop at any time.
 */
import { formatRefusal, type Result } from '../../shop/refusal.ts';

export type Turn =
  /** To be answered; an empty answer takes the fallback where there is one. */
  | { readonly kind: 'ask'; readonly text: string; readonly fallback: string | null }
  | { readonly kind: 'say'; readonly text: string };

/** Yields turns, takes an answer for each (of a `say` it is not looked at), ends with what came of it. */
export type Interview<Outcome> = Generator<Turn, Outcome, string>;

/** Answers why an answer will not do, or undefined when it will. */
type Judge = (answer: string) => string | undefined;

/** Asks until the answer will do; the answer is trimmed. Without a fallback an empty answer goes to the judge too. */
export function* ask(text: string, fallback: string | null, judge: Judge): Interview<string> {
  for (;;) {
    const given = (yield { kind: 'ask', text, fallback }).trim();
    const answer = given === '' && fallback !== null ? fallback : given;
    const wrong = judge(answer);
    if (wrong === undefined) return answer;
    yield { kind: 'say', text: wrong };
  }
}

/** Asks for one of a few words; the beginning of one is enough. */
export function* askOneOf<Word extends string>(
  text: string,
  known: readonly Word[],
  fallback: Word | null,
): Interview<Word> {
  const meant = (answer: string): readonly Word[] => {
    const tidy = answer.toLowerCase();
    const exact = known.filter((word) => word.toLowerCase() === tidy);
    return exact.length > 0 || tidy === '' ? exact : known.filter((word) => word.toLowerCase().startsWith(tidy));
  };
  const answer = yield* ask(`${text} (${known.join(', ')})`, fallback, (given) =>
    meant(given).length === 1 ? undefined : `One of: ${known.join(', ')}.`,
  );
  return meant(answer)[0] as Word;
}

/** Judges by a reader of shop arithmetic. */
export const readBy =
  (read: (text: string) => Result<unknown>): Judge =>
  (answer) => {
    const result = read(answer);
    return result.ok ? undefined : `${formatRefusal(result.problem)}.`;
  };

/** Judges a name or title: some words of printable text. */
export const someWords: Judge = (answer) => {
  if (answer === '') return 'Some words, please.';
  if (/[\p{Cc}\u200b-\u200f\u2028-\u202e\u2060-\u2069]/u.test(answer)) return 'Printable text, please.';
  return answer.length > 120 ? 'At most 120 characters.' : undefined;
};

/** An empty answer will do, else as `judge` says. */
export const orNothing =
  (judge: Judge): Judge =>
  (answer) =>
    answer === '' ? undefined : judge(answer);
