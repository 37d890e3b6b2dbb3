import { cuttingSpeedAdvice } from '../../../shop/cutting-speeds.ts';
import { feedPerTooth, feedPerTurn } from '../../../shop/feeds.ts';
import { findMaterial } from '../../../shop/materials.ts';
import type { Mm } from '../../../shop/quantities.ts';
import { formatCuttingSpeed } from '../../../shop/units.ts';
import { cutOfKind } from '../../resolve/speeds.ts';
import { writeLength } from '../advice.ts';
import { allCuts, type CheckAsk, type CutSeen, once } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/**
 * How many times the top of the published range a stated value may be: coated tools and cutting oil go beyond the tables,
 * metres taken for feet (3.3 times) do not pass. A choice of ours.
 */
const MOST_TIMES = 2;

/** A cutting speed or feed that no tool of that kind stands. */
export const cuttingDataHigh: Rule = {
  code: 'cutting-data-high',
  severity: 'warn',
  catches:
    'A stated cutting speed or feed of more than twice the published range: feet taken for metres, a slipped point.',
  example:
    'operation 70: a cutting speed of 100 m/min is stated; 34 m/min is the fastest published for drill in mild steel',
  find: (ask) =>
    once(
      allCuts(ask).flatMap(({ operation, cut }) =>
        [speedOf(ask, cut), feedOf(ask, cut)].flatMap((hit) =>
          hit === undefined
            ? []
            : [{ operation: hit.path[0] === 'operations' ? operation.resolved.number : null, ...hit }],
        ),
      ),
    ),
};

type Said = Omit<Hit, 'operation'>;

function speedOf(ask: CheckAsk, cut: CutSeen): Said | undefined {
  const work = cutOfKind(cut.kind);
  const material = findMaterial(ask.plan.material);
  if (work === undefined || !material.ok || cut.resolved.speed.computed === null) return undefined;
  const key = work === 'chamfer' ? 'countersink' : work;
  const own = cut.work.plan['cutting speed'];
  const ofTool = cut.work.tool?.['cutting speed'];
  const stated = own ?? ofTool ?? ask.plan['cutting speeds']?.[key];
  const advice = cuttingSpeedAdvice(material.value, work, cut.work.tool?.material ?? 'HSS');
  if (stated === undefined || !advice.ok || stated <= advice.value.high * MOST_TIMES) return undefined;
  const show = (speed: typeof stated) => formatCuttingSpeed(speed, ask.plan.units);
  const ofPlan = own === undefined && ofTool === undefined;
  return {
    path: ofPlan
      ? ['cutting speeds', key]
      : own === undefined
        ? ['tools', cut.work.toolKey ?? '']
        : [...cut.path, 'cutting speed'],
    message: `a cutting speed of ${show(stated)} is stated; ${show(advice.value.high)} is the fastest published for ${work} in ${ask.plan.material}`,
    tryThis: `write ${show(advice.value.start)}, or leave it out`,
  };
}

function feedOf(ask: CheckAsk, cut: CutSeen): Said | undefined {
  const work = cutOfKind(cut.kind);
  const stated = cut.work.plan.feed;
  const diameter = cut.tool?.diameter;
  if (work === undefined || work === 'tap' || stated === undefined || diameter == null) return undefined;
  const most = fastestFeed(ask, cut, work, diameter);
  if (most === undefined || stated <= most * MOST_TIMES) return undefined;
  return {
    path: [...cut.path, 'feed'],
    message: `a feed of ${ask.show(stated)} a turn is stated; ${ask.show(most)} is the most that is published for ${work} at ${ask.show(diameter)}`,
    tryThis: `write "feed: ${writeLength(ask, most, 'down')}/rev", or leave it out`,
  };
}

function fastestFeed(
  ask: CheckAsk,
  cut: CutSeen,
  work: Exclude<ReturnType<typeof cutOfKind>, undefined | 'tap'>,
  diameter: Mm,
) {
  if (work !== 'mill') {
    const range = feedPerTurn(diameter, work);
    return range.ok ? range.value.high : undefined;
  }
  const material = findMaterial(ask.plan.material);
  const tool = cut.work.tool?.material === 'carbide' ? 'carbide' : 'HSS';
  const range = material.ok ? feedPerTooth(diameter, material.value, tool) : undefined;
  return range?.ok === true ? range.value.high * (cut.tool?.flutes ?? 2) : undefined;
}
