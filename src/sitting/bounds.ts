/**
 * How much a state may hold besides its counts, so that every journal is folded in time (P8): a correction, a range of
 * suspect pieces or a name is copied with each that follows. Far above what a batch comes to. The same bounds are asked before
 * a line is written and when it is read, so that no line is written that could not be read again.
 */
import { bounds } from '../batch/decide/decision.ts';
import { boundsProblem } from '../batch/decide/opening.ts';
import { startQuantity } from '../batch/lanes.ts';
import type { Batch, BatchState, Cell } from '../batch/state.ts';

/** Most corrections, ranges of suspect pieces, plans not taken, of one batch. */
const most = { corrections: 2000, suspects: 1000, declinedPlans: 1000, cards: 500 } as const;
/** Most names of one kind: a plan has 200 tools at most. */
const mostNames = 500;

/** Why the state that follows on `before` holds more than a batch may, or null. Asks only for what has changed. */
export function heldProblem(before: BatchState, next: Batch): string | null {
  const was = before.kind === 'none' ? null : before;
  return sizeProblem(was, next) ?? listProblem(was, next) ?? nameProblem(was, next) ?? cellProblem(was, next);
}

/**
 * The bounds that opening keeps, kept on reading too: reckoning beyond them would take for ever. Pieces begun besides the
 * plan's may have been followed by a larger plan, so together they may be twice as many.
 */
function sizeProblem(was: Batch | null, { plan, more }: Batch): string | null {
  if (was !== null && was.plan === plan && was.more === more) return null;
  const problem = boundsProblem(plan);
  if (problem !== null) return `it is of a batch that is too large: ${problem}`;
  return startQuantity(plan) + more > 2 * bounds.pieces ? 'it begins more pieces than a batch may have' : null;
}

function listProblem(was: Batch | null, next: Batch): string | null {
  for (const list of ['corrections', 'suspects', 'declinedPlans', 'cards'] as const) {
    if (was?.[list] !== next[list] && next[list].length > most[list])
      return `it is one of more than ${most[list]} ${words[list]} of one batch`;
  }
  return null;
}

const words: Readonly<Record<keyof typeof most, string>> = {
  corrections: 'corrections',
  suspects: 'ranges of suspect pieces',
  declinedPlans: 'changed plans that were not taken',
  cards: 'cards at once',
};

function nameProblem(was: Batch | null, next: Batch): string | null {
  for (const names of ['machines', 'holesAtChange', 'allotted'] as const) {
    if (was?.[names] !== next[names] && Object.keys(next[names]).length > mostNames) return tooManyNames;
  }
  const { restored, machines } = next;
  if (was?.restored !== restored && restored.length > mostNames) return tooManyNames;
  const isNew = was?.machines !== machines;
  return isNew && Object.values(machines).some(({ tools }) => tools.length > mostNames) ? tooManyNames : null;
}

const tooManyNames = `it names more than ${mostNames} tools, machines, checks or lanes in one batch`;

function cellProblem(was: Batch | null, { cells }: Batch): string | null {
  const known: readonly Cell[] = was?.cells ?? [];
  if (known === cells) return null;
  for (let at = 0; at < cells.length; at += 1) {
    const old = known[at];
    const cell = cells[at];
    if (old === cell || cell === undefined || old?.checks === cell.checks) continue;
    if (Object.keys(cell.checks).length > mostNames) return tooManyNames;
  }
  return null;
}
