/** The questions about the machine that makes the holes, and about how the part is held and zeroed on it. */
import { parseDuration, parseSpindleSpeed } from '../../shop/parse-quantity.ts';
import type { LengthUnit } from '../../shop/units.ts';
import type { ShopMachines } from '../../sitting/shop-machines.ts';
import { ask, askOneOf, type Interview, orNothing, readBy, someWords } from './asking.ts';
import type { Draft, DraftValue } from './draft.ts';
import { isSize } from './job-questions.ts';

/** The machine for the holes: its key, its station, and its description where the settings have none. */
export type HoleMachine = {
  readonly key: string;
  readonly station: 'mill' | 'pillar drill';
  readonly described: Draft | null;
};

export function* askMachine(unit: LengthUnit, shop: ShopMachines): Interview<HoleMachine> {
  const known = Object.entries(shop).flatMap(([key, { station }]) =>
    station === 'mill' || station === 'pillar drill' ? [{ key, station }] : [],
  );
  if (known.length > 0) {
    const key = yield* askOneOf('Machine for the holes', [...known.map((one) => one.key), 'another'], null);
    const chosen = known.find((one) => one.key === key);
    if (chosen !== undefined) return { ...chosen, described: null };
  }
  const station = yield* askOneOf('Machine for the holes', ['mill', 'pillar drill'], 'mill');
  const described: Record<string, DraftValue> = {
    name: yield* ask('What is it called in the shop?', station === 'mill' ? 'Mill' : 'Pillar drill', someWords),
    station,
    ...(yield* askSpeeds()),
  };
  if (station === 'mill') Object.assign(described, yield* askMill(unit));
  else described['depth read on'] = 'depth stop';
  return { key: station === 'mill' ? 'mill' : 'pillar', station, described };
}

const numbersIn = (answer: string): readonly string[] => answer.split(/[\s,]+/u).filter((word) => word !== '');

function* askSpeeds(): Interview<Draft> {
  const answer = yield* ask(
    'Spindle speeds that it has, as on its plate: "280 450 700 1000", or "60 to 2000" without steps',
    null,
    (given) => {
      const ends = given.split(/ to /u);
      const numbers = ends.length === 2 ? ends : numbersIn(given);
      if (numbers.length === 0) return 'At least one speed, please.';
      const wrong = numbers.map((one) => readBy(parseSpindleSpeed)(one)).find((one) => one !== undefined);
      return wrong ?? (ends.length === 2 && Number(ends[0]) >= Number(ends[1]) ? 'The slower one first.' : undefined);
    },
  );
  const [from = '', to] = answer.split(/ to /u);
  return { speeds: to === undefined ? [...numbersIn(answer)] : { from: from.trim(), to: to.trim() } };
}

function* askMill(unit: LengthUnit): Interview<Draft> {
  const readout = yield* ask(
    'Smallest step of its readout (empty: it is read on dials)',
    null,
    orNothing(isSize(unit)),
  );
  const axes: Draft =
    readout === ''
      ? { x: yield* askDial('X', ['right', 'left'], unit), y: yield* askDial('Y', ['away', 'towards'], unit) }
      : { readout };
  const reverse = yield* askOneOf('Does the spindle reverse?', ['at once', 'after stopping', 'never'], 'never');
  const stopping =
    reverse === 'after stopping'
      ? { 'stopping time': yield* ask('From switching off to standing', null, readBy(parseDuration)) }
      : {};
  const vice = {
    'jaw width': yield* ask('Width of the vice jaws', null, isSize(unit)),
    'jaw height': yield* ask('Height of the jaws above the bed of the vice', null, isSize(unit)),
    opening: yield* ask('Widest opening', null, isSize(unit)),
  };
  return { reverse, ...stopping, ...axes, 'depth read on': 'quill', vice };
}

function* askDial(axis: string, ways: readonly string[], unit: LengthUnit): Interview<Draft> {
  return {
    'per turn': yield* ask(`${axis}: travel for one turn of the handle`, null, isSize(unit)),
    divisions: yield* ask(`${axis}: marks around the dial`, null, (answer) =>
      /^[1-9]\d{0,2}$/u.test(answer) && Number(answer) > 1 ? undefined : 'A whole number from 2 to 999.',
    ),
    'clockwise moves': yield* askOneOf(`${axis}: which way the tool goes over the part, turned clockwise`, ways, null),
  };
}

/** The one setup of the plan: in the vice against a stop, zero by an edge finder. */
export function* askSetup(unit: LengthUnit, machine: string): Interview<Draft> {
  const side = yield* askOneOf('The part is in the vice, its end to a stop on the', ['left', 'right'], 'left');
  const tip = yield* ask('Tip of the edge finder', unit === 'mm' ? '10' : '.200', isSize(unit));
  const height = yield* ask('Height of the parallels under it (empty: none)', null, orNothing(isSize(unit)));
  const parallels =
    height === '' ? {} : { parallels: { height, thickness: yield* ask('Their thickness', null, isSize(unit)) } };
  const feeler = yield* ask(
    'Thickness of the feeler for the Z zero of each tool',
    unit === 'mm' ? '0.05' : '.002',
    isSize(unit),
  );
  return {
    title: 'In the vice, end to the stop',
    machine,
    hold: 'vice',
    stop: { side },
    ...parallels,
    lies: 'as drawn',
    zero: {
      x: { how: 'edge finder', tip, against: 'face of the stop' },
      y: { how: 'edge finder', tip, against: 'fixed jaw' },
      z: { how: 'feeler', feeler, on: 'top of the part' },
    },
  };
}
