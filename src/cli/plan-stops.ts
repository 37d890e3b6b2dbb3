/** What a check calls a stop, said wherever the numbers of a plan are shown without being proved first. */
import { checkPlan } from '../plan/checks/check-plan.ts';
import { plainLine } from '../report/neutral-text.ts';
import type { LoadedPlan } from '../sitting/plan-loading.ts';

/** The stops of a plan as lines, such as `STOP, operation 70: … (breaks-through)`; none for a plan that may be cut. */
export function stopLines({ plan, resolved, positions, machines }: LoadedPlan): readonly string[] {
  return checkPlan(plan, resolved, positions, machines)
    .filter((one) => one.severity === 'stop')
    .map(({ operation, message, code }) => {
      const where = operation === null ? '' : `, operation ${operation}`;
      return `STOP${where}: ${plainLine(message)} (${code})`;
    });
}

/** The stops above the numbers that they concern, ended by an empty line; empty for a plan that may be cut. */
export function stopsAbove(loaded: LoadedPlan, name: string): string {
  const stops = stopLines(loaded);
  if (stops.length === 0) return '';
  const lines = stops.map((line) => `  ${line}\n`).join('');
  return `THIS PLAN MUST NOT BE CUT AS IT STANDS; millside check ${plainLine(name)} says what to do:\n${lines}\n`;
}
