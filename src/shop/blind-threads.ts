/**
 * How deep to drill and how far to tap a blind thread: room below the full thread for the lead of the tap, and turns to
 * count while tapping. Lengths in mm, unrounded.
 */
import { quoteText } from './number-text.ts';
import { asMm, type Mm } from './quantities.ts';
import { ALLOWANCE, PITCH, POSITIVE_LENGTH } from './ranges.ts';
import { type Range, type Result, refuse, refuseOutside, sureRow, whenSound } from './refusal.ts';
import { RUN_OUT_DIN_76_MM, TAP_LEADS, type TapLeadRow } from './tables/tapping.ts';

const FULL_THREAD: Range = { ...POSITIVE_LENGTH, what: 'full thread' };
const LEAD: Range = {
  what: 'lead of the tap',
  unit: 'threads',
  from: 0,
  upTo: 20,
  remedy: 'count the tapered threads at the tip of the tap',
};

/**
 * Drilled cylinder beyond the last full thread when the tap is not known: e1 of DIN 76-1 for the pitch; for a pitch between
 * two rows the larger one's.
 *
 * @param pitch above 0.05, at most 3 mm
 *
 * Example: pitch 1.25 mm needs 6.2 mm; pitch 0.79375 mm (32 an inch) needs 4.2 mm.
 */
export function threadRunOut(pitch: Mm): Result<Mm> {
  const row = RUN_OUT_DIN_76_MM.find(([tabled]) => tabled >= pitch - 1e-9);
  return whenSound([refuseOutside(pitch, { ...PITCH, upTo: 3 })], () => asMm(sureRow(row)[1]));
}

/**
 * The lead of a tap by its form: `form C` (DIN 2197) or `plug`. Unknown ones are refused with the known.
 *
 * Example: `form C` leads over 2 to 3 threads, `plug` over 3 to 5.
 */
export function tapLead(form: string): Result<TapLeadRow> {
  const wanted = form
    .trim()
    .toLowerCase()
    .replace(/^([a-e])$/u, 'form $1');
  const row = TAP_LEADS.find((one) => one.form.toLowerCase() === wanted);
  if (row !== undefined) return { ok: true, value: row };
  return refuse({
    what: 'tap',
    found: quoteText(form),
    allowed: TAP_LEADS.map((one) => one.form).join(', '),
    remedy: 'name the form of the lead, or count its threads',
  });
}

export interface BlindThread {
  /** Length that must be good thread, from the face. */
  readonly fullThread: Mm;
  readonly pitch: Mm;
  /** Tapered threads at the tip of the tap. */
  readonly leadThreads: number;
  /** Room left below the tap. */
  readonly clearance: Mm;
}

/**
 * Depth of full drill diameter for a blind thread cut with a known tap: full thread + lead + clearance.
 *
 * Source: DIN 76-1, DIN 2197. Example: M6, 12 mm of thread, lead of 3 threads, 1 mm: 16 mm.
 */
export function blindThreadDrillDepth(thread: BlindThread): Result<Mm> {
  return whenSound(refuseBlindThread(thread), () =>
    asMm(thread.fullThread + thread.leadThreads * thread.pitch + thread.clearance),
  );
}

export interface TapTurns {
  /** Turns from the first bite until the full thread is cut: stop here. */
  readonly stopAt: number;
  /** Turns at which the tip meets the floor. */
  readonly bottomsAt: number;
}

/**
 * Turns of the tap in a blind hole: where to stop, and where it bottoms.
 *
 * @param thread as drilled: its drilled depth is full thread + lead + clearance
 * @returns turns, unrounded
 *
 * Example: no. 8-32, .375 in of thread, lead 5 threads, one thread of clearance: stop at 17, bottoms at 18.
 */
export function blindTapTurns(thread: BlindThread): Result<TapTurns> {
  return whenSound(refuseBlindThread(thread), () => {
    const stopAt = thread.fullThread / thread.pitch + thread.leadThreads;
    return { stopAt, bottomsAt: stopAt + thread.clearance / thread.pitch };
  });
}

/**
 * Turns for a travel along the thread: travel / pitch, unrounded.
 *
 * Source: definition of pitch. Example: 12 mm of M6 is 12 turns.
 */
export function threadTurns(travel: Mm, pitch: Mm): Result<number> {
  return whenSound(
    [refuseOutside(travel, { ...POSITIVE_LENGTH, what: 'depth' }), refuseOutside(pitch, PITCH)],
    () => travel / pitch,
  );
}

/**
 * Travel of a tap through a part until the last full thread leaves it: thickness + lead.
 *
 * Example: M6 through 10 mm with a lead of 5 threads: 15 mm.
 */
export function tapThroughTravel(thickness: Mm, pitch: Mm, leadThreads: number): Result<Mm> {
  return whenSound(
    [
      refuseOutside(thickness, { ...POSITIVE_LENGTH, what: 'thickness' }),
      refuseOutside(pitch, PITCH),
      refuseOutside(leadThreads, LEAD),
    ],
    () => asMm(thickness + leadThreads * pitch),
  );
}

function refuseBlindThread(thread: BlindThread) {
  return [
    refuseOutside(thread.fullThread, FULL_THREAD),
    refuseOutside(thread.pitch, PITCH),
    refuseOutside(thread.leadThreads, LEAD),
    refuseOutside(thread.clearance, { ...ALLOWANCE, what: 'clearance below the tap' }),
  ];
}
