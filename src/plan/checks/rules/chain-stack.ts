import { asMm } from '../../../shop/quantities.ts';
import { linearTolerance, parseToleranceClass } from '../../../shop/tolerances.ts';
import { entryOf } from '../../resolve/context.ts';
import type { Plan } from '../../schema/plan.ts';
import { writeLength } from '../advice.ts';
import type { CheckAsk } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** Fewer links than this are usual dimensioning. */
const LINKS = 3;

/** Dimensions hung on one another. */
export const chainStack: Rule = {
  code: 'chain-stack',
  severity: 'note',
  catches:
    'A point measured over a chain of other points, whose tolerances add up to more than one dimension from the datum would have.',
  example: '"hole d" hangs on 3 dimensions one after another: together +-0.6 mm, from the datum it would be +-0.3 mm',
  find: (ask): readonly Hit[] => {
    const { plan, show } = ask;
    const tolerance = plan.tolerance?.kind === 'class' ? parseToleranceClass(plan.tolerance.text) : undefined;
    if (tolerance?.ok !== true) return [];
    return (['x', 'y'] as const).flatMap((axis) =>
      Object.keys(plan.points ?? {}).flatMap((name): readonly Hit[] => {
        const links = chainOf(plan, name, axis);
        if (links.length < LINKS) return [];
        const parts = links.map((link) => linearTolerance(asMm(Math.abs(link)), tolerance.value));
        const whole = linearTolerance(asMm(Math.abs(links.reduce((sum, link) => sum + link, 0))), tolerance.value);
        if (!whole.ok || parts.some((part) => !part.ok)) return [];
        const stack = parts.reduce((sum, part) => sum + (part.ok ? part.value.plusMinus : 0), 0);
        if (stack <= whole.value.plusMinus + 1e-9) return [];
        return [
          {
            operation: null,
            path: ['points', name],
            message: `"${name}" hangs on ${links.length} dimensions along ${axis.toUpperCase()}: together +-${show(stack)}, from the datum it would be +-${show(whole.value.plusMinus)}`,
            tryThis: `if the drawing measures it from the datum, write ${fromDatum(ask, name)}; if it chains them, check each distance`,
          },
        ];
      }),
    );
  },
};

/** The point by its own coordinates. */
function fromDatum(ask: CheckAsk, name: string): string {
  const [x, y] = (['x', 'y'] as const).map((axis) =>
    writeLength(
      ask,
      chainOf(ask.plan, name, axis).reduce((sum, link) => sum + link, 0),
    ),
  );
  return `"${name}: { x: ${x}, y: ${y} }"`;
}

/** The lengths over which a point hangs, from the datum on; nothing for a circle of names. */
function chainOf(plan: Plan, name: string, axis: 'x' | 'y'): readonly number[] {
  const links: number[] = [];
  const seen = new Set<string>();
  let here = name;
  while (!seen.has(here)) {
    seen.add(here);
    const point = entryOf(plan.points, here);
    if (point?.kind === 'single') return [point[axis], ...links].filter((link) => link !== 0);
    if (point?.kind !== 'offset') return [];
    links.unshift(point[axis] ?? 0);
    here = point.from;
  }
  return [];
}
