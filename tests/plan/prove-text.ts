/**
 * A program of its own for tests: proves the plan in the file that it is given and tells how that ended, how long it took
 * and the most memory that the process ever held.
 */
import { readFileSync } from 'node:fs';
import { checkPlan } from '../../src/plan/checks/check-plan.ts';
import { readPlan } from '../../src/plan/read/read-plan.ts';
import { resolvePlan } from '../../src/plan/resolve/resolve-plan.ts';
import { stepsOf } from '../../src/plan/steps.ts';
import { formatSteps } from '../../src/plan/steps-text.ts';

function prove(text: string): { readonly ended: string; readonly found: number; readonly parts: number[] } {
  const parts: number[] = [performance.now()];
  const mark = () => parts.push(performance.now());
  const reading = readPlan(text);
  mark();
  if (!reading.ok) return { ended: 'refused', found: reading.problems.length, parts };
  const resolution = resolvePlan(reading.plan, { positions: reading.positions });
  mark();
  if (!resolution.ok) return { ended: 'refused', found: resolution.problems.length, parts };
  const findings = checkPlan(reading.plan, resolution.plan, reading.positions);
  mark();
  formatSteps(stepsOf(resolution.plan, resolution.computed));
  mark();
  return { ended: 'resolved', found: findings.length, parts };
}

const text = readFileSync(process.argv[2] ?? '', 'utf8');
const begin = performance.now();
const { ended, found, parts } = prove(text);
const ms = performance.now() - begin;
const between = parts.slice(1).map((at, i) => Math.round(at - (parts[i] ?? 0)));
const mb = process.resourceUsage().maxRSS / 1024;
process.stdout.write(JSON.stringify({ ended, found, ms, mb, parts: between }));
