/**
 * Keys in, lines out. A key goes to the flow that asks something, to the page that is open, to the card that takes a value,
 * or through the binding table to what it does; every count and every card passes the guard first. Holds the one piece of
 * state of the screen and draws nothing itself.
 */

import type { CardAnswer, Command } from '../../batch/commands.ts';
import type { Batch } from '../../batch/state.ts';
import { cautionsFor, DEFERRING_LINE } from '../../plan/cautions.ts';
import { cardAppeared, guardAct, guardCard, guardCount, restingGuard, type Verdict } from '../../sitting/guard.ts';
import { isFault } from '../../store/fault.ts';
import { type Next, pressInFlow, type Step, startFlow } from '../flow/flow.ts';
import { type BindingTable, helpFor, lookup } from '../keys/binding-table.ts';
import type { KeyCommand, Moment } from '../keys/key-map.ts';
import { operationOf } from '../moments/place-names.ts';
import { type Key, keyId } from '../terminal/key.ts';
import { usualOf } from './batch-panel.ts';
import { answerByKey, answerOfTyped, fieldOf, typeAtCard } from './card-answer.ts';
import { momentOfCard } from './key-moments.ts';
import { mainMenu, noteStep, rejectStep } from './menu.ts';
import type { Services, Target } from './services.ts';
import type { AppState, Stage } from './state.ts';

export type Controller = {
  readonly read: () => AppState;
  readonly subscribe: (listener: () => void) => () => void;
  readonly press: (key: Key) => void;
  /** Goes to the first stage; answers when it stands. */
  readonly start: (target: Target) => Promise<void>;
  /** Moment of the binding table now. */
  readonly moment: () => Moment;
  /** Tells the screen that the batch changed: a new card is noticed here. */
  readonly batchChanged: () => void;
};

export type ControllerOptions = {
  readonly services: Services;
  readonly table: BindingTable<Moment, KeyCommand>;
  readonly guardMs: number;
  readonly digitRows: number;
  readonly isBellOn: boolean;
  readonly bell: () => void;
  readonly columns: () => number;
  /** Leaves the program with an exit code. */
  readonly leave: (code: number) => void;
};

const digitSizes = [5, 7, 10, 14] as const;
/** Exit code when another terminal has the batch and it could only be looked at. */
const HELD = 75;

export function makeController(options: ControllerOptions): Controller {
  const { services, table } = options;
  let app: AppState = {
    stage: { kind: 'loading', about: 'millside' },
    flow: null,
    page: null,
    typed: '',
    wrong: null,
    ahead: 0,
    guard: restingGuard,
    card: null,
    digitRows: options.digitRows,
    bell: options.isBellOn,
  };
  const listeners = new Set<() => void>();
  const set = (change: Partial<AppState>): void => {
    app = { ...app, ...change };
    for (const listener of listeners) listener();
  };
  const batch = (): Batch | null => {
    if (app.stage.kind !== 'batch') return null;
    const { state } = app.stage.opened.sitting.read();
    return state.kind === 'none' ? null : state;
  };

  /** The card that is up, if the batch is open, here and not paused. */
  const cardNow = () => {
    const now = batch();
    return now !== null && now.kind === 'open' && now.presence === 'here' ? now.cards[0] : undefined;
  };

  const moment = (): Moment => {
    if (app.page !== null) return 'help';
    if (app.stage.kind !== 'batch') return app.stage.kind === 'choose' ? 'choose' : 'list';
    const now = batch();
    if (now === null || now.kind !== 'open') return 'end-batch';
    if (now.presence === 'paused') return 'pause';
    const card = now.cards[0];
    if (card !== undefined) return momentOfCard(card);
    return workMoment(now);
  };

  const batchChanged = (): void => {
    const card = cardNow();
    if (card?.id === app.card?.id) return;
    const since_ms = services.now().mono_ms;
    const shown = card === undefined ? null : { id: card.id, since_ms };
    set({
      card: shown,
      typed: '',
      wrong: null,
      ahead: 0,
      guard: card === undefined ? app.guard : cardAppeared(app.guard, since_ms),
    });
  };

  const send = async (command: Command): Promise<void> => {
    if (app.stage.kind !== 'batch') return;
    set({ wrong: null, ahead: 0 });
    const said = await app.stage.opened.sitting.send(command, services.now());
    if (said.kind === 'counted' && app.bell) options.bell();
    batchChanged();
  };

  const enter = async (id: string, takeFromOtherHost: boolean): Promise<void> => {
    set({ stage: { kind: 'loading', about: 'opening the batch' } });
    const answer = await services.open(id, takeFromOtherHost);
    if (isFault(answer)) return set({ stage: { kind: 'fault', fault: answer } });
    if (answer.kind === 'opened') {
      answer.sitting.subscribe(batchChanged);
      set({ stage: { kind: 'batch', opened: answer }, wrong: damageWords(answer.damage) });
      const wrong = app.wrong;
      batchChanged();
      if (wrong !== null) set({ wrong });
      return;
    }
    const owner = answer.owner;
    const who = owner === undefined ? 'another terminal' : `process ${owner.pid} on ${owner.host}`;
    if (answer.kind === 'held elsewhere') return set({ stage: { kind: 'ask to take', id, who } });
    await look(id, who);
  };

  const look = async (id: string, who: string): Promise<void> => {
    const state = await services.look(id);
    if (isFault(state)) return set({ stage: { kind: 'fault', fault: state } });
    set({ stage: { kind: 'look', id, who, state } });
  };

  const begin = async (path: string): Promise<void> => {
    set({ stage: { kind: 'loading', about: 'reading the plan' } });
    const begun = await services.begin(path, null);
    if (isFault(begun)) return set({ stage: { kind: 'fault', fault: begun } });
    if ('lines' in begun)
      return set({ stage: { kind: 'stopped', title: 'THIS PLAN CANNOT BE OPENED', lines: begun.lines } });
    await enter(begun.id, false);
  };

  const choose = async (): Promise<void> => {
    const offers = await services.offers();
    if (isFault(offers)) return set({ stage: { kind: 'fault', fault: offers } });
    set({ stage: { kind: 'choose', offers, chosen: 0 } });
  };

  const refuse = (reason: string): void => {
    if (app.stage.kind === 'batch') app.stage.opened.sitting.refuse(reason);
    else set({ wrong: reason });
  };

  /** Passes a press through one of the guards; a suppressed press says so. */
  const passes = (verdict: Verdict): boolean => {
    if (verdict.kind !== 'suppressed') return true;
    const why = {
      held: 'the key is held: let it rest',
      'too soon': 'too soon after the last press',
      'card is new': 'read the card first',
    };
    refuse(`not taken: ${why[verdict.why]}`);
    return false;
  };

  const pressOf = (key: Key) => ({ key: keyId(key), atMs: services.now().mono_ms });

  const acts = (key: Key): boolean => {
    const { guard, verdict } = guardAct(app.guard, { guardMs: options.guardMs }, pressOf(key));
    app = { ...app, guard };
    return passes(verdict);
  };

  const count = (key: Key): void => {
    const now = batch();
    const usualMs = now === null || now.current === null ? null : usualOf(now, now.current);
    const press = { ...pressOf(key), ...(usualMs === null || moment() === 'points' ? {} : { usualMs }) };
    const { guard, verdict } = guardCount(app.guard, { guardMs: options.guardMs }, press);
    app = { ...app, guard };
    if (passes(verdict)) void send({ kind: 'count', quick: verdict.kind === 'quick' });
  };

  const answerCard = (key: Key, given: CardAnswer | null): void => {
    const now = batch();
    if (now !== null && now.kind !== 'open') return options.leave(0);
    const card = cardNow();
    if (now === null || card === undefined) return;
    const { guard, verdict } = guardCard(app.guard, { guardMs: options.guardMs }, pressOf(key));
    app = { ...app, guard };
    if (!passes(verdict)) return;
    const answer = given ?? answerOfTyped(fieldOf(card, now), app.typed, now);
    if (typeof answer === 'string') return set({ wrong: answer });
    const shown_ms = services.now().mono_ms - (app.card?.since_ms ?? services.now().mono_ms);
    set({ typed: '' });
    void send({ kind: 'passCard', id: card.id, shown_ms, answer });
  };

  const ask = (step: Step): void => set({ flow: startFlow(step), page: null });

  const follow = (next: Next | null): void => {
    if (next?.kind === 'send') void send(next.command);
    if (next?.kind === 'do') openPage(next.action);
  };

  const openPage = (action: string): void => {
    const now = batch();
    if (action === 'show-keys') return set({ page: { title: 'KEYS', lines: helpLines(table), from: 0 } });
    if (now === null) return;
    if (action === 'show-cautions') return set({ page: { title: 'CAUTIONS', lines: cautionLines(now), from: 0 } });
    if (action === 'show-report') {
      return set({ page: { title: 'REPORT SO FAR', lines: services.report(now, options.columns()), from: 0 } });
    }
    set({ page: { title: 'WHEN IT ENDS', lines: services.outlook(now, services.now()).grounds, from: 0 } });
  };

  const take = (stage: Stage): void => {
    if (stage.kind === 'choose') {
      const offer = stage.offers[stage.chosen];
      if (offer?.kind === 'batch') void enter(offer.id, false);
      if (offer?.kind === 'plan') void begin(offer.path);
      return;
    }
    if (stage.kind === 'ask to take') return void look(stage.id, stage.who);
    if (stage.kind === 'look') return void enter(stage.id, false);
    if (stage.kind === 'stopped' || stage.kind === 'fault')
      options.leave(stage.kind === 'fault' ? stage.fault.code : 65);
  };

  const move = (by: number): void => {
    if (app.page !== null) {
      const last = Math.max(0, app.page.lines.length - 1);
      return set({ page: { ...app.page, from: Math.max(0, Math.min(last, app.page.from + by * 5)) } });
    }
    if (app.stage.kind === 'choose') {
      const chosen = Math.max(0, Math.min(app.stage.offers.length - 1, app.stage.chosen + by));
      return set({ stage: { ...app.stage, chosen } });
    }
    set({ ahead: Math.max(-20, Math.min(99, app.ahead + by)) });
  };

  const act = (command: KeyCommand, key: Key): void => {
    const now = batch();
    switch (command) {
      case 'count':
        return count(key);
      case 'pass-card':
        return answerCard(key, null);
      case 'take':
        return acts(key) ? take(app.stage) : undefined;
      case 'take-back':
        return acts(key) ? void send({ kind: 'takeBack' }) : undefined;
      case 'reject':
        return now === null ? undefined : ask(rejectStep(now));
      case 'measure':
        return void send({ kind: 'askCheck', check: null });
      case 'pause':
        return acts(key) ? void send({ kind: 'pause', reason: null }) : undefined;
      case 'go-on':
        return acts(key) ? void send({ kind: 'resume' }) : undefined;
      case 'next-operation':
        return acts(key) ? goToNext(now) : undefined;
      case 'look-point-before':
        return move(-1);
      case 'look-point-after':
        return move(1);
      case 'look-operation-before':
      case 'look-operation-after':
        return now === null ? undefined : openPage('show-report');
      case 'look-live':
      case 'back':
        return set({ page: null, ahead: 0, typed: '', wrong: null });
      case 'tool-changed':
        return acts(key) ? void send({ kind: 'toolChanged', sharpened: false }) : undefined;
      case 'bumped':
        return acts(key) ? void send({ kind: 'bumped' }) : undefined;
      case 'note':
        return now === null ? undefined : ask(noteStep());
      case 'cautions':
        return openPage('show-cautions');
      case 'menu':
        return now === null ? undefined : ask(mainMenu(now));
      case 'digit-size':
        return set({
          digitRows: digitSizes[(digitSizes.findIndex((rows) => rows >= app.digitRows) + 1) % digitSizes.length] ?? 5,
        });
      case 'sound':
        set({ bell: !app.bell });
        return refuse(app.bell ? 'the bell is on' : 'the bell is off');
      case 'leave':
        return options.leave(app.stage.kind === 'look' || app.stage.kind === 'ask to take' ? HELD : 0);
      case 'help':
        return app.page === null ? openPage('show-keys') : set({ page: null });
      default:
        return command satisfies never;
    }
  };

  const goToNext = (now: Batch | null): void => {
    if (now === null || now.current === null) return;
    const later = now.lanes.places[now.lanes.places[now.current]?.next ?? -1] ?? now.lanes.places[now.current + 1];
    if (later === undefined) return refuse('there is no operation after this one');
    void send({ kind: 'goTo', operation: later.operation.number, lane: later.lane });
  };

  const press = (key: Key): void => {
    if (key.name === 'paste') return refuse('a paste is not taken');
    if (app.flow !== null) {
      const { flow, next } = pressInFlow(app.flow, key);
      set({ flow });
      return follow(next);
    }
    if (app.stage.kind === 'ask to take' && keyId(key) === 'y') return void enter(app.stage.id, true);
    const now = batch();
    const card = cardNow();
    if (app.page === null && now !== null && card !== undefined) {
      const field = fieldOf(card, now);
      const answer = answerByKey(field, key);
      if (answer !== null) return answerCard(key, answer);
      const typed = typeAtCard(field, app.typed, key);
      if (typed !== null) return set({ typed, wrong: null });
    }
    const found = lookup(table, moment(), key);
    if (found.kind === 'command') return act(found.binding.command, key);
    if (found.kind === 'not now') refuse(found.reason);
  };

  const start = async (target: Target): Promise<void> => {
    if (target.kind === 'batch') await enter(target.id, false);
    else if (target.kind === 'plan') await begin(target.path);
    else await choose();
  };

  return {
    read: () => app,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    press,
    start,
    moment,
    batchChanged,
  };
}

/** Which kind of work: holes, a line, or counting alone. */
function workMoment(batch: Batch): Moment {
  const place = batch.current === null ? undefined : batch.lanes.places[batch.current];
  const cut = place?.operation.cuts[0];
  if (cut === undefined) return 'count';
  if (cut.passes.length > 0) return 'line';
  return cut.points.length > 0 ? 'points' : 'count';
}

function cautionLines(batch: Batch): readonly string[] {
  const cell = batch.current === null ? undefined : batch.cells[batch.current];
  const operation = cell === undefined ? undefined : operationOf(batch.plan, cell.operation);
  if (operation === undefined) return [DEFERRING_LINE];
  const byHand = operation.cuts.some((cut) => cut.thread?.byHand === true);
  const rows = cautionsFor({ kind: operation.kind, station: operation.station, byHand, material: batch.plan.material });
  return [...rows.map((row) => `! ${row.text}`), '', DEFERRING_LINE];
}

function helpLines(table: BindingTable<Moment, KeyCommand>): readonly string[] {
  return helpFor(table).flatMap((row) => {
    const keypad = table.hand === 'left' ? row.keys['left-hand'] : row.keys.keypad;
    const keys = [
      row.keys.keyboard,
      keypad === '' ? '' : `keypad ${keypad}`,
      row.keys.pedal === '' ? '' : `pedal ${row.keys.pedal}`,
    ];
    return [`${row.label.padEnd(18)}${keys.filter((part) => part !== '').join(' | ')}`, `  ${row.help}`];
  });
}

function damageWords(
  damage: { readonly file: string; readonly keptIn: string | undefined; readonly reason: string } | undefined,
): string | null {
  if (damage === undefined) return null;
  const kept = damage.keptIn === undefined ? '' : `; the rest is kept in ${damage.keptIn}`;
  return `the journal was damaged (${damage.reason})${kept}`;
}
