/**
 * What is taken where a plan says nothing. These are assumptions of our own, set to be plain and easily beaten by a plan that
 * states its own or by past batches; none is a published figure unless it says so.
 */
import { asMm, asSeconds, type Mm, type Seconds } from '../../shop/quantities.ts';
import type { LengthUnit } from '../../shop/units.ts';
import { inchesToMm } from '../../shop/units.ts';
import type { OperationKind } from '../resolved.ts';

/** Taking a piece or load out, wiping, seating and clamping the next. */
export const CLAMPING_S = asSeconds(20);
/** Changing the tool within an operation. */
export const TOOL_CHANGE_S = asSeconds(40);
/** Winding to the next point and locking. */
export const WINDING_S = asSeconds(6);
/** Bringing a tool to a point that its own hole locates, on a pillar drill. */
export const LOCATING_S = asSeconds(4);
/** A touch with a cone: spot, countersink or chamfer. */
export const CONE_TOUCH_S = asSeconds(4);
/** One turn of a hand tap, with its quarter turn back. */
export const HAND_TAP_TURN_S = asSeconds(2);
/** Setting up a machine with vice, stop and zero from nothing. */
export const NEW_SETUP_S = asSeconds(20 * 60);
/** Making ready a saw, a pillar drill or a bench. */
export const MAKE_READY_S = asSeconds(3 * 60);

/** Seconds a piece for work without a spindle feed to reckon with. */
export const HAND_SECONDS: Readonly<Partial<Record<OperationKind, Seconds>>> = {
  saw: asSeconds(60),
  deburr: asSeconds(30),
  'round corners': asSeconds(60),
  inspect: asSeconds(20),
  'hand work': asSeconds(60),
  away: asSeconds(0),
};

/** How far a drill, tap or reamer goes past the far face beyond its point, lead or bevel (common practice 1 to 2 mm). */
export const breakthroughOf = (unit: LengthUnit): Mm => (unit === 'mm' ? asMm(1) : inchesToMm(0.04));
/** How far a mill goes below the far face of a wall that it cuts whole. */
export const belowFaceOf = (unit: LengthUnit): Mm => (unit === 'mm' ? asMm(0.5) : inchesToMm(0.02));
/** Air between cutter and part at the open end of a line cut. */
export const runOutOf = (unit: LengthUnit): Mm => (unit === 'mm' ? asMm(1) : inchesToMm(0.04));
/** Threads of room below the tip of a tap in a blind hole, where the plan says nothing. */
export const THREADS_BELOW_TAP = 1;
/** Share of a slot's width that counts as "the width of the cutter". */
export const SAME_WIDTH = asMm(0.03);
/** Part of the cutter's diameter by which a wide step advances from pass to pass. */
export const STEP_OVER = 0.7;
/** Part of the cutter's diameter that a strip of a face is wide at most (common practice: a cutter 1.25 to 1.5 times the cut). */
export const FACE_STEP = 0.8;
