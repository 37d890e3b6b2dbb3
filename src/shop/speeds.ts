/**
 * Spindle speeds: from cutting speed and diameter, back again, and the nearest speed that the machine has, never above the
 * computed one. Cutting speeds come in m/min only (`MetresPerMinute`), so ft/min cannot slip in unread; see
 * parse-quantity.ts.
 */
import { asMetresPerMinute, asRpm, type MetresPerMinute, type Mm, type Rpm } from './quantities.ts';
import { CUTTING_SPEED, SPINDLE_SPEED, TOOL_DIAMETER } from './ranges.ts';
import { answer, type Range, type Result, refuse, refuseOutside, whenSound } from './refusal.ts';

/** The fastest speed there is counts as much below the wanted one when it is less than this share of it; our choice. */
const MUCH_BELOW = 0.5;
/** A computed speed has no upper end: a small drill in aluminium wants more than any machine has. */
const WANTED_SPEED: Range = {
  what: 'wanted spindle speed',
  unit: 'rpm',
  above: 0,
  remedy: 'compute it from a cutting speed and a diameter',
};
/** Slack for a step that equals the wanted speed but for binary fractions, as a share. */
const SAME_SPEED = 1e-9;

/**
 * Spindle speed for a cutting speed at a diameter: 1000 v / (pi d), unrounded. A cone tool's diameter is the largest that it
 * cuts.
 *
 * @param cuttingSpeed above 0, at most 2000 m/min
 * @param diameter above 0, at most 250 mm
 *
 * Source: ISO 3002-1 notation; any shop handbook. Example: 30 m/min at 10 mm is 954.93 rpm; 300 ft/min at 1/4 in is 4584.
 */
export function spindleSpeed(cuttingSpeed: MetresPerMinute, diameter: Mm): Result<Rpm> {
  return whenSound([refuseOutside(cuttingSpeed, CUTTING_SPEED), refuseOutside(diameter, TOOL_DIAMETER)], () =>
    asRpm((1000 * cuttingSpeed) / (Math.PI * diameter)),
  );
}

/**
 * Cutting speed of a diameter at a spindle speed: the reverse of `spindleSpeed`.
 *
 * Example: 1500 rpm at 13 mm is 61.261 m/min.
 */
export function cuttingSpeedAt(speed: Rpm, diameter: Mm): Result<MetresPerMinute> {
  return whenSound([refuseOutside(speed, SPINDLE_SPEED), refuseOutside(diameter, TOOL_DIAMETER)], () =>
    asMetresPerMinute((Math.PI * diameter * speed) / 1000),
  );
}

/** The speeds that a machine has: steps of belts or gears, or any within a range. */
export type SpindleSpeeds =
  | { readonly kind: 'steps'; readonly steps: readonly Rpm[] }
  | { readonly kind: 'range'; readonly slowest: Rpm; readonly fastest: Rpm };

export type SpeedChoice =
  | {
      readonly kind: 'chosen';
      readonly rpm: Rpm;
      readonly wanted: Rpm;
      /** The machine's fastest, and the tool would take more. */
      readonly fastestTooSlow: boolean;
      /** As above, and less than half of what the tool would take: worth saying. */
      readonly muchBelow: boolean;
    }
  | {
      readonly kind: 'slowest-too-fast';
      readonly slowest: Rpm;
      readonly wanted: Rpm;
      /** How many times the wanted speed the slowest is. */
      readonly times: number;
    };

/**
 * The speed to set: the fastest that the machine has at or below the wanted one. In a range, the wanted one itself cut to
 * whole turns.
 *
 * @param wanted above 0
 * @param speeds at least one step, all above 0, in any order; or a range with its slowest first
 * @returns `chosen`, never above wanted; `slowest-too-fast` when every speed is above it; a refusal for bad speeds
 *
 * Example: wanted 954.93 of 90, 150, 240, 400, 680, 1100 is 680; wanted 95 where 200 is the slowest: `slowest-too-fast`,
 * 2.11 times.
 */
export function chooseSpeed(wanted: Rpm, speeds: SpindleSpeeds): Result<SpeedChoice> {
  const problem = refuseOutside(wanted, WANTED_SPEED) ?? refuseSpeeds(speeds);
  if (problem !== undefined) return refuse(problem);
  const [slowest, fastest] = [slowestSpeed(speeds), fastestSpeed(speeds)];
  if (slowest > wanted * (1 + SAME_SPEED)) {
    return answer({ kind: 'slowest-too-fast', slowest, wanted, times: slowest / wanted });
  }
  const rpm = fastestAtMost(wanted, speeds, slowest);
  const fastestTooSlow = rpm === fastest && wanted > fastest * (1 + SAME_SPEED);
  return answer({
    kind: 'chosen',
    rpm,
    wanted,
    fastestTooSlow,
    muchBelow: fastestTooSlow && rpm < MUCH_BELOW * wanted,
  });
}

function fastestAtMost(wanted: Rpm, speeds: SpindleSpeeds, slowest: Rpm): Rpm {
  switch (speeds.kind) {
    case 'steps':
      return asRpm(Math.max(...speeds.steps.filter((step) => step <= wanted * (1 + SAME_SPEED))));
    case 'range': {
      const whole = Math.floor(Math.min(wanted, speeds.fastest) * (1 + SAME_SPEED));
      return asRpm(Math.max(slowest, whole));
    }
  }
}

/** The machine's slowest speed. Steps must not be empty (see `chooseSpeed`). */
export const slowestSpeed = (speeds: SpindleSpeeds): Rpm =>
  speeds.kind === 'range' ? speeds.slowest : asRpm(Math.min(...speeds.steps));

/** The machine's fastest speed. Steps must not be empty. */
export const fastestSpeed = (speeds: SpindleSpeeds): Rpm =>
  speeds.kind === 'range' ? speeds.fastest : asRpm(Math.max(...speeds.steps));

/**
 * The one speed for several tools used in a row without changing it: the choice for the slowest of the wanted speeds.
 *
 * Example: 2125.8 and 1018.6 of 200 to 2700 in steps is 950.
 */
export function chooseCommonSpeed(wanted: readonly Rpm[], speeds: SpindleSpeeds): Result<SpeedChoice> {
  return chooseSpeed(asRpm(wanted.length === 0 ? Number.NaN : Math.min(...wanted)), speeds);
}

function refuseSpeeds(speeds: SpindleSpeeds) {
  const given = speeds.kind === 'range' ? [speeds.slowest, speeds.fastest] : speeds.steps;
  const bad = given.map((speed) => refuseOutside(speed, SPINDLE_SPEED)).find((problem) => problem !== undefined);
  if (bad !== undefined) return bad;
  const disordered = speeds.kind === 'range' && speeds.slowest > speeds.fastest;
  if (given.length > 0 && !disordered) return undefined;
  return {
    what: 'spindle speeds of the machine',
    found: given.length === 0 ? 'none' : given.join(' to '),
    allowed: 'at least one step, or a range from slow to fast',
    remedy: 'list the speeds on the chart of the machine',
  };
}
