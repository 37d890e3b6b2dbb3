// Whole plans of a kind that gets written in a hurry, with several mistakes each: what is said of them, and nothing else.
import { describe, expect, it } from 'vitest';
import { findingsOf, plansIn, textOf } from '../plan-samples.ts';

const folder = 'tests/samples/mistaken-plans/';

const said: Readonly<Record<string, readonly string[]>> = {
  'bottomed-threads': ['30 warn breaks-through', '40 stop breaks-through', '70 warn spares-none'],
  'several-at-once': [
    '10 stop stop-height',
    '10 stop holder-met',
    '20 stop holder-met',
    '20 warn place-twice',
    '30 stop tap-drill',
    '30 stop tap-other-thread',
    '40 warn pass-deep',
    '40 warn check-limits',
    '50 warn burr-seat',
    '60 stop clearance-hole',
    '60 warn wall-thin',
    '60 warn burr-seat',
  ],
  'slipped-digits-inch': [
    '10 stop stop-height',
    '10 stop jaw-met',
    '30 warn place-twice',
    '40 warn tap-drill',
    '50 warn wall-thin',
    '60 warn pass-deep',
    '60 warn tool-reach',
    '60 warn tolerance-fine',
    '60 warn check-limits',
    '70 warn tool-reach',
    '70 warn place-twice',
  ],
  'sunk-between-jaws': [
    '20 stop under-the-part',
    '30 stop under-the-part',
    '40 stop before-its-hole',
    '50 stop jaw-met',
    '60 stop stop-height',
    '60 stop jaw-met',
    '60 warn breaks-through',
    '70 warn drill-grabs',
    '70 warn burr-seat',
    '80 warn check-limits',
  ],
};

describe('plans with several mistakes', () => {
  it('each is listed here', () => {
    expect(
      plansIn(folder)
        .map((name) => name.slice(folder.length, -'.yaml'.length))
        .sort(),
    ).toEqual(Object.keys(said).sort());
  });

  it.each(Object.entries(said))('%s', (name, wanted) => {
    const found = findingsOf(textOf(`${folder}${name}.yaml`)).filter((one) => one.severity !== 'note');
    const told = found.map((one) => `${one.operation} ${one.severity} ${one.code}`);
    expect([...new Set(told)]).toEqual(wanted);
  });
});
