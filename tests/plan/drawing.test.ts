// Pictures and numbers of a setup come from one model: what is drawn stands where `steps` says.
import { describe, expect, it } from 'vitest';
import { drawSetup, type Shape } from '../../src/plan/drawing.ts';
import { drawAsSvg } from '../../src/plan/drawing-svg.ts';
import { drawAsText, legendOf } from '../../src/plan/drawing-text.ts';
import { stepsOf } from '../../src/plan/steps.ts';
import { formatSteps } from '../../src/plan/steps-text.ts';
import { plansIn, proved, textOf } from './plan-samples.ts';

const plans = [...plansIn('jobs/'), ...plansIn('tests/samples/sound-plans/')];
const holesOf = (shapes: readonly Shape[]) => shapes.flatMap((shape) => (shape.kind === 'hole' ? [shape] : []));
const passesOf = (shapes: readonly Shape[]) => shapes.flatMap((shape) => (shape.kind === 'pass' ? [shape] : []));
const svgOptions = { width: 560, title: 'a', formatLength: (mm: number) => mm.toFixed(2) };

describe.each(plans)('%s', (name) => {
  const { resolved, computed } = proved(textOf(name));
  const steps = stepsOf(resolved, computed);
  const unit = resolved.units === 'mm' ? 1 : 25.4;

  it('holes and passes are drawn where steps says, in every place of a load', () => {
    for (const operation of steps.operations) {
      const setup = resolved.setups.find((one) => one.id === operation.setup);
      const drawing = setup === undefined ? null : drawSetup(resolved, setup.id, operation.number);
      if (setup === undefined || drawing === null) continue;
      for (const hole of holesOf(drawing.shapes)) {
        const point = operation.cuts[hole.cut]?.points[hole.point];
        const place = setup.places[hole.place];
        expect(hole.name).toBe(point?.name);
        expect(hole.x).toBeCloseTo((point?.x ?? 0) * unit + (place?.dx ?? 0), 1);
        expect(hole.y).toBeCloseTo((point?.y ?? 0) * unit + (place?.dy ?? 0), 1);
      }
      for (const pass of passesOf(drawing.shapes)) {
        const own = operation.cuts[pass.cut]?.passes[pass.pass];
        expect(pass.to.x).toBeCloseTo((own?.to.x ?? 0) * unit, 1);
        expect(pass.from.y).toBeCloseTo((own?.from.y ?? 0) * unit, 1);
      }
      const drawn = Math.min(operation.per_load, setup.places.length);
      const points = operation.cuts.reduce((sum, cut) => sum + cut.points.length, 0);
      expect(holesOf(drawing.shapes)).toHaveLength(points * drawn);
      const passes = operation.cuts.reduce((sum, cut) => sum + cut.passes.length, 0);
      expect(passesOf(drawing.shapes)).toHaveLength(passes);
    }
  });

  it('the text is within 80 columns and a hole lies within a cell of its place', () => {
    for (const setup of resolved.setups) {
      const drawing = drawSetup(resolved, setup.id, null);
      if (drawing === null) throw new Error('no drawing');
      const drawn = drawAsText(drawing, { columns: 74, rows: 18, ascii: true, stateOf: () => 'todo' });
      const { extent } = drawing;
      const cell = Math.max((extent.x1 - extent.x0) / 73, (extent.y1 - extent.y0) / 17 / 2);
      for (const hole of holesOf(drawing.shapes)) {
        const [column, row] = [(hole.x - extent.x0) / cell, (extent.y1 - hole.y) / cell / 2];
        const near = drawn.slice(Math.max(0, Math.floor(row) - 1), Math.ceil(row) + 2);
        const signs = near.flatMap((line) => line.slice(Math.max(0, Math.floor(column) - 1), Math.ceil(column) + 2));
        expect(signs.map((sign) => sign.text)).toContain('o');
      }
      expect(legendOf(drawing, drawn, { ascii: true }).length).toBeLessThanOrEqual(80);
    }
    for (const line of steps.setups.flatMap((setup) => setup.picture))
      expect(`      ${line}`.length).toBeLessThanOrEqual(80);
    for (const setup of steps.setups) expect(formatSteps(steps)).toContain(setup.picture.at(-1));
  });

  it('the SVG has every hole at its place, to one scale, and its size in the plan’s units', () => {
    for (const setup of resolved.setups) {
      const drawing = drawSetup(resolved, setup.id, null);
      const part = drawing?.shapes.find((shape) => shape.kind === 'part');
      if (drawing === null || part?.kind !== 'part') throw new Error('no part');
      const svg = drawAsSvg(drawing, svgOptions);
      const [x0 = 0, y0 = 0, width = 0] = numbersIn(/stroke-width="2"/, svg);
      const scale = width / (part.x1 - part.x0);
      const circles = [...svg.matchAll(/<circle cx="([-\d.]+)" cy="([-\d.]+)"/g)].map(([, x, y]) => [
        Number(x),
        Number(y),
      ]);
      const wanted = holesOf(drawing.shapes).map((hole) => [
        x0 + (hole.x - part.x0) * scale,
        y0 + (part.y1 - hole.y) * scale,
      ]);
      expect(circles).toHaveLength(wanted.length);
      for (const [at, circle] of circles.entries()) {
        expect(circle[0]).toBeCloseTo(wanted[at]?.[0] ?? Number.NaN, 0);
        expect(circle[1]).toBeCloseTo(wanted[at]?.[1] ?? Number.NaN, 0);
      }
      expect(svg).toContain(`${(part.x1 - part.x0).toFixed(2)} x ${(part.y1 - part.y0).toFixed(2)}`);
    }
  });
});

/** x, y and width of the first rectangle of that style: the part in its first place. */
function numbersIn(style: RegExp, svg: string): number[] {
  const found = [...svg.matchAll(/<rect x="([-\d.]+)" y="([-\d.]+)" width="([-\d.]+)" height="[-\d.]+" ([^>]*)\/>/g)];
  const part = found.find(([, , , , rest = '']) => style.test(rest) && !rest.includes('fill='));
  return (part ?? []).slice(1, 4).map(Number);
}

describe('how a load is held', () => {
  const keeper = proved(textOf('jobs/keeper-plates.yaml')).resolved;
  const shapesOf = (text: string, setup: string, operation: number) =>
    drawSetup(proved(text).resolved, setup, operation)?.shapes ?? [];
  const inside = (a: { x0: number; x1: number; y0: number; y1: number }, x: number, y: number, radius: number) =>
    x + radius > a.x0 + 1e-6 && x - radius < a.x1 - 1e-6 && y + radius > a.y0 + 1e-6 && y - radius < a.y1 - 1e-6;

  it('an end said to lie beyond the jaws is drawn so, with the cutter clear of both', () => {
    const shapes = drawSetup(keeper, 'to-length', 40)?.shapes ?? [];
    const jaws = shapes.flatMap((shape) => (shape.kind === 'jaw' ? [shape] : []));
    // The part is 61 long against a stop on the left and stands 8 out: jaws of 125 from 53 to the left.
    expect(jaws.map(({ x0, x1 }) => [x0, x1])).toEqual([
      [-72, 53],
      [-72, 53],
    ]);
    const [pass] = passesOf(shapes);
    if (pass === undefined) throw new Error('no pass');
    for (let y: number = pass.from.y; y <= pass.to.y; y += 0.5)
      for (const jaw of jaws) expect(inside(jaw, pass.from.x, y, pass.width / 2)).toBe(false);
  });

  it('no pass that lies beyond the jaws by its plan is drawn through them, in any plan', () => {
    let seen = 0;
    for (const { resolved } of plans.map((name) => proved(textOf(name)))) {
      for (const setup of resolved.setups.filter((one) => one.beyondJaws !== undefined)) {
        const shapes = drawSetup(resolved, setup.id, null)?.shapes ?? [];
        const jaws = shapes.flatMap((shape) => (shape.kind === 'jaw' ? [shape] : []));
        for (const pass of passesOf(shapes).filter((one) => one.from.x === one.to.x)) {
          for (let at = 0; at <= 1; at += 0.05) {
            const y = pass.from.y + (pass.to.y - pass.from.y) * at;
            for (const jaw of jaws) expect(inside(jaw, pass.from.x, y, pass.width / 2), setup.id).toBe(false);
            seen += 1;
          }
        }
      }
    }
    expect(seen).toBeGreaterThan(100);
  });

  it('parallels across lie under every piece, within the jaws', () => {
    const shapes = drawSetup(keeper, 'end-a', 30)?.shapes ?? [];
    const parallels = shapes.flatMap((shape) => (shape.kind === 'parallel' ? [shape] : []));
    // 62 long, 8 of it beyond the jaws: under 0 to 6 and 48 to 54, and from front to rear under three of 30.
    expect(parallels.map(({ x0, x1, y0, y1 }) => [x0, x1, y0, y1])).toEqual([
      [0, 6, -90, 0],
      [48, 54, -90, 0],
    ]);
    const parts = shapes.flatMap((shape) => (shape.kind === 'part' ? [shape] : []));
    expect(parts).toHaveLength(3);
    for (const part of parts) for (const one of parallels) expect(one.y0 <= part.y0 && one.y1 >= part.y1).toBe(true);
  });

  it('every piece of a column lies at the stop', () => {
    const shapes = shapesOf(textOf('jobs/keeper-plates.yaml'), 'end-a', 30);
    const stop = shapes.find((shape) => shape.kind === 'stop');
    if (stop?.kind !== 'stop') throw new Error('no stop');
    for (const part of shapes.flatMap((shape) => (shape.kind === 'part' ? [shape] : [])))
      expect(Math.min(stop.y1, part.y1) - Math.max(stop.y0, part.y0)).toBeGreaterThan(0);
  });
});

describe('names in the SVG', () => {
  const { resolved } = proved(textOf('tests/samples/sound-plans/pump-spacer.yaml'));
  const drawing = drawSetup(resolved, 'holes', null);
  if (drawing === null) throw new Error('no drawing');

  it('each place is named once, however many tools come to it', () => {
    const svg = drawAsSvg(drawing, svgOptions);
    for (const name of ['ring 1', 'ring 4', 'centre']) {
      expect(svg.split(`stroke="none">${name}</text>`)).toHaveLength(2);
    }
  });

  it('two drawings on a page have no id in common', () => {
    const ids = ['Setup a: top', 'Setup b: top', 'Setup ä: top', 'Setup ö: top'].flatMap((title) =>
      [...drawAsSvg(drawing, { ...svgOptions, title }).matchAll(/ id="([^"]+)"/g)].map(([, id]) => id),
    );
    expect(new Set(ids).size).toBe(4);
    const svg = drawAsSvg(drawing, { ...svgOptions, id: 'x1' });
    const [id] = [...svg.matchAll(/ id="([^"]+)"/g)].map(([, one]) => one);
    expect(svg).toContain(`url(#${id})`);
  });

  it('no name is laid over another, even of a hundred holes', () => {
    const text = textOf('tests/samples/sound-plans/inch-plates.yaml').replace(
      'columns: 2, rows: 2, column pitch: 3.000, row pitch: 2.000',
      'columns: 10, rows: 10, column pitch: .300, row pitch: .200',
    );
    const crowded = proved(text).resolved;
    const svg = drawAsSvg(drawSetup(crowded, 'plate', null) ?? drawing, svgOptions);
    const names = [...svg.matchAll(/<text x="([-\d.]+)" y="([-\d.]+)" fill="currentColor" stroke="none">([^<]*)/g)]
      .filter(([, , , name]) => name !== 'X0 Y0')
      .map(([, x, y, name = '']) => ({ x: Number(x), y: Number(y), long: name.length * 6.2 }));
    expect(names.length).toBeGreaterThan(5);
    for (const [at, a] of names.entries()) {
      for (const b of names.slice(at + 1)) {
        const apart = Math.abs(a.y - b.y) >= 10.9 || a.x + a.long <= b.x + 0.1 || b.x + b.long <= a.x + 0.1;
        expect(apart).toBe(true);
      }
    }
  });
});
