/** The questions about one operation; its tool and points go into the plan with it. */
import { parseDiameter, parseLength } from '../../shop/parse-length.ts';
import { parseThread } from '../../shop/thread-names.ts';
import type { LengthUnit } from '../../shop/units.ts';
import { ask, askOneOf, type Interview, orNothing, readBy, someWords } from './asking.ts';
import type { Draft, DraftValue } from './draft.ts';
import { isSize } from './job-questions.ts';
import type { HoleMachine } from './machine-questions.ts';

const holeKinds = ['spot', 'drill', 'tap', 'countersink'] as const;
const kinds = [...holeKinds, 'deburr', 'inspect', 'hand work', 'done'] as const;
type HoleKind = (typeof holeKinds)[number];

/** What an operation adds to the plan. */
export type AddedOperation = {
  readonly operation: Draft;
  readonly tools: Draft;
  readonly points: Draft;
};

/** What is known when an operation is asked for. */
export type SoFar = {
  readonly number: number;
  readonly unit: LengthUnit;
  readonly machine: HoleMachine;
  readonly variants: readonly string[];
  /** Names of the points of the hole operation before, for "same". */
  readonly lastPoints: readonly string[];
  /** How many points there are. */
  readonly points: number;
};

/** Asks for one operation; null when there are no more. */
export function* askOperation(soFar: SoFar): Interview<AddedOperation | null> {
  const kind = yield* askOneOf(`Operation ${soFar.number}: what kind of work`, kinds, 'done');
  if (kind === 'done') return null;
  if (kind === 'spot' || kind === 'drill' || kind === 'tap' || kind === 'countersink') {
    return yield* askHoles(kind, soFar);
  }
  const title = yield* ask('What is done?', usualTitles[kind], someWords);
  const variants = yield* askVariants(soFar.variants);
  return {
    operation: { number: String(soFar.number), title, kind, machine: 'bench', ...variants },
    tools: {},
    points: {},
  };
}

const usualTitles = { deburr: 'Deburr', inspect: 'Look over and count', 'hand work': null } as const;

function* askHoles(kind: HoleKind, soFar: SoFar): Interview<AddedOperation> {
  const { tools, cut, title } = yield* askTool(kind, soFar.unit);
  const { names, points } = yield* askPoints(soFar);
  const where: Draft =
    soFar.machine.station === 'mill'
      ? { setup: 'vice' }
      : {
          machine: soFar.machine.key,
          'located by': yield* askOneOf(
            'What locates the tool',
            ['follows the hole', 'punch mark', 'jig', 'fence and stop'],
            names === soFar.lastPoints ? 'follows the hole' : 'punch mark',
          ),
        };
  const variants = yield* askVariants(soFar.variants);
  const chosen = yield* ask('What is it called?', title, someWords);
  return {
    operation: { number: String(soFar.number), title: chosen, kind, ...where, ...variants, ...cut, points: names },
    tools,
    points,
  };
}

type ToolChosen = { readonly tools: Draft; readonly cut: Draft; readonly title: string };

const keyOf = (kind: string, size: string): string =>
  `${kind}-${size
    .toLowerCase()
    .replace(/[^a-z0-9.]+/gu, '-')
    .replace(/^-|-$/gu, '')}`;

function* askTool(kind: HoleKind, unit: LengthUnit): Interview<ToolChosen> {
  const isDiameter = readBy((text) => parseDiameter(text, unit));
  if (kind === 'tap') return yield* askTap(unit);
  const diameter = yield* ask(`Diameter of the ${kind === 'spot' ? 'spotting tool' : kind}`, null, isDiameter);
  const tool = keyOf(kind, diameter);
  if (kind === 'drill') {
    const depth = yield* ask('How deep: "through", "for the tap" or a length at full diameter', 'through', (answer) =>
      ['through', 'for the tap'].includes(answer) ? undefined : isSize(unit)(answer),
    );
    return { tools: { [tool]: { kind, diameter } }, cut: { tool, depth }, title: `Drill ${diameter} ${depth}` };
  }
  const top = yield* ask('Diameter wanted at the top', null, isDiameter);
  const angle = yield* ask('Included angle of the point', '90 deg', (answer) =>
    /^\d{2,3}(\.\d)? ?(deg)?$/u.test(answer) ? undefined : 'Degrees, such as 90 deg.',
  );
  const title = kind === 'spot' ? 'Spot' : `Countersink ${top}`;
  return { tools: { [tool]: { kind, diameter, 'point angle': angle } }, cut: { tool, top }, title };
}

function* askTap(unit: LengthUnit): Interview<ToolChosen> {
  const thread = yield* ask('Thread, such as M6 or 1/4-20 UNC', null, readBy(parseThread));
  const lead = yield* ask(
    'Lead of the tap in threads (spiral point and plug about 4 to 5, bottoming about 2)',
    '4',
    (answer) =>
      /^\d{1,2}(\.\d)?$/u.test(answer) && Number(answer) > 0 ? undefined : 'A number of threads, such as 4.',
  );
  const full = yield* ask('Depth of full thread in a blind hole (empty: through)', null, orNothing(isSize(unit)));
  const tool = keyOf('tap', thread);
  const depth: Draft = full === '' ? { depth: 'through' } : { 'full thread': full };
  return {
    tools: { [tool]: { kind: 'tap', thread, lead: `${lead} threads` } },
    cut: { tool, thread, ...depth },
    title: `Tap ${thread}`,
  };
}

const pairsIn = (answer: string): readonly (readonly string[])[] =>
  answer.split(',').map((pair) => pair.trim().split(/\s+/u));

function* askPoints(soFar: SoFar): Interview<{ readonly names: readonly string[]; readonly points: Draft }> {
  const hasSame = soFar.lastPoints.length > 0;
  const isLength = readBy((text) => parseLength(text, soFar.unit));
  const answer = yield* ask(
    `Points from the datum, x and y each, such as "10 15, 50 15"${hasSame ? '; "same" for those of the operation before' : ''}`,
    hasSame ? 'same' : null,
    (given) => {
      if (hasSame && given === 'same') return undefined;
      const pairs = pairsIn(given);
      if (pairs.some((pair) => pair.length !== 2)) return 'Two numbers a point, a comma between points.';
      return pairs
        .flat()
        .map(isLength)
        .find((one) => one !== undefined);
    },
  );
  if (hasSame && answer === 'same') return { names: soFar.lastPoints, points: {} };
  const made = pairsIn(answer).map(([x = '', y = ''], at) => [`p${soFar.points + at + 1}`, { x, y }] as const);
  return { names: made.map(([name]) => name), points: Object.fromEntries(made) };
}

function* askVariants(known: readonly string[]): Interview<{ readonly variants?: DraftValue }> {
  if (known.length === 0) return {};
  const list = (answer: string) => answer.split(',').map((name) => name.trim().toLowerCase());
  const answer = yield* ask(
    `Which variants (${known.join(', ')}; empty: all)`,
    null,
    orNothing((given) => {
      const unknown = list(given).find((name) => !known.includes(name));
      return unknown === undefined ? undefined : `There is no variant "${unknown}".`;
    }),
  );
  return answer === '' ? {} : { variants: list(answer) };
}
