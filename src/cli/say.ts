/** Faults, plan problems and refusals in words, on standard error; one place for the wording of each kind. */
import { formatProblem } from '../plan/read/problem.ts';
import type { PlanProblems } from '../sitting/plan-loading.ts';
import type { Fault } from '../store/fault.ts';
import { printableWords } from './arguments.ts';
import type { Io } from './io.ts';

/** Says a fault (what, where, what to try) and answers its exit code. */
export function sayFault(io: Io, fault: Fault): number {
  io.err(
    `millside: ${printableWords(fault.what)}\n  where: ${fault.where}\n  try:   ${printableWords(fault.tryThis)}\n`,
  );
  return fault.code;
}

/** Says every problem of a plan with the plan's line under it. */
export function sayProblems(io: Io, { file, problems }: PlanProblems, name: string): void {
  for (const problem of problems) io.err(`${formatProblem(problem, file.text, name)}\n`);
  io.err(
    `${problems.length} ${problems.length === 1 ? 'problem' : 'problems'}: this plan cannot be used as it stands.\n`,
  );
}
