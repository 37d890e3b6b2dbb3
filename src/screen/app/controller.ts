/**
 * Keys in, state out. A key goes to the distance trial, to the flow that asks something, to the card that takes a value, or
 * through the binding table to what it does; every count and every card passes the guard first. Draws nothing itself.
 */
import { pressInFlow } from '../flow/flow.ts';
import { lookup } from '../keys/binding-table.ts';
import type { Moment } from '../keys/key-map.ts';
import { type Key, keyId } from '../terminal/key.ts';
import { answerByKey, fieldOf, rubsOut, typeAtCard } from './card-answer.ts';
import { makeCarryOut } from './carry-out.ts';
import { type ControllerOptions, makeDesk } from './desk.ts';
import { makeEntering, wordStep } from './entering.ts';
import { batchOf, cardOf, momentOf } from './key-moments.ts';
import type { Target } from './services.ts';
import type { AppState } from './state.ts';
import { makeStrayKeys } from './stray-keys.ts';
import { chosenRows } from './trial.ts';

export type Controller = {
  readonly read: () => AppState;
  readonly subscribe: (listener: () => void) => () => void;
  readonly press: (key: Key) => void;
  /** A number typed faster than a hand can, its Enter with it if it came: taken where a value is asked, else never as keys. */
  readonly typeValue: (keys: readonly Key[]) => void;
  /** Goes to the first stage; answers when it stands. */
  readonly start: (target: Target) => Promise<void>;
  /** Takes in what another terminal did in a batch that is only looked at; call it each second. */
  readonly lookOn: () => Promise<void>;
  /** Moment of the binding table now. */
  readonly moment: () => Moment;
};

/** Nothing stands yet that a key could mean; only leaving does. */
function isTooEarly({ stage }: AppState, key: Key): boolean {
  return stage.kind === 'loading' && keyId(key) !== 'q' && keyId(key) !== 'ctrl-c';
}

/** A controller before its first stage. */
export function makeController(options: ControllerOptions): Controller {
  const desk = makeDesk(options);
  const entering = makeEntering(desk);
  const { act, answerCard, follow, chooseDigits } = makeCarryOut(desk, entering);
  const { read, set, refuse } = desk;
  const strays = makeStrayKeys(desk);

  const pressInTrial = (key: Key): void => {
    const rows = chosenRows(key);
    if (rows !== null && desk.acts(key)) chooseDigits(rows);
    else if (key.name === 'escape') set({ isTrial: false });
    else if (keyId(key) === 'q' || keyId(key) === 'ctrl-c') options.leave(0);
  };

  /** A key that the card itself takes: yes or no, a digit of its value. */
  const pressAtCard = (key: Key): boolean => {
    const batch = batchOf(read());
    const card = cardOf(read());
    if (read().page !== null || read().lookAt !== null || batch === null || card === undefined) return false;
    const field = fieldOf(card, batch);
    const answer = answerByKey(field, key);
    if (answer !== null) answerCard(key, answer);
    if (answer !== null) return true;
    if (rubsOut(field, read().typed, key)) {
      if (desk.acts(key)) set({ typed: '', wrong: null });
      return true;
    }
    const typing = typeAtCard(field, read(), key);
    if (typing === null) return false;
    set({ typed: typing.typed });
    if (typing.wrong === null) set({ wrong: null });
    else desk.wrong(typing.wrong);
    return true;
  };

  /** Keys of the stages that are no batch, beside those of lists. */
  const pressAtStage = (key: Key): boolean => {
    const { stage } = read();
    const id = keyId(key);
    if (stage.kind === 'ask to take' && id === 'y') {
      void entering.takeOver(stage.id);
      return true;
    }
    if (stage.kind === 'stopped' && stage.canBeTaken !== null && id === 'w') {
      desk.ask(wordStep(stage.canBeTaken));
      return true;
    }
    return false;
  };

  const typeValue = (keys: readonly Key[]): void => {
    if (strays.typed(keys)) return;
    for (const key of keys) press(key);
  };

  const press = (key: Key): void => {
    const [before, said, mono_ms] = [read(), desk.timesSaid(), options.services.now().mono_ms];
    take(key);
    // A key that was taken without a word ends what was said before it; one that means nothing here does not.
    if (read() !== before && desk.timesSaid() === said && read().flow?.wrong == null)
      set({ heard_ms: mono_ms, wrong: null });
  };

  const take = (key: Key): void => {
    const { flow, page } = read();
    if (key.name === 'paste' && flow === null) return refuse('a paste is not taken');
    if (read().isTrial) return pressInTrial(key);
    if (isTooEarly(read(), key)) return refuse('too early: that key did nothing');
    if (strays.takes(key)) return;
    if (flow !== null) {
      const answer = pressInFlow(flow, key);
      set({ flow: answer.flow });
      return follow(answer.next);
    }
    if (page !== null && (keyId(key) === '/' || key.name === 'kp-divide')) return set({ page: null });
    if (pressAtStage(key) || pressAtCard(key)) return;
    const found = lookup(read().table, momentOf(read()), key);
    if (found.kind === 'command') return act(found.binding.command, key);
    if (found.kind === 'not now') refuse(found.reason);
  };

  return {
    read,
    subscribe: desk.subscribe,
    press,
    typeValue,
    start: entering.start,
    lookOn: entering.lookOn,
    moment: () => momentOf(read()),
  };
}
