import { cuttingSpeedAdvice } from '../../../shop/cutting-speeds.ts';
import { findMaterial } from '../../../shop/materials.ts';
import { asRpm } from '../../../shop/quantities.ts';
import { chooseSpeed } from '../../../shop/speeds.ts';
import { formatTrimmed } from '../../../shop/units.ts';
import { cutOfKind, machineSpeeds } from '../../resolve/speeds.ts';
import { allCuts, type CheckAsk, type CutSeen, type OperationSeen } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** How far above the top of the published range a stated speed may lie before it is said. */
const SLACK = 1.05;

/** A speed above what tool and material stand. */
export const speedHigh: Rule = {
  code: 'speed-high',
  severity: 'warn',
  also: ['stop'],
  catches:
    'A stated spindle speed above the published range for tool, diameter and material, or above the limit of the tool.',
  example: 'operation 70: 2200 rpm is more than the 2133 that 33.5 m/min gives at 5 mm in mild steel',
  find: (ask) =>
    allCuts(ask).flatMap(({ operation, cut }): readonly Hit[] => {
      const set = cut.resolved.speed.set;
      if (set === null) return [];
      const number = operation.resolved.number;
      const limit = cut.work.tool?.['top speed'];
      if (limit !== undefined && set > limit) {
        const message = `${set} rpm is above the ${limit} that ${cut.tool?.name ?? 'the tool'} stands`;
        return [
          {
            operation: number,
            path: [...cut.path, 'speed'],
            message,
            tryThis: `set at most ${limit}`,
            severity: 'stop',
          },
        ];
      }
      const most = fastestSound(ask, cut);
      if (cut.work.plan.speed === undefined || most === undefined || set <= most * SLACK) return [];
      const message = `${set} rpm is more than the ${formatTrimmed(most, 0)} that the fastest published cutting speed gives here`;
      return [
        {
          operation: number,
          path: [...cut.path, 'speed'],
          message,
          tryThis: speedAdvice(most, operation),
        },
      ];
    }),
};

/** The fastest speed of the machine that is sound. */
function speedAdvice(most: number, operation: OperationSeen): string {
  const speeds = machineSpeeds(operation.work.machine);
  const choice = speeds === undefined ? undefined : chooseSpeed(asRpm(most), speeds);
  const sound = choice?.ok === true && choice.value.kind === 'chosen' ? choice.value.rpm : Math.floor(most);
  return `write "speed: ${formatTrimmed(Math.floor(sound), 0)}", or leave the speed out`;
}

/** The speed at the top of the published range, or at the cutting speed that the plan states. */
function fastestSound(ask: CheckAsk, cut: CutSeen): number | undefined {
  const { computed, because } = cut.resolved.speed;
  if (computed === null || because.includes('cutting speed of the plan')) return computed ?? undefined;
  const work = cutOfKind(cut.kind);
  const material = findMaterial(ask.plan.material);
  if (work === undefined || !material.ok) return computed;
  const advice = cuttingSpeedAdvice(material.value, work, cut.work.tool?.material ?? 'HSS');
  if (!advice.ok) return computed;
  return (computed * advice.value.high) / advice.value.start;
}
