/** The steps of a plan as text for a terminal or a pipe: one block an operation, numbers in columns. */
import { asSeconds } from '../shop/quantities.ts';
import { formatDuration, formatFixed } from '../shop/units.ts';
import { DEFERRING_LINE } from './cautions.ts';
import { neutral } from './read/problem.ts';
import { estimateGrounds } from './resolve/estimates.ts';
import type {
  PlanSteps,
  StepCheck,
  StepCut,
  StepOperation,
  StepPass,
  StepPoint,
  StepSetup,
  StepTarget,
} from './steps-model.ts';

/** The whole text, with a line feed at its end. Nothing of the plan reaches the terminal raw. */
export function formatSteps(steps: PlanSteps): string {
  const show = numbersIn(steps.units);
  const setups = new Map(steps.setups.map((setup) => [setup.id, setup]));
  const seen = new Set<string>();
  const blocks = steps.operations.map((operation) => {
    const setup = operation.setup === null || seen.has(operation.setup) ? undefined : setups.get(operation.setup);
    if (setup !== undefined) seen.add(setup.id);
    return [
      ...(setup === undefined ? [] : [...setupLines(setup, show), '']),
      ...operationLines(operation, steps, show),
    ];
  });
  const lines = [...headLines(steps, show), ...blocks.flatMap((block) => ['', ...block]), '', DEFERRING_LINE];
  return `${lines.map((line) => neutral(line, 400).trimEnd()).join('\n')}\n`;
}

/** A length as text at the decimals of the units. */
type Show = (value: number) => string;

const numbersIn =
  (unit: 'mm' | 'inch'): Show =>
  (value) =>
    unit === 'mm' ? formatFixed(value, 2) : formatFixed(value, 3);

function headLines(steps: PlanSteps, show: Show): string[] {
  const drawing = [steps.drawing, steps.revision === null ? null : `rev ${steps.revision}`].filter(
    (part) => part !== null,
  );
  const { length, width, thickness } = steps.part;
  const size = `${show(length)} x ${show(width)} x ${show(thickness)} ${steps.units}`;
  const kinds = steps.variants.map((variant) => `${variant.quantity} ${variant.title}`).join(', ');
  const spares = steps.spares === 0 ? '' : `, ${steps.spares} spare`;
  const stock = steps.stock;
  const bars = (stock?.bars ?? []).map(
    (bar) =>
      `${bar.bars} ${bar.bars === 1 ? 'bar' : 'bars'} of ${show(bar.length)} (${bar.blanks_per_bar} blanks each)`,
  );
  return [
    [steps.job, ...drawing].join('  '),
    `${steps.material}, ${size}`,
    `${kinds}${spares}: start ${steps.start}`,
    ...(stock === null ? [] : [`Stock ${stock.section}: blank ${show(stock.blank)}, ${bars.join(' or ')}`]),
  ];
}

function setupLines(setup: StepSetup, show: Show): string[] {
  const zeros = [
    ['X', setup.x_zero],
    ['Y', setup.y_zero],
    ['Z', setup.z_zero],
  ].flatMap(([axis, zero]) => (zero === null ? [] : [`      ${axis} zero: ${zero}`]));
  return [
    `==  Setup "${setup.title}" on ${setup.machine}`,
    ...setup.steps.map((step) => `      ${step}`),
    ...placeLines(setup, show),
    ...zeros,
    ...setup.prove.map((proof) => `      Prove: ${proof}`),
    ...setup.picture.map((line) => `      ${line}`),
  ];
}

/** The places of a load, three to a line. */
function placeLines({ places }: StepSetup, show: Show): readonly string[] {
  if (places.length < 2) return [];
  const words = places.map(({ name, x, y }) => `${name} X ${show(x)} Y ${show(y)}`);
  const lines = Array.from({ length: Math.ceil(words.length / 3) }, (_, at) => words.slice(at * 3, at * 3 + 3));
  return lines.map((line, at) => `      ${at === 0 ? 'Places: ' : '        '}${line.join('; ')}`);
}

function operationLines(operation: StepOperation, steps: PlanSteps, show: Show): string[] {
  const all = operation.variants.length === steps.variants.length;
  const facts = [
    operation.kind,
    operation.machine ?? operation.station,
    operation.per_load > 1 ? `${operation.per_load} in a load` : null,
    all ? null : `only ${operation.variants.join(', ')}`,
    operation.located_by,
  ].filter((fact) => fact !== null);
  const { setup_s, piece_s, from, batches } = operation.estimate;
  const grounds = estimateGrounds(from, batches);
  const times = `set up ${formatDuration(asSeconds(setup_s))}, ${formatDuration(asSeconds(piece_s))} a piece (${grounds})`;
  return [
    `${String(operation.number).padEnd(4)}${operation.title}`,
    `      ${facts.join(', ')}; ${times}`,
    ...(operation.stop_length === null ? [] : [`      stop length ${show(operation.stop_length)}`]),
    ...(operation.away === null ? [] : [`      ${awayWords(operation.away)}`]),
    ...operation.cuts.flatMap((cut) => cutLines(cut, show, steps.units)),
    ...operation.checks.map((check) => `      check ${checkWords(check, show)}`),
    ...operation.notes.map((note) => `      note: ${note}`),
    ...operation.cautions.map((caution) => `      ! ${caution}`),
  ];
}

function awayWords({ to, days, changes }: NonNullable<StepOperation['away']>): string {
  const back = days === null ? '' : `, back after ${days === 1 ? '1 day' : `${days} days`}`;
  return `out to ${to}${back}${changes.length === 0 ? '' : `: ${changes.join(', ')}`}`;
}

/** As fine as half a division of a dial, so that a coordinate agrees with the reading that stands beside it. */
const besideDials =
  (unit: 'mm' | 'inch'): Show =>
  (value) =>
    formatFixed(value, unit === 'mm' ? 3 : 4);

function hasDials({ points, passes }: StepCut): boolean {
  const dials = [...points, ...passes].flatMap(({ dial }) => Object.values(dial));
  return dials.some((reading) => reading !== null);
}

function cutLines(cut: StepCut, show: Show, units: PlanSteps['units']): string[] {
  const place = hasDials(cut) ? besideDials(units) : show;
  const speed = cut.speed_rpm === null ? null : `${cut.speed_rpm} rpm${cut.remark === null ? '' : ` (${cut.remark})`}`;
  const facts = [
    cut.tool_name,
    speed,
    cut.feel_s === null ? null : `${cut.feel_s.from} to ${cut.feel_s.to} s to feel for`,
    cut.peck === null ? null : `clear chips every ${show(cut.peck)}`,
    cut.thread === null ? null : threadWords(cut.thread),
    cut.z === null ? null : `Z ${show(cut.z)}`,
  ].filter((fact) => fact !== null);
  return [
    ...(facts.length === 0 ? [] : [`      ${facts.join(', ')}`]),
    ...(cut.z_zero === null ? [] : [`        Z zero: ${cut.z_zero}`]),
    ...pointTable(cut.targets.length > 0 ? cut.targets.map(inItsPlace) : cut.points, place),
    ...cut.passes.map((pass) => `        ${passWords(pass, place)}`),
  ];
}

function threadWords(thread: NonNullable<StepCut['thread']>): string {
  const turns = thread.turns === null ? 'through' : `${thread.turns} turns`;
  const engaged = thread.engagement === null ? '' : ` (${thread.engagement})`;
  return `${thread.name}, hole ${thread.tap_drill ?? 'as it is'}${engaged}, ${turns}${thread.by_hand ? ', by hand' : ''}`;
}

/** A point of a load under the name of its place: `left: low 1`. */
const inItsPlace = (target: StepTarget): StepPoint => ({ ...target, name: `${target.place}: ${target.name}` });

function pointTable(points: readonly StepPoint[], show: Show): string[] {
  if (points.length === 0) return [];
  const wide = Math.min(24, Math.max(5, ...points.map((point) => point.name.length)));
  const row = (name: string, x: string, y: string, z: string, more: string) =>
    `        ${name.slice(0, wide).padEnd(wide)} ${x.padStart(9)} ${y.padStart(9)} ${z.padStart(9)}  ${more}`;
  const dial = (point: StepPoint) => {
    const parts = [point.dial.x, point.dial.y, point.dial.z].filter((part) => part !== null);
    return parts.length === 0 ? '' : `dials ${parts.join(' | ')}`;
  };
  return [
    row('point', 'X', 'Y', 'Z', ''),
    ...points.map((point) => {
      const more = [point.note, dial(point)].filter((part) => part !== null && part !== '').join('; ');
      return row(point.name, show(point.x), show(point.y), point.z === null ? '-' : show(point.z), more);
    }),
  ];
}

function passWords(pass: StepPass, show: Show): string {
  const fed = pass.feed_axis === 'x' ? 'X' : 'Y';
  const [from, to] = pass.feed_axis === 'x' ? [pass.from.x, pass.to.x] : [pass.from.y, pass.to.y];
  const still = pass.feed_axis === 'x' ? `Y ${show(pass.from.y)}` : `X ${show(pass.from.x)}`;
  const way = { 'x+': 'right', 'x-': 'left', 'y+': 'away', 'y-': 'towards you' }[
    `${pass.feed_axis}${pass.feed_towards}`
  ];
  const { dial } = pass;
  const dials =
    dial.from === null ? '' : `; dials ${dial.across ?? '-'} | ${dial.z ?? '-'} | ${dial.from} to ${dial.to}`;
  return `${pass.name}: ${still}, Z ${show(pass.z)}, feed ${fed} ${show(from)} to ${show(to)} (${way})${dials}`;
}

function checkWords(check: StepCheck, show: Show): string {
  const what = check.question ?? `${show(check.nominal ?? 0)} (${show(check.lower ?? 0)} to ${show(check.upper ?? 0)})`;
  const when = [
    check.first_off ? 'first-off' : null,
    check.every === null ? null : `every ${check.every}`,
    check.last ? 'last' : null,
  ].filter((moment) => moment !== null);
  return `${check.title}: ${what}${check.gauge === null ? '' : `, ${check.gauge}`}; ${when.join(', ')}`;
}
