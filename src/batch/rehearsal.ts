/**
 * A batch played by an invented operator: the same commands that the keys give, at invented moments. It touches no journal
 * and no clock; chance is an argument, so that one seed always plays the same evening. For rehearsing a plan and for tests.
 */
import type { Card } from './cards.ts';
import type { CardAnswer, Command } from './commands.ts';
import type { Opening } from './decide/opening.ts';
import { decide } from './decide.ts';
import type { BatchEvent } from './events.ts';
import { foldLine } from './evolve.ts';
import { cellAt, inHandAt, placeAt } from './flow.ts';
import type { Instant } from './instant.ts';
import { type Batch, type BatchState, noBatch } from './state.ts';

export type RehearsedLine = { readonly at: Instant; readonly command: Command; readonly events: readonly BatchEvent[] };

export type Rehearsal = { readonly state: Batch; readonly lines: readonly RehearsedLine[]; readonly ended: Instant };

/** Uniform numbers from 0 up to 1 from a seed, always the same ones (a linear congruence; no use for secrets). */
export function seededChance(seed: number): () => number {
  let value = seed >>> 0;
  return () => {
    value = (Math.imul(value, 1_664_525) + 1_013_904_223) >>> 0;
    return value / 2 ** 32;
  };
}

/** A command at most every so often; a batch of 10,000 pieces with points stays far below. */
const mostCommands = 400_000;
const scrapShare = 0.01;
const pauseShare = 0.02;

/**
 * Plays a whole batch of the plan in `opening` from `start` on.
 *
 * @throws a bug when the operator gets stuck: every open batch must lead on with Enter
 */
export function rehearse(opening: Opening, start: Instant, chance: () => number): Rehearsal {
  const lines: RehearsedLine[] = [];
  let state: BatchState = noBatch;
  let at = start;
  const give = (command: Command, after_s: number): void => {
    const ms = Math.round(after_s * 1000);
    at = { ...at, wall_ms: at.wall_ms + ms, mono_ms: at.mono_ms + ms };
    const outcome = decide(state, command, command.kind === 'openBatch' ? { at, opening } : { at });
    if (outcome.kind === 'refused') throw new Error(`the rehearsal was refused ${command.kind}: ${outcome.reason}`);
    state = foldLine(state, { at, events: outcome.events });
    lines.push({ at, command, events: outcome.events });
  };
  give({ kind: 'openBatch' }, 0);
  give({ kind: 'beginSitting', by: null, host: 'rehearsal' }, 1);
  for (let count = 0; count < mostCommands; count += 1) {
    const batch: BatchState = state;
    if (batch.kind === 'none') throw new Error('the rehearsal was not opened');
    if (batch.kind !== 'open') return { state: batch, lines, ended: at };
    const card = batch.cards[0];
    if (card !== undefined) passCard(batch, card, chance, give);
    else work(batch, chance, give);
  }
  throw new Error('the rehearsal did not come to an end');
}

type Give = (command: Command, after_s: number) => void;

function passCard(batch: Batch, card: Card, chance: () => number, give: Give): void {
  const seconds = cardSeconds(batch, card) * lognormal(chance, 0.25);
  give(
    { kind: 'passCard', id: card.id, shown_ms: Math.round(seconds * 1000), answer: answerTo(batch, card, chance) },
    seconds,
  );
}

function answerTo(batch: Batch, card: Card, chance: () => number): CardAnswer {
  if (card.kind !== 'check') return { kind: 'pass' };
  const check = batch.plan.operations
    .find((one) => one.number === card.operation)
    ?.checks.find((one) => one.id === card.check);
  if (check === undefined) return { kind: 'pass' };
  if (check.what.kind === 'yes or no') return { kind: 'yes or no', yes: true };
  const { lower, upper } = check.what;
  // The middle half of the limits: an invented operator who does well.
  const share = 0.25 + 0.5 * chance();
  return { kind: 'value', value: Math.round((lower + (upper - lower) * share) * 1000) / 1000 };
}

/** Setting takes what the plan says, shared over its cards; other cards take a moment. */
function cardSeconds(batch: Batch, card: Card): number {
  const operation = batch.plan.operations.find((one) => one.number === card.operation);
  if (card.kind === 'setup') return Math.max(60, (operation?.estimate.setup ?? 600) * 0.6);
  if (card.kind === 'zero' || card.kind === 'z zero' || card.kind === 'tool') return 45;
  if (card.kind === 'check') return 25;
  return 8;
}

function work(batch: Batch, chance: () => number, give: Give): void {
  if (batch.current === null) throw new Error('the rehearsal stands nowhere');
  const cell = cellAt(batch, batch.current);
  const { operation } = placeAt(batch, batch.current);
  const hand = inHandAt(batch, batch.current);
  const planned = Math.max(3, operation.estimate.piece * Math.max(1, hand.pieces));
  const seconds = (planned / Math.max(1, hand.stops.length)) * lognormal(chance, 0.18);
  const isBeforeLoad = cell.load.size === 0;
  if (isBeforeLoad && chance() < pauseShare) {
    give({ kind: 'pause', reason: 'telephone' }, seconds / 2);
    give({ kind: 'resume' }, 120 + 300 * chance());
    return;
  }
  const isLastStop = hand.stop >= hand.stops.length - 1;
  give({ kind: 'count', quick: false }, seconds);
  if (isLastStop && chance() < scrapShare && batch.plan.spares > 0) {
    give({ kind: 'reject', place: null, pieces: 1, counted: true, reason: 'surface or burr' }, 5);
  }
}

/** About 1, right-skewed: sum of twelve uniforms as a normal, raised. */
function lognormal(chance: () => number, deviation: number): number {
  let sum = -6;
  for (let count = 0; count < 12; count += 1) sum += chance();
  return Math.exp(deviation * sum);
}
