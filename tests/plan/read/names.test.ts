import { describe, expect, it } from 'vitest';
import { readPlan } from '../../../src/plan/read/read-plan.ts';

const mixed = `format: 1
id: mixed
job: Mixed faults
units: furlongs
material: mild steel
part: { length: 60, width: 30, thickness: 8 }
variants: { one: { quantity: 4 } }
machines:
  bench: { name: Bench, station: bench }
tools:
  file: { kind: file }
setups:
  flat: { machine: mil, hold: vice }
operations:
  - { number: 10, title: File, kind: deburr, machine: bank, tool: file }
  - { number: 10, title: Again, kind: deburr, machine: bench, tool: fiel, variants: [two] }
  - { number: 20, title: Flat, kind: deburr, setup: flatt, tool: file }
`;

function toldIn(text: string, machines: readonly string[] = []): string[] {
  const read = readPlan(text, machines);
  return read.ok ? [] : read.problems.map((one) => `${one.line}:${one.column} ${one.path} ${one.tryThis}`);
}

describe('names in a plan that has other faults', () => {
  it('are told together with those faults, each at its place', () => {
    const told = toldIn(mixed);
    expect(told.some((line) => line.startsWith('4:'))).toBe(true);
    expect(told).toContain('15:55 operations[1].machine add it under "machines"');
    expect(told).toContain('16:15 operations[2].number give one of them another number');
    expect(told).toContain('16:69 operations[2].tool did you mean "file"?');
    expect(told.some((line) => line.includes('operations[2].variants[1]'))).toBe(true);
    expect(told.some((line) => line.includes('operations[3].setup did you mean "flat"?'))).toBe(true);
    expect(told.some((line) => line.includes('setups.flat.machine'))).toBe(true);
  });

  it('that the settings know are no fault', () => {
    expect(toldIn(mixed, ['mil']).some((line) => line.includes('setups.flat.machine'))).toBe(false);
  });

  it('are told once, also where the schema tells of them itself', () => {
    const places = toldIn(mixed).map((line) => line.split(' ')[0]);
    expect(new Set(places).size).toBe(places.length);
  });
});
