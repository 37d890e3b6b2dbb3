/**
 * The menu: everything that can be done, in two levels of at most nine lines, so that one digit chooses on a keypad without
 * looking. What a line needs to know is asked by the steps behind it.
 */
import type { Batch } from '../../batch/state.ts';
import type { Action, Next, Step } from '../flow/flow.ts';
import type { OwnKeys } from '../keys/binding-table.ts';
import { correctStep } from './correct-step.ts';
import { screenMenu, type Table } from './key-menu.ts';
import type { PageName } from './pages.ts';
import { skippedStep } from './skipped-step.ts';
import { choice, open, ownReasonStep, send, textEntry } from './steps.ts';
import { suspectsStep } from './suspect-steps.ts';
import { tonightStep, whatIfStep } from './what-if-steps.ts';
import {
  goToStep,
  makeMoreStep,
  noteStep,
  pauseStep,
  recountStep,
  rejectStep,
  reworkStep,
  trialStep,
} from './work-steps.ts';

const act = (action: Action): Next => ({ kind: 'do', action });
const page = (name: PageName): Next => act({ kind: 'page', page: name });

/** Everything that can be done now, in groups. */
export function mainMenu(batch: Batch, table: Table, ownKeys: OwnKeys): Step {
  return choice('WHAT', [
    { label: 'pieces: reject, rework, recount, trial, make more', next: open(piecesMenu(batch)) },
    { label: 'machine: correct a target, tool changed, bumped, zero proved', next: open(machineMenu(batch)) },
    { label: 'work: other operation, how to count, initials, note', next: open(workMenu(batch)) },
    { label: 'show: finish and what it rests on, report, cautions, keys', next: open(showMenu()) },
    { label: 'batch: leave, finish, give up, take up a changed plan', next: open(batchMenu(batch)) },
    { label: 'screen: digit size, keys, hand', next: open(screenMenu(table, ownKeys)) },
  ]);
}

function piecesMenu(batch: Batch): Step {
  return choice('PIECES', [
    { label: 'reject', next: open(rejectStep(batch)) },
    { label: 'rework: send a piece back to an operation', next: open(reworkStep(batch)) },
    { label: 'recount the tray', next: open(recountStep()) },
    { label: 'trial piece made, counted apart', next: open(trialStep()) },
    { label: 'make more than the plan says', next: open(makeMoreStep(batch)) },
    { label: 'suspect pieces: good, kept or scrap, all or some', next: open(suspectsStep(batch)) },
    { label: 'first-off skipped: leave it at that', next: open(skippedStep(batch)) },
  ]);
}

function machineMenu(batch: Batch): Step {
  return choice('MACHINE', [
    { label: 'correct a target: "reads 3.06, take 0.06 less"', next: open(correctStep(batch)) },
    { label: 'tool changed', next: send({ kind: 'toolChanged', sharpened: false }) },
    { label: 'tool sharpened', next: send({ kind: 'toolChanged', sharpened: true }) },
    { label: 'bumped', next: send({ kind: 'bumped' }) },
    { label: 'zero proved', next: send({ kind: 'zeroProved' }) },
  ]);
}

function workMenu(batch: Batch): Step {
  return choice('WORK', [
    { label: 'other operation', next: open(goToStep(batch)) },
    { label: 'count point by point', next: send({ kind: 'changeCounting', counting: 'point' }) },
    { label: 'count piece by piece', next: send({ kind: 'changeCounting', counting: 'piece' }) },
    { label: 'count load by load', next: send({ kind: 'changeCounting', counting: 'load' }) },
    {
      label: 'initials of who works',
      next: open(
        textEntry(
          'INITIALS: who carries on',
          (by) => act({ kind: 'hand over', by }),
          act({ kind: 'hand over', by: null }),
        ),
      ),
    },
    { label: 'note', next: open(noteStep()) },
    { label: 'pause with a reason', next: open(pauseStep()) },
  ]);
}

function showMenu(): Step {
  return choice('SHOW', [
    { label: 'when it ends, and what that rests on', next: page('finish') },
    { label: 'what if: I stop at, I make more, so many loads', next: open(whatIfStep()) },
    { label: 'report so far', next: page('report') },
    { label: 'cautions of this work', next: page('cautions') },
    { label: 'keys', next: page('keys') },
    { label: 'tonight until: open longer or close earlier', next: open(tonightStep()) },
  ]);
}

function batchMenu(batch: Batch): Step {
  const finishShort: Step = ownReasonStep(
    'FINISH SHORT: why?',
    ['no more material', 'no more time', 'so many are enough'],
    (reason) => send({ kind: 'finish', short: true, reason }),
    ['Pieces that are still under way stay unfinished; the report names them.'],
  );
  const giveUp: Step = textEntry(`GIVE UP: type the name ${batch.plan.job} to do it`, (name) =>
    open(
      textEntry(
        'Why?',
        (reason) => send({ kind: 'giveUp', name, reason }),
        send({ kind: 'giveUp', name, reason: 'not said' }),
      ),
    ),
  );
  return choice('BATCH', [
    { label: 'leave; all is saved and goes on from here', next: act({ kind: 'leave' }) },
    { label: 'finish: all is made', next: send({ kind: 'finish', short: false, reason: null }) },
    { label: 'finish short of the order', next: open(finishShort) },
    { label: 'give the batch up', next: open(giveUp) },
    { label: 'the changed plan file: what changes, take it up or not', next: act({ kind: 'changed plan' }) },
  ]);
}
