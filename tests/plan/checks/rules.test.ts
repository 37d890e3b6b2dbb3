import { describe, expect, it } from 'vitest';
import { hasStop } from '../../../src/plan/checks/check-plan.ts';
import { rules } from '../../../src/plan/checks/rules.ts';
import { findingsOf, plansIn, proved, textOf } from '../plan-samples.ts';

const folder = 'tests/samples/wrong-plans/';
const names = plansIn(folder).filter((name) => !name.endsWith('.neighbour.yaml'));
const codeOf = (name: string) => name.slice(folder.length, -'.yaml'.length);
const inWords = (findings: ReturnType<typeof findingsOf>) =>
  findings.map((finding) => `${finding.code} ${finding.operation}: ${finding.message}`);

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

/** Lines that only one of two texts has. */
function linesApart(a: string, b: string): number {
  const [one, other] = [a, b].map((text) => text.split('\n').filter((line) => !line.startsWith('#')));
  const only = (from: string[] = [], than: string[] = []) => from.filter((line) => !than.includes(line)).length;
  return Math.max(only(one, other), only(other, one));
}

describe.each(names)('%s', (name) => {
  const code = codeOf(name);
  const text = textOf(name);
  const near = textOf(name.replace('.yaml', '.neighbour.yaml'));
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
    expect(inWords(findings.filter((finding) => finding.code !== code && finding.severity !== 'note'))).toEqual([]);
  });

  it('has a neighbour a few lines away that just does not trip it, and nothing else', () => {
    expect(linesApart(text, near)).toBeLessThanOrEqual(5);
    expect(inWords(findingsOf(near).filter((one) => one.code === code || one.severity !== 'note'))).toEqual([]);
  });
});

// The blind trial: each wrong plan carries the edits of someone who knows nothing but what the finding says, as comments
// `# Fix: FROM => TO`. What is written new must stand in the finding itself, and the plan must pass afterwards.
describe('the blind trial: following the advice puts the plan right', () => {
  const NEEDS_NO_EDIT = /^(have|clamp|cut lightly|stroke)/;

  it.each(names)('%s', (name) => {
    const text = textOf(name);
    const code = codeOf(name);
    const own = findingsOf(text).filter((finding) => finding.code === code);
    const edits = [...text.matchAll(/^# Fix: (.*?) => ?(.*)$/gm)].map(([, from = '', to = '']) =>
      [from, to].map((part) => part.replaceAll('\\n', '\n')),
    );
    if (edits.length === 0) {
      // Only a note may ask for nothing, or for a deed at the machine.
      for (const finding of own) expect(finding.severity).toBe('note');
      for (const finding of own) expect(finding.tryThis === '' || NEEDS_NO_EDIT.test(finding.tryThis)).toBe(true);
      return;
    }
    const said = wordsOf(own.map((finding) => `${finding.message} ${finding.tryThis}`).join(' '));
    const whole = wordsOf(text.replaceAll(/^#.*$/gm, ''));
    let put = text;
    for (const [from = '', to = ''] of edits) {
      const at = put.replaceAll(/^#.*$/gm, (line) => ' '.repeat(line.length)).indexOf(from);
      expect(at, from).toBeGreaterThanOrEqual(0);
      put = `${put.slice(0, at)}${to}${put.slice(at + from.length)}`;
    }
    const moved = edits.length > 1 ? whole : new Set<string>();
    for (const [from = '', to = ''] of edits) {
      const invented = [...wordsOf(to)].filter(
        (word) => !wordsOf(from).has(word) && !moved.has(word) && !said.has(word),
      );
      expect(invented).toEqual([]);
    }
    expect(inWords(findingsOf(put).filter((one) => one.code === code || one.severity !== 'note'))).toEqual([]);
  });
});

const wordsOf = (text: string): Set<string> => new Set(text.toLowerCase().match(/[\p{L}\p{N}.]+/gu) ?? []);
