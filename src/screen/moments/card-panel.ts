/**
 * What each card shows: the one or two words the hands need, the number to set if there is one, the steps, and the usual
 * cautions at the moment when they matter. A card is passed with the ordinary advance key; nothing here asks twice.
 */
import type { Card } from '../../batch/cards.ts';
import { leftByCell } from '../../batch/expected.ts';
import { cellAt } from '../../batch/flow.ts';
import type { Instant } from '../../batch/instant.ts';
import { orderedIn } from '../../batch/lanes.ts';
import { suspectCount, suspectsAround } from '../../batch/questions/suspects.ts';
import type { Batch, Suspects } from '../../batch/state.ts';
import { backWords } from '../../forecast/away.ts';
import type { ResolvedOperation } from '../../plan/resolved.ts';
import { mainReading } from '../panel/panel.ts';
import { type CardFace, momentCautions, shoutedCard, typedReading, wordsCard } from './card-face.ts';
import { checkCard } from './check-card.ts';
import { laneName, operationOf, placeName } from './place-names.ts';
import { resumeCard } from './resume-card.ts';
import { setupCard, speedCard, toolCard } from './setup-cards.ts';
import { failedWords, suspectPieces } from './suspect-words.ts';
import { correctionCard, depthZeroCard, zeroCard } from './zero-cards.ts';

export type CardInput = {
  readonly batch: Batch;
  readonly typed: string;
  readonly ascii: boolean;
  /** What the plan's checks say of the operation, for its setup card. */
  readonly warnings: readonly string[];
  /** The one line that an operation or a batch comes to. */
  readonly endLine: string;
  readonly now: Instant;
};

/** The face of the card that is up. */
export function cardFace(card: Card, input: CardInput): CardFace {
  const { batch, typed } = input;
  const operation = operationOf(batch.plan, card.operation);
  switch (card.kind) {
    case 'resume':
      return resumeCard(batch, card);
    case 'recount':
      return wordsCard(
        'COUNT THE TRAY',
        ['Type how many good pieces lie there; Enter alone leaves the count as it is.'],
        {
          readings: [
            typed === ''
              ? mainReading(String(card.expected), 'TRAY', 'good pieces by the count')
              : typedReading(typed, 'TRAY', `by the count ${card.expected}`),
          ],
        },
      );
    case 'setup':
      return setupCard(batch, card.setup, operation, input.warnings);
    case 'zero':
      return zeroCard(batch, card, operation);
    case 'z zero':
      return depthZeroCard(batch, card, operation);
    case 'correction':
      return correctionCard(batch, card);
    case 'tool':
      return toolCard(batch, card);
    case 'speed':
      return speedCard(batch, card, input.ascii);
    case 'check':
      return checkCard(batch, card, operation, typed);
    case 'variant':
      return variantCard(batch, card.to);
    case 'parting':
      return partingCard(batch, card, typed);
    case 'suspects':
      return suspectsCard(batch, card);
    case 'shortage':
      return wordsCard(
        'SHORT OF THE ORDER',
        [
          'So many good pieces fewer than ordered will come out.',
          'To make more: / for the menu, 1 pieces, make more. Enter goes on without.',
        ],
        { readings: [mainReading(String(card.short), 'SHORT')] },
      );
    case 'away':
      return awayCard(operation, card, input);
    case 'operation ended':
      return operationEndCard(card, input);
    case 'batch ended':
      return batchEndCard(input);
    default:
      return card satisfies never;
  }
}

function variantCard(batch: Batch, to: string): CardFace {
  const variant = batch.plan.variants.find((one) => one.id === to);
  return wordsCard(
    'FROM HERE THE OTHER KIND',
    [
      `${laneName(batch.plan, to)}.`,
      variant?.marking == null ? '' : `Marking: ${variant.marking}.`,
      'Its own tray; put the other kind out of reach.',
    ],
    { headline: { text: 'FROM HERE', role: 'alarm' }, readings: [mainReading(to.toUpperCase())] },
  );
}

function partingCard(batch: Batch, card: Extract<Card, { kind: 'parting' }>, typed: string): CardFace {
  const shares = Object.entries(card.proposal);
  const [first] = shares;
  const total = shares.reduce((sum, [, pieces]) => sum + pieces, 0);
  const pieces = (count: number): string => `${count} ${count === 1 ? 'piece' : 'pieces'}`;
  const facts = [
    ...shares.map(([lane, count]) => `${laneName(batch.plan, lane)}: ${pieces(count)} to its own tray.`),
    `Enter takes these numbers. Others: type how many are ${first === undefined ? '' : laneName(batch.plan, first[0])}${shares.length === 2 ? '; the rest are the other kind' : ', then the others are asked'}.`,
  ];
  const reading =
    typed === ''
      ? mainReading(shares.map(([, count]) => String(count)).join(' / '), '', `of ${pieces(total)}`)
      : typedReading(typed, '', `of ${pieces(total)} are ${first === undefined ? '' : laneName(batch.plan, first[0])}`);
  return wordsCard('THE KINDS PART HERE', facts, { readings: [reading] });
}

function awayCard(
  operation: ResolvedOperation | undefined,
  card: Extract<Card, { kind: 'away' }>,
  { batch, typed, now }: CardInput,
): CardFace {
  const away = operation?.away;
  const isOut = card.moment === 'out';
  const at = batch.lanes.positions.get(`${card.operation}/${card.lane}`);
  const sent = isOut || at === undefined ? now : (cellAt(batch, at).outSince ?? now);
  const back = backWords(batch.zone, away?.days, sent.wall_ms, now.wall_ms);
  return wordsCard(
    isOut ? 'PIECES GO OUT' : 'PIECES ARE OUT',
    [
      back === '' ? '' : `Away: ${back}.`,
      away == null ? '' : `${isOut ? 'To' : 'With'}: ${away.to}.`,
      ...(away?.changes ?? []).map((change) => `${change.charAt(0).toUpperCase()}${change.slice(1)}.`),
      isOut
        ? 'Enter sends them; type another number if fewer go. Nothing is timed while they are out.'
        : 'When they are back: Enter, or type how many came back. Until then work elsewhere with n.',
    ],
    {
      readings: [
        typed === ''
          ? mainReading(String(card.pieces), 'OUT', isOut ? 'pieces' : 'pieces out')
          : typedReading(typed, isOut ? 'OUT' : 'BACK', `of ${card.pieces}`),
      ],
    },
  );
}

function operationEndCard(card: Extract<Card, { kind: 'operation ended' }>, { batch, endLine }: CardInput): CardFace {
  const at = batch.lanes.positions.get(`${card.operation}/${card.lane}`);
  const cell = at === undefined ? null : cellAt(batch, at);
  const doubtful = at === undefined ? 0 : suspectCount(suspectsAround(batch, at));
  const suspect = doubtful === 0 ? '' : `, ${doubtful} of them SUSPECT`;
  const scrap = cell === null ? '' : `${suspect}${cell.scrap === 0 ? '' : `, ${cell.scrap} scrap`}`;
  const toCome = at === undefined ? 0 : (leftByCell(batch)[at] ?? 0);
  if (cell !== null && toCome > 0) return noneWaitingCard(card, { batch, toCome, counts: `${cell.good} good${scrap}` });
  return wordsCard(
    'OPERATION DONE',
    [
      endLine,
      card.next === null
        ? 'No pieces wait anywhere.'
        : `Next: ${placeName(batch.plan, card.next.operation, card.next.lane).replace(/ {2,}/g, ', ')}.`,
    ],
    {
      headline: { text: 'OPERATION DONE', role: 'good' },
      readings:
        cell === null
          ? []
          : [mainReading(String(cell.good), 'DONE', `good${scrap}; ordered ${orderedIn(batch.plan, cell.lane)}`)],
    },
  );
}

/** Asked when their operation is done: from here on nothing but the tray tells them from good ones. */
function suspectsCard(batch: Batch, { operation, lane }: Card): CardFace {
  const here = batch.suspects.filter((one) => one.operation === operation && one.lane === lane);
  return wordsCard(
    'SUSPECT PIECES: SETTLE THEM NOW?',
    [
      ...here.map((range) => suspectLine(batch, range)),
      '/ 1 6 settles them: measured, kept on the word of the owner, or scrap.',
      'Enter: they are laid apart and marked; every screen names them until they are settled.',
    ],
    {
      headline: { text: 'SUSPECT PIECES: SETTLE THEM NOW?', role: 'alarm' },
      readings: [
        mainReading(String(suspectCount(here)), 'SUSPECT', 'out of limits, or made since the last good check'),
      ],
    },
  );
}

function suspectLine(batch: Batch, range: Suspects): string {
  const title = operationOf(batch.plan, range.operation)?.checks.find((one) => one.id === range.check)?.title;
  return `${suspectPieces(range)}: ${[title ?? range.check, failedWords(batch, range)].filter((word) => word !== '').join(' ')}.`;
}

/** Only those that waited ran out: going on by habit would leave a setup that is wanted again. */
function noneWaitingCard(
  { operation, next }: Extract<Card, { kind: 'operation ended' }>,
  { batch, toCome, counts }: { readonly batch: Batch; readonly toCome: number; readonly counts: string },
): CardFace {
  const [here, there] = [operationOf(batch.plan, operation), next && operationOf(batch.plan, next.operation)];
  const isSetAnew = here?.setup != null && there?.setup != null && there.setup !== here.setup;
  const name = next === null ? '' : placeName(batch.plan, next.operation, next.lane).replace(/ {2,}/g, ', ');
  return wordsCard(
    'NONE WAITING',
    [
      next === null ? 'They wait nowhere now.' : `They come through ${name}: Enter goes there.`,
      isSetAnew && here.machine === there.machine
        ? 'That takes another setup on this machine: this one must be set up anew for the rest.'
        : 'This setup can stay as it is for the rest.',
      '/ 3 1 goes to another operation, and comes back here.',
    ],
    {
      headline: { text: `NONE WAITING, ${toCome} TO COME`, role: 'alarm' },
      readings: [mainReading(String(toCome), 'TO COME', `${counts} so far`)],
    },
  );
}

function batchEndCard({ batch, endLine }: CardInput): CardFace {
  if (batch.suspects.length === 0) {
    return shoutedCard('ALL DONE', [endLine, 'Enter closes the batch; its report is kept.'], {
      cautions: batch.plan.machines.length === 0 ? [] : momentCautions('clean-down', 2),
    });
  }
  return shoutedCard('SUSPECT', [
    'Suspect pieces are still open: settle them first (/ 1 6), or finish short (/ 5).',
    ...batch.suspects.map((range) => `Op ${range.operation}, ${suspectLine(batch, range)}`),
    endLine,
  ]);
}
