import { describe, expect, it } from 'vitest';
import { plansIn, proved, textOf } from '../plan-samples.ts';

const sound = [...plansIn('jobs/'), ...plansIn('tests/samples/sound-plans/')];

describe('a rule that fires on sound practice is a fault', () => {
  it.each(sound)('%s trips no stop and no warning', (name) => {
    const wrong = proved(textOf(name)).findings.filter((finding) => finding.severity !== 'note');
    expect(wrong.map((finding) => `${finding.code} ${finding.operation}: ${finding.message}`)).toEqual([]);
  });
});
