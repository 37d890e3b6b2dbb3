/** Where the tool goes at a stop of the load in hand: the plan's target, the place's offset and the corrections in force. */
import { cellAt, placeAt } from '../../batch/flow.ts';
import type { Batch } from '../../batch/state.ts';
import type { Stop } from '../../batch/stops.ts';
import type { ResolvedCut, ResolvedPass, ResolvedPoint } from '../../plan/resolved.ts';
import { asMm, type Mm } from '../../shop/quantities.ts';

export type Target = {
  readonly stop: Stop;
  readonly cut: ResolvedCut | null;
  readonly point: ResolvedPoint | null;
  readonly pass: ResolvedPass | null;
  readonly x: Mm | null;
  readonly y: Mm | null;
  readonly z: Mm | null;
  /** Length that the saw's or drill's stop is set to. */
  readonly length: Mm | null;
  /** Said beside the number when it is not the plan's own: "0.06 deeper: reads 3.06". */
  readonly corrected: readonly string[];
};

/** The target of one stop at cell `at`. */
export function targetAt(batch: Batch, at: number, stop: Stop): Target {
  const { operation } = placeAt(batch, at);
  const setup = batch.plan.setups.find((one) => one.id === operation.setup);
  const cut = operation.cuts[stop.cut] ?? null;
  const point = stop.kind === 'point' ? (cut?.points[stop.index] ?? null) : onlyPoint(cut, stop);
  const pass = stop.kind === 'pass' ? (cut?.passes[stop.index] ?? null) : null;
  const place = setup?.places[(stop.place ?? 1) - 1] ?? { dx: 0, dy: 0 };
  const by = (axis: 'x' | 'y' | 'z' | 'stop'): number => correctionOf(batch, at, stop.cut, axis);
  const x = point?.x ?? pass?.to.x ?? null;
  const y = point?.y ?? pass?.to.y ?? null;
  const z = point?.z ?? pass?.z ?? cut?.z ?? null;
  return {
    stop,
    cut,
    point,
    pass,
    x: x === null ? null : asMm(x + place.dx + by('x')),
    y: y === null ? null : asMm(y + place.dy + by('y')),
    z: z === null ? null : asMm(z + by('z')),
    length: operation.stopLength === null ? null : asMm(operation.stopLength + by('stop')),
    corrected: reasonsAt(batch, at, stop.cut),
  };
}

/** Counted by piece, an operation of one hole still has its point. */
function onlyPoint(cut: ResolvedCut | null, stop: Stop): ResolvedPoint | null {
  return stop.kind === 'whole' && cut?.points.length === 1 ? (cut.points[0] ?? null) : null;
}

function inForce(batch: Batch, at: number, cut: number) {
  const cell = cellAt(batch, at);
  return batch.corrections.filter(
    (one) => !one.takenBack && one.operation === cell.operation && one.lane === cell.lane && one.cut === cut,
  );
}

function correctionOf(batch: Batch, at: number, cut: number, axis: 'x' | 'y' | 'z' | 'stop'): number {
  return inForce(batch, at, cut).reduce((sum, one) => (one.axis === axis ? sum + one.by : sum), 0);
}

function reasonsAt(batch: Batch, at: number, cut: number): readonly string[] {
  return inForce(batch, at, cut).map(
    (one) => `${one.axis === 'stop' ? 'stop' : one.axis.toUpperCase()}: ${one.reason}`,
  );
}
