import { describe, expect, it } from 'vitest';
import type { BatchState } from '../../../src/batch/state.ts';
import { messageOf } from '../../../src/screen/app/message.ts';
import { instantAt } from '../../batch/playing.ts';
import { anOperation, samplePlan } from '../../batch/sample-plan.ts';
import { line } from '../../menu-lines.ts';
import { makeRig } from './rig.ts';

const bench = samplePlan({ operations: [anOperation(10), anOperation(20)] });
const owner = { pid: 4711, host: 'shop', bootId: 'b', startedAt: '', uuid: 'u' };

async function rigLookingAt(read: () => BatchState) {
  const open = async () => ({ kind: 'held' as const, id: 'k3v9', owner: owner as never });
  return makeRig(bench, {}, { services: { open, look: async () => read() } });
}

describe('a batch that another terminal has', () => {
  it('is followed while the other one counts, says who has it, and is never written', async () => {
    const other = await makeRig(bench);
    const rig = await rigLookingAt(other.batch);
    expect(rig.panel().message?.text).toContain('process 4711 on shop, has this batch');
    expect(rig.panel().banner.counts).toContain('0 of');
    await other.press(['enter']);
    await rig.controller.lookOn();
    expect(rig.panel().banner.counts).toContain('1 of');
    await rig.press([' ', '+', 'x', 'f9', '/', 'backspace']);
    expect(rig.commands).toEqual([]);
  });

  it('names the person who works on it', async () => {
    const other = await makeRig(bench);
    await other.press(['/', line('work:'), line('initials'), 'M', 'K', 'enter']);
    expect(other.batch().by).toBe('MK');
    const rig = await rigLookingAt(other.batch);
    expect(rig.panel().message?.text).toMatch(/^MK, process 4711/);
  });

  it('that was left says that Enter goes on with it', async () => {
    const other = await makeRig(bench);
    const left = { ...other.batch(), presence: 'left' } as const;
    const rig = await rigLookingAt(() => left);
    expect(rig.panel().message?.text).toBe('process 4711 on shop has left this batch: Enter goes on with it here.');
  });
});

it('a key while the batch is being opened says that it came too early, and the batch as it opens still does', async () => {
  const rig = await makeRig(bench);
  const again = rig.controller.start({ kind: 'batch', id: 'k3v9' });
  rig.controller.press({ name: 'enter' });
  expect(rig.panel().message?.text).toBe('too early: that key did nothing');
  await again;
  expect(rig.panel().message?.text).toBe('too early: that key did nothing');
  expect(rig.commands).toEqual([]);
});

describe('a refusal', () => {
  const at = (s: number) => instantAt(s).mono_ms;
  const said = { kind: 'counted', events: [], mono_ms: at(1) } as const;
  const view = { state: { kind: 'none' }, said, savingSince: null } as const;
  const asks = { planNote: () => null };
  const refusal = { reason: 'not taken: too soon after the last press', mono_ms: at(1.5) };

  it('is not covered by the answer to an earlier key', () => {
    const app = { wrong: null, refusal, heard_ms: null };
    expect(messageOf({ view, app, now: instantAt(2), asks })?.text).toBe(refusal.reason);
  });

  it('gives way to the answer to a later key, and never covers a fault', () => {
    const app = { wrong: null, refusal, heard_ms: null };
    const later = { ...view, said: { ...said, mono_ms: at(1.8) } };
    expect(messageOf({ view: later, app, now: instantAt(2), asks })?.text).toBe('counted   - takes back');
    const fault = { what: 'the disk is full', where: 'x', tryThis: 'free some', code: 74 } as const;
    const failed = { ...view, said: { kind: 'fault', fault: fault as never, mono_ms: at(1) } as const };
    expect(messageOf({ view: failed, app, now: instantAt(2), asks })?.text).toContain('the disk is full');
  });
});

it('Ctrl-C in a text that is being typed says how to go back, and types and leaves nothing', async () => {
  const rig = await makeRig(bench);
  await rig.press(['/', line('work:'), line('note'), 'a']);
  rig.controller.press({ name: 'char', text: 'c', ctrl: true });
  expect(rig.panel().message?.text).toContain('Esc goes back');
  expect(rig.controller.read().flow?.typed).toBe('a');
  expect(rig.leftWith()).toBeNull();
});
