import { peckAdvice } from '../../../shop/feeds.ts';
import { asMm, asRpm } from '../../../shop/quantities.ts';
import { chooseSpeed } from '../../../shop/speeds.ts';
import { formatTrimmed } from '../../../shop/units.ts';
import { machineSpeeds } from '../../resolve/speeds.ts';
import { allCuts, type CutSeen, type OperationSeen, once } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** A hole so deep that it wants less speed and feed. */
export const deepHole: Rule = {
  code: 'deep-hole',
  severity: 'note',
  catches:
    'A hole of 3 diameters and more that is drilled faster than its depth allows: chips and heat do not get out.',
  example:
    'operation 70: 5 mm drill goes 6.2 diameters deep; there 0.6 of the speed is usual, 930 rpm, and 1380 is set',
  find: (ask) => once(allCuts(ask).flatMap(({ operation, cut }) => judge(operation, cut))),
};

function judge(operation: OperationSeen, cut: CutSeen): readonly Hit[] {
  const diameter = cut.tool?.diameter;
  const { set, computed } = cut.resolved.speed;
  const deep = Math.max(0, ...cut.resolved.points.map((point) => -(point.z ?? 0)));
  if (cut.kind !== 'drill' || diameter == null || set === null || computed === null || deep <= 0) return [];
  const advice = peckAdvice(diameter, asMm(deep));
  if (!advice.ok || advice.value.speedShare === 1) return [];
  const { depthInDiameters, speedShare, feedShare } = advice.value;
  const usual = computed * speedShare;
  if (set <= usual * 1.005) return [];
  const speeds = machineSpeeds(operation.work.machine);
  const choice = speeds === undefined ? undefined : chooseSpeed(asRpm(usual), speeds);
  const slower = choice?.ok === true && choice.value.kind === 'chosen' ? choice.value.rpm : undefined;
  const words = slower === undefined ? '' : `write "speed: ${formatTrimmed(Math.floor(slower), 0)}", `;
  return [
    {
      operation: operation.resolved.number,
      path: cut.path,
      message: `${cut.tool?.name ?? 'the drill'} goes ${formatTrimmed(depthInDiameters, 1)} diameters deep; there ${speedShare} of the speed is usual, ${formatTrimmed(usual, 0)} rpm, and ${formatTrimmed(set, 0)} is set`,
      tryThis: `${words}feed ${feedShare} of the usual and draw back to clear the chips (common practice)`,
    },
  ];
}
