/**
 * Every moment of a small job as text drawings, one file a size. A drawing that changed on purpose is drawn anew with
 * `npx vitest run --config tests/vitest.config.ts tests/screen/frames -u` and looked at before it is kept.
 */
import { describe, expect, it } from 'vitest';
import { drawFrame, usualSizes } from './draw-frame.ts';
import { everyKindPlan } from './every-kind-plan.ts';
import { momentsOf } from './moments.ts';

describe('the screen as text', () => {
  const moments = momentsOf(everyKindPlan);

  it.each(usualSizes)('every moment at %ix%i', async (columns, rows) => {
    const drawn = moments.map((shot) => `=== ${shot.name}\n${drawFrame({ ...shot, columns, rows })}\n`).join('\n');
    await expect(drawn).toMatchFileSnapshot(`./drawn/${columns}x${rows}.txt`);
  });

  it('has a drawing of every kind of card and of every kind of work', () => {
    const names = moments.map((shot) => shot.name).join('\n');
    const kinds = [
      'setup',
      'zero x',
      'zero y',
      'tool in',
      'tool restore',
      'speed',
      'check first-off',
      'check every',
      'variant',
      'parting',
      'away out',
      'away back',
      'operation ended',
      'batch ended',
      'finished',
      'paused',
      'after a cut',
      'tray',
    ];
    for (const kind of kinds) expect(names).toContain(kind);
    for (const at of [10, 20, 30, 40, 50, 60, 70, 90]) expect(names).toContain(`work at ${at}`);
  });
});
