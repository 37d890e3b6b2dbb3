/**
 * When a drill may grab: be pulled into the work by its own lips, so that the part spins or the drill breaks. All of it is
 * common practice of the trade; no standard speaks of it.
 */
import { type Drill, isThinStock } from './drilling.ts';
import type { MaterialName } from './materials.ts';
import type { Mm } from './quantities.ts';
import { HOLE_DIAMETER } from './ranges.ts';
import { answer, type Range, type Refusal, type Result, refuse, refuseOutside } from './refusal.ts';

/**
 * Why a drill may grab:
 * - `thin stock`: its point is longer than the stock is thick, so that nothing guides it as it breaks through;
 * - `brass`: keen lips pull themselves in; they are dulled to no rake;
 * - `opening a hole`: a hole only slightly smaller leaves it nothing but its corners to cut with, which grabs most.
 */
export type GrabRisk = 'thin stock' | 'brass' | 'opening a hole';

/** From this share of the drill's diameter on, a hole that it opens counts as only slightly smaller; our choice. */
const SLIGHTLY_SMALLER = 0.75;

export interface DrilledPlace {
  readonly drill: Drill;
  readonly material?: MaterialName;
  /** Of the stock, for a hole right through it. */
  readonly thickness?: Mm;
  /** A hole that is already there and is opened. */
  readonly hole?: Mm;
}

/**
 * The reasons for which a drill may grab at a place, none of them most often.
 *
 * @param place an existing hole must be above 0 and smaller than the drill
 *
 * Source: common practice. Example: a 10 mm drill in brass is `brass`; opening a 9 mm hole in it `brass` and
 * `opening a hole`; an 8 mm drill of 118 degrees through 1.5 mm steel `thin stock`.
 */
export function grabRisks(place: DrilledPlace): Result<readonly GrabRisk[]> {
  const { drill, material, thickness, hole } = place;
  const opened = hole === undefined ? undefined : refuseOpening(hole, drill.diameter);
  if (opened !== undefined) return refuse(opened);
  const thin = thickness === undefined ? answer(false) : isThinStock(thickness, drill);
  if (!thin.ok) return thin;
  const risks: readonly (readonly [GrabRisk, boolean])[] = [
    ['thin stock', thin.value],
    ['brass', material === 'brass'],
    ['opening a hole', hole !== undefined && hole >= SLIGHTLY_SMALLER * drill.diameter],
  ];
  return answer(risks.filter(([, isThere]) => isThere).map(([risk]) => risk));
}

function refuseOpening(hole: Mm, drill: Mm): Refusal | undefined {
  const range: Range = {
    ...HOLE_DIAMETER,
    what: 'hole to open',
    below: drill,
    remedy: 'give a hole smaller than the drill that opens it',
  };
  return refuseOutside(hole, range);
}
