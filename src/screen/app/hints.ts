/** The keys that work now, as the last row names them: of a card's own answers first, then of the binding table. */
import { type Step, stepOf } from '../flow/flow.ts';
import { hintsFor, pairHint } from '../keys/binding-table.ts';
import { type CardField, fieldOf } from './card-answer.ts';
import { batchOf, cardOf, momentOf } from './key-moments.ts';
import type { AppState } from './state.ts';

/** As many whole hints as fit into `columns`. */
export function hintsOf(app: AppState, columns: number): readonly string[] {
  const step = app.flow === null ? undefined : stepOf(app.flow);
  if (step !== undefined) return stepHints(step, app.flow?.typed ?? '');
  if (app.page !== null) return [pairHint(app.table, points, 'leaf'), 'Esc or / back'];
  switch (app.stage.kind) {
    case 'ask to take':
      return ['y take it over', 'Enter only look', 'q leave'];
    case 'look':
      return ['Enter try again', 'q leave'];
    case 'stopped':
      return [...(app.stage.canBeTaken === null ? [] : ['w open it all the same']), 'Enter leave'];
    case 'fault':
      return ['Enter leave'];
    case 'loading':
      return [];
    case 'choose':
    case 'batch':
      return batchHints(app, columns);
    default:
      return app.stage satisfies never;
  }
}

/** A bare keypad has no Esc: there / goes back, wherever it is not text. */
function stepHints(step: Step, typed: string): readonly string[] {
  switch (step.kind) {
    case 'entry':
      if (step.entry === 'text') return ['Enter take', 'Esc back'];
      return ['Enter take', ...(typed === '' ? [] : ['- all']), 'Esc or / back'];
    case 'choice':
      return [step.isGrave === true ? '1-9 take' : '1-9 or Enter take', '- or Down next', 'Esc or / back'];
    case 'press':
      return ['Esc back'];
    default:
      return step satisfies never;
  }
}

const points = ['look-point-before', 'look-point-after'] as const;
const operations = ['look-operation-before', 'look-operation-after'] as const;
const back = '5 back';

function batchHints(app: AppState, columns: number): readonly string[] {
  const { table } = app;
  if (app.lookAt !== null) return [back, pairHint(table, operations, 'operation'), 'n go there'];
  const batch = batchOf(app);
  if (batch !== null && batch.kind !== 'open') return ['Enter leave', '2 or Down report', '? keys'];
  const card = cardOf(app);
  if (app.ahead !== 0 && card === undefined && batch !== null) return [back, pairHint(table, points, 'point')];
  const field = card === undefined || batch === null ? 'none' : fieldOf(card, batch);
  const own = app.stage.kind === 'choose' ? [pairHint(table, points, 'move')] : answerHints(field, app.typed);
  const used = own.reduce((sum, hint) => sum + hint.length + 3, 0);
  return [...own, ...hintsFor(table, momentOf(app), columns - used, takenBy(field, app.typed))];
}

function answerHints(field: CardField, typed: string): readonly string[] {
  switch (field) {
    case 'none':
      return [];
    case 'yes or no':
      return ['y or 1 yes', 'n or 0 no', 'Enter skip'];
    case 'length':
      return typed === '' ? ['type the value', 'Enter skip'] : ['Enter take', 'Backspace digit', '- all'];
    case 'pieces':
      return typed === '' ? ['Enter as shown', 'or type'] : ['Enter take', 'Backspace digit', '- all'];
    default:
      return field satisfies never;
  }
}

const digits = ['0', '1', '2', '3', '4', '5', '6', '7', '8', '9', '.'] as const;

/** Keys that go into the answer of a card, so that they mean nothing else while it is up. */
function takenBy(field: CardField, typed: string): readonly string[] {
  switch (field) {
    case 'none':
      return [];
    case 'yes or no':
      return ['Enter', 'y', 'n', '1', '0'];
    case 'length':
    case 'pieces':
      return ['Enter', ...digits, ...(typed === '' ? [] : ['Backspace', '-'])];
    default:
      return field satisfies never;
  }
}
