/** Findings and rules as text for `check`: grouped by operation, the plan's line under each. */
import { neutral, showLine } from '../read/problem.ts';
import type { ResolvedPlan } from '../resolved.ts';
import { type Finding, type Rule, type Severity, severitiesOf } from './finding.ts';

const WORDS: Readonly<Record<Severity, string>> = { stop: 'STOP', warn: 'warning', note: 'note' };

/**
 * Findings by operation, each with its place, code, sentence, the plan's line and what to try; a last line counts them.
 *
 * @param text the plan's text. @param name of the file as the user gave it.
 */
export function formatFindings(
  findings: readonly Finding[],
  plan: Pick<ResolvedPlan, 'operations'>,
  text: string,
  name: string,
): string {
  const groups = [...new Set(findings.map((finding) => finding.operation))];
  const lines = groups.flatMap((operation) => {
    const title = plan.operations.find((one) => one.number === operation)?.title;
    const head = operation === null ? 'The whole plan' : `Operation ${operation}  ${neutral(title ?? '')}`;
    const own = findings.filter((finding) => finding.operation === operation);
    return [head, ...own.flatMap((finding) => findingLines(finding, text, name)), ''];
  });
  return `${[...lines, countLine(findings)].join('\n')}\n`;
}

function findingLines(finding: Finding, text: string, name: string): readonly string[] {
  const where = `${neutral(name, 200)}:${finding.line}:${finding.column}`;
  return [
    `  ${WORDS[finding.severity]} ${finding.code}: ${neutral(finding.message, 400)}`,
    `    ${where}`,
    ...showLine(finding, text),
    ...(finding.tryThis === '' ? [] : [`    try: ${neutral(finding.tryThis, 300)}`]),
  ];
}

/** `1 stop, 2 warnings, 3 notes`, or that nothing was found. */
function countLine(findings: readonly Finding[]): string {
  if (findings.length === 0) return 'Nothing found.';
  const count = (severity: Severity) => findings.filter((finding) => finding.severity === severity).length;
  const some = (number: number, word: string) => (number === 0 ? [] : [`${number} ${word}${number === 1 ? '' : 's'}`]);
  return [...some(count('stop'), 'stop'), ...some(count('warn'), 'warning'), ...some(count('note'), 'note')].join(', ');
}

/** Every rule with its code, every severity that it can give, what it catches and an example. */
export function formatRules(all: readonly Rule[]): string {
  const lines = all.flatMap((rule) => [
    `${rule.code} (${severitiesOf(rule)
      .map((severity) => WORDS[severity])
      .join(', ')})`,
    `  ${rule.catches}`,
    `  e.g. ${rule.example}`,
    '',
  ]);
  return `${lines.join('\n')}${all.length} rules\n`;
}

/** One rule as `check --rules --json` lists it: the severity that it gives by itself, and every one that it can give. */
export const ruleRow = (rule: Rule) => {
  const { code, severity, catches, example } = rule;
  return { code, severity, severities: severitiesOf(rule), catches, example };
};
