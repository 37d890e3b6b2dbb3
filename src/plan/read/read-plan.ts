/**
 * Reading a plan: text in, either a plan with the place of every value or all problems at once. Any text at all is
 * answered within a second; nothing in it is executed, nothing of it reaches a message raw.
 *
 * The language is in ../schema/plan.ts; this folder only reads. What the plan's numbers mean together is proved later, in
 * ../resolve and ../checks.
 */
import * as z from 'zod';
import type { LengthUnit } from '../../shop/units.ts';
import { type Plan, planSchema } from '../schema/plan.ts';
import { capText } from './caps.ts';
import { problemsOfIssues } from './issues.ts';
import { nameProblems } from './names.ts';
import { inOrderOfText, neutral, type Problem } from './problem.ts';
import { type Positions, readTree, type Written } from './tree.ts';

export type PlanReading =
  | { readonly ok: true; readonly plan: Plan; readonly positions: Positions }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Formats that this program reads; a later one is refused in plain words. */
const FORMAT = 1;

/**
 * Reads a plan.
 *
 * @param text of the file, decoded as UTF-8, with or without a byte order mark, any line ends
 * @param shopMachines names of the machines that the settings know; a plan may call them by name
 * @returns the plan (lengths in millimetres, times in seconds) with positions, or every problem in the order of the text
 *
 * Example: a plan with ten faults gives ten problems, each with line and column.
 */
export function readPlan(text: string, shopMachines: readonly string[] = []): PlanReading {
  const capped = capText(text);
  if (!capped.ok) return { ok: false, problems: [capped.problem] };
  const { written, positions, problems } = readTree(capped.text);
  if (typeof written !== 'object' || Array.isArray(written)) {
    return { ok: false, problems: problems.length > 0 ? problems : [notAMap(positions)] };
  }
  const map = written as { readonly [key: string]: Written };
  const future = futureFormat(map['format'], positions);
  if (future !== undefined) return { ok: false, problems: [future] };
  const parsed = schemaForOnce(unitsOf(map['units'])).safeParse(written);
  const all = [...problems, ...(parsed.success ? [] : problemsOfIssues(parsed.error.issues, written, positions))];
  if (parsed.success && all.length === 0) return { ok: true, plan: parsed.data, positions };
  return { ok: false, problems: inOrderOfText([...all, ...missing(all, nameProblems(map, positions, shopMachines))]) };
}

/** A schema for one plan: compiling it into functions first would take longer than it saves (20 ms of a start). */
function schemaForOnce(unit: LengthUnit): ReturnType<typeof planSchema> {
  const usually = z.config().jitless === true;
  z.config({ jitless: true });
  const schema = planSchema(unit);
  z.config({ jitless: usually });
  return schema;
}

/** Problems at places of which nothing has been said yet. */
function missing(told: readonly Problem[], more: readonly Problem[]): Problem[] {
  const places = new Set(told.map((one) => `${one.line}:${one.column}`));
  return more.filter((one) => !places.has(`${one.line}:${one.column}`));
}

/** Units for reading the rest, also when the key itself is wrong: its own problem is reported by the schema. */
const unitsOf = (written: Written | undefined): LengthUnit =>
  typeof written === 'string' && /^in/iu.test(written.trim()) ? 'inch' : 'mm';

function notAMap(positions: Positions): Problem {
  return {
    ...positions.placeOf([]),
    path: 'the plan',
    found: 'text or a list',
    wanted: 'keys and values',
    message: 'this is not a job plan: it has no keys',
    tryThis: 'begin with `format: 1`',
  };
}

function futureFormat(written: Written | undefined, positions: Positions): Problem | undefined {
  if (typeof written !== 'string' || !/^\d{1,9}$/u.test(written) || Number(written) <= FORMAT) return undefined;
  return {
    ...positions.placeOf(['format']),
    path: 'format',
    found: `"${neutral(written)}"`,
    wanted: `"${FORMAT}"`,
    message: `the plan is written in format ${written}; this version of millside reads format ${FORMAT}`,
    tryThis: 'use a newer millside for this plan, or write it in format 1',
  };
}
