/** Cards of setting up: how the work is held, the zeros with the value to set, the tool that goes in, the speed. */
import type { Card } from '../../batch/cards.ts';
import type { Batch } from '../../batch/state.ts';
import type { AxisZero, ResolvedOperation, ResolvedSetup, ResolvedTool } from '../../plan/resolved.ts';
import { signProof } from '../../plan/sign-proof.ts';
import { mainReading, type Reading, secondReading } from '../panel/panel.ts';
import { axisOf, axisText, lengthWithUnit } from './axis-text.ts';
import { backOutWords } from './back-out.ts';
import { type CardFace, momentCautions, namedCautions, wordsCard } from './card-face.ts';
import { operationOf, toolOf } from './place-names.ts';
import { cautionsOf } from './work-facts.ts';

type CardOf<Kind extends Card['kind']> = Extract<Card, { kind: Kind }>;

/** How the work is held; `warnings` are what the plan's checks say of this operation. */
export function setupCard(
  batch: Batch,
  id: string,
  operation: ResolvedOperation | undefined,
  warnings: readonly string[],
): CardFace {
  const setup = batch.plan.setups.find((one) => one.id === id);
  if (setup === undefined || operation === undefined) return wordsCard('SET UP', []);
  const parallels = setup.parallels;
  return wordsCard(
    `SET UP   ${setup.title}`,
    [
      ...setup.steps.map((step, index) => `${index + 1}. ${step}`),
      setup.prove.length === 0 ? '' : `PROVE: ${setup.prove.join(' ')}`,
      ...warnings.map((line) => `Look out: ${line}`),
    ],
    {
      readings:
        parallels === null
          ? [secondReading(setup.hold.toUpperCase())]
          : [secondReading(bare(lengthWithUnit(parallels.height, batch.plan.units)), 'PARALLELS')],
      cautions: setupCautions(batch, operation, setup.hold),
      drawing: { setup: id, operation: operation.number },
    },
  );
}

/** How the work is clamped, then the gravest of the work itself: on the smallest screen the digits leave it no row later. */
function setupCautions(batch: Batch, operation: ResolvedOperation, hold: ResolvedSetup['hold']): readonly string[] {
  const own = cautionsOf(batch, operation).map((row) => row.text);
  const isClamped = operation.station === 'mill' && hold !== 'by hand';
  return [...(isClamped ? momentCautions('vice-setup', 1) : []), ...own].slice(0, 2);
}

/** The value to set on the readout with its sign, how it is found, and the proof of the sign. */
export function zeroCard(batch: Batch, card: CardOf<'zero'>, operation: ResolvedOperation | undefined): CardFace {
  const setup = batch.plan.setups.find((one) => one.id === card.setup);
  const zero = setup?.[card.axis] ?? null;
  const axis = card.axis.toUpperCase();
  if (setup === undefined || zero === null) return wordsCard(`${axis} ZERO`, []);
  const machine = batch.plan.machines.find((one) => one.id === setup.machine);
  const scale = axisOf(machine, card.axis);
  const shown = axisText(zero.set, scale, batch.plan.units);
  const text = scale.kind === 'dial' ? shown.text : signed(shown.text, zero.set);
  const again = card.why === null ? '' : `${card.why.toUpperCase()}: `;
  return wordsCard(
    `${again}SET ${axis} ${scale.kind === 'dial' ? 'DIAL' : 'READOUT'}`,
    [howToFind(zero), `Then set ${axis} to ${zero.sum}.`, `Prove the sign: ${signProof(zero, scale, setup.outline)}.`],
    {
      readings: [
        mainReading(text, axis, shown.below),
        ...(shown.scale === null ? [] : [secondReading(shown.scale, 'SCALE')]),
      ],
      cautions: zero.how === 'edge finder' ? momentCautions('edge-find', 1) : [],
      drawing: operation === undefined ? null : { setup: card.setup, operation: operation.number },
    },
  );
}

function howToFind(zero: AxisZero): string {
  switch (zero.how) {
    case 'edge finder':
      return `Touch ${the(zero.against)} with the edge finder, standing on its ${sideWord(zero)} side.`;
    case 'ground block':
    case 'pin':
      return `${zero.how === 'pin' ? 'Pin' : 'Ground block'} against ${the(zero.against)}, tool on its ${sideWord(zero)} side.`;
    case 'indicator':
      return `Run the indicator true in ${the(zero.against)}.`;
    case 'scribed line':
      return `Bring the point over ${the(zero.against)}.`;
    case 'stop only':
      return `${zero.against}: the stop gives the place.`;
    default:
      return zero.how satisfies never;
  }
}

function the(words: string): string {
  return /^(the|a|an|both|either) /i.test(words) ? words : `the ${words}`;
}

function sideWord(zero: AxisZero): string {
  if (zero.axis === 'x') return zero.side === '-' ? 'left' : 'right';
  return zero.side === '-' ? 'near' : 'far';
}

/** A tool goes in, comes back sharpened, or is put right after its last use. */
export function toolCard(batch: Batch, card: CardOf<'tool'>): CardFace {
  const tool = toolOf(batch.plan, card.tool);
  const operation = operationOf(batch.plan, card.operation);
  const name = tool?.name ?? card.tool;
  if (card.moment === 'restore') {
    return wordsCard('PUT THE TOOL RIGHT', [`${name}: ${tool?.restore ?? 'put it back as it was before this job'}.`], {
      readings: sizeReadings(tool, batch),
    });
  }
  const setup = batch.plan.setups.find((one) => one.id === operation?.setup);
  const isBench = operation?.station === 'bench';
  const hasFluid = tool?.fluid != null && tool.fluid !== 'none';
  const facts = [
    tool?.prepare == null ? '' : `Prepare it first: ${tool.prepare}.`,
    setup?.zZero == null || isBench ? '' : `Its own Z zero: ${setup.zZero}.`,
    hasFluid ? `Cutting fluid: ${tool?.fluid}.` : '',
    tool?.sharpenAfter == null ? '' : `Sharpen after ${tool.sharpenAfter} holes.`,
  ];
  const moment = card.moment === 'sharpened' ? 'TOOL BACK IN' : isBench ? 'TAKE' : 'TOOL IN';
  return wordsCard(`${moment}: ${name}`, facts, {
    readings: sizeReadings(tool, batch),
    cautions: isBench ? [] : [...momentCautions('tool-change', 1), ...(hasFluid ? momentCautions('coolant', 1) : [])],
  });
}

/** The size with the kind of tool; the kind alone where there is no size to read. */
function sizeReadings(tool: ResolvedTool | undefined, batch: Batch): readonly Reading[] {
  const kind = tool?.kind.toUpperCase() ?? '';
  if (tool?.diameter == null) return kind === '' ? [] : [secondReading(kind)];
  return [mainReading(bare(lengthWithUnit(tool.diameter, batch.plan.units)), kind, 'diameter')];
}

/** A tap's own cautions; else what is due between setting the speed and starting the spindle. */
function speedCautions(batch: Batch, operation: ResolvedOperation | undefined, tapping: boolean): readonly string[] {
  if (operation === undefined) return [];
  if (tapping)
    return cautionsOf(batch, operation)
      .slice(0, 2)
      .map((row) => row.text);
  return operation.station === 'mill' ? namedCautions('vs.handle', 'vs.loose') : namedCautions('dp.belt');
}

/** The whole screen is the speed: a tap at the drilling speed is a broken tap. */
export function speedCard(batch: Batch, card: CardOf<'speed'>, ascii: boolean): CardFace {
  const to = card.to === null ? '0' : String(card.to);
  const change = card.from === null ? '' : `   ${card.from} ${ascii ? '->' : '→'} ${to}`;
  const tool = toolOf(batch.plan, card.tool);
  const operation = operationOf(batch.plan, card.operation);
  const machine = batch.plan.machines.find((one) => one.id === operation?.machine);
  const cut = operation?.cuts.find((one) => one.tool === card.tool);
  const remark = cut?.speed.remark ?? null;
  return wordsCard(
    `${card.tapping ? 'SPEED FOR THE TAP' : 'SPEED'}${change}`,
    [
      tool === undefined ? '' : `For ${tool.name}.`,
      card.tapping ? 'Never at the drilling speed.' : '',
      card.tapping && cut !== undefined ? backOutWords(batch.plan, machine, cut) : '',
      remark === null ? '' : `${remark.charAt(0).toUpperCase()}${remark.slice(1)}.`,
    ],
    {
      headline: {
        text: `${card.tapping ? 'SPEED FOR THE TAP' : 'SPEED'}${change}`,
        role: card.tapping ? 'alarm' : 'strong',
      },
      readings: [mainReading(to, 'SPEED', 'turns a minute')],
      cautions: speedCautions(batch, operation, card.tapping),
    },
  );
}

function bare(text: string): string {
  return text.split(' ')[0] ?? text;
}

function signed(text: string, value: number): string {
  return value > 0 && !text.startsWith('+') ? `+${text}` : text;
}
