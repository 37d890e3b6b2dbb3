/** What becomes of suspect pieces: any range of them, or a part of it that is typed; measured, kept, or scrapped. */
import { cellKey } from '../../batch/lanes.ts';
import { placesBehind } from '../../batch/questions/suspects.ts';
import type { Batch, Suspects } from '../../batch/state.ts';
import type { Choice, Next, Step } from '../flow/flow.ts';
import { operationOf, placeName } from '../moments/place-names.ts';
import { choice, close, open, ownReasonStep, reasonStep, send } from './steps.ts';

/** Pieces of a suspect range that one answer is about. */
type Part = { readonly range: Suspects; readonly from: number; readonly to: number };

const goodEnough = ['it does not matter there', 'who ordered them agrees', 'put right by hand'] as const;

/** Which range, when there are several; then what became of it. */
export function suspectsStep(batch: Batch): Step {
  const wholes = batch.suspects.map((range): Part => ({ range, from: range.from, to: range.to }));
  const [only] = wholes;
  if (only === undefined) return choice('NO PIECE IS SUSPECT', [{ label: 'go back', next: close }]);
  if (wholes.length === 1) return whatStep(batch, only);
  const options = wholes.map(
    (part): Choice => ({
      label: `op ${part.range.operation}, ${piecesText(part)}: ${checkTitle(batch, part.range)}`,
      next: open(whatStep(batch, part)),
    }),
  );
  return choice('WHICH SUSPECT PIECES?', options);
}

function whatStep(batch: Batch, part: Part): Step {
  const { range, from, to } = part;
  const at = { operation: range.operation, lane: range.lane };
  const clear = { kind: 'clearSuspects' as const, check: range.check, from, to, at };
  const word = ownReasonStep('WHY ARE THEY GOOD ENOUGH?', goodEnough, (reason) =>
    send({ ...clear, how: 'owner', reason }),
  );
  const some: Choice[] =
    from === to ? [] : [{ label: 'only some of them: type which', next: open(someStep(batch, part)) }];
  return choice(
    `SUSPECT: ${piecesText(part)}`,
    [
      {
        label: from === to ? 'measured, good' : 'measured one by one, all good',
        next: send({ ...clear, how: 'measured', reason: 'measured one by one' }),
      },
      { label: "kept on the owner's word", next: open(word) },
      { label: 'scrap', next: scrapNext(batch, part) },
      ...some,
    ],
    [`Operation ${range.operation}, ${checkTitle(batch, range)}.`],
  );
}

/** One piece, or the first and the last of some. */
function someStep(batch: Batch, { range, from, to }: Part): Step {
  return {
    kind: 'entry',
    prompt: `WHICH OF ${from} TO ${to}?`,
    about: [`One piece: type ${to}. Several: the first, a minus, the last: ${from}-${to}.`],
    entry: 'range',
    onEmpty: close,
    take: (text) => {
      const part = partOf(text, from, to);
      return typeof part === 'string' ? part : open(whatStep(batch, { range, ...part }));
    },
  };
}

/**
 * The pieces that a text names within `least` to `most`, or why it names none.
 *
 * Example: `partOf('3-4', 2, 6)` is `{ from: 3, to: 4 }`; `partOf('9', 2, 6)` says that 9 is not among them.
 */
export function partOf(
  text: string,
  least: number,
  most: number,
): { readonly from: number; readonly to: number } | string {
  const found = /^(\d{1,6})(?:-(\d{1,6}))?$/.exec(text);
  if (found === null) return `"${text}" names no pieces: type ${most}, or ${least}-${most}`;
  const from = Number(found[1]);
  const to = Number(found[2] ?? found[1]);
  if (from > to) return `${from} comes after ${to}: type ${to}-${from}`;
  const stranger = from < least ? from : to > most ? to : null;
  return stranger === null ? { from, to } : `${stranger} is not among the suspect pieces ${least} to ${most}`;
}

/** Pieces are counted, not numbered: where some lie behind several operations, only the operator knows which. */
function scrapNext(batch: Batch, { range, from, to }: Part): Next {
  const at = { operation: range.operation, lane: range.lane };
  const because = (lieBehind: { readonly operation: number; readonly lane: string }): Next =>
    open(
      reasonStep('SCRAP: WHY?', (reason) =>
        send({ kind: 'scrapSuspects', check: range.check, from, to, at, lieBehind, reason }),
      ),
    );
  const places = placesBehind(batch, range).filter((one) => one.pieces >= to - from + 1);
  const [only] = places;
  if (places.length < 2) return because(only === undefined ? at : { operation: only.operation, lane: only.lane });
  const options = places.map(({ operation, lane, pieces }): Choice => {
    const name = placeName(batch.plan, operation, lane).replace(/ {2,}/g, ', ');
    return { label: `done with ${name}: ${pieces} lie there`, next: because({ operation, lane }) };
  });
  return open(choice('WHERE DO THEY LIE NOW?', options));
}

const piecesText = ({ from, to }: Pick<Part, 'from' | 'to'>): string =>
  from === to ? `piece ${from}` : `pieces ${from} to ${to}`;

function checkTitle(batch: Batch, { operation, lane, check }: Suspects): string {
  const title = operationOf(batch.plan, operation)?.checks.find((one) => one.id === check)?.title ?? check;
  return batch.lanes.positions.has(cellKey(operation, lane)) && lane !== '*' ? `${title}, ${lane}` : title;
}
