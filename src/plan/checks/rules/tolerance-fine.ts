import type { AxisReading } from '../../resolved.ts';
import { writeLength } from '../advice.ts';
import { once, pathOf } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** Kinds whose measured sizes follow from where X and Y are wound to, or for a face, Z. */
const PLACED: ReadonlySet<string> = new Set(['mill to length', 'mill edge', 'slot', 'step', 'face']);

/** A tolerance that cannot be read on the machine. */
export const toleranceFine: Rule = {
  code: 'tolerance-fine',
  severity: 'warn',
  catches: 'A tolerance finer than one step of the readout or one division of the dial that the size is wound to.',
  example: 'operation 40: "Length" is wanted within 0.01 mm; X of Bench mill is read in steps of 0.02 mm',
  find: (ask) =>
    once(
      ask.operations.flatMap((operation): readonly Hit[] => {
        const { machine, resolved } = operation;
        if (machine === undefined || !PLACED.has(resolved.kind)) return [];
        const across = resolved.cuts[0]?.passes[0]?.feedAxis === 'x' ? ('y' as const) : ('x' as const);
        const axis = resolved.kind === 'face' ? ('z' as const) : across;
        const step = stepOf(machine[axis]);
        if (step === undefined) return [];
        return resolved.checks.flatMap((check, at): readonly Hit[] => {
          if (check.what.kind !== 'measured') return [];
          const within = (check.what.upper - check.what.lower) / 2;
          if (within >= step - 1e-9) return [];
          return [
            {
              operation: resolved.number,
              path: pathOf(operation, 'checks', at),
              message: `"${check.title}" is wanted within ${ask.show(within)}; ${axis.toUpperCase()} of ${machine.name} is read in steps of ${ask.show(step)}`,
              tryThis: `creep up on it with an indicator, or ream, grind or fit it; or ask whether the drawing means it ("within: ${writeLength(ask, step, 'up')}")`,
            },
          ];
        });
      }),
    ),
};

/** The smallest step that an axis shows. */
function stepOf(axis: AxisReading): number | undefined {
  switch (axis.kind) {
    case 'readout':
      return axis.resolution;
    case 'dial':
      return axis.perTurn / axis.divisions;
    case 'none':
      return undefined;
  }
}
