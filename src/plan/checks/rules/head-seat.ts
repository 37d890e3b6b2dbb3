import { capHead, judgeCounterbore } from '../../../shop/counterbores.ts';
import { countersunkHead, seatOfHead } from '../../../shop/countersunk-heads.ts';
import { asMm } from '../../../shop/quantities.ts';
import { formatTrimmed } from '../../../shop/units.ts';
import { writeLength } from '../advice.ts';
import { type CheckAsk, once, type VisitSeen } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';
import { parseScrew, type Screw } from '../screws.ts';

/** How far a head may stand proud before it is said: less than is felt. */
const FELT_MM = 0.05;
/** How far the angle of a countersink may be from that of the head. */
const SAME_ANGLE_DEG = 1;

/** A head that does not sit as it should. */
export const headSeat: Rule = {
  code: 'head-seat',
  severity: 'warn',
  also: ['stop'],
  catches:
    'A countersink in which the head stands proud or whose angle is another, or a counterbore that does not take the head.',
  example: 'operation 100: the head of M6 (ISO 10642, 13.44 mm) stands 0.72 mm proud in a top of 12 mm',
  find: (ask) => once(ask.visits.flatMap((visit) => judge(ask, visit))),
};

function judge(ask: CheckAsk, visit: VisitSeen): readonly Hit[] {
  const text = visit.cut.work.plan.screw;
  const screw = text === undefined ? undefined : parseScrew(text);
  if (screw?.ok !== true) return [];
  const base = { operation: visit.operation.resolved.number, path: [...visit.path, 'screw'] };
  if (visit.cut.kind === 'countersink') return countersunk(ask, visit, screw.value).map((hit) => ({ ...base, ...hit }));
  return visit.cut.kind === 'counterbore'
    ? counterbored(ask, visit, screw.value).map((hit) => ({ ...base, ...hit }))
    : [];
}

type Words = Omit<Hit, 'operation' | 'path'>;

function countersunk(ask: CheckAsk, visit: VisitSeen, screw: Screw): readonly Words[] {
  const head = countersunkHead(screw.standard, screw.thread.size);
  const top = visit.cut.resolved.topDiameter;
  if (!head.ok || top === null) return [];
  const angle = visit.cut.tool?.pointAngle ?? null;
  const words: Words[] = [];
  if (angle !== null && Math.abs(angle - head.value.angle) > SAME_ANGLE_DEG) {
    const message = `the countersink has ${formatTrimmed(angle, 1)} deg, the head of ${head.value.size} (${head.value.standard}) ${head.value.angle} deg`;
    words.push({ message, tryThis: `take a countersink of "point angle: ${head.value.angle} deg"` });
  }
  const seat = seatOfHead(head.value, top);
  if (seat.ok && seat.value.kind === 'proud' && seat.value.by > FELT_MM) {
    const message = `the head of ${head.value.size} (${head.value.standard}, ${ask.show(head.value.sharp)}) stands ${ask.show(seat.value.by)} proud in a top of ${ask.show(top)}`;
    words.push({ message, tryThis: `make it "top: ${writeLength(ask, head.value.countersink, 'up')}"` });
  }
  return words;
}

function counterbored(ask: CheckAsk, visit: VisitSeen, screw: Screw): readonly Words[] {
  const head = capHead(screw.thread.size);
  const bore = visit.cut.tool?.diameter;
  if (!head.ok || bore == null || visit.point.z === null) return [];
  const verdict = judgeCounterbore(head.value, asMm(bore), asMm(-visit.point.z));
  if (!verdict.ok || verdict.value.kind === 'clears') return [];
  const wanted = `take a counterbore of "diameter: ${writeLength(ask, head.value.counterbore)}", "depth: ${writeLength(ask, head.value.counterboreDepth, 'up')}"`;
  if (verdict.value.kind === 'proud') {
    const message = `the head of ${head.value.size} is ${ask.show(head.value.height)} high and stands ${ask.show(verdict.value.by)} proud`;
    return [{ message, tryThis: wanted }];
  }
  const message = `a counterbore of ${ask.show(bore)} does not take the head of ${head.value.size}, which measures up to ${ask.show(head.value.head)}`;
  return [{ message, tryThis: wanted, severity: 'stop' }];
}
