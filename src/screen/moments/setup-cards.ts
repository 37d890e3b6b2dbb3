/** Cards of setting up: how the work is held, the tool that goes in, the speed. */
import type { Card } from '../../batch/cards.ts';
import type { Batch } from '../../batch/state.ts';
import type { ResolvedMachine, ResolvedOperation, ResolvedSetup, ResolvedTool, Station } from '../../plan/resolved.ts';
import { mainReading, type Reading, secondReading } from '../panel/panel.ts';
import { lengthWithUnit } from './axis-text.ts';
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

/** A tool goes in, comes back sharpened, or is put right after its last use. */
export function toolCard(batch: Batch, card: CardOf<'tool'>): CardFace {
  const tool = toolOf(batch.plan, card.tool);
  const operation = operationOf(batch.plan, card.operation);
  const name = tool?.name ?? card.tool;
  if (card.moment === 'restore') {
    return wordsCard('PUT THE TOOL RIGHT', [`${name}: ${tool?.restore ?? 'put it back as it was before this job'}.`], {
      readings: sizeReadings(tool, batch, name),
    });
  }
  const setup = batch.plan.setups.find((one) => one.id === operation?.setup);
  const isBench = operation?.station === 'bench';
  const hasFluid = tool?.fluid != null && tool.fluid !== 'none';
  const facts = [
    tool?.prepare == null ? '' : `Prepare it first: ${tool.prepare.replace(/\.$/, '')}.`,
    setup?.zZero == null || isBench || operation?.cuts.some((cut) => cut.zZero !== undefined) === true
      ? ''
      : `Its own Z zero: ${setup.zZero}.`,
    hasFluid ? `Cutting fluid: ${tool?.fluid}.` : '',
    tool?.sharpenAfter == null ? '' : `Sharpen after ${tool.sharpenAfter} holes.`,
  ];
  const moment = card.moment === 'sharpened' ? 'TOOL BACK IN' : isBench ? 'TAKE' : 'TOOL IN';
  return wordsCard(`${moment}: ${name}`, facts, {
    readings: sizeReadings(tool, batch, name),
    cautions: isBench ? [] : [...momentCautions('tool-change', 1), ...(hasFluid ? momentCautions('coolant', 1) : [])],
  });
}

/** The size with the kind of tool, explained where its name does not say it; the kind alone where there is no size to read. */
function sizeReadings(tool: ResolvedTool | undefined, batch: Batch, name: string): readonly Reading[] {
  const kind = tool?.kind.toUpperCase() ?? '';
  if (tool?.diameter == null) return kind === '' ? [] : [secondReading(kind)];
  const size = bare(lengthWithUnit(tool.diameter, batch.plan.units));
  return [mainReading(size, kind, name.startsWith(`${size.replace(/\.?0+$/, '')} `) ? null : 'diameter')];
}

/** The machine off before its belt or lever is moved; then a tap's own cautions, or what is due before the spindle starts. */
function speedCautions(batch: Batch, operation: ResolvedOperation | undefined, tapping: boolean): readonly string[] {
  if (operation === undefined) return [];
  const change = changeCautions(
    batch.plan.machines.find((one) => one.id === operation.machine),
    operation.station,
  );
  if (tapping)
    return [
      ...change.slice(0, 1),
      ...cautionsOf(batch, operation)
        .slice(0, 2)
        .map((row) => row.text),
    ];
  return operation.station === 'mill' ? [...change, ...namedCautions('vs.handle')] : change;
}

/** A machine of which the plan does not tell how its speed is changed is taken for one with a belt. */
function changeCautions(machine: ResolvedMachine | undefined, station: Station): readonly string[] {
  switch (machine?.speedChange) {
    case 'knob':
      return namedCautions('sc.knob');
    case 'lever':
      return namedCautions('sc.lever');
    default:
      return namedCautions(station === 'pillar drill' ? 'dp.belt' : 'sc.belt', 'sc.guard');
  }
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
