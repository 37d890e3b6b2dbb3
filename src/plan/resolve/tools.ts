/** Tools of a plan, resolved: names and usual shapes filled in. */

import { drillName } from '../../shop/drill-sizes.ts';
import { USUAL_POINT_ANGLE } from '../../shop/drilling.ts';
import { asDegrees, asMm, type Mm } from '../../shop/quantities.ts';
import { suggestName } from '../../shop/suggest-name.ts';
import { parseThread } from '../../shop/thread-names.ts';
import type { Thread } from '../../shop/threads.ts';
import { formatLength } from '../../shop/units.ts';
import { neutral, type PathStep } from '../read/problem.ts';
import type { ResolvedTool } from '../resolved.ts';
import type { PlanTool } from '../schema/tools.ts';
import { addProblem, entryOf, type Resolving, take } from './context.ts';

/** Threads of lead of a tap of which nothing is said: the longest plug tap (ANSI tap chamfers, 3 to 5 threads). */
const USUAL_TAP_LEAD = 5;
/** Included angle of a spot or countersink of which nothing is said. */
const USUAL_CONE_ANGLE = asDegrees(90);

/** The tool of that key; `undefined` after a problem was added. */
export function toolNamed(resolving: Resolving, key: string, path: readonly PathStep[]): PlanTool | undefined {
  const tools = resolving.plan.tools ?? {};
  const tool = entryOf(tools, key);
  if (tool !== undefined) return tool;
  const known = Object.keys(tools);
  const near = suggestName(key, known);
  addProblem(resolving, path, {
    found: `"${neutral(key)}"`,
    wanted: known.length === 0 ? 'a tool under "tools"' : `one of: ${known.map((name) => neutral(name)).join(', ')}`,
    message: `there is no tool "${neutral(key)}"`,
    tryThis: near === undefined ? 'add it under "tools"' : `did you mean "${neutral(near)}"?`,
  });
  return undefined;
}

/** The diameter that a tool cuts: as measured, else nominal, else that of its thread. */
export function cuttingDiameter(tool: PlanTool): Mm | null {
  if (tool.measured !== undefined) return tool.measured;
  if (tool.diameter !== undefined) return tool.diameter;
  return threadOf(tool)?.major ?? null;
}

/** The thread of a tap, when it names one that is known. */
function threadOf(tool: PlanTool): Thread | undefined {
  if (tool.thread === undefined) return undefined;
  const thread = parseThread(tool.thread);
  return thread.ok ? thread.value : undefined;
}

/** Threads of lead of a tap. */
export function leadThreads(tool: PlanTool | undefined, pitch: Mm): number {
  const lead = tool?.lead;
  if (lead === undefined) return USUAL_TAP_LEAD;
  return lead.kind === 'threads' ? lead.threads : lead.mm / pitch;
}

/** Lead of a tap or bevel of a reamer as a length; null for other tools. */
function leadLength(tool: PlanTool, pitch: Mm | undefined): Mm | null {
  if (tool.kind === 'reamer') return tool.lead?.kind === 'length' ? tool.lead.mm : asMm(0);
  if (tool.kind !== 'tap') return tool.lead?.kind === 'length' ? tool.lead.mm : null;
  return pitch === undefined ? null : asMm(leadThreads(tool, pitch) * pitch);
}

/** A tool of the plan as the machine floor sees it. */
export function resolveTool(resolving: Resolving, id: string, tool: PlanTool): ResolvedTool {
  const thread =
    tool.thread === undefined ? undefined : take(resolving, ['tools', id, 'thread'], parseThread(tool.thread));
  const cone = tool.kind === 'spot' || tool.kind === 'countersink';
  const restore = [tool.restore, tool['kept apart'] === true ? 'Kept apart for this material.' : undefined];
  return {
    id,
    name: tool.name ?? nameOf(tool, resolving.plan.units),
    kind: tool.kind,
    diameter: cuttingDiameter(tool),
    pointAngle: tool['point angle'] ?? (tool.kind === 'drill' ? USUAL_POINT_ANGLE : cone ? USUAL_CONE_ANGLE : null),
    tipFlat: tool['tip flat'] ?? (cone ? asMm(0) : null),
    flutes: tool.flutes ?? (tool.kind === 'end mill' ? 2 : tool.kind === 'face mill' ? 4 : null),
    material: tool.material ?? 'HSS',
    lead: leadLength(tool, thread?.pitch),
    fluid: tool.fluid ?? null,
    prepare: tool.prepare ?? null,
    restore: restore.filter((part) => part !== undefined).join(' ') || null,
    sharpenAfter: tool['sharpen after'] ?? null,
  };
}

/** What a tool is called when the plan does not say: its size as at the bench, and its kind. */
function nameOf(tool: PlanTool, unit: 'mm' | 'inch'): string {
  if (tool.kind === 'tap' && tool.thread !== undefined) return `${tool.thread} tap`;
  const diameter = tool.diameter ?? tool.measured;
  if (diameter === undefined) return tool.kind;
  const size = tool.kind === 'drill' ? drillName(diameter) : formatLength(diameter, unit);
  return `${size} ${tool.kind === 'spot' ? 'spotting drill' : tool.kind}`;
}
