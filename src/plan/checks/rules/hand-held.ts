import { allCuts, once } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

const MILLED: ReadonlySet<string> = new Set(['face', 'mill to length', 'mill edge', 'slot', 'step', 'chamfer']);
const DOWN: ReadonlySet<string> = new Set(['spot', 'ream', 'counterbore', 'countersink', 'tap']);

/** Work under a spindle in a part that nothing but a hand holds. */
export const handHeld: Rule = {
  code: 'hand-held',
  severity: 'stop',
  also: ['warn'],
  catches:
    'Milling in a part that is held by hand, or a spot, reamer, countersink or tap in one so held on a milling machine; drills are told of by drill-grabs.',
  example: 'operation 90: the part is held by hand under an end mill: it is torn out of the hand',
  find: (ask) =>
    once(
      allCuts(ask).flatMap(({ operation, cut }): readonly Hit[] => {
        const down = DOWN.has(cut.kind) && cut.resolved.points.length > 0;
        if (operation.setup?.hold !== 'by hand' || (!down && !MILLED.has(cut.kind))) return [];
        // A small part is spotted on the pillar drill as it is drilled there: by the rule of drills.
        if (down && (operation.resolved.station !== 'mill' || cut.resolved.thread?.byHand === true)) return [];
        const what = down
          ? `held by hand under the ${cut.tool?.name ?? cut.kind} of a milling machine: it is spun round when the tool catches`
          : `held by hand while it is milled (${cut.kind}): the cutter tears it out of the hand`;
        return [
          {
            operation: operation.resolved.number,
            path: cut.path,
            ...(down ? { severity: 'warn' as const } : {}),
            message: `the part is ${what} (common practice: never without a clamp or vice)`,
            tryThis: 'clamp it to the table, or hold it in a vice or a jig: "hold: plate"',
          },
        ];
      }),
    ),
};
