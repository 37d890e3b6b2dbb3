// Pieces that go to the plater: the card says for how long and when they are back, before and while they are out.
import { expect, it } from 'vitest';
import { textOf as fileText, proved } from '../../plan/plan-samples.ts';
import { panelOf } from '../frames/draw-frame.ts';
import { momentsOf } from '../frames/moments.ts';

it('an away card says the days and about when the pieces are back, the same day once they are out', () => {
  const moments = momentsOf(proved(fileText('jobs/hinge-straps.yaml')).resolved);
  const said = ['away out', 'away back'].flatMap((name) => {
    const shot = moments.find((one) => one.name.startsWith(name));
    return shot === undefined ? [] : [panelOf(shot).facts[0]];
  });
  expect(said).toHaveLength(2);
  expect(said[0]).toMatch(/^Away: 5 days, back about (Mon|Tue|Wed|Thu|Fri|Sat|Sun) \d+ [A-Z][a-z]{2}\.$/);
  expect(said[1]).toBe(said[0]);
});
