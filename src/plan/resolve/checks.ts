/** Checks of an operation: limits worked out, moments in pieces. */

import { zoneLimits } from '../../shop/fits.ts';
import { asMm, type Mm } from '../../shop/quantities.ts';
import { type Result, refuse } from '../../shop/refusal.ts';
import {
  decimalPlacesOf,
  linearTolerance,
  type PlusMinus,
  parseToleranceClass,
  toleranceByPlaces,
} from '../../shop/tolerances.ts';
import { formatLength } from '../../shop/units.ts';
import type { PathStep } from '../read/problem.ts';
import type { ResolvedCheck } from '../resolved.ts';
import type { CheckMoment, PlanCheck, PlanOperation } from '../schema/operations.ts';
import type { PlanTolerance } from '../schema/plan.ts';
import { addProblem, noteComputed, type Resolving, take } from './context.ts';

/** The checks of an operation. */
export function resolveChecks(
  resolving: Resolving,
  plan: PlanOperation,
  path: readonly PathStep[],
  loadSize: number,
): ResolvedCheck[] {
  return (plan.checks ?? []).flatMap((check, at) => {
    const where = [...path, 'checks', at];
    const what = whatOf(resolving, plan.number, check, where);
    if (what === undefined) return [];
    const every = check.when.find((moment) => moment.kind === 'every');
    return [
      {
        id: `${plan.number}-${at + 1}`,
        title: check.title,
        gauge: check.gauge ?? null,
        what,
        firstOff: check.when.some((moment) => moment.kind === 'first-off'),
        every: every === undefined ? null : inPieces(every, loadSize),
        last: check.when.some((moment) => moment.kind === 'last'),
      },
    ];
  });
}

const inPieces = (moment: Extract<CheckMoment, { kind: 'every' }>, loadSize: number): number =>
  moment.of === 'loads' ? moment.count * loadSize : moment.count;

function whatOf(
  resolving: Resolving,
  operation: number,
  check: PlanCheck,
  path: readonly PathStep[],
): ResolvedCheck['what'] | undefined {
  if ((check.nominal === undefined) === (check.ask === undefined)) {
    addProblem(resolving, path, {
      found: check.ask === undefined ? 'neither "nominal" nor "ask"' : '"nominal" and "ask"',
      wanted: 'one of "nominal" and "ask"',
      message: `the check "${check.title}" must either measure or ask`,
      tryThis: 'give "nominal:" for a size, or "ask:" for a yes or no',
    });
    return undefined;
  }
  if (check.ask !== undefined) return { kind: 'yes or no', question: check.ask };
  const nominal = check.nominal ?? asMm(0);
  const { limits, zone } = check;
  if (refusesTwoLimits(resolving, check, path)) return undefined;
  if (limits !== undefined) return fromLimits(resolving, check, nominal, limits, path);
  if (zone !== undefined) return fromZone(resolving, operation, check, nominal, zone, path);
  if (check.within !== undefined) return measured(nominal, check.within);
  const general = take(resolving, path, generalTolerance(resolving, nominal, [...path, 'nominal']));
  if (general === undefined) return undefined;
  const value = `+-${formatLength(general.plusMinus, resolving.plan.units)}`;
  noteComputed(resolving, operation, `limits of "${check.title}"`, value, 'general tolerance of the plan');
  return measured(nominal, general.plusMinus);
}

const measured = (nominal: Mm, within: Mm): ResolvedCheck['what'] => ({
  kind: 'measured',
  nominal,
  lower: asMm(nominal - within),
  upper: asMm(nominal + within),
});

/** Limits are said in one way only. */
function refusesTwoLimits(resolving: Resolving, check: PlanCheck, path: readonly PathStep[]): boolean {
  const ways = (['limits', 'zone', 'within'] as const).filter((key) => check[key] !== undefined);
  if (ways.length < 2) return false;
  addProblem(resolving, [...path, ways[1] ?? 'within'], {
    found: ways.map((key) => `"${key}"`).join(' and '),
    wanted: 'one of "limits", "zone" and "within"',
    message: `the check "${check.title}" says its limits in more than one way`,
    tryThis: `leave one of ${ways.map((key) => `"${key}"`).join(' and ')} out`,
  });
  return true;
}

/** Limits of a zone of ISO 286; they need not lie round the nominal size. */
function fromZone(
  resolving: Resolving,
  operation: number,
  check: PlanCheck,
  nominal: Mm,
  zone: string,
  path: readonly PathStep[],
): ResolvedCheck['what'] | undefined {
  const found = take(resolving, [...path, 'zone'], zoneLimits(nominal, zone));
  if (found === undefined) return undefined;
  const { units } = resolving.plan;
  const [lower, upper] = [found.smallest, found.largest];
  const value = `${formatLength(lower, units, ZONE_DECIMALS[units])} to ${formatLength(upper, units, ZONE_DECIMALS[units])}`;
  noteComputed(resolving, operation, `limits of "${check.title}"`, value, `${found.zone}, ISO 286`);
  return { kind: 'measured', nominal, lower, upper };
}

/** Zones are whole micrometres. */
const ZONE_DECIMALS = { mm: 3, inch: 5 } as const;

/** Two sizes between which a piece is good; where the nominal size lies is the drawing's affair (D10, p6). */
function fromLimits(
  resolving: Resolving,
  check: PlanCheck,
  nominal: Mm,
  limits: readonly Mm[],
  path: readonly PathStep[],
): ResolvedCheck['what'] | undefined {
  const [lower, upper] = limits;
  if (lower !== undefined && upper !== undefined && limits.length === 2 && lower < upper)
    return { kind: 'measured', nominal, lower, upper };
  addProblem(resolving, [...path, 'limits'], {
    found: limits.map((limit) => formatLength(limit, resolving.plan.units)).join(', '),
    wanted: 'two sizes, the lower first',
    message: `the limits of the check "${check.title}" are not a lowest and a highest size`,
    tryThis: 'write [lowest, highest]',
  });
  return undefined;
}

/** The tolerance of a size that has none of its own; `path` is where it is written, for its decimal places. */
export function generalTolerance(resolving: Resolving, size: Mm, path: readonly PathStep[]): Result<PlusMinus> {
  const tolerance = resolving.plan.tolerance;
  if (tolerance === undefined) {
    return refuse({
      what: 'limits of the check',
      found: 'none',
      allowed: '"limits" or "within", or a general "tolerance" of the plan',
      remedy: 'add "within:" with the allowed difference either way',
    });
  }
  if (tolerance.kind === 'class') {
    const named = parseToleranceClass(tolerance.text);
    return named.ok ? linearTolerance(size, named.value) : named;
  }
  const places = decimalPlacesOf(resolving.positions.textOf(path) ?? '');
  return places.ok ? toleranceByPlaces(places.value, blockOf(tolerance)) : places;
}

function blockOf(tolerance: Extract<PlanTolerance, { kind: 'decimals' }>): ReadonlyMap<number, Mm> {
  const given = [tolerance['1 decimal'], tolerance['2 decimals'], tolerance['3 decimals'], tolerance['4 decimals']];
  return new Map(given.flatMap((within, at) => (within === undefined ? [] : [[at + 1, within] as const])));
}

/** The general tolerance in words, for drawing and sheet. */
export function toleranceWords(resolving: Resolving): string | null {
  const tolerance = resolving.plan.tolerance;
  if (tolerance === undefined) return null;
  if (tolerance.kind === 'class') return tolerance.text;
  return [...blockOf(tolerance)]
    .map(([places, within]) => `${places} decimals +-${formatLength(within, resolving.plan.units, 4)}`)
    .join(', ');
}
