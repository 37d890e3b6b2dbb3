/**
 * Screw threads: their shape and the limits of an internal thread's minor diameter. What a thread is called is in
 * thread-names.ts, what is drilled before it in tap-drills.ts, what is done with the tap in tapping.ts.
 *
 * Two meanings of "percent thread" are in use and differ by a fifth; every function here says which one it means.
 */
import { asMm, type Mm } from './quantities.ts';
import { HOLE_DIAMETER, PITCH } from './ranges.ts';
import { type Range, type Result, refuseOutside, whenSound } from './refusal.ts';
import { roundToResolution } from './units.ts';

/** ISO and Unified share the 60 degree form; BA has 47.5 degrees, Whitworth and model-engineer threads 55. */
export type ThreadForm = 'iso' | 'whitworth' | 'ba';

export type ThreadSeries = 'metric coarse' | 'metric fine' | 'UNC' | 'UNF' | 'BA' | 'BSW' | 'BSF' | 'ME';

/** Between what the drilled hole must lie, and on whose word. */
export interface MinorLimits {
  readonly min: Mm;
  readonly max: Mm;
  /** Such as `ISO 965-1, 6H`. */
  readonly source: string;
  /** False: from memory or common practice, and to be called so. */
  readonly confirmed: boolean;
}

export interface TapDrill {
  readonly diameter: Mm;
  /** As it is called at the bench: `no. 29`, `5/16 in`, `6.8 mm`. */
  readonly name: string;
  readonly source: string;
  readonly confirmed: boolean;
  /** Other drills that usual charts give for the thread. */
  readonly others: readonly Mm[];
}

export interface Thread {
  /** As it is written in a plan: `M6`, `M5x0.5`, `no. 8-32 UNC`, `4 BA`, `1/4 x 40 ME`. */
  readonly name: string;
  /** The size alone: `M6`, `no. 8`, `1/4`, `4 BA`. */
  readonly size: string;
  readonly series: ThreadSeries;
  readonly form: ThreadForm;
  readonly major: Mm;
  readonly pitch: Mm;
  readonly limits: MinorLimits;
  readonly tapDrill: TapDrill;
}

/**
 * What a percentage of thread is a percentage of: the basic depth of the internal thread (5H/8), the depth of the external
 * thread (3H/4), or the depth of the Whitworth or BA form.
 */
export type EngagementBasis = '5H/8' | '3H/4' | 'Whitworth depth' | 'BA depth';

/** Height of the sharp triangle by pitch: cos 30 degrees. Source: ISO 68-1. */
const SHARP_HEIGHT = Math.sqrt(3) / 2;
/** Depth of the Whitworth form by pitch: two thirds of 0.960491. Source: BS 84. */
const WHITWORTH_DEPTH = 0.640327;
/** Depth of the BA form by pitch. Source: BS 93. */
const BA_DEPTH = 0.6;

/** Depth of thread on one side, in pitches. Sources: ISO 68-1 and ASME B1.1 (5H/8), shop convention (3H/4), BS 84, BS 93. */
const DEPTH_IN_PITCHES: Readonly<Record<EngagementBasis, number>> = {
  '5H/8': (5 / 8) * SHARP_HEIGHT,
  '3H/4': (3 / 4) * SHARP_HEIGHT,
  'Whitworth depth': WHITWORTH_DEPTH,
  'BA depth': BA_DEPTH,
};

const ENGAGEMENT: Range = {
  what: 'engagement',
  unit: '%',
  above: 0,
  upTo: 100,
  remedy: 'give a percentage such as 75 %',
};

/**
 * The bases on which a percentage can be stated for a form, the one that this program means first.
 *
 * Example: `iso` has `5H/8` (internal basic depth, meant when nothing is said) and `3H/4` (external depth).
 */
export function basesOf(form: ThreadForm): readonly [EngagementBasis, ...EngagementBasis[]] {
  switch (form) {
    case 'iso':
      return ['5H/8', '3H/4'];
    case 'whitworth':
      return ['Whitworth depth'];
    case 'ba':
      return ['BA depth'];
  }
}

/**
 * Depth of thread on one side in mm.
 *
 * Example: pitch 1 mm is 0.5413 mm on `5H/8` and 0.6495 mm on `3H/4`.
 */
const threadDepth = (pitch: Mm, basis: EngagementBasis): Mm => asMm(DEPTH_IN_PITCHES[basis] * pitch);

export interface ThreadGeometry {
  /** Height of the sharp triangle; ISO and Unified only. */
  readonly sharpHeight?: Mm;
  /** Pitch (effective) diameter. */
  readonly pitchDiameter: Mm;
  /** Basic minor diameter: D1 of an internal ISO or Unified thread, the core of a Whitworth or BA one. */
  readonly minor: Mm;
  /** Root of the external thread (d3); ISO and Unified only. */
  readonly externalRoot?: Mm;
  readonly depth: Mm;
}

/**
 * Basic diameters of a thread, unrounded except BA, whose minor diameter BS 93 rounds to 0.01 mm.
 *
 * @param major above 0, at most 250 mm
 * @param pitch above 0.05, at most 10 mm, and small enough to leave a core
 *
 * Sources: ISO 68-1 and ISO 724 (D2 = D - 0.649519 P, D1 = D - 1.082532 P, d3 = D - 1.226869 P), BS 84, BS 93.
 * Example: M8 x 1.25 has pitch diameter 7.188, minor 6.647, external root 6.466 mm.
 */
export function threadGeometry(form: ThreadForm, major: Mm, pitch: Mm): Result<ThreadGeometry> {
  const depth = threadDepth(pitch, basesOf(form)[0]);
  return whenSound([refuseThreadSize(major, pitch), refuseOutside(major - 2 * depth, HOLE_DIAMETER)], () =>
    diametersOf(form, major, pitch),
  );
}

function diametersOf(form: ThreadForm, major: Mm, pitch: Mm): ThreadGeometry {
  const full = threadDepth(pitch, basesOf(form)[0]);
  switch (form) {
    case 'iso': {
      const sharpHeight = SHARP_HEIGHT * pitch;
      return {
        sharpHeight: asMm(sharpHeight),
        pitchDiameter: asMm(major - (3 / 4) * sharpHeight),
        minor: asMm(major - 2 * full),
        externalRoot: asMm(major - (17 / 12) * sharpHeight),
        depth: full,
      };
    }
    case 'whitworth':
      return { pitchDiameter: asMm(major - full), minor: asMm(major - 2 * full), depth: full };
    case 'ba': {
      const minor = roundToResolution(major - 2 * full, 0.01);
      const depth = (major - minor) / 2;
      return { pitchDiameter: asMm(major - depth), minor: asMm(minor), depth: asMm(depth) };
    }
  }
}

/**
 * How much of the thread's depth a hole of this diameter leaves, in percent of the basis; above 100 when the hole is
 * smaller than the core. Unrounded.
 *
 * @param hole above 0, below the major diameter
 *
 * Source: ASME B1.1, ISO 68-1. Example: M10 in a hole of 8.5 mm is 92.4 % of 5H/8 and 77.0 % of 3H/4.
 */
export function engagementPercent(
  thread: Pick<Thread, 'major' | 'pitch'>,
  hole: Mm,
  basis: EngagementBasis,
): Result<number> {
  const range: Range = {
    what: 'hole diameter',
    unit: 'mm',
    above: 0,
    below: thread.major,
    remedy: 'give a hole smaller than the thread',
  };
  return whenSound([refuseThreadSize(thread.major, thread.pitch), refuseOutside(hole, range)], () => {
    return ((thread.major - hole) / (2 * threadDepth(thread.pitch, basis))) * 100;
  });
}

/**
 * The hole that leaves a wanted percentage of the thread's depth, in mm, unrounded.
 *
 * @param percent above 0, at most 100, of the basis named
 *
 * Example: M6 at 75 % is 5.188 mm on `5H/8` (above the 6H maximum of 5.153) and 5.026 mm on `3H/4`.
 */
export function holeForEngagement(
  thread: Pick<Thread, 'major' | 'pitch'>,
  percent: number,
  basis: EngagementBasis,
): Result<Mm> {
  return whenSound([refuseThreadSize(thread.major, thread.pitch), refuseOutside(percent, ENGAGEMENT)], () =>
    asMm(thread.major - (percent / 100) * 2 * threadDepth(thread.pitch, basis)),
  );
}

function refuseThreadSize(major: Mm, pitch: Mm) {
  return (
    refuseOutside(major, { ...HOLE_DIAMETER, what: 'thread diameter' }) ??
    refuseOutside(pitch, { ...PITCH, upTo: Math.min(10, major / 1.5) })
  );
}
