/** The registry of rules, in the order in which they are listed by `check --rules`. */
import type { Rule } from './finding.ts';
import { barsShort } from './rules/bars-short.ts';
import { beforeItsHole } from './rules/before-its-hole.ts';
import { breaksThrough } from './rules/breaks-through.ts';
import { outsidePart } from './rules/outside-part.ts';
import { outsideTravel } from './rules/outside-travel.ts';
import { powerTapping } from './rules/power-tapping.ts';
import { quantities } from './rules/quantities.ts';
import { slowestTooFast } from './rules/slowest-too-fast.ts';
import { speedHigh } from './rules/speed-high.ts';
import { speedNotThere } from './rules/speed-not-there.ts';
import { tapDrill } from './rules/tap-drill.ts';
import { tapRoom } from './rules/tap-room.ts';
import { toleranceFine } from './rules/tolerance-fine.ts';

/** Every rule, each in its own file. */
export const rules: readonly Rule[] = [
  speedNotThere,
  speedHigh,
  slowestTooFast,
  tapDrill,
  tapRoom,
  powerTapping,
  breaksThrough,
  beforeItsHole,
  outsidePart,
  outsideTravel,
  toleranceFine,
  quantities,
  barsShort,
];
