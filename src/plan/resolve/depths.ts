/**
 * How deep a tool is wound at one point: the z target below the tool's own zero, and what it is for. "Through" adds the
 * drill's point, the tap's lead or the reamer's bevel, and the breakthrough allowance.
 */
import { blindTapTurns, blindThreadDrillDepth, tapThroughTravel } from '../../shop/blind-threads.ts';
import { coneDepth, coneMouth, coneTravelInHole } from '../../shop/cones.ts';
import { asDegrees, asMm, type Degrees, type Mm } from '../../shop/quantities.ts';
import { formatTrimmed } from '../../shop/units.ts';
import type { ResolvedTool } from '../resolved.ts';
import type { PlanDepth } from '../schema/operations.ts';
import { pointOfTool } from '../tool-point.ts';
import { breakthroughOf } from './assumptions.ts';
import { addProblem, inUnits, type Resolving, take } from './context.ts';
import { seatForHead, topForHead } from './head-depths.ts';
import { blindThreadOf, holeBefore, shareVariant, threadOfCut, type Visits, visitsTo } from './holes.ts';
import { leadThreads } from './tools.ts';
import type { CutWork, OperationWork, WorkPoint } from './work.ts';

/** What a tool does at a point. */
export interface PointDepth {
  /** Tip below the tool's zero, as a positive length; null when depth is not measured. */
  readonly depth: Mm | null;
  readonly note: string | null;
  /** Diameter at the top of a cone. */
  readonly top: Mm | null;
  /** Turns of a tap. */
  readonly turns: number | null;
  /** Travel of a cone from the rim of the hole that it opens. */
  readonly fromRim?: Mm;
}

const NOTHING: PointDepth = { depth: null, note: null, top: null, turns: null };

/** What the depth of a point is asked with. */
export interface DepthAsk {
  readonly resolving: Resolving;
  readonly operation: OperationWork;
  readonly cut: CutWork;
  readonly tool: ResolvedTool | undefined;
  readonly visits: Visits;
  readonly byHand: boolean;
}

/** The depth at one point of a cut. */
export function pointDepth(ask: DepthAsk, point: WorkPoint): PointDepth {
  switch (ask.cut.kind) {
    case 'drill':
      return drillDepth(ask, point);
    case 'ream':
      return reamDepth(ask, point);
    case 'spot':
    case 'countersink':
    case 'chamfer':
      return coneDepthAt(ask, point);
    case 'tap':
      return tapDepth(ask, point);
    case 'counterbore':
      return counterboreDepth(ask, point);
    default:
      return plainDepth(ask, point);
  }
}

const depthOf = (ask: DepthAsk, point: WorkPoint): PlanDepth | undefined => point.depth ?? ask.cut.plan.depth;

const allowance = ({ resolving }: DepthAsk): Mm =>
  resolving.plan.allowances?.breakthrough ?? breakthroughOf(resolving.plan.units);

function drillDepth(ask: DepthAsk, point: WorkPoint): PointDepth {
  const { resolving, cut } = ask;
  if (ask.tool?.diameter == null) return wantDiameter(ask);
  const tip = pointOfTool(ask.tool);
  const through = asMm(ask.operation.size.z + tip + allowance(ask));
  const stated = depthOf(ask, point);
  if (stated?.kind === 'through') return { ...NOTHING, depth: through, note: 'through' };
  if (stated?.kind === 'length') {
    const note = `${inUnits(resolving, stated.mm)} ${tip === 0 ? 'to a flat bottom' : 'full diameter'}`;
    return { ...NOTHING, depth: asMm(stated.mm + tip), note };
  }
  const tapping = visitsTo(ask.visits, { operation: ask.operation, point }).find((visit) => visit.cut.kind === 'tap');
  const thread = tapping === undefined ? undefined : blindThreadOf(resolving.plan, tapping);
  if (thread !== undefined) {
    const full = take(resolving, cut.path, blindThreadDrillDepth(thread));
    if (full === undefined) return NOTHING;
    return { ...NOTHING, depth: asMm(full + tip), note: `${inUnits(resolving, full)} full diameter, for the tap` };
  }
  if (stated?.kind === 'for the tap' && tapping !== undefined)
    return { ...NOTHING, depth: through, note: 'through, for the tap' };
  return wantDepth(ask, stated === undefined ? 'no depth' : 'no tapping at this point');
}

function reamDepth(ask: DepthAsk, point: WorkPoint): PointDepth {
  const stated = depthOf(ask, point);
  const bevel = ask.tool?.lead ?? asMm(0);
  if (stated === undefined || stated.kind === 'for the tap') return wantDepth(ask, 'no depth');
  if (stated.kind === 'through') {
    return { ...NOTHING, depth: asMm(ask.operation.size.z + bevel + allowance(ask)), note: 'through' };
  }
  return { ...NOTHING, depth: asMm(stated.mm + bevel), note: `${inUnits(ask.resolving, stated.mm)} to size` };
}

function coneDepthAt(ask: DepthAsk, point: WorkPoint): PointDepth {
  const { resolving, cut, tool } = ask;
  const cone = { angle: tool?.pointAngle ?? asDegrees(90), tip: tool?.tipFlat ?? asMm(0) };
  const stated = depthOf(ask, point);
  const top = point.top ?? cut.plan.top ?? (stated === undefined ? topForHead(ask, point) : undefined);
  if (top !== undefined) {
    const depth = take(resolving, cut.path, coneDepth(top, cone));
    const fromRim = rimTravel(ask, point, top, cone);
    const wanted = `top ${inUnits(resolving, top)}`;
    if (fromRim === undefined) return { ...NOTHING, depth: depth ?? null, top, note: wanted };
    const note = `${wanted}, ${inUnits(resolving, fromRim)} after touching the rim`;
    return { ...NOTHING, depth: depth ?? null, top, note, fromRim };
  }
  if (stated?.kind === 'length') {
    const mouth = take(resolving, cut.path, coneMouth(stated.mm, cone));
    return {
      ...NOTHING,
      depth: stated.mm,
      top: mouth ?? null,
      note: mouth === undefined ? null : `top ${inUnits(resolving, mouth)}`,
    };
  }
  if (ask.cut.kind === 'countersink' && ask.cut.plan.screw !== undefined) return NOTHING;
  return wantDepth(ask, 'neither top diameter nor depth', '"top" or "depth"');
}

/** The travel from the first touch of the rim of a hole that is there; undefined in solid metal. */
function rimTravel(ask: DepthAsk, point: WorkPoint, top: Mm, cone: { angle: Degrees; tip: Mm }): Mm | undefined {
  const own = visitsTo(ask.visits, { operation: ask.operation, point }).find((visit) => visit.cut === ask.cut);
  const hole = own === undefined ? undefined : holeBefore(ask.visits, own);
  if (hole === undefined || hole >= top) return undefined;
  const travel = coneTravelInHole(hole, top, cone);
  return travel.ok ? travel.value : undefined;
}

function tapDepth(ask: DepthAsk, point: WorkPoint): PointDepth {
  const { resolving, cut } = ask;
  const thread = threadOfCut(cut);
  if (thread === undefined) return NOTHING;
  const blind = blindThreadOf(resolving.plan, { cut, point });
  if (blind === undefined) {
    const lead = leadThreads(cut.tool, thread.pitch);
    const travel = take(resolving, cut.path, tapThroughTravel(ask.operation.size.z, thread.pitch, lead));
    const depth = travel === undefined || ask.byHand ? null : asMm(travel + allowance(ask));
    return { ...NOTHING, depth, note: 'through' };
  }
  const turns = take(resolving, cut.path, blindTapTurns(blind));
  const tip = asMm(blind.fullThread + blind.leadThreads * blind.pitch);
  const bottomsAt = bottomTurns(ask, point, thread.pitch, turns?.bottomsAt ?? null);
  const bottoms = bottomsAt === null ? '' : `, bottoms at ${formatTrimmed(bottomsAt, 1)} turns`;
  const note = `${inUnits(resolving, blind.fullThread)} full thread${bottoms}`;
  return { ...NOTHING, depth: ask.byHand ? null : tip, note, turns: turns?.stopAt ?? null };
}

/**
 * Turns at which the tip of a tap meets the floor of the hole that is really drilled: the full diameter of the last drill,
 * without its cone. Null in a hole that goes through; `planned` where the plan leaves the depth of the drill to the tap.
 *
 * Example: drilled 12.4 mm for M5 (0.8 mm): 15.5.
 */
function bottomTurns(ask: DepthAsk, point: WorkPoint, pitch: Mm, planned: number | null): number | null {
  const here = visitsTo(ask.visits, { operation: ask.operation, point });
  const own = here.find((visit) => visit.cut === ask.cut);
  const drilled = here.filter(
    (visit) =>
      visit.cut.kind === 'drill' && visit.order < (own?.order ?? 0) && shareVariant(visit.operation, ask.operation),
  );
  const last = drilled.at(-1);
  const depth = last?.point.depth ?? last?.cut.plan.depth;
  if (depth?.kind === 'through') return null;
  return depth?.kind === 'length' ? depth.mm / pitch : planned;
}

/** Depth of a counterbore: as stated, else that of its screw's head. */
function counterboreDepth(ask: DepthAsk, point: WorkPoint): PointDepth {
  if (depthOf(ask, point) !== undefined) return plainDepth(ask, point);
  if (ask.cut.plan.screw === undefined) return wantDepth(ask, 'neither depth nor screw', '"depth" or "screw"');
  const depth = seatForHead(ask, point);
  return depth === undefined ? NOTHING : { ...NOTHING, depth, note: `for the head of ${ask.cut.plan.screw}` };
}

function plainDepth(ask: DepthAsk, point: WorkPoint): PointDepth {
  const stated = depthOf(ask, point);
  if (stated === undefined) return NOTHING;
  if (stated.kind === 'length') return { ...NOTHING, depth: stated.mm };
  return { ...NOTHING, depth: asMm(ask.operation.size.z + allowance(ask)), note: 'through' };
}

function wantDepth(ask: DepthAsk, found: string, wanted = '"depth": a length or "through"'): PointDepth {
  addProblem(ask.resolving, ask.cut.path, {
    found,
    wanted,
    message: `operation ${ask.operation.plan.number} (${ask.cut.kind}) does not say how deep: ${found}`,
    tryThis: wanted.includes('top')
      ? 'add "top:" with the diameter wanted at the face'
      : wanted.includes('screw')
        ? 'add "depth:" with a length, or "screw:" such as "M6 cap head"'
        : 'add "depth: through" or a length',
  });
  return NOTHING;
}

function wantDiameter(ask: DepthAsk): PointDepth {
  const key = ask.cut.toolKey;
  if (ask.cut.plan.tool !== undefined && key === undefined) return NOTHING;
  addProblem(ask.resolving, key === undefined ? ask.cut.path : ['tools', key], {
    found: key === undefined ? 'no tool' : 'no diameter',
    wanted: key === undefined ? '"tool"' : '"diameter"',
    message: `operation ${ask.operation.plan.number} (${ask.cut.kind}) needs ${key === undefined ? 'a tool' : 'the diameter of its tool'}`,
    tryThis: key === undefined ? 'add "tool:" with the key of a drill' : 'add "diameter:" to the tool',
  });
  return NOTHING;
}
