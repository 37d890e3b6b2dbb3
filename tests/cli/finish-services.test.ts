import { describe, expect, it } from 'vitest';
import type { BatchState } from '../../src/batch/state.ts';
import { makeFinishServices } from '../../src/cli/finish-services.ts';
import { makeReportSettings } from '../../src/report/settings.ts';
import { makeWorld } from '../../src/sitting/world.ts';
import { instantAt, play } from '../batch/playing.ts';
import { samplePlan } from '../batch/sample-plan.ts';

const services = () => makeFinishServices(makeWorld({ MILLSIDE_HOME: '/nowhere' }), makeReportSettings());

describe('words about the end of a batch', () => {
  it('are told of a sound batch', () => {
    const outlook = services().outlook(play(samplePlan()).state(), instantAt(60));
    expect(outlook.pace.join(' ')).toMatch(/ends/);
    expect(outlook.grounds.length).toBeGreaterThan(2);
  });

  it('[P15] that cannot be worked out are said to be missing, and never stop the screen', () => {
    // A state that no journal folds to: whatever breaks the arithmetic must break only the words.
    const broken = { ...play(samplePlan()).batch(), cells: [] } as BatchState;
    const { outlook, suppose, endLine } = services();
    expect(outlook(broken, instantAt(60)).pace[0]).toContain('no finish can be told');
    expect(outlook(broken, instantAt(60)).grounds[0]).toContain('counting goes on');
    expect(suppose(broken, instantAt(60), { more: 2 })[0]).toContain('no finish can be told');
    expect(endLine(broken, { operation: 10, lane: '*' }, instantAt(60))).toBe('');
  });
});
