/** The stages before and around a batch: choosing, opening, beginning from a plan, looking on, taking over. */
import { isFault } from '../../store/fault.ts';
import type { Damage } from '../../store/journal-repair.ts';
import type { Step } from '../flow/flow.ts';
import type { Desk } from './desk.ts';
import type { Target } from './services.ts';
import type { Stage } from './state.ts';

export type Entering = {
  /** Goes to the first stage; answers when it stands. */
  readonly start: (target: Target) => Promise<void>;
  /** Enter at a stage that is no batch. */
  readonly take: (stage: Stage) => void;
  /** Takes a batch from another computer, at the operator's word. */
  readonly takeOver: (id: string) => Promise<void>;
  /** Reads anew the batch that is only looked at; never writes. */
  readonly lookOn: () => Promise<void>;
  /** Begins a plan whose finding stops it, with the reason for taking it all the same. */
  readonly beginWith: (path: string, word: string) => Promise<void>;
};

/** The ways in and out of a batch. */
export function makeEntering(desk: Desk): Entering {
  const { services } = desk.options;
  const { set } = desk;
  /** What was wrong with a key at the stage before says nothing here. */
  const stand = (stage: Stage): void => set({ stage, wrong: null });

  const enter = async (id: string, takeFromOtherHost: boolean): Promise<void> => {
    stand({ kind: 'loading', about: 'opening the batch' });
    const answer = await services.open(id, takeFromOtherHost);
    if (isFault(answer)) return stand({ kind: 'fault', fault: answer });
    if (answer.kind === 'opened') {
      answer.sitting.subscribe(desk.batchChanged);
      const early = desk.read().wrong;
      stand({ kind: 'batch', opened: answer });
      if (early !== null) desk.refuse(early);
      desk.batchChanged();
      if (answer.damage !== undefined) desk.ask(damageStep(answer.damage));
      return;
    }
    const owner = answer.owner;
    const who = owner === undefined ? 'another terminal' : `process ${owner.pid} on ${owner.host}`;
    if (answer.kind === 'held elsewhere') return stand({ kind: 'ask to take', id, who });
    await look(id, who);
  };

  const look = async (id: string, who: string): Promise<void> => {
    const state = await services.look(id);
    if (isFault(state)) return stand({ kind: 'fault', fault: state });
    stand({ kind: 'look', id, who, state });
  };

  let isReading = false;
  const lookOn = async (): Promise<void> => {
    const { stage } = desk.read();
    if (stage.kind !== 'look' || isReading) return;
    isReading = true;
    const state = await services.look(stage.id);
    isReading = false;
    const now = desk.read().stage;
    if (now.kind !== 'look' || now.id !== stage.id) return;
    if (isFault(state)) return set({ wrong: `it cannot be read just now: ${state.what}` });
    set({ stage: { ...now, state }, wrong: null });
  };

  const begin = async (path: string, word: string | null): Promise<void> => {
    stand({ kind: 'loading', about: 'reading the plan' });
    const begun = await services.begin(path, word);
    if (isFault(begun)) return stand({ kind: 'fault', fault: begun });
    if (begun.kind === 'begun') return enter(begun.id, false);
    stand({
      kind: 'stopped',
      title: 'THIS PLAN MUST NOT BE CUT AS IT STANDS',
      lines: begun.lines,
      canBeTaken: begun.canBeTaken ? path : null,
    });
  };

  const choose = async (): Promise<void> => {
    const offers = await services.offers();
    if (isFault(offers)) return stand({ kind: 'fault', fault: offers });
    stand({ kind: 'choose', offers, chosen: 0 });
  };

  const take = (stage: Stage): void => {
    switch (stage.kind) {
      case 'choose': {
        const offer = stage.offers[stage.chosen];
        if (offer?.kind === 'batch') void enter(offer.id, false);
        if (offer?.kind === 'plan') void begin(offer.path, null);
        return;
      }
      case 'ask to take':
        return void look(stage.id, stage.who);
      case 'look':
        return void enter(stage.id, false);
      case 'stopped':
        return desk.options.leave(65);
      case 'fault':
        return desk.options.leave(stage.fault.code);
      case 'loading':
      case 'batch':
        return;
      default:
        return stage satisfies never;
    }
  };

  return {
    start: async (target) => {
      if (target.kind === 'batch') await enter(target.id, false);
      else if (target.kind === 'plan') await begin(target.path, null);
      else await choose();
    },
    take,
    takeOver: (id) => enter(id, true),
    lookOn,
    beginWith: begin,
  };
}

/** Asks for the reason with which a plan is opened although a finding stops it. */
export function wordStep(path: string): Step {
  return {
    kind: 'entry',
    prompt: 'WHY IS IT RIGHT ALL THE SAME?',
    about: ['Your reason goes into the record and the report of the batch.', 'Enter alone goes back.'],
    entry: 'text',
    onEmpty: { kind: 'close' },
    take: (word) => ({ kind: 'do', action: { kind: 'begin', path, word } }),
  };
}

/** Names the damage of a journal (P2): file, place, length, and where the bytes are kept; Enter goes on. */
function damageStep({ file, offset, length, reason, keptIn, wholeLinesAfter }: Damage): Step {
  const whole = wholeLinesAfter === 0 ? [] : [`${wholeLinesAfter} whole lines behind it are not counted.`];
  return {
    kind: 'choice',
    prompt: 'THE JOURNAL WAS DAMAGED',
    about: [
      `${file} is good up to byte ${offset}; all before it is kept.`,
      `${length} bytes from there are not used: ${reason}.`,
      ...whole,
      ...(keptIn === undefined ? [] : [`They are kept in ${keptIn}`]),
      'Count the pieces in the tray before you go on.',
    ],
    options: [{ label: 'go on', next: { kind: 'close' } }],
  };
}
