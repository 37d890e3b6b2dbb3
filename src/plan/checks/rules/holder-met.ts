import { writeLength } from '../advice.ts';
import { type CheckAsk, type CutSeen, type OperationSeen, once, pathOf, thicknessAt } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';
import { radiusAbove, standingOf } from '../jaws.ts';

/** Less than this is no contact. */
const HAIR_MM = 1e-6;

/** A tool, its chuck or its holder that meets a jaw or the stop beside the part. */
export const holderMet: Rule = {
  code: 'holder-met',
  severity: 'stop',
  also: ['warn'],
  catches:
    'A cone wider above the part, or a chuck or holder (by "stick out" and "holder" of the tool), that meets a jaw or stop that stands above the top of the part.',
  example:
    'operation 70: the holder (40 mm) comes down to 3 mm above the part and meets the rear jaw, which stands 5 mm above it',
  find: (ask) =>
    once(ask.operations.flatMap((operation) => operation.cuts.flatMap((cut) => judge(ask, operation, cut)))),
};

/** What stands beside the part: how high above its top, and how far from a place. */
interface Beside {
  readonly name: string;
  readonly high: number;
  readonly away: (at: { readonly x: number; readonly y: number }) => number;
  /** Is it known to stand along the whole side? */
  readonly sure: boolean;
}

function judge(ask: CheckAsk, operation: OperationSeen, cut: CutSeen): readonly Hit[] {
  const beside = [...jawsBeside(ask, operation), ...stopBeside(operation)].filter((one) => one.high > HAIR_MM);
  if (beside.length === 0) return [];
  const points = cut.resolved.points.flatMap(({ x, y, z }) => (z === null ? [] : [{ x, y, z }]));
  const passes = cut.resolved.passes.flatMap(({ from, to, z }) => [from, to].map((end) => ({ ...end, z })));
  const hits = beside.flatMap((one) => [
    ...points.flatMap((at) => coneMeets(ask, cut, one, at) ?? []),
    ...[...points, ...passes].flatMap((at) => holderMeets(ask, operation, cut, one, at) ?? []),
  ]);
  return hits.slice(0, 1).map((hit) => ({ operation: operation.resolved.number, path: pathOf(operation), ...hit }));
}

function jawsBeside(ask: CheckAsk, operation: OperationSeen): readonly Beside[] {
  const standing = standingOf(ask, operation);
  const { setup, machine, work } = operation;
  if (standing === undefined || standing.from === 'nothing' || setup === undefined || machine?.vice == null) return [];
  const { x0, x1, y0, y1 } = setup.outline;
  const [dx, dy] = [setup.places.map((place) => place.dx), setup.places.map((place) => place.dy)];
  const along = ['rear', 'front'].includes(machine.vice.fixedJaw);
  const sure = (along ? x1 - x0 : y1 - y0) <= machine.vice.jawWidth && work.setup?.['beyond jaws'] === undefined;
  const high = -standing.above;
  return along
    ? [
        { name: 'the rear jaw', high, away: ({ y }) => y1 + Math.max(0, ...dy) - y, sure },
        { name: 'the front jaw', high, away: ({ y }) => y - y0 - Math.min(0, ...dy), sure },
      ]
    : [
        { name: 'the left jaw', high, away: ({ x }) => x - x0 - Math.min(0, ...dx), sure },
        { name: 'the right jaw', high, away: ({ x }) => x1 + Math.max(0, ...dx) - x, sure },
      ];
}

/** Where along the end the stop stands no plan says: what meets it there is no more than a warning. */
function stopBeside(operation: OperationSeen): readonly Beside[] {
  const { setup } = operation;
  if (setup?.stop?.height == null || setup.parallels === null) return [];
  const high = setup.stop.height - setup.parallels.height - thicknessAt(operation);
  const { x0, x1 } = setup.outline;
  const left = setup.stop.side === 'left';
  return [{ name: 'the stop', high, away: ({ x }) => (left ? x - x0 : x1 - x), sure: false }];
}

interface At {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

type Words = Omit<Hit, 'operation' | 'path'>;

function coneMeets(ask: CheckAsk, cut: CutSeen, beside: Beside, at: At): Words | undefined {
  const away = beside.away(at);
  const radius = radiusAbove(cut, beside.high - at.z);
  // A hole that is wider than its place in the part breaks out of it, and is told by another rule.
  if (away <= 0 || radiusAbove(cut, -at.z) > away || radius <= away + HAIR_MM) return undefined;
  return {
    severity: beside.sure ? 'stop' : 'warn',
    message: `${cut.tool?.name ?? 'the tool'} is ${ask.show(2 * radius)} across where it passes ${beside.name}, ${ask.show(beside.high)} above the part and ${ask.show(away)} from its axis`,
    tryThis: `${lower(ask, beside, beside.high)}, or take a tool of at most "diameter: ${writeLength(ask, 2 * away, 'down')}"`,
  };
}

function holderMeets(ask: CheckAsk, operation: OperationSeen, cut: CutSeen, beside: Beside, at: At): Words | undefined {
  const { 'stick out': out, holder } = cut.work.tool ?? {};
  if (out === undefined || holder === undefined) return undefined;
  const bottom = out + at.z;
  const away = beside.away(at);
  // Deeper than it stands out is told by another rule.
  if (bottom < 0 || bottom >= beside.high - HAIR_MM || holder / 2 <= away + HAIR_MM) return undefined;
  if (clearOfJaws(operation, at, holder / 2)) return undefined;
  return {
    severity: beside.sure ? 'stop' : 'warn',
    message: `the holder of ${cut.tool?.name ?? 'the tool'} (${ask.show(holder)}) comes down to ${ask.show(bottom)} above the part and meets ${beside.name}, which stands ${ask.show(beside.high)} above it, ${ask.show(Math.max(0, away))} from the axis`,
    tryThis: `let the tool stand out further ("stick out: ${writeLength(ask, beside.high - at.z, 'up')}"), or ${lower(ask, beside, beside.high - bottom)}`,
  };
}

/** Does the whole holder stay where the end of the part stands beyond the jaws? */
function clearOfJaws(operation: OperationSeen, at: At, radius: number): boolean {
  const beyond = operation.work.setup?.['beyond jaws'];
  const outline = operation.setup?.outline;
  if (beyond === undefined || outline === undefined) return false;
  return at.x - radius >= outline.x1 - beyond || at.x + radius <= outline.x0 + beyond;
}

/** What brings the part up to what stands beside it, or that down. */
const lower = (ask: CheckAsk, beside: Beside, by: number): string =>
  beside.name === 'the stop'
    ? `take a stop lower by ${ask.show(Math.ceil(by * 100 - 1e-6) / 100)}`
    : `put parallels under the part that are higher by ${ask.show(Math.ceil(by * 100 - 1e-6) / 100)}`;
