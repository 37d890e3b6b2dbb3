import type { PlanPoints } from '../../schema/places.ts';
import type { CheckAsk } from '../ask.ts';
import type { Hit, Rule } from '../finding.ts';

/** Things that the plan describes and nothing uses. */
export const unused: Rule = {
  code: 'unused',
  severity: 'note',
  catches: 'A setup, tool, point or line that no operation uses.',
  example: 'the tool "drill-6" is used by no operation',
  find: (ask) => [
    ...unusedOf(ask, 'setups', new Set(ask.plan.operations.flatMap((operation) => operation.setup ?? []))),
    ...unusedOf(ask, 'tools', new Set(cutsOf(ask).flatMap((cut) => cut.tool ?? []))),
    ...unusedOf(ask, 'lines', new Set(cutsOf(ask).flatMap((cut) => cut.lines ?? []))),
    ...unusedOf(ask, 'points', usedPoints(ask)),
  ],
};

const cutsOf = (ask: CheckAsk) => ask.plan.operations.flatMap((operation) => [operation, ...(operation.cuts ?? [])]);

/** Points that are cut, and those that others are measured from. */
function usedPoints(ask: CheckAsk): ReadonlySet<string> {
  const used = cutsOf(ask).flatMap((cut) => (cut.points ?? []).map((use) => use.at));
  const grounds = Object.values(ask.plan.points ?? {}).flatMap(groundsOf);
  // "corners 2" uses the arrangement "corners".
  return new Set([...used, ...grounds].flatMap((name) => [name, name.replace(/ \d+$/u, '')]));
}

/** Names of the points that an entry is measured from. */
function groundsOf(point: PlanPoints): readonly string[] {
  switch (point.kind) {
    case 'single':
      return [];
    case 'offset':
      return [point.from];
    case 'row':
    case 'grid':
      return point.start.kind === 'named' ? [point.start.name] : [];
    case 'circle':
      return point.centre.kind === 'named' ? [point.centre.name] : [];
    case 'mirrored':
      return point.points;
  }
}

function unusedOf(
  ask: CheckAsk,
  group: 'setups' | 'tools' | 'lines' | 'points',
  used: ReadonlySet<string>,
): readonly Hit[] {
  return Object.keys(ask.plan[group] ?? {})
    .filter((name) => !used.has(name))
    .map((name) => ({
      operation: null,
      path: [group, name],
      message: `the ${group.slice(0, -1)} "${name}" is used by no operation`,
      tryThis: 'take it out, or name it where it belongs',
    }));
}
