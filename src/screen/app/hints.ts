/** The keys that work now, as the last row names them: of a card's own answers first, then of the binding table. */
import { type Step, stepOf } from '../flow/flow.ts';
import { hintsFor } from '../keys/binding-table.ts';
import { fieldOf } from './card-answer.ts';
import { batchOf, cardOf, momentOf } from './key-moments.ts';
import type { AppState } from './state.ts';

/** As many whole hints as fit into `columns`. */
export function hintsOf(app: AppState, columns: number): readonly string[] {
  const step = app.flow === null ? undefined : stepOf(app.flow);
  if (step !== undefined) return stepHints(step, app.flow?.typed ?? '');
  if (app.page !== null) return ['Up Down leaf', 'Esc or / back'];
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
      return [step.isGrave === true ? 'digit take' : 'digit or Enter take', 'Up Down move', 'Esc or / back'];
    case 'press':
      return ['Esc back'];
    default:
      return step satisfies never;
  }
}

function batchHints(app: AppState, columns: number): readonly string[] {
  if (app.lookAt !== null) return ['Left Right other operation', 'n go there', '5 back to the work'];
  const batch = batchOf(app);
  if (batch !== null && batch.kind !== 'open') return ['Enter leave', 'Down report', '? keys'];
  const card = cardOf(app);
  if (app.ahead !== 0 && card === undefined && batch !== null) return ['Up Down other point', '5 back to the work'];
  const own = card === undefined || batch === null ? [] : answerHints(fieldOf(card, batch), app.typed);
  const used = own.reduce((sum, hint) => sum + hint.length + 3, 0);
  const rest = hintsFor(app.table, momentOf(app), columns - used);
  const taken = own.map((hint) => hint.split(' ')[0]);
  return [...own, ...rest.filter((hint) => !taken.includes(hint.split(' ')[0]))];
}

function answerHints(field: ReturnType<typeof fieldOf>, typed: string): readonly string[] {
  switch (field) {
    case 'none':
      return [];
    case 'yes or no':
      return ['y yes', 'n no', 'Enter skip'];
    case 'length':
      return typed === '' ? ['type the value', 'Enter skip'] : ['Enter take', 'Backspace digit', '- all'];
    case 'pieces':
      return typed === '' ? ['Enter as shown', 'or type'] : ['Enter take', 'Backspace digit', '- all'];
    default:
      return field satisfies never;
  }
}
