/** The questions behind the lines of the menu: what a command needs, asked step by step, the shortest way first. */
import { cellAt, inHandAt, placeAt, waitingAt } from '../../batch/flow.ts';
import type { Batch } from '../../batch/state.ts';
import type { Choice, Next, Step } from '../flow/flow.ts';
import { laneName, placeName } from '../moments/place-names.ts';
import { placeWhere } from '../moments/place-where.ts';
import { choice, close, open, piecesEntry, reasonStep, send, textEntry } from './steps.ts';

/** Places of a load that are listed one by one; of more, the number is typed. */
const listedPlaces = 8;

/** Reject: the piece in hand, a place of the load that still holds its piece, or some of the last load; then the reason. */
export function rejectStep(batch: Batch): Step {
  const cell = batch.current === null ? undefined : batch.cells[batch.current];
  const counted = cell?.lastGood ?? 0;
  const reject = (which: number | null, pieces: number, isCounted: boolean): Next =>
    open(reasonStep('WHY?', (reason) => send({ kind: 'reject', place: which, pieces, counted: isCounted, reason })));
  const inHand = inHandChoices(batch, (place) => reject(place, 1, false));
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

function inHandChoices(batch: Batch, reject: (place: number | null) => Next): readonly Choice[] {
  const hand = batch.current === null ? null : inHandAt(batch, batch.current);
  const places = Array.from({ length: hand?.size ?? 1 }, (_, i) => i + 1);
  const held = places.filter((place) => hand?.rejected.includes(place) !== true);
  if (places.length <= 1) return [{ label: 'the piece in hand', next: reject(null) }];
  if (held.length > listedPlaces) {
    return [
      {
        label: `one of the ${held.length} in hand: type its place`,
        next: open(placeEntry(held, places.length, reject)),
      },
    ];
  }
  return held.map((place) => ({
    label: `place ${place} of the load in hand${whereWords(batch, place, places.length)}`,
    next: reject(place),
  }));
}

/** ", at the fixed jaw": where one stands before the load, its number alone has no end to count from. */
function whereWords(batch: Batch, place: number, size: number): string {
  if (batch.current === null) return '';
  const id = placeAt(batch, batch.current).operation.setup;
  const setup = batch.plan.setups.find((one) => one.id === id);
  const words = placeWhere(batch.plan, setup, place, size);
  return words === '' ? '' : `, ${words}`;
}

function placeEntry(held: readonly number[], most: number, reject: (place: number) => Next): Step {
  return {
    kind: 'entry',
    prompt: `WHICH PLACE, 1 TO ${most}?`,
    about: [],
    entry: 'pieces',
    onEmpty: close,
    take: (text) =>
      held.includes(Number(text)) ? reject(Number(text)) : `no piece lies in place ${text} of this load`,
  };
}

export function reworkStep(batch: Batch): Step {
  const here = batch.current === null ? 0 : cellAt(batch, batch.current).operation;
  const upToHere = batch.cells.map((cell) => cell.operation).filter((operation) => operation <= here);
  const operations = [...new Set(upToHere)].slice(-9);
  return choice(
    'REWORK: send one piece of the last load back to',
    operations.map((to) => ({
      label: `operation ${to}`,
      next: open(reasonStep('WHY?', (reason) => send({ kind: 'rework', to, pieces: 1, reason }))),
    })),
  );
}

export function recountStep(): Step {
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

export function trialStep(): Step {
  return textEntry(
    'TRIAL PIECE: a word about it, or Enter',
    (note) => send({ kind: 'trial', note }),
    send({ kind: 'trial', note: null }),
  );
}

export function makeMoreStep(batch: Batch): Step {
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

export function goToStep(batch: Batch): Step {
  return choice(
    'GO TO',
    batch.cells.map((cell, at) => ({
      label: `${placeName(batch.plan, cell.operation, cell.lane).replace(/^Op/, 'op').replace(/ {2,}/g, ', ')}, ${waitingAt(batch, at)} waiting`,
      next: send({ kind: 'goTo', operation: cell.operation, lane: cell.lane }),
    })),
  );
}

/** A line for the record of the batch. */
export function noteStep(): Step {
  return textEntry('NOTE', (text) => send({ kind: 'note', text }));
}

/** Why work stops, for the report; Enter alone gives no reason. */
export function pauseStep(): Step {
  return choice('PAUSE: why? (Enter: no reason)', [
    { label: 'no reason', next: send({ kind: 'pause', reason: null }) },
    ...['meal', 'telephone', 'somebody came', 'looking for a tool', 'waiting'].map((reason) => ({
      label: reason,
      next: send({ kind: 'pause', reason }),
    })),
  ]);
}
