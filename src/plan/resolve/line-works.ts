/**
 * A named line as one cutter works it: its depths, how far a step reaches, and what cannot be cut as written. What the plan
 * leaves open is worked out where only one answer is possible, and refused where a guess would cost the part.
 */
import { asMm, type Mm } from '../../shop/quantities.ts';
import type { PlanLine } from '../schema/places.ts';
import { belowFaceOf, SAME_WIDTH } from './assumptions.ts';
import { chamferLine } from './chamfer-lines.ts';
import { inUnits, noteComputed } from './context.ts';
import { outlineOf, zeroCorner } from './frames.ts';
import { type LineAsk, lineProblem, runOut } from './line-ask.ts';
import { type LineWork, lineInSetup, passDepths, type SetupLine } from './lines.ts';

/** A named line with its cutter; `undefined` after a problem was added. */
export function namedLine(ask: LineAsk, name: string, line: PlanLine): LineWork | undefined {
  if (line.kind !== 'slot' && line.side === undefined) return wantSide(ask, name, line);
  const inSetup = lineInSetup(name, line, ask.operation.frame);
  if (ask.cut.kind === 'chamfer') return chamferLine(ask, name, line, inSetup);
  if (isShort(ask, name, line)) return undefined;
  const depths = depthsOf(ask, name, line);
  if (depths === undefined) return undefined;
  const width = line.width ?? (line.kind === 'step' ? stepWidth(ask, inSetup) : undefined);
  return { line: inSetup, kind: line.kind, width, cutter: ask.cutter, runOut: runOut(ask.resolving), depths };
}

function wantSide(ask: LineAsk, name: string, line: PlanLine): undefined {
  const sides = line.along === 'x' ? '"side: front" or "side: rear"' : '"side: left" or "side: right"';
  return lineProblem(ask, name, undefined, {
    found: 'no side',
    wanted: sides,
    message: `"${name}" does not say on which side of its wall the cutter stands; on the other it would cut the part away`,
    tryThis: `add ${sides}: the side without metal`,
  });
}

/** Closed at both ends and shorter than the cutter is wide: it would overcut both ends. */
function isShort(ask: LineAsk, name: string, line: PlanLine): boolean {
  const long = Math.abs(line.to - line.from);
  if (line.ends?.from !== 'closed' || line.ends.to !== 'closed' || long >= ask.cutter - SAME_WIDTH / 2) return false;
  const show = (length: number) => inUnits(ask.resolving, asMm(length));
  lineProblem(ask, name, 'to', {
    found: `${show(long)} from end to end`,
    wanted: `at least ${show(ask.cutter)}, the cutter's diameter`,
    message: `"${name}" is ${show(long)} long with both ends closed and the cutter measures ${show(ask.cutter)}: it would cut ${show((ask.cutter - long) / 2)} into each end`,
    tryThis: 'take a smaller cutter, or look at "from:" and "to:"',
  });
  return true;
}

/** Depths of the passes. An edge goes through where nothing is said; a slot or step must say how deep. */
function depthsOf(ask: LineAsk, name: string, line: PlanLine): readonly Mm[] | undefined {
  const { resolving, operation, cut } = ask;
  const list = Array.isArray(line.passes) ? line.passes : undefined;
  const stated = line.depth ?? (cut.plan.depth?.kind === 'length' ? cut.plan.depth.mm : undefined);
  if (list !== undefined && !endsRight(ask, name, list, stated)) return undefined;
  if (list !== undefined) return list;
  const through = cut.plan.depth?.kind === 'through' || line.kind === 'edge';
  if (stated === undefined && !through) {
    return lineProblem(ask, name, undefined, {
      found: 'no depth',
      wanted: '"depth"',
      message: `"${name}" does not say how deep the ${line.kind} is`,
      tryThis: `add "depth:" to it, or "depth: through" to operation ${operation.plan.number}`,
    });
  }
  const depth = stated ?? asMm(operation.size.z + belowFaceOf(resolving.plan.units));
  const last = line['last pass'];
  if (last !== undefined && last >= depth) {
    return lineProblem(ask, name, 'last pass', {
      found: inUnits(resolving, last),
      wanted: `less than the depth, ${inUnits(resolving, depth)}`,
      message: `the last pass of "${name}" leaves nothing for those before it`,
      tryThis: 'say how little the last pass takes',
    });
  }
  return passDepths(depth, line.passes, last);
}

/** A list of depths goes down, and ends at the depth that is stated. */
function endsRight(ask: LineAsk, name: string, list: readonly Mm[], stated: Mm | undefined): boolean {
  const { resolving, operation, cut } = ask;
  const end = list.at(-1) ?? asMm(0);
  const show = (length: number) => inUnits(resolving, asMm(length));
  const [least, most] =
    stated !== undefined
      ? [stated - HAIR_MM, stated + HAIR_MM]
      : cut.plan.depth?.kind === 'through'
        ? [operation.size.z, Number.POSITIVE_INFINITY]
        : [0, Number.POSITIVE_INFINITY];
  const rises = list.findIndex((depth, at) => depth <= (list[at - 1] ?? 0));
  if (rises === -1 && end >= least && end <= most) return true;
  const wanted = stated === undefined ? show(operation.size.z) : show(stated);
  lineProblem(ask, name, 'passes', {
    found: list.map(show).join(', '),
    wanted: rises === -1 ? `a last depth of ${wanted}` : 'depths that go down',
    message:
      rises === -1
        ? `"${name}" is to be ${wanted} deep and its passes end at ${show(end)}`
        : `the passes of "${name}" do not go deeper from one to the next`,
    tryThis:
      rises === -1
        ? `write the depth of every pass, the last one ${wanted}; or put "depth:" right`
        : 'write the depth of every pass below the top, the shallowest first',
  });
  return false;
}

/** Depths that differ by less are one. */
const HAIR_MM = 0.005;

/** How far a step reaches that does not say so: to the edge of the part on the cutter's side. */
function stepWidth({ resolving, operation, cutter }: LineAsk, line: SetupLine): Mm | undefined {
  const { setup, size } = operation;
  if (setup === undefined) return undefined;
  const jaw = operation.machine?.vice?.['fixed jaw'] ?? 'rear';
  const outline = outlineOf(size, zeroCorner(setup, jaw, resolving.plan.part.datum ?? 'left front'));
  const [low, high] = line.along === 'x' ? [outline.y0, outline.y1] : [outline.x0, outline.x1];
  const reach = asMm(line.side === '-' ? line.wall - low : high - line.wall);
  if (reach <= cutter) return undefined;
  const because = `from its wall to the edge of the part; one cutter takes ${inUnits(resolving, cutter)}`;
  noteComputed(resolving, operation.plan.number, `width of "${line.name}"`, inUnits(resolving, reach), because);
  return reach;
}
