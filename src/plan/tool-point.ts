/** What a tool's tip does to the depth of a hole: how far the tip stands below the full diameter. */
import { pointLength } from '../shop/drilling.ts';
import { asMm, type Mm } from '../shop/quantities.ts';
import type { ResolvedTool } from './resolved.ts';

/**
 * From the tip of a tool to its full diameter.
 *
 * A drill has its point, and so has any tool that states a point angle; a reamer and a tap have their bevel or lead; an end
 * mill, a counterbore and a face mill cut flat. A tip that is flat shortens a point. Never negative; mm, unrounded.
 *
 * Example: drill of 10 mm at 118 deg 3.004; end mill of 10 mm 0; spot of 10 mm at 90 deg with a tip of 1 mm 4.5.
 * Source: geometry.
 */
export function pointOfTool(tool: Pick<ResolvedTool, 'kind' | 'diameter' | 'pointAngle' | 'tipFlat' | 'lead'>): Mm {
  if (tool.kind === 'reamer' || tool.kind === 'tap') return tool.lead ?? asMm(0);
  if (tool.pointAngle === null || tool.diameter === null) return asMm(0);
  const pointed = asMm(tool.diameter - (tool.tipFlat ?? 0));
  if (pointed <= 0) return asMm(0);
  const long = pointLength(pointed, tool.pointAngle);
  return long.ok ? long.value : asMm(0);
}
