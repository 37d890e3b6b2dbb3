/** What each command of the binding table does, and what a flow ends in. */
import type { CardAnswer } from '../../batch/commands.ts';
import { guardCard, guardCount } from '../../sitting/guard.ts';
import { isFault } from '../../store/fault.ts';
import type { Action, Next } from '../flow/flow.ts';
import { withOwnKeys } from '../keys/binding-table.ts';
import { type KeyCommand, keyMapFor } from '../keys/key-map.ts';
import type { Key } from '../terminal/key.ts';
import { missingStep } from './away-step.ts';
import { makeBatchActions } from './batch-actions.ts';
import { usualOf } from './batch-panel.ts';
import { answerOfTyped, fieldOf, notWholeAtCard } from './card-answer.ts';
import type { Desk } from './desk.ts';
import type { Entering } from './entering.ts';
import { batchIdOf, batchOf, cardOf, momentOf } from './key-moments.ts';
import { cellLookedAt } from './looking.ts';
import { mainMenu } from './menu.ts';
import { leafPage, type PageName, pageOf } from './pages.ts';
import { partingStep } from './parting-step.ts';
import type { ScreenPatch } from './services.ts';
import { noteStep, rejectStep } from './work-steps.ts';

export type CarryOut = {
  readonly act: (command: KeyCommand, key: Key) => void;
  /** Hands an answer to the card that is up: the given one, else what is typed, else the bare pass. */
  readonly answerCard: (key: Key, given: CardAnswer | null) => void;
  readonly follow: (next: Next | null) => void;
  readonly chooseDigits: (rows: number) => void;
};

const digitSizes = [5, 7, 10, 14] as const;

/** The deeds behind the keys. */
export function makeCarryOut(desk: Desk, entering: Entering): CarryOut {
  const { options, set, read, send, refuse, acts } = desk;
  const { services } = options;
  const guard = { guardMs: options.guardMs };
  const batchAction = makeBatchActions(desk);
  const batch = () => batchOf(read());

  const keep = (patch: ScreenPatch): void => {
    void services.saveScreenSettings(patch).then((fault) => {
      if (fault !== null && isFault(fault)) refuse(`not kept for next time: ${fault.what}`);
    });
  };

  const count = (key: Key): void => {
    if (read().lookAt !== null) return backToLive();
    const now = batch();
    const usualMs = now === null || now.current === null ? null : usualOf(now, now.current);
    // At points the usual time of a piece says nothing of the time from one point to the next.
    const press = { ...desk.pressOf(key), ...(usualMs === null || momentOf(read()) === 'points' ? {} : { usualMs }) };
    const judged = guardCount(read().guard, guard, press);
    set({ guard: judged.guard });
    if (desk.passes(judged.verdict)) void send({ kind: 'count', quick: judged.verdict.kind === 'quick' });
  };

  const answerCard = (key: Key, given: CardAnswer | null): void => {
    const now = batch();
    if (now !== null && now.kind !== 'open') return options.leave(0);
    if (read().lookAt !== null) return backToLive();
    const card = cardOf(read());
    if (now === null || card === undefined) return;
    const judged = guardCard(read().guard, guard, desk.pressOf(key));
    set({ guard: judged.guard });
    if (!desk.passes(judged.verdict)) return;
    const shown_ms = services.now().mono_ms - (read().card?.since_ms ?? services.now().mono_ms);
    const stays = given === null ? notWholeAtCard(read()) : null;
    if (stays !== null) {
      set({ typed: stays.typed });
      return desk.wrong(stays.wrong ?? '');
    }
    const answer = given ?? answerOfTyped(fieldOf(card, now), read().typed, now);
    set({ typed: '' });
    if (typeof answer === 'string') return desk.wrong(answer);
    if (card.kind === 'away' && card.moment === 'back' && answer.kind === 'pieces' && answer.pieces < card.pieces) {
      return desk.ask(missingStep(card, answer.pieces, shown_ms));
    }
    if (card.kind === 'parting' && answer.kind === 'pieces') {
      const [first] = Object.keys(card.proposal);
      const next = partingStep(now, card, first === undefined ? {} : { [first]: answer.pieces }, shown_ms);
      if (typeof next === 'string') return desk.wrong(next);
      return next.kind === 'step' ? desk.ask(next.step) : follow(next);
    }
    void send({ kind: 'passCard', id: card.id, shown_ms, answer });
  };

  /** A press meant for what is not on the screen does nothing but show it. */
  const backToLive = (): void => {
    set({ lookAt: null, ahead: 0 });
    refuse('back to the work in hand; nothing was counted');
  };

  const openPage = (name: PageName): void => {
    const { table } = read();
    const page = pageOf(name, batch(), { services, table, columns: options.columns(), id: batchIdOf(read()) });
    if (page !== null) set({ page });
  };

  const move = (by: number): void => {
    const { page, stage, ahead } = read();
    if (page !== null) return set({ page: leafPage(page, by < 0 ? -1 : 1, options.columns()) });
    if (stage.kind === 'choose') {
      const chosen = Math.max(0, Math.min(stage.offers.length - 1, stage.chosen + by));
      return set({ stage: { ...stage, chosen } });
    }
    const now = batch();
    if (now !== null && now.kind !== 'open') return openPage('report');
    const least = cardOf(read()) === undefined ? -99 : 0;
    set({ ahead: Math.max(least, Math.min(99, ahead + by)) });
  };

  const lookAtOperation = (by: number): void => {
    const now = batch();
    if (now !== null && now.kind === 'open') set({ lookAt: cellLookedAt(now, read().lookAt, by), ahead: 0 });
  };

  const goToNext = (): void => {
    const now = batch();
    if (now === null || now.current === null) return;
    const looked = read().lookAt;
    const at = looked ?? now.lanes.places[now.current]?.next ?? now.current + 1;
    const place = now.lanes.places[at];
    if (place === undefined) return refuse('there is no operation after this one');
    void send({ kind: 'goTo', operation: place.operation.number, lane: place.lane });
  };

  const chooseDigits = (digitRows: number): void => {
    set({ digitRows, isTrial: false });
    keep({ digit_rows: digitRows });
  };

  const act = (command: KeyCommand, key: Key): void => {
    const now = batch();
    switch (command) {
      case 'count':
        return count(key);
      case 'pass-card':
        return answerCard(key, null);
      case 'take':
        return acts(key) ? entering.take(read().stage) : undefined;
      case 'take-back':
        return acts(key) ? void send({ kind: 'takeBack' }) : undefined;
      case 'reject':
        return now === null ? undefined : desk.ask(rejectStep(now));
      case 'measure':
        return void send({ kind: 'askCheck', check: null });
      case 'pause':
        return acts(key) ? void send({ kind: 'pause', reason: null }) : undefined;
      case 'go-on':
        return acts(key) ? void send({ kind: 'resume' }) : undefined;
      case 'next-operation':
        return acts(key) ? goToNext() : undefined;
      case 'look-point-before':
        return move(-1);
      case 'look-point-after':
        return move(1);
      case 'look-operation-before':
        return lookAtOperation(-1);
      case 'look-operation-after':
        return lookAtOperation(1);
      case 'look-live':
      case 'back':
        return set({ page: null, ahead: 0, lookAt: null, typed: '', wrong: null });
      case 'tool-changed':
        return acts(key) ? void send({ kind: 'toolChanged', sharpened: false }) : undefined;
      case 'bumped':
        return acts(key) ? void send({ kind: 'bumped' }) : undefined;
      case 'note':
        return now === null ? undefined : desk.ask(noteStep());
      case 'cautions':
        return openPage('cautions');
      case 'menu':
        return now === null ? undefined : desk.ask(mainMenu(now, read().table, read().ownKeys));
      case 'digit-size':
        return chooseDigits(digitSizes.find((rows) => rows > read().digitRows) ?? digitSizes[0]);
      case 'sound':
        set({ bell: !read().bell });
        keep({ sound: read().bell });
        return refuse(read().bell ? 'the bell is on' : 'the bell is off');
      case 'leave':
        return options.leave(0);
      case 'help':
        return read().page === null ? openPage('keys') : set({ page: null });
      default:
        return command satisfies never;
    }
  };

  const carryAction = (action: Action): void => {
    const { table, ownKeys } = read();
    switch (action.kind) {
      case 'page':
        return openPage(action.page);
      case 'lines':
      case 'suppose':
      case 'open until':
      case 'hand over':
      case 'changed plan':
      case 'amend':
        return batchAction(action);
      case 'own keys':
        set({ ownKeys: action.ownKeys, table: withOwnKeys(keyMapFor(table.hand), action.ownKeys) });
        void services.saveKeys(action.ownKeys);
        return refuse('the keys are changed');
      case 'hand':
        set({ table: withOwnKeys(keyMapFor(action.hand), ownKeys) });
        keep({ hand: action.hand });
        return refuse(`the keypad is for the ${action.hand} hand`);
      case 'distance trial':
        return set({ isTrial: true });
      case 'begin':
        return void entering.beginWith(action.path, action.word);
      case 'leave':
        return options.leave(0);
      default:
        return action satisfies never;
    }
  };

  const follow = (next: Next | null): void => {
    if (next?.kind === 'send') void send(next.command);
    if (next?.kind === 'do') carryAction(next.action);
  };

  return { act, answerCard, follow, chooseDigits };
}
