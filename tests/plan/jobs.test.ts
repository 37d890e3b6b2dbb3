import { describe, expect, it } from 'vitest';
import { operationKinds } from '../../src/plan/operation-kinds.ts';
import { stationSchema } from '../../src/plan/resolved.ts';
import { plansIn, proved, textOf } from './plan-samples.ts';

const jobs = plansIn('jobs/').map((name) => proved(textOf(name)));
const used = <Value>(of: (job: (typeof jobs)[number]) => readonly Value[]) => new Set(jobs.flatMap(of));

describe('the bundled jobs together', () => {
  it('are five and more', () => {
    expect(jobs.length).toBeGreaterThanOrEqual(5);
  });

  it('use every kind of operation', () => {
    const kinds = used((job) => job.resolved.operations.map((operation) => operation.kind));
    expect(operationKinds.filter((kind) => !kinds.has(kind))).toEqual([]);
  });

  it('use every station, both units, every pattern and every line cut', () => {
    const stations = used((job) => job.resolved.operations.map((operation) => operation.station));
    expect(stationSchema.options.filter((station) => !stations.has(station))).toEqual([]);
    expect(used((job) => [job.plan.units])).toEqual(new Set(['mm', 'inch']));
    const patterns = used((job) => Object.values(job.plan.points ?? {}).map((point) => point.kind));
    expect(patterns).toEqual(new Set(['single', 'offset', 'row', 'grid', 'circle', 'mirrored']));
    expect(used((job) => Object.values(job.plan.lines ?? {}).map((line) => line.kind))).toEqual(
      new Set(['edge', 'slot', 'step']),
    );
  });

  it('use, with the sound plans, every way of holding and of lying', () => {
    const all = [...jobs, ...plansIn('tests/samples/sound-plans/').map((name) => proved(textOf(name)))];
    const holds = new Set(all.flatMap((job) => job.resolved.setups.map((setup) => setup.hold)));
    expect(holds).toEqual(new Set(['vice', 'two vices', 'fixture', 'plate']));
    const lies = new Set(
      all.flatMap((job) => Object.values(job.plan.setups ?? {}).map((setup) => setup.lies ?? 'as drawn')),
    );
    expect(lies).toEqual(new Set(['as drawn', 'over about X', 'over about Y', 'end for end', 'on edge', 'on end']));
  });
});

describe('what must be said of the pump spacer, and what must not', () => {
  const { findings } = proved(textOf('tests/samples/sound-plans/pump-spacer.yaml'));
  const said = (code: string, operation: number) =>
    findings
      .filter((one) => one.code === code && one.operation === operation)
      .map((one) => one.message)
      .join(' ');

  it.each([
    ['approach-side', 60, /come to every point the same way/],
    ['shared-speed', 100, /950/],
    ['hand-tap', 110, /no spindle of this plan reverses/],
    ['fast-wanted', 70, /5617 rpm; 2700 is the fastest/],
    ['closed-end', 80, /ends at 1\.750 in; the axis stops at 1\.875 in/],
    ['sawn-end', 30, /carries no dimension/],
  ] as const)('%s at operation %i', (code, operation, words) => {
    expect(said(code, operation)).toMatch(words);
  });

  it('ISO 2768 is not spoken of on an inch drawing, and nothing but the speed is said of the no. 29 drill', () => {
    expect(JSON.stringify(findings)).not.toContain('2768');
    const at70 = findings.filter((one) => one.operation === 70).map((one) => [one.code, one.severity]);
    expect(at70).toEqual([['fast-wanted', 'note']]);
  });
});
