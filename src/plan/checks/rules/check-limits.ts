import { parseLength } from '../../../shop/parse-length.ts';
import { linearTolerance, parseToleranceClass } from '../../../shop/tolerances.ts';
import { entryOf } from '../../resolve/context.ts';
import type { ResolvedCheck } from '../../resolved.ts';
import { writeLength } from '../advice.ts';
import { type CheckAsk, type OperationSeen, once, pathOf } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** A difference either way above this and a twentieth of the size is no tolerance: a choice of ours. */
const WIDE_MM = 0.5;
const WIDE_SHARE = 1 / 20;
/** A rule is read to about half a division: common practice. */
const RULE_STEP_MM = 0.25;
/** A number behind the name of a gauge is its step when it is no larger than this. */
const LARGEST_STEP_MM = 0.1;
const HAIR_MM = 1e-6;

/** A check that proves nothing, cannot be met, cannot be read, or measures another size than the work leaves. */
export const checkLimits: Rule = {
  code: 'check-limits',
  severity: 'stop',
  also: ['warn'],
  catches:
    'A check whose limits let anything pass or nothing, are wider than a tolerance or finer than its gauge, or lie round another size than the work leaves.',
  example: 'operation 40: "Length" is taken from -29 mm to 171 mm: a piece of any size would pass',
  find: (ask) =>
    once(
      ask.operations.flatMap((operation) =>
        operation.resolved.checks.flatMap((check, at) => {
          const base = { operation: operation.resolved.number, path: pathOf(operation, 'checks', at) };
          const word = check.what.kind === 'measured' ? judge(ask, operation, check, check.what) : undefined;
          return word === undefined ? [] : [{ ...base, ...word }];
        }),
      ),
    ),
};

type Measured = Extract<ResolvedCheck['what'], { kind: 'measured' }>;
type Words = Omit<Hit, 'operation' | 'path' | 'severity'> & { readonly severity: 'stop' | 'warn' };

/** The gravest thing to be said of one check. */
const judge = (ask: CheckAsk, operation: OperationSeen, check: ResolvedCheck, what: Measured): Words | undefined =>
  ofItsWidth(ask, check, what) ??
  ofItsSize(ask, operation, check, what) ??
  ofItsGauge(ask, check, what) ??
  largerThanThePart(ask, check, what);

function ofItsWidth(ask: CheckAsk, check: ResolvedCheck, { nominal, lower, upper }: Measured): Words | undefined {
  const { show } = ask;
  const tryThis = `write ${usualLimits(ask, nominal)}`;
  if (upper - lower <= HAIR_MM) {
    const message = `"${check.title}" is wanted at ${show(nominal)} and allowed no difference: no piece meets it`;
    return { severity: 'stop', message, tryThis };
  }
  const within = (upper - lower) / 2;
  const beside = Math.max(lower - nominal, nominal - upper);
  if (nominal > 0 && beside > WIDE_MM + nominal * WIDE_SHARE) {
    const message = `"${check.title}" is called ${show(nominal)} and wanted between ${show(lower)} and ${show(upper)}: the limits belong to another size`;
    return { severity: 'warn', message, tryThis: `look at the figures; ${usualLimits(ask, nominal)}` };
  }
  // A gap or a run-out may well be wanted between nothing and a little.
  if (nominal <= 0 || within <= WIDE_MM + nominal * WIDE_SHARE) return undefined;
  if (lower <= 0) {
    const message = `"${check.title}" is taken from ${show(lower)} to ${show(upper)}: a piece of any size would pass`;
    return { severity: 'stop', message, tryThis };
  }
  const message = `"${check.title}" of ${show(nominal)} may be ${show(within)} off either way: that is hardly a limit`;
  return { severity: 'warn', message, tryThis };
}

/** What is usual for such a size: the plan's own general tolerance, else ISO 2768-1 medium on a metric drawing. */
function usualLimits(ask: CheckAsk, nominal: number): string {
  const { tolerance, units } = ask.plan;
  const named = tolerance?.kind === 'class' ? parseToleranceClass(tolerance.text) : undefined;
  const general = linearTolerance(nominal as Measured['nominal'], named?.ok === true ? named.value : 'medium');
  if (units === 'inch' || tolerance?.kind === 'decimals' || !general.ok) return 'what the drawing allows: "within:"';
  const words = `"within: ${writeLength(ask, general.value.plusMinus)}"`;
  return `what the drawing allows; ${words} is ${tolerance?.kind === 'class' ? 'the general tolerance of the plan' : 'ISO 2768-m'}`;
}

function ofItsSize(
  ask: CheckAsk,
  operation: OperationSeen,
  check: ResolvedCheck,
  { nominal, lower, upper }: Measured,
): Words | undefined {
  const left = sizeLeft(ask, operation, check.title);
  if (left === undefined || (left.size >= lower - HAIR_MM && left.size <= upper + HAIR_MM)) return undefined;
  return {
    severity: 'warn',
    message: `"${check.title}" is wanted at ${ask.show(nominal)}, ${ask.show(lower)} to ${ask.show(upper)}; ${left.what} ${ask.show(left.size)}`,
    tryThis: `write "nominal: ${writeLength(ask, left.size)}" with limits around it, or put the other size right`,
  };
}

const OF_PART = '(?: of (?:the )?(?:blank|part|piece))?$';
const LENGTH = new RegExp(`^(?:overall |total )?length${OF_PART}`, 'iu');
const WIDTH = new RegExp(`^(?:overall |total )?width${OF_PART}`, 'iu');
const THICKNESS = new RegExp(`^(?:overall |total )?thickness${OF_PART}`, 'iu');
const SLOT = /^(?:slot )?width(?: of (?:the )?slot)?$|^slot$/iu;

/** The size that the title names, where the operation makes it or comes after all that do; undefined for any other title. */
function sizeLeft(ask: CheckAsk, operation: OperationSeen, title: string) {
  const { kind } = operation.resolved;
  const { plan, size, setup } = operation.work;
  const { part } = ask.plan;
  const left = (of: number | undefined, what: string) => (of === undefined ? undefined : { size: of as number, what });
  if (kind === 'slot') return SLOT.test(title) ? left(slotWidth(ask, operation), 'the slot is') : undefined;
  if (LENGTH.test(title)) {
    if (kind === 'saw' || kind === 'mill to length') return left(plan.length, 'this operation leaves');
    return kind === 'inspect' ? left(lengthBefore(ask, operation), 'the work before leaves') : undefined;
  }
  if (WIDTH.test(title)) {
    if (kind === 'mill edge') return left(plan.width, 'this operation leaves');
    return kind === 'inspect' ? left(widthBefore(ask, operation), 'the work before leaves') : undefined;
  }
  if (!THICKNESS.test(title)) return undefined;
  if (kind === 'inspect') return left(laterFacing(ask, operation, part.thickness), 'the work before leaves');
  const depth = plan.depth?.kind === 'length' ? plan.depth.mm : undefined;
  const lies = setup?.lies ?? 'as drawn';
  if (kind !== 'face' || depth === undefined || lies === 'on edge' || lies === 'on end') return undefined;
  return left(size.z - depth, 'this operation leaves');
}

/** The one width of the slots of an operation. */
function slotWidth(ask: CheckAsk, operation: OperationSeen): number | undefined {
  const lines = operation.cuts.flatMap((cut) => cut.work.plan.lines ?? []);
  const widths = new Set(lines.map((name) => entryOf(ask.plan.lines, name)?.width));
  return widths.size === 1 ? [...widths][0] : undefined;
}

const lengthBefore = (ask: CheckAsk, operation: OperationSeen): number =>
  ask.operations
    .filter((one) => one.index < operation.index && ['saw', 'mill to length'].includes(one.resolved.kind))
    .findLast((one) => one.work.plan.length !== undefined)?.work.plan.length ?? ask.plan.part.length;

const widthBefore = (ask: CheckAsk, operation: OperationSeen): number =>
  ask.operations.findLast((one) => one.index < operation.index && one.work.plan.width !== undefined)?.work.plan.width ??
  ask.plan.part.width;

/** The thickness that is there while later facing is still to come. */
function laterFacing(ask: CheckAsk, operation: OperationSeen, thickness: number): number {
  const later = ask.operations.filter((one) => one.index > operation.index && one.resolved.kind === 'face');
  return later.reduce(
    (sum, { work }) => sum + (work.plan.depth?.kind === 'length' ? work.plan.depth.mm : 0),
    thickness,
  );
}

function ofItsGauge(ask: CheckAsk, check: ResolvedCheck, { lower, upper }: Measured): Words | undefined {
  const step = check.gauge === null ? undefined : stepOfGauge(check.gauge, ask.plan.units);
  const within = (upper - lower) / 2;
  if (step === undefined || within >= step - HAIR_MM) return undefined;
  const finer = ask.plan.units === 'mm' ? (within >= 0.01 ? '0.01' : '0.001') : within >= 0.0254 ? '.001' : '.0001';
  return {
    severity: 'warn',
    message: `"${check.title}" is wanted within ${ask.show(within)}; "${check.gauge}" is read in steps of ${ask.show(step)}`,
    tryThis: `measure it with something finer ("gauge: micrometer ${finer}"), or ask whether the drawing means it`,
  };
}

/** The step of a gauge that is read, from the number behind its name; undefined for plugs, pins and what says none. */
function stepOfGauge(gauge: string, units: 'mm' | 'inch'): number | undefined {
  if (/^(?:steel |bench )?rule(?:r)?$/iu.test(gauge)) return RULE_STEP_MM;
  const match =
    /^(?:.* )?(?:callipers?|calipers?|vernier|micrometer|indicator|(?:height|depth|dial) gauge) (.*\d.*)$/iu.exec(
      gauge,
    );
  const step = match === null ? undefined : parseLength(match[1] ?? '', units);
  return step?.ok === true && step.value > 0 && step.value <= LARGEST_STEP_MM ? step.value : undefined;
}

/** Over pins a size can be larger than the part, by two pins; not by a slipped decimal point. */
function largerThanThePart(ask: CheckAsk, check: ResolvedCheck, { nominal }: Measured): Words | undefined {
  const { part } = ask.plan;
  const length = Math.max(part.length, ask.resolved.stock?.blank ?? 0);
  const pins = 2 * Math.max(0, ...ask.resolved.tools.map((tool) => tool.diameter ?? 0));
  const most = Math.hypot(length, part.width, part.thickness) + pins;
  if (nominal <= most) return undefined;
  return {
    severity: 'warn',
    message: `"${check.title}" is wanted at ${ask.show(nominal)}; the part is ${ask.show(length)} x ${ask.show(part.width)} x ${ask.show(part.thickness)}`,
    tryThis: 'look at the decimal point, and at the unit',
  };
}
