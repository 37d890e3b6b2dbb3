/**
 * The check card: the dimension with its limits large, or the question; what is typed judged as it is typed; the last
 * values, where they drift, and what the control rule says of them.
 */
import type { Card } from '../../batch/cards.ts';
import { oldestFirst } from '../../batch/chain.ts';
import { checkDrift } from '../../batch/questions/drift.ts';
import type { Batch } from '../../batch/state.ts';
import type { ResolvedCheck, ResolvedOperation } from '../../plan/resolved.ts';
import { controlSign } from '../../shop/control-rule.ts';
import { asMm, type Mm } from '../../shop/quantities.ts';
import { inchesToMm, mmToInches } from '../../shop/units.ts';
import { parseTyped } from '../flow/flow.ts';
import { mainReading, type Reading } from '../panel/panel.ts';
import { lengthText, lengthWithUnit } from './axis-text.ts';
import { type CardFace, namedCautions, typedReading, wordsCard } from './card-face.ts';

type CheckCard = Extract<Card, { kind: 'check' }>;
type Measured = Extract<ResolvedCheck['what'], { kind: 'measured' }>;

const dueWords = { 'first-off': 'FIRST-OFF CHECK', every: 'CHECK DUE', last: 'LAST CHECK', asked: 'CHECK' } as const;

/** The face of a check that is due, with what is typed so far. */
export function checkCard(
  batch: Batch,
  card: CheckCard,
  operation: ResolvedOperation | undefined,
  typed: string,
): CardFace {
  const check = operation?.checks.find((one) => one.id === card.check);
  if (check === undefined) return wordsCard('CHECK', []);
  const headline = `${dueWords[card.due]}: ${check.title}`;
  const gauge = check.gauge === null ? '' : `With: ${check.gauge}.`;
  if (check.what.kind === 'yes or no') {
    return wordsCard(headline, [check.what.question, gauge, 'y or 1 yes, n or 0 no, Enter alone: unchecked.'], {
      readings: [mainReading('CHECK')],
      cautions: takingOut(operation),
    });
  }
  const values = lastValues(batch, card);
  return wordsCard(
    headline,
    [
      gauge,
      ...valueFacts(values, check.what, batch),
      ...driftFacts(batch, card, check.what),
      `Type ${batch.plan.units === 'inch' ? 'inches' : 'mm'}; Enter alone is reported unchecked.`,
    ],
    {
      readings: [typed === '' ? dimension(check.what, batch) : judged(typed, check.what, batch)],
      cautions: takingOut(operation),
    },
  );
}

/** To be measured a piece comes out of the machine. */
function takingOut(operation: ResolvedOperation | undefined): readonly string[] {
  switch (operation?.station) {
    case 'saw':
      return namedCautions('sw.stop');
    case 'mill':
    case 'pillar drill':
      return namedCautions('in.stop');
    default:
      return [];
  }
}

function dimension(what: Measured, batch: Batch) {
  return mainReading(
    shown(what.nominal, what, batch),
    'CHECK',
    `${shown(what.lower, what, batch)} to ${shown(what.upper, what, batch)} ${batch.plan.units === 'inch' ? 'in' : 'mm'}`,
  );
}

/** What is typed with its verdict in large and in small, so that a slip is seen before Enter. */
function judged(typed: string, what: Measured, batch: Batch): Reading {
  const { units } = batch.plan;
  const limits = `limits ${shown(what.lower, what, batch)} to ${shown(what.upper, what, batch)}`;
  const value = parseTyped(typed);
  if (typeof value === 'string') return typedReading(typed, 'CHECK', limits);
  const mm = units === 'inch' ? inchesToMm(value) : value;
  if (mm > what.upper)
    return typedReading(typed, 'OVER', `OVER by ${lengthWithUnit(asMm(mm - what.upper), units)}; ${limits}`);
  if (mm < what.lower)
    return typedReading(typed, 'UNDER', `UNDER by ${lengthWithUnit(asMm(what.lower - mm), units)}; ${limits}`);
  return typedReading(typed, 'WITHIN', `within: ${limits}`);
}

/** As many decimals as the limits need: .6250 is not shown as .625 when a limit is .6245. */
function shown(value: Mm, what: Measured, batch: Batch): string {
  const inch = batch.plan.units === 'inch';
  const needed = [what.nominal, what.lower, what.upper].map((one) => decimalsIn(inch ? mmToInches(one) : one));
  return lengthText(value, batch.plan.units, Math.max(inch ? 3 : 2, ...needed));
}

function decimalsIn(value: number): number {
  for (let decimals = 0; decimals < 4; decimals += 1) {
    if (Math.abs(value * 10 ** decimals - Math.round(value * 10 ** decimals)) < 1e-6) return decimals;
  }
  return 4;
}

type Value = { readonly value: number; readonly within: boolean };

function lastValues(batch: Batch, card: CheckCard): readonly Value[] {
  const cell = batch.cells.find((one) => one.operation === card.operation && one.lane === card.lane);
  return oldestFirst(cell?.checkLog ?? null).flatMap(({ check, result, void: isVoid }) =>
    check === card.check && result.kind === 'measured' && !isVoid
      ? [{ value: result.value, within: result.within }]
      : [],
  );
}

function valueFacts(values: readonly Value[], what: Measured, batch: Batch): readonly string[] {
  if (values.length === 0) return [];
  const words = values
    .slice(-6)
    .map(({ value, within }) => `${shown(asMm(value), what, batch)}${within ? '' : ' OUT'}`);
  return [`Last values, newest last: ${words.join('  ')}`];
}

function driftFacts(batch: Batch, card: CheckCard, what: Measured): readonly string[] {
  const at = batch.cells.findIndex((one) => one.operation === card.operation && one.lane === card.lane);
  const drift = at === -1 ? null : checkDrift(batch, at, card.check);
  const limit = drift === null ? null : drift.toward === 'upper' ? what.upper : what.lower;
  const sign = controlSign(
    lastValues(batch, card).map((one) => one.value),
    (what.lower + what.upper) / 2,
  );
  return [
    ...(drift === null || limit === null
      ? []
      : [
          `DRIFTS toward ${shown(limit, what, batch)}: there at about piece ${drift.reachedAtPiece}. Correct it before.`,
        ]),
    ...(sign === null ? [] : [signWords(sign)]),
  ];
}

function signWords(sign: NonNullable<ReturnType<typeof controlSign>>): string {
  return sign.kind === 'run'
    ? `Run rule: ${sign.values} in a row ${sign.side} the middle; chance alone does that once in ${sign.onceIn}.`
    : `Trend rule: ${sign.values} in a row going ${sign.way}; chance alone does that once in ${sign.onceIn}.`;
}
