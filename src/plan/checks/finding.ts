/** What a check of a plan says, and what a rule is. */
import type { PathStep, Place } from '../read/problem.ts';
import type { CheckAsk } from './ask.ts';

/** `stop`: metal or a person would be hurt by it; `warn`: probably not meant; `note`: worth knowing, nothing is wrong. */
export type Severity = 'stop' | 'warn' | 'note';

/** One thing said of a plan, placed in its text. */
export interface Finding extends Place {
  readonly code: string;
  readonly severity: Severity;
  /** Number of the operation, or null when it belongs to the whole plan. */
  readonly operation: number | null;
  /** A sentence with the numbers in it. */
  readonly message: string;
  /** What would put it right; empty for a note that asks for nothing. */
  readonly tryThis: string;
}

/** What a rule finds, before code and place are added. */
export interface Hit {
  readonly operation: number | null;
  readonly path: readonly PathStep[];
  readonly message: string;
  readonly tryThis: string;
  /** Severity of this hit, where it differs from the rule's. */
  readonly severity?: Severity;
}

/** A rule: one thing that is looked for in every plan. */
export interface Rule {
  /** Short, our own, permanent. */
  readonly code: string;
  /** What it says unless a hit names another: the same thing may be graver or lighter by its numbers. */
  readonly severity: Severity;
  /** The other severities that a hit of it may name. */
  readonly also?: readonly Severity[];
  /** What it catches, one sentence. */
  readonly catches: string;
  /** An example of its message. */
  readonly example: string;
  readonly find: (ask: CheckAsk) => readonly Hit[];
}

const GRAVEST_FIRST: readonly Severity[] = ['stop', 'warn', 'note'];

/** Every severity that a rule can give, the gravest first. */
export const severitiesOf = ({ severity, also = [] }: Pick<Rule, 'severity' | 'also'>): readonly Severity[] =>
  GRAVEST_FIRST.filter((one) => one === severity || also.includes(one));
