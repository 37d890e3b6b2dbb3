import { describe, expect, it } from 'vitest';
import { hasStop } from '../../../src/plan/checks/check-plan.ts';
import { rules } from '../../../src/plan/checks/rules.ts';
import { plansIn, proved, textOf } from '../plan-samples.ts';

const folder = 'tests/samples/wrong-plans/';
const names = plansIn(folder).filter((name) => !name.endsWith('.neighbour.yaml'));
const codeOf = (name: string) => name.slice(folder.length, -'.yaml'.length);

describe('the rules', () => {
  it('each has a code of its own, words and an example', () => {
    expect(new Set(rules.map((rule) => rule.code)).size).toBe(rules.length);
    expect(rules.length).toBeGreaterThanOrEqual(30);
    for (const rule of rules) {
      expect(rule.code).toMatch(/^[a-z][a-z-]+$/);
      expect(rule.catches.length).toBeGreaterThan(20);
      expect(rule.example.length).toBeGreaterThan(20);
    }
  });

  it('each has a plan that trips it, and no plan is without its rule', () => {
    expect(names.map(codeOf).sort()).toEqual(rules.map((rule) => rule.code).sort());
  });
});

describe.each(names)('%s', (name) => {
  const code = codeOf(name);
  const text = textOf(name);
  const { findings } = proved(text);
  const own = findings.filter((finding) => finding.code === code);
  const rule = rules.find((one) => one.code === code);

  it('trips its rule, placed in the text, with a sentence and numbers', () => {
    expect(own.length).toBeGreaterThan(0);
    for (const finding of own) {
      expect(finding.line).toBeGreaterThan(1);
      expect(finding.line).toBeLessThanOrEqual(text.split('\n').length);
      expect(finding.message.length).toBeGreaterThan(15);
      if (finding.severity !== 'note') expect(finding.tryThis).not.toBe('');
    }
    expect(hasStop(own)).toBe(rule?.severity === 'stop');
  });

  it('trips no other stop and no other warning', () => {
    const others = findings.filter((finding) => finding.code !== code && finding.severity !== 'note');
    expect(others.map((finding) => `${finding.code} ${finding.operation}: ${finding.message}`)).toEqual([]);
  });

  it('has a neighbour that just does not trip it, and nothing else', () => {
    const near = proved(textOf(name.replace('.yaml', '.neighbour.yaml'))).findings;
    const wrong = near.filter((finding) => finding.code === code || finding.severity !== 'note');
    expect(wrong.map((finding) => `${finding.code} ${finding.operation}: ${finding.message}`)).toEqual([]);
  });
});
