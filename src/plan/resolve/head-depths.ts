/** Seats of screw heads that a plan names without their size: the counterbore's depth, the countersink's top. */
import { capHead } from '../../shop/counterbores.ts';
import { countersunkHead } from '../../shop/countersunk-heads.ts';
import type { Mm } from '../../shop/quantities.ts';
import type { Result } from '../../shop/refusal.ts';
import { parseScrew, type Screw } from '../checks/screws.ts';
import { addProblem, inUnits, noteComputed, type Resolving, take } from './context.ts';
import type { CutWork, OperationWork, WorkPoint } from './work.ts';

/** What a seat is asked with. */
interface SeatAsk {
  readonly resolving: Resolving;
  readonly operation: OperationWork;
  readonly cut: CutWork;
}

/**
 * Depth of a counterbore for the head of its screw; `undefined` after a problem was added, or without a screw.
 *
 * Source: DIN 974-1 for heads of ISO 4762, ASME B18.3. Example: M6 cap head: 6.4 mm.
 */
export function seatForHead(ask: SeatAsk, point: WorkPoint): Mm | undefined {
  return sized(ask, point, 'depth', ({ thread, head }, wrong) => {
    if (head === 'countersunk') return wrong('a counterbore takes a cap head', '"screw: M6 cap head"');
    const found = capHead(thread.size);
    return found.ok ? { ok: true, value: { size: found.value.counterboreDepth, source: found.value.source } } : found;
  });
}

/**
 * Top of a countersink for the head of its screw; `undefined` after a problem was added, or without a screw.
 *
 * Source: the standard of the head, ISO 10642 where none is named. Example: M6 countersunk: 13.44 mm.
 */
export function topForHead(ask: SeatAsk, point: WorkPoint): Mm | undefined {
  if (ask.cut.kind !== 'countersink') return undefined;
  return sized(ask, point, 'top', ({ thread, head, standard }, wrong) => {
    if (head !== 'countersunk') return wrong('the head is not said to be countersunk', '"screw: M6 countersunk"');
    const found = countersunkHead(standard, thread.size);
    return found.ok ? { ok: true, value: { size: found.value.countersink, source: found.value.standard } } : found;
  });
}

interface Sized {
  readonly size: Mm;
  readonly source: string;
}

type Wrong = (message: string, wanted: string) => undefined;

function sized(
  { resolving, operation, cut }: SeatAsk,
  point: WorkPoint,
  what: 'depth' | 'top',
  look: (screw: Screw, wrong: Wrong) => Result<Sized> | undefined,
): Mm | undefined {
  const text = cut.plan.screw;
  if (text === undefined) return undefined;
  const path = [...cut.path, 'screw'];
  const screw = take(resolving, path, parseScrew(text));
  if (screw === undefined) return undefined;
  const { number } = operation.plan;
  const found = look(screw, (message, wanted) => {
    addProblem(resolving, path, {
      found: text,
      wanted,
      message: `operation ${number} (${cut.kind}) does not say how deep, and its screw does not tell: ${message}`,
      tryThis: `write ${wanted} with its size, or add "${what}:"`,
    });
    return undefined;
  });
  const seat = found === undefined ? undefined : take(resolving, path, found);
  if (seat === undefined) return undefined;
  if (point === cut.points[0])
    noteComputed(resolving, number, what, inUnits(resolving, seat.size), `${text}, ${seat.source}`);
  return seat.size;
}
