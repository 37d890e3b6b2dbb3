import { asNumber, numberBefore } from '../advice.ts';
import { type CheckAsk, goesThrough, hole, once, type VisitSeen } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

const HAIR_MM = 1e-6;

/** A drill that comes to a hole which is already larger, or already threaded. */
export const holeDone: Rule = {
  code: 'hole-done',
  severity: 'warn',
  also: ['stop'],
  catches: 'A drill that finds a hole already larger than itself and as deep, or one that drills out a thread.',
  example: 'operation 90: the 5 mm drill comes to "holes 1", which operation 80 has made 6.6 mm: it cuts nothing',
  find: (ask) =>
    once(
      ask.visits
        .filter(({ cut }) => cut.kind === 'drill' || cut.kind === 'ream')
        .flatMap((visit): readonly Hit[] => {
          const { before } = hole(ask, visit);
          const hit = drillsOutThread(visit, before) ?? cutsNothing(ask, visit, before);
          return hit === undefined ? [] : [{ operation: visit.operation.resolved.number, path: visit.path, ...hit }];
        }),
    ),
};

type Words = Omit<Hit, 'operation' | 'path'>;

/** Through a thread with more than its core: nothing is left of it. A recess at its mouth is another thing. */
function drillsOutThread(visit: VisitSeen, before: readonly VisitSeen[]): Words | undefined {
  const tapped = before.findLast(({ cut }) => cut.kind === 'tap');
  const [diameter, thread] = [visit.cut.tool?.diameter, tapped?.cut.resolved.thread];
  const core = before.findLast(({ cut, order }) => cut.kind === 'drill' && order < (tapped?.order ?? 0))?.cut.tool
    ?.diameter;
  if (tapped === undefined || thread == null || diameter == null || core == null) return undefined;
  if (diameter <= core + HAIR_MM || !isThrough(visit)) return undefined;
  return {
    severity: 'stop',
    message: `"${visit.point.name}" was tapped ${thread.name} in operation ${tapped.operation.resolved.number}; ${visit.cut.tool?.name ?? 'the drill'} takes the thread out again`,
    tryThis: 'leave it out, name other points, or say with "variants:" which pieces get the thread and which the hole',
  };
}

const isThrough = (visit: VisitSeen): boolean => visit.point.z === null || goesThrough(visit);

function cutsNothing(ask: CheckAsk, visit: VisitSeen, before: readonly VisitSeen[]): Words | undefined {
  const diameter = visit.cut.tool?.diameter;
  const lies = visit.operation.work.setup?.lies ?? '';
  if (diameter == null) return undefined;
  const larger = before.find(
    (other) =>
      (other.cut.kind === 'drill' || other.cut.kind === 'ream') &&
      (other.cut.tool?.diameter ?? 0) > diameter + HAIR_MM &&
      (isThrough(other) ||
        ((other.operation.work.setup?.lies ?? '') === lies && -(other.point.z ?? 0) >= -(visit.point.z ?? 0))),
  );
  if (larger === undefined) return undefined;
  const number = larger.operation.resolved.number;
  return {
    severity: 'warn',
    message: `${visit.cut.tool?.name ?? 'the drill'} comes to "${visit.point.name}", which operation ${number} has made ${ask.show(larger.cut.tool?.diameter ?? 0)}: it cuts nothing`,
    tryThis: `leave it out, or put it before operation ${number}${asNumber(numberBefore(ask, larger.operation))}`,
  };
}
