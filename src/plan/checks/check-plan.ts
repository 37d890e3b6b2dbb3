/**
 * The plan is proved before metal is cut. Every rule of rules/ looks at the whole plan; what they find is placed in the text
 * and told grave things first. A rule that fires on sound practice is a fault as grave as one that misses.
 */
import type { Positions } from '../read/tree.ts';
import type { ResolvedPlan } from '../resolved.ts';
import type { PlanMachine } from '../schema/machines.ts';
import type { Plan } from '../schema/plan.ts';
import { type CheckAsk, makeCheckAsk } from './ask.ts';
import type { Finding, Hit, Rule, Severity } from './finding.ts';
import { rules } from './rules.ts';

const RANK: Readonly<Record<Severity, number>> = { stop: 0, warn: 1, note: 2 };

/**
 * All findings of a plan, by operation, the gravest first.
 *
 * @param plan as read, `resolved` as resolved from it, `positions` from the same reading
 * @param machines of the settings, as they were given to `resolvePlan`
 *
 * Example: a 5.2 mm drill before an M6 tap gives one `warn` with the code `tap-drill`.
 */
export function checkPlan(
  plan: Plan,
  resolved: ResolvedPlan,
  positions: Positions,
  machines?: Readonly<Record<string, PlanMachine>>,
): readonly Finding[] {
  const ask = makeCheckAsk(plan, resolved, positions, machines);
  const all = rules.flatMap((rule) => findingsOf(rule, ask));
  return all.sort(
    (a, b) => (a.operation ?? 0) - (b.operation ?? 0) || RANK[a.severity] - RANK[b.severity] || a.line - b.line,
  );
}

function findingsOf(rule: Rule, ask: CheckAsk): readonly Finding[] {
  return fewEnough(rule.find(ask)).map((hit) => ({
    code: rule.code,
    severity: hit.severity ?? rule.severity,
    operation: hit.operation,
    message: hit.message,
    tryThis: hit.tryThis,
    ...ask.positions.placeOf(hit.path),
  }));
}

/** Findings of one rule and operation that are told one by one; the rest are counted. */
const MOST = 12;

/** A slip in a pattern of two thousand points is one slip: beyond the first dozen they are only counted. */
function fewEnough(hits: readonly Hit[]): readonly Hit[] {
  if (hits.length <= MOST) return hits;
  const told = new Map<number | null, number>();
  const more = new Map<number | null, { readonly first: Hit; count: number }>();
  const kept = hits.filter((hit) => {
    const count = (told.get(hit.operation) ?? 0) + 1;
    told.set(hit.operation, count);
    if (count <= MOST) return true;
    const rest = more.get(hit.operation);
    if (rest === undefined) more.set(hit.operation, { first: hit, count: 1 });
    else rest.count += 1;
    return false;
  });
  const counted = [...more.values()].map(
    ({ first, count }): Hit => ({
      ...first,
      message: `and ${count} more of the same kind`,
      tryThis: 'put the first ones right and check again',
    }),
  );
  return [...kept, ...counted];
}

/** Does a finding keep a batch from being opened without a word of the operator? */
export const hasStop = (findings: readonly Finding[]): boolean =>
  findings.some((finding) => finding.severity === 'stop');
