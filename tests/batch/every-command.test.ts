import { describe, expect, it } from 'vitest';
import { type Command, commandSchema } from '../../src/batch/commands.ts';
import { decide } from '../../src/batch/decide.ts';
import { eventSchema } from '../../src/batch/events.ts';
import { foldLine } from '../../src/batch/evolve.ts';
import { type BatchState, noBatch } from '../../src/batch/state.ts';
import { instantAt, openingOf, type Played, play } from './playing.ts';
import { twoVariantPlan } from './sample-plan.ts';

const plan = twoVariantPlan({ threaded: 2, clearance: 1 });
const begun = () => play(plan);
const drilling = () => {
  const batch = begun();
  batch.count(3);
  batch.passAll();
  return batch;
};
const after = (batch: Played, command: Command) => {
  batch.act(command);
  return batch.state();
};

/** Every state that a command can meet. */
const states: Readonly<Record<string, () => BatchState>> = {
  none: () => noBatch,
  'opened, nobody there': () => {
    const decision = decide(noBatch, { kind: 'openBatch' }, { at: instantAt(0), opening: openingOf(plan) });
    if (decision.kind === 'refused') throw new Error(decision.reason);
    return foldLine(noBatch, { at: instantAt(0), events: decision.events });
  },
  'begun, nothing counted': () => begun().state(),
  'setup card up': () => {
    const batch = begun();
    batch.count(3);
    batch.pass();
    return batch.state();
  },
  'at work, first point': () => drilling().state(),
  'at work, within a load': () => after(drilling(), { kind: 'count', quick: false }),
  'check card up': () => {
    const batch = drilling();
    batch.count(4);
    return batch.state();
  },
  'after a load': () => {
    const batch = drilling();
    batch.count(4);
    batch.pass({ kind: 'value', value: 3.2 });
    return batch.state();
  },
  paused: () => after(drilling(), { kind: 'pause', reason: null }),
  left: () => after(drilling(), { kind: 'endSitting', why: 'left' }),
  finished: () => after(drilling(), { kind: 'finish', short: true, reason: 'enough' }),
  'given up': () => after(drilling(), { kind: 'giveUp', name: plan.job, reason: 'no stock' }),
};

/** A sensible form of every command. */
const commands: { readonly [Kind in Command['kind']]: Extract<Command, { kind: Kind }> } = {
  openBatch: { kind: 'openBatch' },
  beginSitting: { kind: 'beginSitting', by: 'AB', host: 'shop' },
  endSitting: { kind: 'endSitting', why: 'left' },
  passCard: { kind: 'passCard', id: 'card 2', shown_ms: 3000, answer: { kind: 'pass' } },
  count: { kind: 'count', quick: false },
  takeBack: { kind: 'takeBack' },
  reject: { kind: 'reject', place: null, pieces: 1, counted: false, reason: 'scored' },
  rework: { kind: 'rework', to: 10, pieces: 1, reason: 'burr' },
  recount: { kind: 'recount', good: 0, reason: 'tray' },
  correct: { kind: 'correct', axis: 'z', by: -0.06, reading: 3.06, reason: 'reads 3.06' },
  trial: { kind: 'trial', note: null },
  note: { kind: 'note', text: 'swarf on the stop' },
  bumped: { kind: 'bumped' },
  toolChanged: { kind: 'toolChanged', sharpened: true },
  zeroProved: { kind: 'zeroProved' },
  askCheck: { kind: 'askCheck', check: null },
  takeSkip: { kind: 'takeSkip', check: 'place', reason: 'same setup' },
  clearSuspects: { kind: 'clearSuspects', check: 'place', from: 1, to: 2, how: 'owner', reason: 'fits' },
  scrapSuspects: {
    kind: 'scrapSuspects',
    check: 'place',
    from: 1,
    to: 2,
    at: { operation: 20, lane: '*' },
    lieBehind: { operation: 20, lane: '*' },
    reason: 'too deep',
  },
  pause: { kind: 'pause', reason: 'coffee' },
  resume: { kind: 'resume' },
  noteSuspend: { kind: 'noteSuspend', ms: 5000 },
  noteClockStep: { kind: 'noteClockStep', ms: -3_600_000 },
  goTo: { kind: 'goTo', operation: 20, lane: '*' },
  makeMore: { kind: 'makeMore', pieces: 1, lane: '*', reason: 'for stock' },
  changeCounting: { kind: 'changeCounting', counting: 'load' },
  giveInitials: { kind: 'giveInitials', by: 'CD' },
  amend: { kind: 'amend' },
  declineAmendment: { kind: 'declineAmendment', planSha256: '2'.repeat(64) },
  changeHours: {
    kind: 'changeHours',
    hours: { week: {}, daysOff: [], changes: [{ date: '2027-03-01', open: [['18:00', '22:30']] }] },
  },
  finish: { kind: 'finish', short: true, reason: 'enough' },
  giveUp: { kind: 'giveUp', name: plan.job, reason: 'no stock' },
};

const context = { at: instantAt(10_000), opening: openingOf(plan), amendment: { ...openingOf(plan), planText: 'new' } };

describe.each(Object.keys(states))('in the state "%s"', (name) => {
  it.each(commandSchema.options.map((option) => option.shape.kind.value))('%s works or gives a reason', (kind) => {
    const state = states[name]?.() ?? noBatch;
    const decision = decide(state, commands[kind], context);
    if (decision.kind === 'refused') {
      expect(decision.reason).toMatch(/^[\w:].{8,}[^.\s]$/);
      return;
    }
    expect(decision.events.length).toBeGreaterThan(0);
    for (const event of decision.events) expect(eventSchema.parse(event)).toEqual(event);
    expect(foldLine(state, { at: context.at, events: decision.events }).kind).not.toBe('none');
  });
});

/** What works in a state; everything else is refused. */
const works = (state: BatchState): string[] =>
  Object.values(commands).flatMap((command) =>
    decide(state, command, context).kind === 'events' ? [command.kind] : [],
  );

describe('the table of commands and states', () => {
  const always = [
    'endSitting',
    'note',
    'noteSuspend',
    'noteClockStep',
    'giveInitials',
    'declineAmendment',
    'changeHours',
    'finish',
    'giveUp',
  ];
  const table: Readonly<Record<string, readonly string[]>> = {
    none: ['openBatch'],
    'opened, nobody there': ['beginSitting'],
    left: ['beginSitting'],
    finished: [],
    'given up': [],
    paused: ['beginSitting', 'resume', ...always],
    'begun, nothing counted': [
      'beginSitting',
      'count',
      'reject',
      'recount',
      'trial',
      'pause',
      'makeMore',
      'changeCounting',
      'amend',
      ...always,
    ],
    'at work, within a load': [
      ...[
        'beginSitting',
        'count',
        'takeBack',
        'reject',
        'rework',
        'recount',
        'correct',
        'trial',
        'bumped',
        'toolChanged',
      ],
      ...['zeroProved', 'askCheck', 'pause', 'makeMore', 'amend', ...always],
    ],
    'after a load': [
      ...[
        'beginSitting',
        'count',
        'takeBack',
        'reject',
        'rework',
        'recount',
        'correct',
        'trial',
        'bumped',
        'toolChanged',
      ],
      ...['zeroProved', 'askCheck', 'clearSuspects', 'scrapSuspects', 'pause', 'makeMore'],
      ...['changeCounting', 'amend', ...always],
    ],
  };

  it.each(Object.keys(table))('in the state "%s" these and no others work', (name) => {
    const state = states[name]?.() ?? noBatch;
    expect(works(state).sort()).toEqual([...(table[name] ?? [])].sort());
  });
});

describe('numbers that cannot be', () => {
  it.each<[string, Command]>([
    ['a correction that is no number', { ...commands.correct, by: Number.NaN }],
    [
      'an hour that is none',
      { kind: 'changeHours', hours: { week: { mon: [['9', '25:00']] }, daysOff: [], changes: [] } },
    ],
    ['a date that is none', { kind: 'changeHours', hours: { week: {}, daysOff: ['tonight'], changes: [] } }],
    ['a correction of nothing', { ...commands.correct, by: 0 }],
    ['a correction of a metre', { ...commands.correct, by: 1000 }],
    ['a recount that is no whole number', { ...commands.recount, good: 1.5 }],
    ['a recount below none', { ...commands.recount, good: -1 }],
    ['more than a batch may hold', { ...commands.makeMore, pieces: 10_000 }],
    ['a sleep that is no number', { ...commands.noteSuspend, ms: Number.NaN }],
    ['more scrap than lies in the load', { ...commands.reject, pieces: 3 }],
    ['a reason that says nothing', { ...commands.recount, reason: ' ' }],
    ['a note longer than 300 characters', { ...commands.note, text: 'x'.repeat(301) }],
    ['initials longer than 12 characters', { ...commands.giveInitials, by: 'x'.repeat(13) }],
    ['suspects from after to', { ...commands.clearSuspects, from: 2, to: 1 }],
  ])('%s is refused', (_, command) => {
    expect(decide(states['after a load']?.() ?? noBatch, command, context).kind).toBe('refused');
  });
});
