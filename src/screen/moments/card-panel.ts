/**
 * What each card shows: the one or two words the hands need, the number to set if there is one, the steps, and the usual
 * cautions at the moment when they matter. A card is passed with the ordinary advance key; nothing here asks twice.
 */
import type { Card } from '../../batch/cards.ts';
import { oldestFirst } from '../../batch/chain.ts';
import type { Batch } from '../../batch/state.ts';
import { cautionsAt, cautionsFor, DEFERRING_LINE } from '../../plan/cautions.ts';
import type { AxisZero, ResolvedCheck, ResolvedOperation, ResolvedSetup } from '../../plan/resolved.ts';
import { asMm } from '../../shop/quantities.ts';
import type { Panel, Reading } from '../panel/panel.ts';
import { axisOf, axisText, lengthWithUnit } from './axis-text.ts';
import { operationOf, placeName, toolOf } from './place-names.ts';
import { durationText } from './time-words.ts';

/** The part of a panel that a card decides; banner, pace, message and keys come from around it. */
export type CardFace = Pick<Panel, 'headline' | 'readings' | 'facts' | 'cautions'> & {
  /** Setup and operation whose drawing belongs beside it; null for none. */
  readonly drawing: { readonly setup: string; readonly operation: number } | null;
};

const noReadings: readonly Reading[] = [];

function face(headline: string, facts: readonly string[], more: Partial<CardFace> = {}): CardFace {
  return {
    headline: { text: headline, role: 'strong' },
    readings: noReadings,
    facts,
    cautions: [],
    drawing: null,
    ...more,
  };
}

function reading(label: string, text: string, below: string | null = null): Reading {
  return { label, text, below, fresh: false };
}

/** The face of the card that is up. */
export function cardFace(card: Card, batch: Batch): CardFace {
  const { plan } = batch;
  const operation = operationOf(plan, card.operation);
  switch (card.kind) {
    case 'resume':
      return face(
        'PROVE THE ZERO',
        [
          `You were at ${placeName(plan, card.operation, card.lane)}.`,
          card.cut
            ? 'The program was cut off; every count that was shown is kept.'
            : `Away ${durationText(card.away_ms)}.`,
          'Touch off again before the next cut; look whether vice, stop and speed stand as they did.',
        ],
        { cautions: withDefer(cautionsAt('after-break').map((row) => row.text)) },
      );
    case 'recount':
      return face('COUNT THE TRAY', ['Type how many good pieces lie there; Enter alone leaves the count as it is.'], {
        readings: [reading('', String(card.expected), 'good pieces by the screen')],
      });
    case 'setup':
      return setupFace(batch, card.setup, operation);
    case 'zero':
      return zeroFace(batch, card, operation);
    case 'tool':
      return toolFace(batch, card);
    case 'speed':
      return speedFace(batch, card);
    case 'check':
      return checkFace(batch, card, operation);
    case 'variant':
      return face('OTHER KIND FROM HERE', variantFacts(batch, card.to), {
        headline: { text: `FROM HERE: ${laneWord(batch, card.to)}`, role: 'alarm' },
      });
    case 'parting':
      return face('KINDS PART HERE', [
        ...Object.entries(card.proposal).map(
          ([lane, pieces]) => `${laneWord(batch, lane)}: ${pieces} pieces to their own tray`,
        ),
        'Enter takes these numbers; type others with v.',
      ]);
    case 'shortage':
      return face(
        'SHORT',
        [
          `${card.short} good ${card.short === 1 ? 'piece' : 'pieces'} fewer than ordered will come out.`,
          'Enter goes on; m in the menu makes more from the first operation.',
        ],
        { readings: [reading('', `-${card.short}`)] },
      );
    case 'away':
      return face(card.moment === 'out' ? 'PIECES GO OUT' : 'PIECES COME BACK', awayFacts(operation, card.moment), {
        readings: [reading('', String(card.pieces), 'pieces; type another number if it differs')],
      });
    case 'operation ended':
      return face('OPERATION DONE', [
        card.next === null
          ? 'Nothing waits at another operation.'
          : `Next: ${placeName(plan, card.next.operation, card.next.lane)}.`,
      ]);
    case 'batch ended':
      return face('BATCH DONE', ['Enter closes the batch; its report is kept.']);
    default:
      return card satisfies never;
  }
}

function setupFace(batch: Batch, id: string, operation: ResolvedOperation | undefined): CardFace {
  const setup = batch.plan.setups.find((one) => one.id === id);
  if (setup === undefined || operation === undefined) return face('SET UP', []);
  return {
    headline: { text: `SET UP: ${setup.title}`, role: 'strong' },
    readings: setupReadings(batch, setup),
    facts: [
      ...setup.steps.map((step, index) => `${index + 1}. ${step}`),
      ...setup.prove.map((line) => `Prove: ${line}`),
    ],
    cautions: withDefer(cautionTexts(batch, operation).slice(0, 2)),
    drawing: { setup: id, operation: operation.number },
  };
}

/** The size that must be found in the drawer: parallels. */
function setupReadings(batch: Batch, setup: ResolvedSetup): readonly Reading[] {
  if (setup.parallels === null) return noReadings;
  return [reading('PARALLELS', lengthWithUnit(setup.parallels.height, batch.plan.units).split(' ')[0] ?? '')];
}

function zeroFace(
  batch: Batch,
  card: Extract<Card, { kind: 'zero' }>,
  operation: ResolvedOperation | undefined,
): CardFace {
  const setup = batch.plan.setups.find((one) => one.id === card.setup);
  const zero = setup?.[card.axis] ?? null;
  if (setup === undefined || zero === null) return face(`${card.axis.toUpperCase()} ZERO`, []);
  const machine = batch.plan.machines.find((one) => one.id === setup.machine);
  const shown = axisText(zero.set, axisOf(machine, card.axis), batch.plan.units);
  const axis = card.axis.toUpperCase();
  return {
    headline: { text: `${card.why === null ? '' : `${card.why.toUpperCase()}: `}SET ${axis} ZERO`, role: 'strong' },
    readings: [reading(axis, signed(shown.text, zero.set), shown.below)],
    facts: [howToFind(zero), `Set ${axis} to ${zero.sum}.`, proveSign(card.axis)],
    cautions: withDefer(
      cautionsAt('edge-find')
        .map((row) => row.text)
        .slice(0, 1),
    ),
    drawing: operation === undefined ? null : { setup: card.setup, operation: operation.number },
  };
}

function howToFind(zero: AxisZero): string {
  switch (zero.how) {
    case 'edge finder':
      return `Touch ${zero.against} with the edge finder, standing on its ${sideWord(zero)} side.`;
    case 'ground block':
    case 'pin':
      return `${zero.how === 'pin' ? 'Pin' : 'Ground block'} against ${zero.against}, tool on its ${sideWord(zero)} side.`;
    case 'indicator':
      return `Run the indicator true in ${zero.against}.`;
    case 'scribed line':
      return `Bring the point over ${zero.against}.`;
    case 'stop only':
      return `${zero.against}: the stop gives the place.`;
    default:
      return zero.how satisfies never;
  }
}

function sideWord(zero: AxisZero): string {
  if (zero.axis === 'x') return zero.side === '-' ? 'left' : 'right';
  return zero.side === '-' ? 'near' : 'far';
}

/** Every setup's zero ends with this: a sign that is wrong puts every hole on the wrong side. */
function proveSign(axis: 'x' | 'y'): string {
  return axis === 'x'
    ? 'Prove the sign: wind the tool to the right over the part, X must grow.'
    : 'Prove the sign: wind the tool away from you over the part, Y must grow.';
}

function toolFace(batch: Batch, card: Extract<Card, { kind: 'tool' }>): CardFace {
  const tool = toolOf(batch.plan, card.tool);
  const name = tool?.name ?? card.tool;
  if (card.moment === 'restore') {
    return face('PUT THE TOOL RIGHT', [name, tool?.restore ?? 'Put it back as it was before this job.']);
  }
  const setup = batch.plan.setups.find((one) => one.id === operationOf(batch.plan, card.operation)?.setup);
  const facts = [
    tool?.prepare == null ? null : `Prepare: ${tool.prepare}`,
    setup?.zZero == null ? null : `Z: ${setup.zZero}`,
    tool?.fluid == null || tool.fluid === 'none' ? null : `Cutting fluid: ${tool.fluid}`,
  ].filter((fact) => fact !== null);
  const headline = card.moment === 'sharpened' ? 'TOOL BACK IN' : 'TOOL IN';
  const size = tool?.diameter ?? null;
  return face(`${headline}: ${name}`, facts, {
    readings:
      size === null
        ? noReadings
        : [reading('', lengthWithUnit(size, batch.plan.units).split(' ')[0] ?? '', 'diameter')],
    cautions: withDefer(
      cautionsAt('tool-change')
        .map((row) => row.text)
        .slice(0, 1),
    ),
  });
}

function speedFace(batch: Batch, card: Extract<Card, { kind: 'speed' }>): CardFace {
  const to = card.to === null ? '0' : String(card.to);
  const from = card.from === null ? null : String(card.from);
  const tool = toolOf(batch.plan, card.tool);
  const facts = [
    from === null ? 'Set the spindle speed.' : `From ${from} to ${to} turns a minute.`,
    ...(tool === undefined ? [] : [`For ${tool.name}.`]),
    ...(card.tapping ? ['Tapping: never at the drilling speed. Know how you will back out before you start.'] : []),
  ];
  return {
    headline: { text: card.tapping ? 'SPEED FOR THE TAP' : 'SPEED', role: card.tapping ? 'alarm' : 'strong' },
    readings: [reading('', to, 'turns a minute')],
    facts,
    cautions: withDefer(card.tapping ? tapCautions(batch, card.operation) : []),
    drawing: null,
  };
}

function tapCautions(batch: Batch, number: number): readonly string[] {
  const operation = operationOf(batch.plan, number);
  return operation === undefined ? [] : cautionTexts(batch, operation).slice(0, 2);
}

function checkFace(
  batch: Batch,
  card: Extract<Card, { kind: 'check' }>,
  operation: ResolvedOperation | undefined,
): CardFace {
  const check = operation?.checks.find((one) => one.id === card.check);
  if (check === undefined) return face('CHECK', []);
  const due = { 'first-off': 'FIRST-OFF CHECK', every: 'CHECK DUE', last: 'LAST CHECK', asked: 'CHECK' }[card.due];
  return {
    headline: { text: `${due}: ${check.title}`, role: 'strong' },
    readings: checkReadings(check, batch),
    facts: [...checkFacts(check, batch), ...lastValues(batch, card)],
    cautions: [],
    drawing: null,
  };
}

function checkReadings(check: ResolvedCheck, batch: Batch): readonly Reading[] {
  if (check.what.kind === 'yes or no') return noReadings;
  const units = batch.plan.units;
  const { nominal, lower, upper } = check.what;
  const limits = `${lengthWithUnit(lower, units)} to ${lengthWithUnit(upper, units)}`;
  return [reading('', lengthWithUnit(nominal, units).split(' ')[0] ?? '', limits)];
}

function checkFacts(check: ResolvedCheck, batch: Batch): readonly string[] {
  const gauge = check.gauge === null ? [] : [`With: ${check.gauge}.`];
  if (check.what.kind === 'yes or no') {
    return [
      check.what.question,
      ...gauge,
      'y for yes, n for no; Enter alone leaves it unchecked and the report says so.',
    ];
  }
  const unit = batch.plan.units === 'inch' ? 'in' : 'mm';
  return [...gauge, `Type what it measures in ${unit}; Enter alone leaves it unchecked and the report says so.`];
}

/** The last values of this check, newest last, so that a drift shows. */
function lastValues(batch: Batch, card: Extract<Card, { kind: 'check' }>): readonly string[] {
  const cell = batch.cells.find((one) => one.operation === card.operation && one.lane === card.lane);
  const values = oldestFirst(cell?.checkLog ?? null)
    .flatMap(({ check, result, void: isVoid }) =>
      check === card.check && result.kind === 'measured' && !isVoid
        ? [`${shownValue(result.value, batch)}${result.within ? '' : ' (out)'}`]
        : [],
    )
    .slice(-5);
  return values.length === 0 ? [] : [`Last: ${values.join('  ')}`];
}

function shownValue(value: number, batch: Batch): string {
  return lengthWithUnit(asMm(value), batch.plan.units).split(' ')[0] ?? '';
}

function variantFacts(batch: Batch, to: string): readonly string[] {
  const variant = batch.plan.variants.find((one) => one.id === to);
  return [
    ...(variant?.marking == null ? [] : [`Marking: ${variant.marking}.`]),
    'Its own tray; put the other kind out of reach.',
  ];
}

function awayFacts(operation: ResolvedOperation | undefined, moment: 'out' | 'back'): readonly string[] {
  const away = operation?.away;
  if (away == null) return [];
  return moment === 'out' ? [`To: ${away.to}.`, ...away.changes] : [`From: ${away.to}.`, ...away.changes];
}

function laneWord(batch: Batch, lane: string): string {
  return batch.plan.variants.find((one) => one.id === lane)?.title.toUpperCase() ?? 'ALL KINDS';
}

function cautionTexts(batch: Batch, operation: ResolvedOperation): readonly string[] {
  const byHand = operation.cuts.some((cut) => cut.thread?.byHand === true);
  const ask = {
    kind: operation.kind,
    station: operation.station,
    byHand,
    material: batch.plan.material,
    wanted: operation.cautions,
  };
  return cautionsFor(ask).map((row) => row.text);
}

function withDefer(texts: readonly string[]): readonly string[] {
  return texts.length === 0 ? [] : [...texts, DEFERRING_LINE];
}

function signed(text: string, value: number): string {
  return value > 0 && !text.startsWith('+') && !text.includes('+') ? `+${text}` : text;
}
