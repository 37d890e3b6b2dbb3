/**
 * What the proof of a plan rested on: how much was looked at, what was worked out instead of stated, and what could not be
 * proved because the plan does not say it. A plan without findings is not yet a proved one.
 */
import type { ComputedNote } from '../resolve/context.ts';
import type { ResolvedMachine, ResolvedPlan, ResolvedSetup } from '../resolved.ts';
import type { Plan } from '../schema/plan.ts';
import { rules } from './rules.ts';

/** The proof of a plan in numbers and names. */
export interface Proof {
  /** Rules that were tried. */
  readonly rules: number;
  readonly operations: number;
  readonly setups: number;
  readonly tools: number;
  readonly points: number;
  readonly passes: number;
  readonly checks: number;
  /** What was worked out, and how often. */
  readonly computed: readonly { readonly what: string; readonly count: number }[];
  /** What could not be proved, and what the plan would have to say. */
  readonly unproved: readonly string[];
}

/**
 * The proof of a plan.
 *
 * @param computed the notes of `resolvePlan`
 *
 * Example: the bundled keeper plates are proved in 13 operations; nobody says how far their drills stand out.
 */
export function proofOf(plan: Plan, resolved: ResolvedPlan, computed: readonly ComputedNote[]): Proof {
  const cuts = resolved.operations.flatMap((operation) => operation.cuts);
  const used = resolved.setups.filter((setup) => resolved.operations.some((one) => one.setup === setup.id));
  return {
    rules: rules.length,
    operations: resolved.operations.length,
    setups: used.length,
    tools: new Set(cuts.flatMap((cut) => cut.tool ?? [])).size,
    points: cuts.reduce((sum, cut) => sum + cut.points.length, 0),
    passes: cuts.reduce((sum, cut) => sum + cut.passes.length, 0),
    checks: resolved.operations.reduce((sum, operation) => sum + operation.checks.length, 0),
    computed: countsOf(resolved, computed),
    unproved: unprovedOf(plan, resolved, used),
  };
}

function countsOf(resolved: ResolvedPlan, computed: readonly ComputedNote[]): Proof['computed'] {
  const cuts = resolved.operations.flatMap((operation) => operation.cuts);
  const depths = cuts.flatMap((cut) => cut.points).filter((point) => point.z !== null).length;
  const times = resolved.operations.filter((operation) => operation.estimate.from === 'computed').length;
  const noted = new Map<string, number>();
  for (const { what } of computed) {
    const kind = what.startsWith('limits') ? 'limits of checks' : what;
    noted.set(kind, (noted.get(kind) ?? 0) + 1);
  }
  const counts = [...noted, ['depths to wind', depths] as const, ['times', times] as const];
  return counts.filter(([, count]) => count > 0).map(([what, count]) => ({ what, count }));
}

function unprovedOf(plan: Plan, resolved: ResolvedPlan, setups: readonly ResolvedSetup[]): readonly string[] {
  const machineOf = (id: string) => resolved.machines.find((one) => one.id === id);
  const quoted = (some: readonly { readonly id: string }[]) => some.map(({ id }) => `"${id}"`).join(', ');
  const named = (some: readonly ResolvedMachine[]) => some.map(({ name }) => name).join(', ');
  const working = resolved.machines.filter((one) => resolved.operations.some(({ machine }) => machine === one.id));
  const inVice = setups.filter((setup) => setup.hold === 'vice');
  const noVice = inVice.filter((setup) => machineOf(setup.machine)?.vice == null);
  const noHeight = inVice.filter(
    (setup) =>
      !noVice.includes(setup) && setup.parallels === null && plan.setups?.[setup.id]?.['above jaws'] === undefined,
  );
  const otherwise = setups.filter((setup) => setup.hold !== 'vice');
  const stops = setups.filter((setup) => setup.stop !== null && setup.stop.height === null);
  const noTravel = working.filter((one) => one.station === 'mill' && one.travel === null);
  const noSpeeds = working.filter(
    (one) => ['mill', 'pillar drill'].includes(one.station) && one.speeds.kind === 'none',
  );
  const holders = unsaidHolders(plan, resolved, setups);
  const free = resolved.operations.filter((one) => one.kind === 'hand work');
  return [
    ...say(noVice, (some) => `grip and jaws in ${quoted(some)}: the machine names no vice`),
    ...say(noHeight, (some) => `how high the part stands in ${quoted(some)}: neither parallels nor "above jaws"`),
    ...say(otherwise, (some) => `what holds the part in ${quoted(some)}: clamps, pins and fixtures are not described`),
    ...say(stops, (some) => `whether the stop is met in ${quoted(some)}: it has no "height"`),
    ...say(
      holders,
      (some) => `room for chuck or holder of ${quoted(some)}: neither "reach" nor "stick out" and "holder"`,
    ),
    ...say(noTravel, (some) => `travel of ${named(some)}`),
    ...say(noSpeeds, (some) => `speeds of ${named(some)}`),
    ...say(free, (some) => `hand work in operation ${some.map((one) => one.number).join(', ')}`),
  ];
}

const say = <One>(some: readonly One[], words: (some: readonly One[]) => string): readonly string[] =>
  some.length === 0 ? [] : [words(some)];

const TURNED: ReadonlySet<string> = new Set(['mill', 'pillar drill']);

/** Tools under a spindle of which nothing says how far they reach. */
function unsaidHolders(plan: Plan, resolved: ResolvedPlan, setups: readonly ResolvedSetup[]) {
  const held = new Set(setups.map((setup) => setup.id));
  const turned = resolved.operations.filter((one) => TURNED.has(one.station) && held.has(one.setup ?? ''));
  const ids = new Set(turned.flatMap((one) => one.cuts.flatMap((cut) => cut.tool ?? [])));
  return [...ids]
    .filter((id) => {
      const tool = plan.tools?.[id];
      return tool?.reach === undefined && (tool?.['stick out'] === undefined || tool.holder === undefined);
    })
    .map((id) => ({ id }));
}

/** What no plan says, and only the machine shows. */
const UNSEEN =
  'No rule sees what a plan cannot say: clamps, chips, wear, a vice out of true. Bring each tool over stop, jaws and parallels with the spindle off.';

const MANY: Readonly<Record<string, string>> = {
  speed: 'speeds',
  blank: 'blanks',
  estimate: 'times from past batches',
};
const ONE: Readonly<Record<string, string>> = {
  'depths to wind': 'depth to wind',
  'limits of checks': 'limit of a check',
  times: 'time',
};

/** The proof in a few lines, for the end of `check`. */
export function formatProof(proof: Proof): string {
  const some = (count: number, word: string, words = `${word}s`) =>
    count === 0 ? [] : [`${count} ${count === 1 ? word : words}`];
  const looked = [
    ...some(proof.operations, 'operation'),
    ...some(proof.setups, 'setup'),
    ...some(proof.tools, 'tool'),
    ...some(proof.points, 'point'),
    ...some(proof.passes, 'pass', 'passes'),
    ...some(proof.checks, 'check'),
  ];
  const worked = proof.computed.map(({ what, count }) => `${count} ${(count === 1 ? ONE : MANY)[what] ?? what}`);
  return [
    `Tried ${proof.rules} rules on ${looked.join(', ')}.`,
    ...(worked.length === 0 ? [] : [`Worked out, not stated: ${worked.join(', ')} (millside steps shows each).`]),
    ...(proof.unproved.length === 0 ? [] : ['Not proved, for the plan does not say:']),
    ...proof.unproved.map((line) => `  - ${line}`),
    UNSEEN,
    '',
  ].join('\n');
}
