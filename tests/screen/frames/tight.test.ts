// The smallest panel: numbers that are told apart, what must not be missed in the headline, no drawing that says nothing.
import { describe, expect, it } from 'vitest';
import { textOf as fileText, plansIn, proved } from '../../plan/plan-samples.ts';
import { drawFrame, panelOf } from './draw-frame.ts';
import { momentsOf } from './moments.ts';

const small = { columns: 50, rows: 15 } as const;

describe.each(plansIn('jobs/'))('at 50x15, %s', (path) => {
  const zeros = momentsOf(proved(fileText(path)).resolved).filter(({ name }) => /^z? ?zero/.test(name));

  it('says what to touch before any caution, beside the value to set', () => {
    for (const { name, ...shot } of zeros) {
      const text = drawFrame({ ...shot, ...small }).replace(/\s+/g, ' ');
      const [touch = ''] = panelOf(shot).facts;
      expect(text, name).toContain(touch);
    }
  });

  const works = momentsOf(proved(fileText(path)).resolved).filter(({ name }) => name.startsWith('work at'));

  it('leaves a blank row between two large numbers and shows the depth', () => {
    for (const { name, ...shot } of works) {
      const { readings } = panelOf(shot);
      if (readings.filter((one) => one.rank === 'main').length < 2) continue;
      const text = drawFrame({ ...shot, ...small });
      const inked = text.split('\n').map((line, row) => row > 0 && /(^| )#+( |$)/.test(line.slice(18)));
      const [first, last] = [inked.indexOf(true), inked.lastIndexOf(true)];
      expect(inked.slice(first, last + 1).filter((ink) => !ink).length, `${name}\n${text}`).toBe(1);
      for (const { label, text: depth } of readings.filter((one) => one.rank === 'second'))
        expect(text, name).toContain(`${label} ${depth}`);
    }
  });

  it('says which way every dial is wound, and past what', () => {
    for (const { name, ...shot } of works) {
      const said = panelOf(shot).facts.filter((fact) => /^[XY](:| stays)/.test(fact));
      const text = drawFrame({ ...shot, ...small }).replace(/\s+/g, ' ');
      for (const fact of said) {
        const [axis = ''] = fact;
        const past = / (?:past to|from) \d+ \+ ([\d.]+)(?: below zero \(scale ([\d.]+)\))?/.exec(fact);
        const way = / stays/.test(fact) ? 'stays' : / anticlockwise/.test(fact.split(',')[0] ?? '') ? 'acw' : 'cw';
        const brief = new RegExp(`${axis} ${way}.*${past === null ? '' : `(past|from) ${past[2] ?? past[1]}`}`);
        expect(text.includes(fact) || brief.test(text), `${name}: ${fact}\n${text}`).toBe(true);
      }
    }
  });

  it('draws no picture in which different holes lie on one cell', () => {
    for (const { name, ...shot } of works) {
      const { picture, facts } = panelOf(shot);
      const cells = picture?.(16, 11) ?? [];
      if (cells.length === 0 || facts.length === 0) continue;
      const holes = cells.flat().filter(({ text }) => 'o■•'.includes(text)).length;
      const { current, plan } = shot.state.kind === 'open' ? shot.state : { current: null, plan: null };
      const cell = current === null || shot.state.kind !== 'open' ? undefined : shot.state.cells[current];
      const operation = plan?.operations.find((one) => one.number === cell?.operation);
      const points = new Set(
        operation?.cuts.flatMap((cut) => cut.points.map(({ x, y }) => `${x.toFixed(3)}/${y.toFixed(3)}`)),
      );
      expect(holes, name).toBe(points.size * (operation?.loadSize ?? 1));
    }
  });
});
