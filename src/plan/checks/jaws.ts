/** How the part stands in the jaws of a vice, and what stands above its top. */
import { asDegrees } from '../../shop/quantities.ts';
import type { CheckAsk, CutSeen, OperationSeen } from './ask.ts';
import { thicknessAt } from './ask.ts';

/** How far the top of the part stands above the jaws (negative: below), and what that rests on. */
export interface Standing {
  readonly above: number;
  /** `nothing` when the plan states neither parallels nor the height above the jaws. */
  readonly from: 'stated' | 'parallels' | 'nothing';
}

/**
 * How the part stands as an operation begins: as the setup states it when the part comes in, less what was faced off since;
 * else worked out from parallels, thickness and jaws. Undefined when it is not held in a vice that the plan describes.
 *
 * Example: 8 mm on parallels of 35 mm in jaws of 40 mm stand 3 mm above; on parallels of 30 mm they lie 2 mm below.
 */
export function standingOf(ask: CheckAsk, operation: OperationSeen): Standing | undefined {
  const { setup, machine, work } = operation;
  if (setup?.hold !== 'vice' || machine?.vice == null) return undefined;
  const stated = work.setup?.['above jaws'];
  const thickness = thicknessAt(operation);
  if (stated !== undefined) {
    const first = ask.operations.find((one) => one.resolved.setup === setup.id);
    return { above: stated - (first === undefined ? 0 : thicknessAt(first) - thickness), from: 'stated' };
  }
  const above = (setup.parallels?.height ?? 0) + thickness - machine.vice.jawHeight;
  return { above, from: setup.parallels === null ? 'nothing' : 'parallels' };
}

const CONES: ReadonlySet<string> = new Set(['spot', 'countersink', 'chamfer']);

/** Radius of a cutter at a height above its tip: that of its cone, up to its full width. */
export function radiusAbove(cut: CutSeen, height: number): number {
  const full = (cut.tool?.diameter ?? 0) / 2;
  if (!CONES.has(cut.kind)) return full;
  const half = (((cut.tool?.pointAngle ?? asDegrees(90)) / 2) * Math.PI) / 180;
  return Math.min(full, (cut.tool?.tipFlat ?? 0) / 2 + Math.max(0, height) * Math.tan(half));
}
