/**
 * Tapping under power on a manual spindle. A spindle that takes its time to stop drives the tap on meanwhile; in a blind
 * hole that travel must fit into the run-out left, or the tap breaks.
 */
import { asMm, asRpm, asSeconds, type Mm, type Rpm, type Seconds } from './quantities.ts';
import { ALLOWANCE, PITCH, SPINDLE_SPEED } from './ranges.ts';
import { type Range, type Refusal, type Result, refuseOutside, whenSound } from './refusal.ts';
import { chooseSpeed, type SpeedChoice, type SpindleSpeeds, slowestSpeed } from './speeds.ts';

/** How a spindle turns back: at a flick of the switch, after it has come to rest, or not at all. */
export type SpindleReverse = 'at once' | 'after stopping' | 'never';

/** Fastest at which a tap is driven in on a spindle that never reverses, stopped, and backed out by hand: common practice. */
const BACK_OUT_BY_HAND_LIMIT = asRpm(200);

/** No spindle stands in no time: 0 would let every tap through. */
export const STOPPING_TIME: Range = {
  what: 'stopping time',
  unit: 's',
  above: 0,
  upTo: 120,
  remedy: 'time the spindle: no spindle stands at once, it takes a few seconds',
};

/** Stopping time taken when nobody timed the spindle: a slow spindle with the tap's drag on it. From memory. */
export const USUAL_STOPPING_TIME = asSeconds(1);

/**
 * Whether and how a thread can be tapped under power:
 * - `reverses at once`: the operator reverses at depth; the tap runs on by nothing that this reckons with;
 * - `fits`: stop it at depth; it runs on by `runsOn`, within what is left;
 * - `back out by hand`: as `fits`, but the spindle cannot reverse, so the tap is turned back by hand;
 * - `runs too far`: it would run on further than is left; `highestSpeed` would just fit;
 * - `by hand`: the spindle never reverses and is too fast to be stopped in time: tap by hand.
 */
export type PowerTapping =
  | { readonly kind: 'reverses at once' }
  | { readonly kind: 'fits' | 'back out by hand'; readonly runsOn: Mm; readonly left?: Mm }
  | { readonly kind: 'runs too far' | 'by hand'; readonly runsOn: Mm; readonly left?: Mm; readonly highestSpeed?: Rpm };

export interface TappingRun {
  readonly speed: Rpm;
  readonly pitch: Mm;
  readonly reverse: SpindleReverse;
  /** From pressing stop to standing still. Time it on the machine; seconds of a free spindle at that speed. */
  readonly stoppingTime: Seconds;
  /** Room below the tap when it has cut its full thread; left out for a through hole with air under it. */
  readonly runOutLeft?: Mm;
}

/**
 * How far a tap runs on while the spindle stops: speed x pitch / 60 x stopping time. It is the most it can be: a slowing
 * spindle travels less.
 *
 * Source: kinematics. Example: 200 rpm, 1 mm pitch, 1.5 s: 5 mm.
 */
export function tapRunOn(speed: Rpm, pitch: Mm, stoppingTime: Seconds): Result<Mm> {
  return whenSound(refuseRun(speed, pitch, stoppingTime), () => runOn(speed, pitch, stoppingTime));
}

/**
 * Judges tapping under power.
 *
 * @returns see `PowerTapping`; a refusal for a speed, pitch, time or room out of range
 *
 * Example: M6 (1 mm) at 90 rpm, stopping in 1 s, 3 mm left, reverses after stopping: `fits`, runs on 1.5 mm. At 200 rpm in
 * 1.5 s: `runs too far`, highest speed 120 rpm. M3 at 170 rpm in a through hole on a spindle that never reverses:
 * `back out by hand`.
 */
export function judgePowerTapping(run: TappingRun): Result<PowerTapping> {
  const left = run.runOutLeft;
  const room = left === undefined ? undefined : refuseOutside(left, { ...ALLOWANCE, what: 'run-out left' });
  return whenSound([...refuseRun(run.speed, run.pitch, run.stoppingTime), room], (): PowerTapping => {
    const runsOn = runOn(run.speed, run.pitch, run.stoppingTime);
    const fits = left === undefined || runsOn < left;
    const numbers = { runsOn, ...(left === undefined ? {} : { left }) };
    switch (run.reverse) {
      case 'at once':
        return { kind: 'reverses at once' };
      case 'after stopping':
        return fits ? { kind: 'fits', ...numbers } : { kind: 'runs too far', ...numbers, ...highest(run, left) };
      case 'never':
        return fits && run.speed <= BACK_OUT_BY_HAND_LIMIT
          ? { kind: 'back out by hand', ...numbers }
          : { kind: 'by hand', ...numbers };
    }
  });
}

/**
 * The speed to tap at: the machine's slowest, unless its spindle reverses at once, when it is chosen as for any other tool.
 *
 * @param wanted spindle speed from the tap's cutting speed
 * @returns as `chooseSpeed`: never above wanted, `slowest-too-fast` when even the slowest is
 *
 * Example: wanted 1200 of 90, 150, 400: 90 after stopping, 400 at once.
 */
export function tappingSpeed(wanted: Rpm, speeds: SpindleSpeeds, reverse: SpindleReverse): Result<SpeedChoice> {
  const choice = chooseSpeed(wanted, speeds);
  if (reverse === 'at once' || !choice.ok || choice.value.kind === 'slowest-too-fast') return choice;
  const slow = { ...choice.value, rpm: slowestSpeed(speeds), fastestTooSlow: false, muchBelow: false };
  return { ok: true, value: slow };
}

const runOn = (speed: Rpm, pitch: Mm, stoppingTime: Seconds): Mm => asMm((speed * pitch * stoppingTime) / 60);

/** The speed at which the tap would just fit; none when there is no room. */
function highest(run: TappingRun, left: Mm): { readonly highestSpeed?: Rpm } {
  const speed = (left * 60) / (run.pitch * run.stoppingTime);
  return speed > 0 ? { highestSpeed: asRpm(speed) } : {};
}

function refuseRun(speed: Rpm, pitch: Mm, stoppingTime: Seconds): readonly (Refusal | undefined)[] {
  return [refuseOutside(speed, SPINDLE_SPEED), refuseOutside(pitch, PITCH), refuseOutside(stoppingTime, STOPPING_TIME)];
}
