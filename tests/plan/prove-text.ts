/**
 * A program of its own for tests: proves the plan in the file that it is given and tells how that ended, how many yards it
 * took (tests/yard.ts) and the most memory that the process ever held.
 */
import { readFileSync } from 'node:fs';
import { checkPlan } from '../../src/plan/checks/check-plan.ts';
import { readPlan } from '../../src/plan/read/read-plan.ts';
import { resolvePlan } from '../../src/plan/resolve/resolve-plan.ts';
import { stepsOf } from '../../src/plan/steps.ts';
import { formatSteps } from '../../src/plan/steps-text.ts';
import { yardsOf } from '../yard.ts';

function prove(text: string): { readonly ended: string; readonly found: number } {
  const reading = readPlan(text);
  if (!reading.ok) return { ended: 'refused', found: reading.problems.length };
  const resolution = resolvePlan(reading.plan, { positions: reading.positions });
  if (!resolution.ok) return { ended: 'refused', found: resolution.problems.length };
  const findings = checkPlan(reading.plan, resolution.plan, reading.positions);
  formatSteps(stepsOf(resolution.plan, resolution.computed));
  return { ended: 'resolved', found: findings.length };
}

const text = readFileSync(process.argv[2] ?? '', 'utf8');
let proof = { ended: 'never', found: 0 };
const yards = yardsOf(() => {
  proof = prove(text);
});
const mb = process.resourceUsage().maxRSS / 1024;
process.stdout.write(JSON.stringify({ ...proof, yards, mb }));
