/**
 * The menu and the questions behind its lines: what a command needs is asked step by step (flow.ts), the shortest way
 * first. Two levels of at most nine lines, so that one digit chooses on a keypad without looking.
 */
import type { Card } from '../../batch/cards.ts';
import type { Command } from '../../batch/commands.ts';
import { inHandAt, waitingAt } from '../../batch/flow.ts';
import type { Batch } from '../../batch/state.ts';
import { asMm } from '../../shop/quantities.ts';
import { inchesToMm } from '../../shop/units.ts';
import { type Action, type Choice, type Next, parsePieces, parseTyped, type Step } from '../flow/flow.ts';
import type { OwnKeys } from '../keys/binding-table.ts';
import { lengthWithUnit } from '../moments/axis-text.ts';
import { laneName } from '../moments/place-names.ts';
import { type Target, targetAt } from '../moments/targets.ts';
import { screenMenu, type Table } from './key-menu.ts';
import type { PageName } from './pages.ts';

const close: Next = { kind: 'close' };
const send = (command: Command): Next => ({ kind: 'send', command });
const open = (step: Step): Next => ({ kind: 'step', step });
const act = (action: Action): Next => ({ kind: 'do', action });
const page = (name: PageName): Next => act({ kind: 'page', page: name });

function choice(prompt: string, options: readonly Choice[], about: readonly string[] = []): Step {
  return { kind: 'choice', prompt, about, options };
}

function textEntry(
  prompt: string,
  take: (text: string) => Next,
  onEmpty: Next = close,
  about: readonly string[] = [],
): Step {
  return { kind: 'entry', prompt, about, entry: 'text', onEmpty, take };
}

function piecesEntry(
  prompt: string,
  most: number,
  take: (pieces: number) => Next,
  about: readonly string[] = [],
): Step {
  return {
    kind: 'entry',
    prompt,
    about,
    entry: 'pieces',
    onEmpty: close,
    take: (text) => {
      const pieces = parsePieces(text, 0, most);
      return typeof pieces === 'string' ? pieces : take(pieces);
    },
  };
}

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
    { label: 'suspect pieces: measured and good', next: open(clearSuspectsStep(batch)) },
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
        textEntry('INITIALS', (by) => send({ kind: 'giveInitials', by }), send({ kind: 'giveInitials', by: null })),
      ),
    },
    { label: 'note', next: open(noteStep()) },
    { label: 'pause with a reason', next: open(pauseStep()) },
  ]);
}

function showMenu(): Step {
  return choice('SHOW', [
    { label: 'when it ends, and what that rests on', next: page('finish') },
    { label: 'report so far', next: page('report') },
    { label: 'cautions of this work', next: page('cautions') },
    { label: 'keys', next: page('keys') },
  ]);
}

function batchMenu(batch: Batch): Step {
  const finishShort: Step = textEntry(
    'FINISH SHORT: why?',
    (reason) => send({ kind: 'finish', short: true, reason }),
    close,
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
    { label: 'take up the changed plan file', next: send({ kind: 'amend' }) },
  ]);
}

const reasons = [
  'size out',
  'surface or burr',
  'wrong place',
  'tool broke',
  'material',
  'wrong setup',
  'dropped or knocked',
] as const;

function reasonStep(prompt: string, take: (reason: string) => Next): Step {
  return choice(prompt, [
    ...reasons.map((reason) => ({ label: reason, next: take(reason) })),
    { label: 'other: type it', next: open(textEntry('REASON', take, take('not said'))) },
  ]);
}

/** Reject: the piece in hand, a place of the load, or some of the last load; then the reason. */
export function rejectStep(batch: Batch): Step {
  const cell = batch.current === null ? undefined : batch.cells[batch.current];
  const place = batch.current === null ? undefined : batch.lanes.places[batch.current];
  const loadSize = place?.operation.loadSize ?? 1;
  const counted = cell?.lastGood ?? 0;
  const reject = (which: number | null, pieces: number, isCounted: boolean): Next =>
    open(reasonStep('WHY?', (reason) => send({ kind: 'reject', place: which, pieces, counted: isCounted, reason })));
  const inHand: Choice[] =
    loadSize === 1
      ? [{ label: 'the piece in hand', next: reject(null, 1, false) }]
      : Array.from({ length: Math.min(loadSize, 6) }, (_, index) => ({
          label: `place ${index + 1} of the load in hand`,
          next: reject(index + 1, 1, false),
        }));
  const before: Choice[] =
    counted === 0
      ? []
      : counted === 1
        ? [{ label: 'the piece counted last', next: reject(null, 1, true) }]
        : [
            {
              label: `of the ${counted} counted last`,
              next: open(piecesEntry('HOW MANY?', counted, (n) => reject(null, n, true))),
            },
          ];
  return choice('REJECT', [...inHand, ...before]);
}

function reworkStep(batch: Batch): Step {
  const operations = [...new Set(batch.cells.map((cell) => cell.operation))].slice(0, 9);
  return choice(
    'REWORK: send one piece of the last load back to',
    operations.map((to) => ({
      label: `operation ${to}`,
      next: open(reasonStep('WHY?', (reason) => send({ kind: 'rework', to, pieces: 1, reason }))),
    })),
  );
}

function recountStep(): Step {
  return piecesEntry('COUNT: how many good pieces lie in the tray?', 10_000, (good) =>
    open(
      textEntry(
        'Why does it differ?',
        (reason) => send({ kind: 'recount', good, reason }),
        send({ kind: 'recount', good, reason: 'recounted' }),
      ),
    ),
  );
}

function trialStep(): Step {
  return textEntry(
    'TRIAL PIECE: a word about it, or Enter',
    (note) => send({ kind: 'trial', note }),
    send({ kind: 'trial', note: null }),
  );
}

function makeMoreStep(batch: Batch): Step {
  const lanes = [
    ...new Set(batch.cells.filter((cell) => cell.operation === batch.cells[0]?.operation).map((cell) => cell.lane)),
  ];
  const ask = (lane: string): Next =>
    open(
      piecesEntry('MAKE MORE: how many?', 10_000, (pieces) =>
        pieces === 0 ? close : open(reasonStep('WHY?', (reason) => send({ kind: 'makeMore', pieces, lane, reason }))),
      ),
    );
  const [only] = lanes;
  if (lanes.length === 1 && only !== undefined) {
    const next = ask(only);
    if (next.kind === 'step') return next.step;
  }
  return choice(
    'MAKE MORE OF',
    lanes.map((lane) => ({ label: laneName(batch.plan, lane) || 'all kinds', next: ask(lane) })),
  );
}

function correctStep(batch: Batch): Step {
  const target = targetInHand(batch);
  const isInch = batch.plan.units === 'inch';
  const axis = (name: 'x' | 'y' | 'z' | 'stop', label: string, value: number | null): Choice[] =>
    value === null
      ? []
      : [
          {
            label: `${label}, now ${lengthWithUnit(asMm(value), batch.plan.units)}`,
            next: open(correctionEntry(isInch, name)),
          },
        ];
  const choices = [
    ...axis('z', 'depth (Z)', target?.z ?? null),
    ...axis('x', 'X', target?.x ?? null),
    ...axis('y', 'Y', target?.y ?? null),
    ...axis('stop', 'stop length', target?.length ?? null),
  ];
  return choice(choices.length === 0 ? 'NOTHING IS WOUND TO HERE' : 'CORRECT', choices);
}

/** By how much, with its sign: a depth by words, for "deeper" is a smaller Z. */
function correctionEntry(isInch: boolean, name: 'x' | 'y' | 'z' | 'stop'): Step {
  const unit = isInch ? 'in' : 'mm';
  const example = isInch ? '.003' : '0.06';
  const how =
    name === 'z'
      ? `Too deep by ${example}: type ${example}. Not deep enough: -${example}.`
      : `Measures ${example} too much: type -${example}. Too little: ${example}.`;
  return {
    kind: 'entry',
    prompt: name === 'z' ? `UP BY HOW MUCH, ${unit}` : `BY HOW MUCH, ${unit}`,
    about: [how, 'The target changes from now on; it can be taken back like a count.'],
    entry: 'number',
    onEmpty: close,
    take: (text) => {
      const value = parseTyped(text);
      if (typeof value === 'string') return value;
      const by = isInch ? inchesToMm(value) : value;
      return open(reasonStep('WHY?', (reason) => send({ kind: 'correct', axis: name, by, reading: null, reason })));
    },
  };
}

function targetInHand(batch: Batch): Target | null {
  if (batch.current === null) return null;
  const { stops, stop } = inHandAt(batch, batch.current);
  const here = stops[stop] ?? stops.at(-1);
  if (here === undefined) return null;
  const target = targetAt(batch, batch.current, here);
  const pass = target.passes.at(-1);
  if (pass === undefined) return target;
  const [fed, stands] = [pass.to, pass.stands];
  return { ...target, z: pass.z, x: pass.feed === 'x' ? fed : stands, y: pass.feed === 'y' ? fed : stands };
}

function clearSuspectsStep(batch: Batch): Step {
  return choice(
    batch.suspects.length === 0 ? 'NO PIECE IS SUSPECT' : 'WHICH?',
    batch.suspects.slice(0, 4).flatMap((one): Choice[] => {
      const { check, from, to } = one;
      const base = { kind: 'clearSuspects' as const, check, from, to };
      const label = `op ${one.operation}, pieces ${from} to ${to}`;
      return [
        { label: `${label}: measured, good`, next: send({ ...base, how: 'measured', reason: 'measured one by one' }) },
        {
          label: `${label}: kept on the owner's word`,
          next: open(textEntry('Why?', (reason) => send({ ...base, how: 'owner', reason }))),
        },
      ];
    }),
  );
}

function goToStep(batch: Batch): Step {
  return choice(
    'GO TO',
    batch.cells.map((cell, at) => ({
      label: `${`op ${cell.operation} ${laneName(batch.plan, cell.lane)}`.trim()}, ${waitingAt(batch, at)} waiting`,
      next: send({ kind: 'goTo', operation: cell.operation, lane: cell.lane }),
    })),
  );
}

/** A line for the record of the batch. */
export function noteStep(): Step {
  return textEntry('NOTE', (text) => send({ kind: 'note', text }));
}

/**
 * The other numbers of a parting, where more than two kinds part: each in turn, the last takes the rest.
 * `given` are those already said; `card` and `shown_ms` go into the command.
 */
export function partingStep(
  batch: Batch,
  card: Extract<Card, { kind: 'parting' }>,
  given: Readonly<Record<string, number>>,
  shown_ms: number,
): Next | string {
  const lanes = Object.keys(card.proposal);
  const total = Object.values(card.proposal).reduce((sum, pieces) => sum + pieces, 0);
  const rest = total - Object.values(given).reduce((sum, pieces) => sum + pieces, 0);
  if (rest < 0) return `only ${total} pieces part here`;
  const missing = lanes.filter((lane) => given[lane] === undefined);
  const [next] = missing;
  if (next === undefined || missing.length === 1) {
    const shares = next === undefined ? given : { ...given, [next]: rest };
    return send({ kind: 'passCard', id: card.id, shown_ms, answer: { kind: 'shares', shares } });
  }
  return open(
    piecesEntry(`HOW MANY ARE ${laneName(batch.plan, next)}?`, rest, (pieces) => {
      const answer = partingStep(batch, card, { ...given, [next]: pieces }, shown_ms);
      return typeof answer === 'string' ? close : answer;
    }),
  );
}

/** Why work stops, for the report; Enter alone gives no reason. */
function pauseStep(): Step {
  return choice('PAUSE: why? (Enter: no reason)', [
    { label: 'no reason', next: send({ kind: 'pause', reason: null }) },
    ...['meal', 'telephone', 'somebody came', 'looking for a tool', 'waiting'].map((reason) => ({
      label: reason,
      next: send({ kind: 'pause', reason }),
    })),
  ]);
}
