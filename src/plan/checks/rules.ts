/** The registry of rules, in the order in which they are listed by `check --rules`. */
import type { Rule } from './finding.ts';
import { approachSide } from './rules/approach-side.ts';
import { awayUnsaid } from './rules/away-unsaid.ts';
import { barsShort } from './rules/bars-short.ts';
import { beforeItsHole } from './rules/before-its-hole.ts';
import { blankShort } from './rules/blank-short.ts';
import { breaksThrough } from './rules/breaks-through.ts';
import { burrSeat } from './rules/burr-seat.ts';
import { chainStack } from './rules/chain-stack.ts';
import { checkLimits } from './rules/check-limits.ts';
import { clearanceHole } from './rules/clearance-hole.ts';
import { closedEnd } from './rules/closed-end.ts';
import { coneSize } from './rules/cone-size.ts';
import { crossSlot } from './rules/cross-slot.ts';
import { crossWall } from './rules/cross-wall.ts';
import { cuttingDataHigh } from './rules/cutting-data-high.ts';
import { datumMoved } from './rules/datum-moved.ts';
import { datumOther } from './rules/datum-other.ts';
import { deepHole } from './rules/deep-hole.ts';
import { drillGrabs } from './rules/drill-grabs.ts';
import { estimateOff } from './rules/estimate-off.ts';
import { fastWanted } from './rules/fast-wanted.ts';
import { flutesShort } from './rules/flutes-short.ts';
import { handHeld } from './rules/hand-held.ts';
import { handTap } from './rules/hand-tap.ts';
import { headSeat } from './rules/head-seat.ts';
import { holderMet } from './rules/holder-met.ts';
import { holeDone } from './rules/hole-done.ts';
import { inwardFeed } from './rules/inward-feed.ts';
import { jawMet } from './rules/jaw-met.ts';
import { loadBears } from './rules/load-bears.ts';
import { loadFit } from './rules/load-fit.ts';
import { loadLast } from './rules/load-last.ts';
import { mirroredHand } from './rules/mirrored-hand.ts';
import { neighbourCut } from './rules/neighbour-cut.ts';
import { noZero } from './rules/no-zero.ts';
import { orderSetups } from './rules/order-setups.ts';
import { outsidePart } from './rules/outside-part.ts';
import { outsideTravel } from './rules/outside-travel.ts';
import { passDeep } from './rules/pass-deep.ts';
import { placeTwice } from './rules/place-twice.ts';
import { placesOverlap } from './rules/places-overlap.ts';
import { powerTapping } from './rules/power-tapping.ts';
import { quantities } from './rules/quantities.ts';
import { reamDeep } from './rules/ream-deep.ts';
import { reamStock } from './rules/ream-stock.ts';
import { rowInherits } from './rules/row-inherits.ts';
import { rowUnequal } from './rules/row-unequal.ts';
import { sawnEnd } from './rules/sawn-end.ts';
import { seatCutAway } from './rules/seat-cut-away.ts';
import { sharedSpeed } from './rules/shared-speed.ts';
import { sharpenDue } from './rules/sharpen-due.ts';
import { slotCutter } from './rules/slot-cutter.ts';
import { slowestTooFast } from './rules/slowest-too-fast.ts';
import { solidStart } from './rules/solid-start.ts';
import { sparesNone } from './rules/spares-none.ts';
import { speedHigh } from './rules/speed-high.ts';
import { speedNotThere } from './rules/speed-not-there.ts';
import { spotWide } from './rules/spot-wide.ts';
import { stopHeight } from './rules/stop-height.ts';
import { tapDrill } from './rules/tap-drill.ts';
import { tapOtherThread } from './rules/tap-other-thread.ts';
import { tapRoom } from './rules/tap-room.ts';
import { thinStock } from './rules/thin-stock.ts';
import { toleranceFine } from './rules/tolerance-fine.ts';
import { toolReach } from './rules/tool-reach.ts';
import { toolUnfit } from './rules/tool-unfit.ts';
import { underThePart } from './rules/under-the-part.ts';
import { unlocated } from './rules/unlocated.ts';
import { unmarkedVariants } from './rules/unmarked-variants.ts';
import { unused } from './rules/unused.ts';
import { variantIdle } from './rules/variant-idle.ts';
import { viceGrip } from './rules/vice-grip.ts';
import { wallThin } from './rules/wall-thin.ts';

/** Every rule. */
export const rules: readonly Rule[] = [
  speedNotThere,
  speedHigh,
  cuttingDataHigh,
  slowestTooFast,
  fastWanted,
  deepHole,
  sharedSpeed,
  tapDrill,
  tapRoom,
  tapOtherThread,
  powerTapping,
  handTap,
  reamStock,
  reamDeep,
  clearanceHole,
  headSeat,
  coneSize,
  spotWide,
  breaksThrough,
  toolUnfit,
  toolReach,
  flutesShort,
  thinStock,
  drillGrabs,
  handHeld,
  wallThin,
  crossWall,
  crossSlot,
  unlocated,
  beforeItsHole,
  holeDone,
  placeTwice,
  outsidePart,
  outsideTravel,
  underThePart,
  jawMet,
  holderMet,
  stopHeight,
  viceGrip,
  loadFit,
  loadLast,
  loadBears,
  placesOverlap,
  neighbourCut,
  rowUnequal,
  rowInherits,
  seatCutAway,
  burrSeat,
  sawnEnd,
  datumMoved,
  datumOther,
  mirroredHand,
  chainStack,
  toleranceFine,
  checkLimits,
  noZero,
  approachSide,
  slotCutter,
  passDeep,
  closedEnd,
  solidStart,
  inwardFeed,
  orderSetups,
  quantities,
  sparesNone,
  variantIdle,
  unmarkedVariants,
  awayUnsaid,
  blankShort,
  barsShort,
  estimateOff,
  unused,
  sharpenDue,
];
