/**
 * `millside check PLAN`: the plan is proved before metal is cut. Problems of the file itself come first and alone; then the
 * findings by operation, and what the proof rests on: what was tried, worked out, and not to be proved. Exit 0 when it may be cut, 65 when not (with `--strict` on warnings too), 66 when there is no such
 * file. `--rules` lists what is looked for.
 *
 * `--json`: `{ "format": 1, "plan": "jobs/x.yaml", "problems": [], "findings": [{ "code": "tap-drill", "severity": "warn",
 * "operation": 80, "message": "…", "tryThis": "…", "line": 120, "column": 7 }], "counts": { "stop": 0, "warn": 1, "note": 0 },
 * "proved": { "rules": 59, "operations": 13, …, "computed": [{ "what": "speed", "count": 7 }], "unproved": ["…"] } }`;
 * `operation` is null for what concerns the whole plan. Problems are as in plan-words.ts.
 * `--rules --json`: `{ "format": 1, "rules": [{ "code": "tap-drill", "severity": "stop", "severities": ["stop", "warn"],
 * "catches": "…", "example": "…" }] }`; severity is what the rule gives by itself, severities every one that it can give.
 */
import { checkPlan } from '../plan/checks/check-plan.ts';
import type { Finding, Severity } from '../plan/checks/finding.ts';
import { formatFindings, formatRules, ruleRow } from '../plan/checks/findings-text.ts';
import { formatProof, proofOf } from '../plan/checks/proof.ts';
import { rules } from '../plan/checks/rules.ts';
import { readWords } from './arguments.ts';
import { exitCodes } from './exit-codes.ts';
import { type Io, writeJson } from './io.ts';
import { planNamed } from './plan-words.ts';

export async function runCheck(args: readonly string[], io: Io): Promise<number> {
  const wanted = args.includes('--rules') ? 0 : 1;
  const words = readWords('check', args, [wanted, wanted], io);
  if (typeof words === 'number') return words;
  const json = words.has('json');
  if (words.has('rules')) {
    if (json) writeJson(io, { format: 1, rules: rules.map(ruleRow) });
    else io.out(formatRules(rules));
    return exitCodes.done;
  }
  const name = words.names[0] ?? '';
  const loaded = await planNamed(name, io, { json, more: { findings: [], counts: countsOf([]), proved: null } });
  if (typeof loaded === 'number') return loaded;
  const findings = checkPlan(loaded.plan, loaded.resolved, loaded.positions, loaded.machines);
  const counts = countsOf(findings);
  const proved = proofOf(loaded.plan, loaded.resolved, loaded.computed);
  if (json) writeJson(io, { format: 1, plan: name, problems: [], findings, counts, proved });
  else io.out(`${formatFindings(findings, loaded.resolved, loaded.file.text, name)}\n${formatProof(proved)}`);
  const isRefused = counts.stop > 0 || (words.has('strict') && counts.warn > 0);
  return isRefused ? exitCodes.badPlanOrJournal : exitCodes.done;
}

function countsOf(findings: readonly Finding[]): Readonly<Record<Severity, number>> {
  const count = (severity: Severity) => findings.filter((one) => one.severity === severity).length;
  return { stop: count('stop'), warn: count('warn'), note: count('note') };
}
