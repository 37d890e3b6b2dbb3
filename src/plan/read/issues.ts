/**
 * The issues of the schema as problems of the file. Of a union the branch that the writer most likely meant is shown: the
 * one whose kind of value fits (text, list or map), then the one with the fewest faults.
 */
import type { core } from 'zod';
import { suggestName } from '../../shop/suggest-name.ts';
import { formatPath, neutral, type PathStep, type Place, type Problem } from './problem.ts';
import type { Positions, Written } from './tree.ts';

type Issue = core.$ZodIssue;

/** Most problems that are worked out; more are of no use to a reader, and each costs time. */
const MOST_OF_A_KIND = 100;

/** All issues as problems, each with its place. */
export function problemsOfIssues(issues: readonly Issue[], written: Written, positions: Positions): Problem[] {
  return issues.slice(0, MOST_OF_A_KIND).flatMap((issue) => problemsOfIssue(issue, [], written, positions));
}

function problemsOfIssue(issue: Issue, base: readonly PathStep[], written: Written, positions: Positions): Problem[] {
  const path = [...base, ...(issue.path as readonly PathStep[])];
  const value = valueAt(written, path);
  const at = { path: formatPath(path), ...placeOf(path, positions) };
  if (issue.code === 'invalid_union') {
    if (value === undefined) return [missing(path, positions)];
    return meantBranch(issue.errors, value).flatMap((inner) => problemsOfIssue(inner, path, written, positions));
  }
  if (issue.code === 'unrecognized_keys') {
    return issue.keys
      .slice(0, MOST_OF_A_KIND)
      .map((key) => unknownKey(key, issue.message.split('\n'), path, positions));
  }
  if (issue.code === 'invalid_key') return [];
  if (value === undefined && issue.code === 'invalid_type') return [missing(path, positions)];
  const found = describe(value);
  if (issue.code === 'invalid_type') {
    const wanted = WANTED_TYPES[issue.expected] ?? issue.expected;
    const message = `${lastOf(path)}: found ${found}, wanted ${wanted}`;
    return [{ ...at, found, wanted, message, tryThis: `write ${wanted} here` }];
  }
  if (issue.code === 'too_small' || issue.code === 'too_big') {
    const wanted =
      issue.code === 'too_small' ? `at least ${issue.minimum} entries` : `at most ${issue.maximum} entries`;
    return [{ ...at, found, wanted, message: `${lastOf(path)}: ${wanted} are wanted`, tryThis: 'change the list' }];
  }
  const parts = issue.code === 'custom' ? (issue.params ?? {}) : {};
  const wanted = String(parts['wanted'] ?? '');
  const tryThis = String(parts['tryThis'] ?? '');
  return [{ ...at, found, wanted, message: `${lastOf(path)}: ${neutral(issue.message, 240)}`, tryThis }];
}

const WANTED_TYPES: Readonly<Record<string, string>> = {
  string: 'one value on a line',
  object: 'a map of keys and values',
  record: 'a map of names of your own',
  array: 'a list',
};

function placeOf(path: readonly PathStep[], positions: Positions): Place {
  return positions.placeOf(path);
}

function missing(path: readonly PathStep[], positions: Positions): Problem {
  const key = lastOf(path);
  const around = path.slice(0, -1);
  return {
    ...positions.placeOf(around),
    path: formatPath(path),
    found: 'nothing',
    wanted: `the key "${key}"`,
    message: `"${key}" is missing in ${formatPath(around)}`,
    tryThis: `add "${key}:"`,
  };
}

function unknownKey(key: string, known: readonly string[], path: readonly PathStep[], positions: Positions): Problem {
  const near = suggestName(key, known);
  const place = positions.keyPlaceOf([...path, key]);
  return {
    ...place,
    path: formatPath([...path, key]),
    found: `the key "${neutral(key)}"`,
    wanted: `one of: ${known.join(', ')}`,
    message: `"${neutral(key)}" is not a key of ${formatPath(path)}`,
    tryThis: near === undefined ? 'delete it, or see the keys above' : `did you mean "${near}"?`,
  };
}

/** The issues of the branch that was most likely meant. */
function meantBranch(branches: readonly (readonly Issue[])[], value: Written): readonly Issue[] {
  const ranked = branches.map((issues) => ({ issues, rank: rankOf(issues, value) }));
  ranked.sort((a, b) => a.rank - b.rank);
  return ranked[0]?.issues ?? [];
}

/** Lower is likelier: a branch that wants another kind of value altogether comes last. */
function rankOf(issues: readonly Issue[], value: Written): number {
  const wrongKind = issues.some((issue) => issue.path.length === 0 && issue.code === 'invalid_type');
  const unknown = issues.reduce(
    (sum, issue) => sum + (issue.code === 'unrecognized_keys' ? issue.keys.length * 3 : 0),
    0,
  );
  const known = typeof value === 'object' && !Array.isArray(value) ? Object.keys(value).length : 0;
  return (wrongKind ? 1000 : 0) + unknown + issues.length - known / 1000;
}

function valueAt(written: Written, path: readonly PathStep[]): Written | undefined {
  let here: Written | undefined = written;
  for (const step of path) {
    if (typeof here !== 'object') return undefined;
    here = (here as { readonly [key: string]: Written })[String(step)];
  }
  return here;
}

function describe(value: Written | undefined): string {
  if (value === undefined || value === '') return 'nothing';
  if (typeof value === 'string') return `"${neutral(value)}"`;
  return Array.isArray(value) ? `a list of ${value.length}` : 'a map';
}

const lastOf = (path: readonly PathStep[]): string => {
  const step = path.at(-1);
  return step === undefined ? 'the plan' : typeof step === 'number' ? formatPath(path.slice(-2)) : neutral(step);
};
