/** Plans from files and texts, for tests of the plan floor. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { checkPlan } from '../../src/plan/checks/check-plan.ts';
import type { Finding } from '../../src/plan/checks/finding.ts';
import { formatProblem } from '../../src/plan/read/problem.ts';
import { readPlan } from '../../src/plan/read/read-plan.ts';
import { resolvePlan } from '../../src/plan/resolve/resolve-plan.ts';
import type { ResolvedPlan } from '../../src/plan/resolved.ts';

const root = new URL('../../', import.meta.url);

/** Text of a file of the repository. */
export const textOf = (path: string): string => readFileSync(fileURLToPath(new URL(path, root)), 'utf8');

/** Names of the plans in a folder of the repository. */
export const plansIn = (folder: string): string[] =>
  readdirSync(fileURLToPath(new URL(folder, root)))
    .filter((name) => name.endsWith('.yaml'))
    .map((name) => `${folder}${name}`);

/** Reads, resolves and checks a plan's text; a problem fails the test with its words. */
export function proved(text: string) {
  const reading = readPlan(text);
  if (!reading.ok) throw new Error(reading.problems.map((problem) => formatProblem(problem, text, 'plan')).join('\n'));
  const resolution = resolvePlan(reading.plan, { positions: reading.positions });
  if (!resolution.ok) {
    throw new Error(resolution.problems.map((problem) => formatProblem(problem, text, 'plan')).join('\n'));
  }
  const findings: readonly Finding[] = checkPlan(reading.plan, resolution.plan, reading.positions);
  return { ...reading, resolved: resolution.plan, computed: resolution.computed, findings };
}

/** What is found in a plan's text. */
export const findingsOf = (text: string): readonly Finding[] => proved(text).findings;

/** The operation of that number. */
export function operationOf(plan: ResolvedPlan, number: number) {
  const operation = plan.operations.find((one) => one.number === number);
  if (operation === undefined) throw new Error(`no operation ${number}`);
  return operation;
}

/** The problems of a text that is no plan, or that cannot be resolved; an empty list when it is sound. */
export function problemsOf(text: string) {
  const reading = readPlan(text);
  if (!reading.ok) return reading.problems;
  const resolution = resolvePlan(reading.plan, { positions: reading.positions });
  return resolution.ok ? [] : resolution.problems;
}
