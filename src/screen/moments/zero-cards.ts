/** Cards of the zeros: what is touched, the value to set on the readout or dial, the proof of its sign, what was corrected. */
import type { Card } from '../../batch/cards.ts';
import { correctionsInForce } from '../../batch/questions/corrections.ts';
import type { Batch } from '../../batch/state.ts';
import { dialAxisOf } from '../../plan/dial-axis.ts';
import type {
  AxisReading,
  AxisZero,
  DepthZero,
  ResolvedOperation,
  ResolvedPlan,
  ResolvedTool,
} from '../../plan/resolved.ts';
import { depthSignProof, signProof } from '../../plan/sign-proof.ts';
import { type DialReading, dialCount, dialReading, formatDialReading } from '../../shop/dials.ts';
import { asMm, type Mm } from '../../shop/quantities.ts';
import { inchesToMm } from '../../shop/units.ts';
import { mainReading, type Reading, secondReading } from '../panel/panel.ts';
import { axisOf, axisText, lengthText, lengthWithUnit } from './axis-text.ts';
import { type CardFace, momentCautions, namedCautions, wordsCard } from './card-face.ts';
import { operationOf, toolOf } from './place-names.ts';
import { cautionsOf } from './work-facts.ts';

type Units = ResolvedPlan['units'];
type CardOf<Kind extends Card['kind']> = Extract<Card, { kind: Kind }>;

/** The value to set on the readout with its sign, how it is found, and the proof of the sign. */
export function zeroCard(batch: Batch, card: CardOf<'zero'>, operation: ResolvedOperation | undefined): CardFace {
  const setup = batch.plan.setups.find((one) => one.id === card.setup);
  const zero = setup?.[card.axis] ?? null;
  const axis = card.axis.toUpperCase();
  if (setup === undefined || zero === null) return wordsCard(`${axis} ZERO`, []);
  const machine = batch.plan.machines.find((one) => one.id === setup.machine);
  const scale = axisOf(machine, card.axis);
  const again = card.why === null ? '' : `${card.why.toUpperCase()}: `;
  return wordsCard(
    `${again}SET ${axis} ${scale.kind === 'dial' ? 'DIAL' : 'READOUT'}`,
    [
      howToFind(zero),
      `Then set ${axis} to ${zero.sum}${onDial(zero.set, scale)}.`,
      `Prove the sign: ${signProof(zero, scale, setup.outline)}.`,
    ],
    {
      readings: settingReadings(zero.set, axis, scale, batch.plan.units),
      cautions: zero.how === 'edge finder' ? momentCautions('edge-find', 1) : [],
      warnsAfter: 1,
      drawing: operation === undefined ? null : { setup: card.setup, operation: operation.number },
    },
  );
}

/** The Z zero of the tool that is in: what is touched, and the value to set largest. */
export function depthZeroCard(
  batch: Batch,
  card: CardOf<'z zero'>,
  operation: ResolvedOperation | undefined,
): CardFace {
  const zero = operation?.cuts.find((cut) => cut.tool === card.tool && cut.zZero !== undefined)?.zZero;
  const machine = batch.plan.machines.find((one) => one.id === operation?.machine);
  const tool = toolOf(batch.plan, card.tool);
  if (zero === undefined || machine === undefined || operation === undefined) return wordsCard('Z ZERO', []);
  const { units } = batch.plan;
  const proof = depthSignProof(machine);
  const again = card.why === null ? '' : `${card.why.toUpperCase()}: `;
  const where = machine.z.kind === 'dial' ? ' DIAL' : machine.z.kind === 'readout' ? ' READOUT' : '';
  return wordsCard(
    `${again}SET Z${where}   ${tool?.name ?? card.tool}`,
    [
      ...(zero.how === 'skim'
        ? skimFacts(zero, machine.z, units)
        : [touchWords(zero, tool), sumWords(zero, machine.z)]),
      proof === null ? '' : `Prove the sign: ${proof}.`,
    ],
    {
      readings: settingReadings(zero.set, 'Z', machine.z, units, wantedWords(zero, units)),
      warnsAfter: 1,
      cautions:
        zero.how === 'skim'
          ? cautionsOf(batch, operation)
              .slice(0, 2)
              .map((row) => row.text)
          : namedCautions('tc.off'),
    },
  );
}

function touchWords({ how, on }: DepthZero, tool: ResolvedTool | undefined): string {
  const name = tool?.name ?? 'tool';
  switch (how) {
    case 'feeler':
      return `Spindle standing: bring the ${name} down on the feeler that lies on ${the(on)}, until it just drags.`;
    case 'by eye':
      return `Spindle standing: bring the ${name} down to ${the(on)} by eye.`;
    case 'touch':
    case 'skim':
      return `Spindle standing: bring the ${name} down until it just touches ${the(on)}.`;
  }
}

const sumWords = ({ set, sum }: DepthZero, scale: AxisReading): string => `Then set Z to ${sum}${onDial(set, scale)}.`;

const wantedWords = ({ wanted, set }: DepthZero, units: Units): string | null =>
  wanted === undefined
    ? null
    : `at ${lengthWithUnit(wanted, units)}; else measured less ${bare(lengthWithUnit(asMm(wanted - set), units))}`;

/** A skimmed face is set at what the part measures less a number, with an example of a part that is still too thick. */
function skimFacts({ on, set, wanted }: DepthZero, scale: AxisReading, units: Units): readonly string[] {
  if (wanted === undefined) return [];
  const over = units === 'inch' ? inchesToMm(0.01) : asMm(0.3);
  const [more, higher] = [asMm(wanted + over), asMm(set + over)];
  const text = (at: Mm): string => (scale.kind === 'dial' ? axisText(at, scale, units).words : signedLength(at, units));
  return [
    `Skim ${the(on)} just clean, stop the spindle, measure the part.`,
    `Set Z to what it measures less ${lengthWithUnit(asMm(wanted - set), units)}: ${lengthWithUnit(wanted, units)} gives ${text(set)}, ${lengthWithUnit(more, units)} gives ${text(higher)}.`,
    `Then down to ${text(set)}.`,
  ];
}

const signedLength = (length: Mm, units: Units): string => signed(bare(lengthWithUnit(length, units)), length);

/** What a dial shows at the value to set; '' where a readout shows the value itself. */
function onDial(set: Mm, scale: AxisReading): string {
  const reading = settingOnDial(set, scale);
  if (reading === null) return '';
  return `; the dial then reads ${reading.face}${reading.turns === 0 ? '' : `, that is ${formatDialReading(reading)}`}`;
}

function settingOnDial(set: Mm, scale: AxisReading): DialReading | null {
  const dial = dialAxisOf(scale);
  if (dial === null) return null;
  const reading = dialReading(dialCount(set, dial), dial.dial);
  return reading.ok ? reading.value : null;
}

/** The value to set: on a readout with its sign, on a dial what its scale must show; turns too where it is more than one. */
function settingReadings(
  set: Mm,
  axis: string,
  scale: AxisReading,
  units: Units,
  below: string | null = null,
): readonly Reading[] {
  const shown = axisText(set, scale, units);
  const reading = settingOnDial(set, scale);
  if (reading === null) return [mainReading(signed(shown.text, set), axis, below ?? shown.below)];
  if (reading.turns === 0) {
    const past = reading.side === 'below' ? `${reading.divisions} below zero, ` : '';
    const at = lengthText(set, units, units === 'inch' ? 4 : 3);
    return [mainReading(String(reading.face), axis, below ?? `on the dial: ${past}that is ${at}`)];
  }
  return [
    mainReading(shown.text, axis, below ?? shown.below),
    ...(shown.scale === null ? [] : [secondReading(shown.scale, 'SCALE')]),
  ];
}

/** `X +5.00`: an axis with the value to set, in running text. */
export function settingWords(axis: string, set: Mm, scale: AxisReading, units: Units): string {
  const reading = settingOnDial(set, scale);
  const shown = axisText(set, scale, units);
  if (reading === null) return `${axis} ${signed(shown.words, set)}`;
  return `${axis} ${reading.turns === 0 ? reading.face : shown.words}`;
}

/** Zero was set anew: what was corrected against the old one may have been part of the same fault. */
export function correctionCard(batch: Batch, card: CardOf<'correction'>): CardFace {
  const { units } = batch.plan;
  const axis = card.axis.toUpperCase();
  const by = asMm(card.by);
  const why = correctionsInForce(batch, card.operation, card.cut, card.point ?? null).filter(
    (one) => one.axis === card.axis && one.point === card.point,
  );
  const hole = operationOf(batch.plan, card.operation)?.cuts[card.cut]?.points[card.point ?? -1];
  const of = hole === undefined ? axis : `${axis} of ${hole.name}`;
  return wordsCard(
    `KEEP THE CORRECTION OF ${axis}?`,
    [
      `${of} was corrected by ${signedLength(by, units)} ${units === 'inch' ? 'in' : 'mm'} before its zero was set anew: ${why.map((one) => one.reason).join(', ')}.`,
      'What was wrong with the old zero may be right now. The next piece is measured either way.',
      'y or 1 keeps it, n or 0 drops it (- takes that back); Enter alone keeps it.',
    ],
    { readings: [mainReading(signedLength(by, units), axis)] },
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

function bare(text: string): string {
  return text.split(' ')[0] ?? text;
}

function signed(text: string, value: number): string {
  return value > 0 && !text.startsWith('+') ? `+${text}` : text;
}
