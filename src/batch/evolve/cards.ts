/** How cards come up and what passing one settles. */
import type { Card } from '../cards.ts';
import { chained } from '../chain.ts';
import type { EventOf } from '../events.ts';
import type { Instant } from '../instant.ts';
import { facedBefore, machineKey, operationNumbered } from '../machines.ts';
import { correctedKey } from '../questions/corrections.ts';
import { type Batch, type MachineState, type Suspects, unsetMachine } from '../state.ts';

/** Cards join those that are up, behind them; a check that was asked for stays asked until it is answered. */
export function cardsRaised(batch: Batch, event: EventOf<'CardsRaised'>): Batch {
  const asked = event.cards.flatMap((card) => (card.kind === 'check' && card.due === 'asked' ? [card.check] : []));
  const news = asked.filter((check) => !batch.needs.asked.includes(check));
  return {
    ...batch,
    needs: news.length === 0 ? batch.needs : { ...batch.needs, asked: [...batch.needs.asked, ...news] },
    cards: [...batch.cards, ...event.cards],
    cardsRaised: batch.cardsRaised + event.cards.length,
  };
}

/** A card is answered and goes; one that was not up is a bug. */
export function cardPassed(batch: Batch, event: EventOf<'CardPassed'>, at: Instant): Batch {
  const card = batch.cards.find((up) => up.id === event.id);
  if (card === undefined) throw new Error(`card ${event.id} is not up`);
  const rest = { ...batch, cards: batch.cards.filter((up) => up !== card) };
  const { shown_ms } = event;
  const unproved = event.proved ? batch.unproved : chained(batch.unproved, { card, shown_ms, at });
  return settled({ ...rest, unproved }, card);
}

function settled(batch: Batch, card: Card): Batch {
  const { needs } = batch;
  switch (card.kind) {
    case 'resume':
      return { ...batch, needs: { ...needs, resume: null } };
    case 'recount':
      return { ...batch, needs: { ...needs, recount: false } };
    case 'setup':
      return withMachine(batch, card.operation, (machine) => ({
        ...unsetMachine,
        setup: card.setup,
        rpm: machine.rpm,
      }));
    case 'zero':
      return zeroStands(batch, card.operation, card.axis);
    case 'z zero':
      return depthStands(batch, card);
    case 'correction': {
      const asked = needs.corrections.filter((one) => correctedKey(one) !== correctedKey(card));
      return { ...batch, needs: { ...needs, corrections: asked } };
    }
    case 'tool':
      return toolSettled(batch, card);
    case 'check':
      return { ...batch, needs: { ...needs, asked: needs.asked.filter((check) => check !== card.check) } };
    case 'variant':
      return { ...batch, variantInHand: card.to };
    case 'suspects':
      return { ...batch, suspects: batch.suspects.map((one) => (isOf(one, card) ? { ...one, apart: true } : one)) };
    case 'shortage':
      return { ...batch, needs: { ...needs, shortageSeen: card.short } };
    case 'operation ended':
      return { ...batch, needs: { ...needs, endSeen: true } };
    case 'speed':
    case 'parting':
    case 'away':
    case 'batch ended':
      return batch;
  }
}

const isOf = (one: Suspects, { operation, lane }: Card): boolean => one.operation === operation && one.lane === lane;

/** The spindle of a machine now turns at this speed; null stands still. */
export function withSpeed(batch: Batch, machine: string, rpm: number | null): Batch {
  const state = batch.machines[machine] ?? unsetMachine;
  return { ...batch, machines: { ...batch.machines, [machine]: { ...state, rpm } } };
}

/** A zero was proved without waiting for its card: a card that asks for it goes. */
export function zeroProved(batch: Batch, event: EventOf<'ZeroProved'>): Batch {
  const { axis } = event;
  if (axis === 'z') return batch;
  const cards = batch.cards.filter((card) => card.kind !== 'zero' || (axis !== 'both' && card.axis !== axis));
  return zeroStands({ ...batch, cards }, event.operation, axis);
}

/** The zero of an axis, or of both, stands on the machine of an operation. */
function zeroStands(batch: Batch, operation: number, axis: 'x' | 'y' | 'both'): Batch {
  return withMachine(batch, operation, (machine) => {
    const x = machine.x || axis !== 'y';
    const y = machine.y || axis !== 'x';
    return { ...machine, x, y };
  });
}

/** The Z zero of a tool stands, on the top as this operation meets it. */
function depthStands(batch: Batch, { operation, tool }: Extract<Card, { kind: 'z zero' }>): Batch {
  const faced = facedBefore(batch.plan, operationNumbered(batch, operation));
  return withMachine(batch, operation, (machine) => ({
    ...machine,
    depths: [...machine.depths.filter((depth) => depth.tool !== tool), { tool, faced }],
    lostDepths: machine.lostDepths.filter((there) => there !== tool),
  }));
}

function toolSettled(batch: Batch, card: Extract<Card, { kind: 'tool' }>): Batch {
  if (card.moment === 'restore') return { ...batch, restored: [...batch.restored, card.tool] };
  const needs = batch.needs.toolBack?.tool === card.tool ? { ...batch.needs, toolBack: null } : batch.needs;
  const restored = batch.restored.filter((tool) => tool !== card.tool);
  return withMachine({ ...batch, needs, restored }, card.operation, (machine) => ({
    ...machine,
    tools: [...machine.tools.filter((tool) => tool !== card.tool), card.tool],
  }));
}

/** Changes what is set on the machine of an operation. */
export function withMachine(batch: Batch, operation: number, change: (machine: MachineState) => MachineState): Batch {
  const key = machineKey(batch, operationNumbered(batch, operation));
  return { ...batch, machines: { ...batch.machines, [key]: change(batch.machines[key] ?? unsetMachine) } };
}
