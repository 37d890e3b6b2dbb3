/** Faults, plan problems and refusals in words, on standard error; one place for the wording of each kind. */

import { formatProblem } from '../plan/read/problem.ts';
import { plainLine } from '../report/neutral-text.ts';
import type { PlanProblems } from '../sitting/plan-loading.ts';
import type { Fault } from '../store/fault.ts';
import type { Damage } from '../store/journal-repair.ts';

import type { Io } from './io.ts';

/** Says a fault (what, where, what to try) and answers its exit code. */
export function sayFault(io: Io, fault: Fault): number {
  io.err(`millside: ${plainLine(fault.what)}\n  where: ${fault.where}\n  try:   ${plainLine(fault.tryThis)}\n`);
  return fault.code;
}

/** Says every problem of a plan with the plan's line under it. */
export function sayProblems(io: Io, { file, problems }: PlanProblems, name: string): void {
  for (const problem of problems) io.err(`${formatProblem(problem, file.text, name)}\n`);
  io.err(
    `${problems.length} ${problems.length === 1 ? 'problem' : 'problems'}: this plan cannot be used as it stands.\n`,
  );
}

/** Says what of a journal could not be used: file, place, length, and where the rest is kept. */
export function sayDamage(io: Io, damage: Damage): void {
  const kept = damage.keptIn === undefined ? 'it was left as it is' : `it is kept in ${damage.keptIn}`;
  const whole = damage.wholeLinesAfter === 0 ? '' : ` ${damage.wholeLinesAfter} whole lines behind it are not counted.`;
  io.err(
    `millside: ${damage.file} is good up to byte ${damage.offset}; ${damage.length} bytes from there are not used ` +
      `(${plainLine(damage.reason)}); ${kept}.${whole}\n`,
  );
}
