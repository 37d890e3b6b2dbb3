/**
 * Names in a plan that its schema has already refused: operations numbered twice, and machines, setups, tools and variants
 * that nothing stands for. A sound plan gets all of this from ../resolve; one with other faults gets it here, so that every
 * fault of a file is told at once and not one layer after the other.
 */
import { suggestName } from '../../shop/suggest-name.ts';
import { formatPath, neutral, type PathStep, type Problem } from './problem.ts';
import type { Positions, Written } from './tree.ts';

type Branch = { readonly [key: string]: Written };

/**
 * Problems of names in the tree as written; parts that have another shape than they should are passed over.
 *
 * @param shopMachines names of machines that the settings know
 */
export function nameProblems(plan: Branch, positions: Positions, shopMachines: readonly string[]): Problem[] {
  const known = {
    machine: [...keysOf(plan['machines']), ...shopMachines],
    setup: keysOf(plan['setups']),
    tool: keysOf(plan['tools']),
    variant: keysOf(plan['variants']),
  };
  const problems: Problem[] = [];
  const named = (what: keyof typeof known, value: Written | undefined, path: readonly PathStep[]): void => {
    if (typeof value !== 'string' || value.trim() === '' || known[what].includes(value)) return;
    problems.push(unknownName(what, value, known[what], path, positions));
  };
  for (const [name, setup] of Object.entries(branchOf(plan['setups']))) {
    named('machine', branchOf(setup)['machine'], ['setups', name, 'machine']);
  }
  const operations = listOf(plan['operations']).map(branchOf);
  operations.forEach((operation, index) => {
    const path: PathStep[] = ['operations', index];
    named('machine', operation['machine'], [...path, 'machine']);
    named('setup', operation['setup'], [...path, 'setup']);
    named('tool', operation['tool'], [...path, 'tool']);
    listOf(operation['variants']).forEach((variant, at) => {
      named('variant', variant, [...path, 'variants', at]);
    });
    listOf(operation['cuts']).forEach((cut, at) => {
      named('tool', branchOf(cut)['tool'], [...path, 'cuts', at, 'tool']);
    });
  });
  return [...problems, ...numbersTwice(operations, positions)];
}

function numbersTwice(operations: readonly Branch[], positions: Positions): Problem[] {
  const seen = new Set<string>();
  return operations.flatMap((operation, index) => {
    const number = operation['number'];
    if (typeof number !== 'string') return [];
    if (!seen.has(number)) {
      seen.add(number);
      return [];
    }
    const path = ['operations', index, 'number'];
    const found = `"${neutral(number)}"`;
    return [
      {
        ...positions.placeOf(path),
        path: formatPath(path),
        found,
        wanted: 'a number of its own',
        message: `operation ${neutral(number)} stands in the plan twice`,
        tryThis: 'give one of them another number',
      },
    ];
  });
}

function unknownName(
  what: string,
  name: string,
  known: readonly string[],
  path: readonly PathStep[],
  positions: Positions,
): Problem {
  const near = suggestName(name, known);
  const section = `"${what}s"`;
  return {
    ...positions.placeOf(path),
    path: formatPath(path),
    found: `"${neutral(name)}"`,
    wanted:
      known.length === 0 ? `a ${what} under ${section}` : `one of: ${known.map((one) => neutral(one)).join(', ')}`,
    message: `there is no ${what} "${neutral(name)}"`,
    tryThis: near === undefined ? `add it under ${section}` : `did you mean "${neutral(near)}"?`,
  };
}

const keysOf = (written: Written | undefined): readonly string[] => Object.keys(branchOf(written));

function branchOf(written: Written | undefined): Branch {
  return typeof written === 'object' && !Array.isArray(written) ? (written as Branch) : {};
}

function listOf(written: Written | undefined): readonly Written[] {
  return Array.isArray(written) ? written : [];
}
