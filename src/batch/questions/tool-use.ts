/** How much a tool has done since it was last sharpened or changed. */
import { holesMade } from '../machines.ts';
import type { Batch } from '../state.ts';

export type ToolUse = {
  /** Holes since it was last sharpened or changed, or since the batch began. */
  readonly holes: number;
  /** Holes after which the plan wants it sharpened; null when it does not say. */
  readonly sharpenAfter: number | null;
  /** Whether that is reached. */
  readonly isDue: boolean;
};

/**
 * Use of a tool of the plan; pieces counted by piece or load count all their points.
 *
 * Example: two points a piece, 25 pieces since sharpening, wanted after 50: 50 holes, due.
 */
export function toolUse(batch: Batch, tool: string): ToolUse {
  const holes = Math.max(0, holesMade(batch, tool) - (batch.holesAtChange[tool] ?? 0));
  const sharpenAfter = batch.plan.tools.find((candidate) => candidate.id === tool)?.sharpenAfter ?? null;
  return { holes, sharpenAfter, isDue: sharpenAfter !== null && holes >= sharpenAfter };
}
