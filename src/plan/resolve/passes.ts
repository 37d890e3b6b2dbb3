/** The passes of milling operations: named line cuts, an end milled to length, an edge to width, a face. */
import { asMm, type Mm } from '../../shop/quantities.ts';
import { suggestName } from '../../shop/suggest-name.ts';
import { neutral } from '../read/problem.ts';
import type { ResolvedLoadPass, ResolvedPass, ResolvedTool } from '../resolved.ts';
import { MAX_POINTS } from '../schema/plan.ts';
import { belowFaceOf } from './assumptions.ts';
import { addProblem, entryOf, type Resolving } from './context.ts';
import { endLay, faceLine, faceOfLoad } from './face-passes.ts';
import { zeroCorner } from './frames.ts';
import { runOut } from './line-ask.ts';
import { namedLine } from './line-works.ts';
import { type LineWork, linePasses, passCount, type SetupLine } from './lines.ts';
import { type Place, passesOfLoad } from './load-passes.ts';
import { cuttingDiameter } from './tools.ts';
import type { CutWork, OperationWork } from './work.ts';

/** Does the plan ask for more passes than anyone winds? Then a problem is added, and none is to be made. */
export function refuseManyPasses(resolving: Resolving, works: readonly OperationWork[]): boolean {
  const counts = works.flatMap((work) =>
    work.cuts.flatMap((cut) => {
      const cutter = cut.tool === undefined ? null : cuttingDiameter(cut.tool);
      const lines = (cut.plan.lines ?? []).flatMap((name) => entryOf(resolving.plan.lines, name) ?? []);
      return cutter === null ? [] : lines.map((line) => passCount(line, cut.kind === 'chamfer' ? asMm(1e6) : cutter));
    }),
  );
  const total = counts.reduce((sum, count) => sum + count, 0);
  if (total <= MAX_POINTS) return false;
  addProblem(resolving, ['operations'], {
    found: `${total} passes`,
    wanted: `at most ${MAX_POINTS}`,
    message: `the operations make ${total} passes in all; wanted at most ${MAX_POINTS}`,
    tryThis: 'look at the diameter of the cutter and at "passes:", or make several plans of it',
  });
  return true;
}

export interface PassAsk {
  readonly resolving: Resolving;
  readonly operation: OperationWork;
  readonly cut: CutWork;
  readonly tool: ResolvedTool | undefined;
  /** The places of a full load, at least one. */
  readonly places: readonly Place[];
}

/** What a milling cut goes through. */
export interface Passes {
  /** Of the piece in the first place. */
  readonly passes: readonly ResolvedPass[];
  /** Of the whole load; undefined where one piece is held. */
  readonly loadPasses: readonly ResolvedLoadPass[] | undefined;
  /** The z target where there are no passes, and of a face. */
  readonly z: Mm | null;
}

/** The passes of a cut, and the z target where it has none. */
export function passesOf(ask: PassAsk): Passes {
  const works = lineWorks(ask);
  if (works === undefined) return { passes: [], loadPasses: undefined, z: depthAlone(ask.cut) };
  const passes = works.flatMap(linePasses);
  const { places } = ask;
  const z = ask.cut.kind === 'face' ? depthAlone(ask.cut) : null;
  if (places.length < 2) return { passes, loadPasses: undefined, z };
  const face = ask.cut.kind === 'face' ? facePasses(ask) : undefined;
  if (face !== undefined) return { passes, loadPasses: face, z };
  if (passes.length * places.length > MAX_POINTS) {
    addProblem(ask.resolving, ask.cut.path, {
      found: `${passes.length} passes on ${places.length} pieces`,
      wanted: `at most ${MAX_POINTS} passes in a load`,
      message: `operation ${ask.operation.plan.number} makes ${passes.length} passes on each of ${places.length} pieces`,
      tryThis: 'hold fewer pieces at once',
    });
    return { passes, loadPasses: undefined, z };
  }
  return { passes, loadPasses: passesOfLoad(works, places), z };
}

/** The line cuts of a cut; undefined where it is none. */
function lineWorks(ask: PassAsk): readonly LineWork[] | undefined {
  const { cut } = ask;
  if (cut.plan.lines !== undefined) return namedLines(ask, cut.plan.lines);
  switch (cut.kind) {
    case 'mill to length':
      return sizeLine(ask, 'x', ask.operation.plan.length);
    case 'mill edge':
      return sizeLine(ask, 'y', ask.operation.plan.width);
    case 'slot':
    case 'step':
      return wantLines(ask);
    case 'face':
      return faceLines(ask);
    default:
      return undefined;
  }
}

/** The strips over a load that lies as one face; undefined where each piece is faced by itself. */
function facePasses(ask: PassAsk): readonly ResolvedLoadPass[] | undefined {
  const over = faceOfLoad(ask, ask.places);
  const work = over === undefined ? undefined : faceLine(ask, ask.tool?.diameter ?? undefined, over);
  const places = ask.places.map((_, at) => at + 1);
  return work === undefined ? undefined : linePasses(work).map((pass) => ({ ...pass, places }));
}

function faceLines(ask: PassAsk): readonly LineWork[] {
  const work = faceLine(ask, cutterOf(ask));
  return work === undefined ? [] : [work];
}

/** The z target of what goes down to a depth without points: a face, which has strips besides, and what has no passes. */
function depthAlone(cut: CutWork): Mm | null {
  const depth = cut.plan.depth?.kind === 'length' ? cut.plan.depth.mm : undefined;
  return cut.points.length === 0 && depth !== undefined ? asMm(-depth) : null;
}

function namedLines(ask: PassAsk, names: readonly string[]): readonly LineWork[] {
  const { resolving, cut, operation } = ask;
  const lines = resolving.plan.lines ?? {};
  return names.flatMap((name, at) => {
    const line = entryOf(lines, name);
    if (line === undefined) {
      const near = suggestName(name, Object.keys(lines));
      addProblem(resolving, [...cut.path, 'lines', at], {
        found: `"${neutral(name)}"`,
        wanted: 'a line under "lines"',
        message: `there is no line "${neutral(name)}"`,
        tryThis: near === undefined ? 'add it under "lines"' : `did you mean "${neutral(near)}"?`,
      });
      return [];
    }
    const cutter = cutterOf(ask);
    if (cutter === undefined) return [];
    return namedLine({ resolving, operation, cut, tool: ask.tool, cutter }, name, line) ?? [];
  });
}

/** Depth of a wall: as stated; through, or not stated, a little below the far face. */
function wallDepth({ resolving, operation, cut }: PassAsk): Mm {
  const stated = cut.plan.depth;
  return stated?.kind === 'length' ? stated.mm : asMm(operation.size.z + belowFaceOf(resolving.plan.units));
}

/**
 * An end or edge milled square to size: the wall stands the size away from the ground of its axis, on the far side of the
 * part, and the cut runs over the whole of it.
 */
function sizeLine(ask: PassAsk, across: 'x' | 'y', size: Mm | undefined): readonly LineWork[] {
  const { operation, resolving, cut } = ask;
  const cutter = cutterOf(ask);
  if (size === undefined) {
    const key = across === 'x' ? 'length' : 'width';
    addProblem(resolving, cut.path, {
      found: `no ${key}`,
      wanted: `"${key}": what is left after the cut`,
      message: `operation ${operation.plan.number} (${cut.kind}) does not say the ${key} it leaves`,
      tryThis: `add "${key}:"${across === 'y' ? ', or name line cuts with "lines:"' : ''}`,
    });
  }
  if (size === undefined || cutter === undefined || operation.setup === undefined) return [];
  const jaw = operation.machine?.vice?.['fixed jaw'] ?? 'rear';
  const corner = zeroCorner(operation.setup, jaw, resolving.plan.part.datum ?? 'left front');
  const ground = across === 'x' ? corner.x : corner.y;
  const outward = ground.end === 'left' || ground.end === 'front' ? 1 : -1;
  const line: SetupLine = {
    name: cut.kind === 'mill to length' ? 'end' : 'edge',
    along: across === 'x' ? 'y' : 'x',
    wall: asMm(ground.at + outward * size),
    ...spanOf(ask, across === 'x' ? corner.y : corner.x, across),
    side: outward === 1 ? '+' : '-',
    feed: undefined,
  };
  const lay = across === 'x' ? endLay(ask, size, cutter, outward) : {};
  const depths = [wallDepth(ask)];
  return [{ line, kind: 'edge', width: undefined, cutter, runOut: runOut(resolving), depths, ...lay }];
}

/** From one side of the part to the other, along the axis that is fed. */
function spanOf(ask: PassAsk, ground: { readonly end: string; readonly at: Mm }, across: 'x' | 'y') {
  const span = across === 'x' ? ask.operation.size.y : ask.operation.size.x;
  const far = ground.end === 'left' || ground.end === 'front' ? ground.at + span : ground.at - span;
  return {
    from: { at: asMm(Math.min(ground.at, far)), end: 'open' as const },
    to: { at: asMm(Math.max(ground.at, far)), end: 'open' as const },
  };
}

function cutterOf(ask: PassAsk): Mm | undefined {
  if (ask.tool?.diameter != null) return ask.tool.diameter;
  if (ask.cut.plan.tool !== undefined && ask.tool === undefined) return undefined;
  addProblem(ask.resolving, ask.cut.path, {
    found: ask.tool === undefined ? 'no tool' : 'no diameter',
    wanted: 'a tool with a diameter',
    message: `operation ${ask.operation.plan.number} (${ask.cut.kind}) needs the diameter of its cutter`,
    tryThis: ask.tool === undefined ? 'add "tool:"' : 'add "diameter:" to the tool',
  });
  return undefined;
}

function wantLines(ask: PassAsk): readonly LineWork[] {
  addProblem(ask.resolving, ask.cut.path, {
    found: 'no lines',
    wanted: '"lines": the names of its line cuts',
    message: `operation ${ask.operation.plan.number} (${ask.cut.kind}) names no line cut`,
    tryThis: 'describe the cut under "lines" and name it here',
  });
  return [];
}
