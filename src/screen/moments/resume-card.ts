/** Where work was left: the piece and the hole in hand, what is set anew before the next cut and to which value. */
import type { Card } from '../../batch/cards.ts';
import { cellAt, countedAt, inHandAt, placeAt } from '../../batch/flow.ts';
import { machineFor, setupOf } from '../../batch/machines.ts';
import type { Batch } from '../../batch/state.ts';
import { axisOf } from './axis-text.ts';
import { type CardFace, namedCautions, shoutedCard } from './card-face.ts';
import { placeName } from './place-names.ts';
import { stopWords } from './stop-words.ts';
import { targetAt } from './targets.ts';
import { durationText } from './time-words.ts';
import { settingWords } from './zero-cards.ts';

type ResumeCard = Extract<Card, { kind: 'resume' }>;

/** The card after a cut, a long break or a handover. */
export function resumeCard(batch: Batch, card: ResumeCard): CardFace {
  const at = batch.lanes.positions.get(`${card.operation}/${card.lane}`);
  const operation = at === undefined ? undefined : placeAt(batch, at).operation;
  const setup = operation === undefined ? null : setupOf(batch, operation);
  const hasZero = setup !== null && (setup.x !== null || setup.y !== null);
  const where = placeName(batch.plan, card.operation, card.lane).replace(/ {2,}/g, ', ');
  const settings = at === undefined ? '' : settingsDue(batch, at);
  return shoutedCard(
    hasZero ? 'PROVE ZERO' : 'GO ON',
    [
      `You were at ${where}${at === undefined ? '' : inHandWords(batch, at)}.`,
      card.cut
        ? `The program was cut off ${durationText(card.away_ms)} ago; every count that was shown is kept.`
        : `Away ${durationText(card.away_ms)}.`,
      settings === '' ? '' : `Then set, each with its own card: ${settings}.`,
      hasZero
        ? 'Touch off again before the next cut; look whether vice, stop and speed stand as they did.'
        : 'Look whether stop and tools are as they were.',
      'Then the tray is counted.',
    ],
    // Switches and readouts only suffer where the mains went.
    { cautions: card.cut ? namedCautions('ab.switch', 'ab.tight') : namedCautions('ab.tight', 'ab.which') },
  );
}

/** `: piece 13, holes 2, 2 of 2`: what was in hand. */
function inHandWords(batch: Batch, at: number): string {
  const { operation } = placeAt(batch, at);
  const { stops, stop, pieces } = inHandAt(batch, at);
  const here = stops[stop];
  const first = countedAt(cellAt(batch, at)) + 1;
  const piece = pieces > 1 ? `pieces ${first} to ${first + pieces - 1}` : `piece ${first}`;
  if (here === undefined) return `: ${piece}`;
  const machine = batch.plan.machines.find((one) => one.id === operation.machine);
  const target = targetAt(batch, at, here);
  const words = stopWords({ batch, at, operation, machine, target, position: stop, stops: stops.length });
  return `: ${piece}${words === '' ? '' : `, ${words}`}`;
}

/** The zeros of the operation at hand that do not stand, with the value of each: `X +5.00, Y -5.00, Z +0.05`. */
function settingsDue(batch: Batch, at: number): string {
  const { operation } = placeAt(batch, at);
  const setup = setupOf(batch, operation);
  if (setup === null) return '';
  const state = machineFor(batch, operation);
  const machine = batch.plan.machines.find((one) => one.id === setup.machine);
  const { units } = batch.plan;
  const { stops, stop } = inHandAt(batch, at);
  const cut = operation.cuts[(stops[stop] ?? stops.at(-1))?.cut ?? 0];
  const level = (['x', 'y'] as const).flatMap((axis) => {
    const zero = setup[axis];
    if (zero === null || (state.setup === setup.id && state[axis])) return [];
    return [settingWords(axis.toUpperCase(), zero.set, axisOf(machine, axis), units)];
  });
  const stands = state.depths.some((depth) => depth.tool === cut?.tool);
  const depth =
    cut?.zZero === undefined || stands ? [] : [settingWords('Z', cut.zZero.set, axisOf(machine, 'z'), units)];
  return [...level, ...depth].join(', ');
}
