import { expect, it } from 'vitest';
import { formatFindings, formatRules, ruleRow } from '../../../src/plan/checks/findings-text.ts';
import { rules } from '../../../src/plan/checks/rules.ts';
import { proved, textOf } from '../plan-samples.ts';

it('findings are told by operation, with place, line, mark and way out, and counted', () => {
  const text = textOf('tests/samples/wrong-plans/tap-drill.yaml');
  const { findings, resolved } = proved(text);
  const shown = formatFindings(findings, resolved, text, 'latch\u001b.yaml');
  expect(shown).toContain('Operation 80  Tap M6');
  expect(shown).toContain('STOP tap-drill: M6 in a hole of 4.8 mm');
  expect(shown).toMatch(/latch\?\.yaml:\d+:\d+\n {4}\| .*drill-5/);
  expect(shown).toContain('try: drill 5 mm for M6');
  expect(shown.trimEnd().split('\n').at(-1)).toBe('1 stop, 5 notes');
});

it('nothing found is said', () => {
  expect(formatFindings([], { operations: [] }, '', 'x')).toBe('Nothing found.\n');
});

it('every rule is listed with its example', () => {
  const shown = formatRules(rules);
  for (const rule of rules) expect(shown).toContain(`e.g. ${rule.example}`);
  expect(Object.keys(ruleRow(rules[0]!))).toEqual(['code', 'severity', 'severities', 'catches', 'example']);
});
