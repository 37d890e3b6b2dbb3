import type { OperationKind, ResolvedTool } from '../../resolved.ts';
import { allCuts, type CheckAsk, type CutSeen, once } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

type ToolKind = ResolvedTool['kind'];

/**
 * Tools that make each kind of work as it is meant; other kinds of work take any tool. Common practice: a reamer finds a
 * hole, an end mill may plunge and seat a head, a slitting saw cuts a slot, a drill of short length may spot.
 */
const FIT: Partial<Record<OperationKind, readonly ToolKind[]>> = {
  saw: ['saw blade', 'hand tool'],
  face: ['face mill', 'end mill', 'file', 'hand tool'],
  'mill to length': ['end mill', 'face mill', 'file', 'hand tool'],
  'mill edge': ['end mill', 'face mill', 'file', 'hand tool'],
  slot: ['end mill', 'face mill', 'saw blade', 'file', 'hand tool'],
  step: ['end mill', 'face mill', 'file', 'hand tool'],
  spot: ['spot', 'countersink', 'drill', 'hand tool'],
  drill: ['drill', 'spot', 'end mill', 'hand tool'],
  ream: ['reamer', 'hand tool'],
  counterbore: ['counterbore', 'end mill'],
  countersink: ['countersink', 'spot', 'drill', 'hand tool'],
  chamfer: ['countersink', 'spot', 'end mill', 'file', 'hand tool'],
  tap: ['tap', 'hand tool'],
};

/** A tool that cannot make the work it is named for. */
export const toolUnfit: Rule = {
  code: 'tool-unfit',
  severity: 'stop',
  catches: 'A tool that cannot do the work it is named for: a drill fed sideways, a reamer without a hole.',
  example: 'operation 120: a drill does not mill a slot',
  find: (ask) =>
    once(
      allCuts(ask).flatMap(({ operation, cut }): readonly Hit[] => {
        const fit = FIT[cut.kind];
        if (cut.tool === undefined || fit === undefined || fit.includes(cut.tool.kind)) return [];
        return [
          {
            operation: operation.resolved.number,
            path: [...cut.path, 'tool'],
            message: `"${cut.work.toolKey}" is ${article(cut.tool.kind)} ${cut.tool.kind}, and that is no tool for the kind of work "${cut.kind}"`,
            tryThis: `take ${fitting(ask, cut, fit)}, or say what kind of work it is`,
          },
        ];
      }),
    ),
};

const article = (word: string): string => (/^[aeiou]/.test(word) ? 'an' : 'a');

/** A fitting tool of the plan where it has one, else the kinds that fit. */
function fitting(ask: CheckAsk, cut: CutSeen, fit: readonly ToolKind[]): string {
  const own =
    ask.resolved.tools.find((one) => one.kind === fit[0]) ?? ask.resolved.tools.find(({ kind }) => fit.includes(kind));
  if (own !== undefined && own.id !== cut.tool?.id) return `"tool: ${own.id}"`;
  return `${article(fit[0] ?? '')} ${fit.join(' or ')}`;
}
