/**
 * `millside bars PLAN`: which blanks to saw from which bars so that the least bar is used up; spares included. Exit 0, or 1
 * when the bars on hand do not yield the blanks or the plan tells nothing of its stock; 65 and 66 as for every plan.
 *
 * `--json`: `{ "format": 1, "plan": "jobs/x.yaml", "job": "Keeper plates", "kind": "enough", "section": "30 x 8 bright flat",
 * "blank_mm": 62, "blanks": 42, "kerf_mm": 1.2, "end_trim_mm": 5, "grip_mm": 40, "on_hand": null, "bars": 1,
 * "cuts": [{ "bar_mm": 3000, "times": 1, "blanks": 42, "left_mm": 340.6, "keep": true }], "taken_mm": 3000,
 * "waste_mm": 55.4, "missing": 0, "proven": true }`; `kind` is `enough` or `short` (then `missing` blanks have no bar),
 * `on_hand` null when the plan does not say, `left_mm` is left of each such bar, `proven` false when a list that takes less
 * bar was not ruled out.
 */

import type { ResolvedPlan } from '../plan/resolved.ts';
import { plainLine } from '../report/neutral-text.ts';
import { type BarCut, type CutList, cutList } from '../shop/cut-list.ts';
import type { Mm } from '../shop/quantities.ts';
import { formatRefusal, type Result } from '../shop/refusal.ts';
import { formatLength } from '../shop/units.ts';
import { readWords } from './arguments.ts';
import { exitCodes } from './exit-codes.ts';
import { type Io, writeJson } from './io.ts';
import { planNamed } from './plan-words.ts';

type Stock = NonNullable<ResolvedPlan['stock']>;
type Sawing = {
  readonly plan: ResolvedPlan;
  readonly stock: Stock;
  readonly list: CutList;
  readonly onHand: number | null;
};

export async function runBars(args: readonly string[], io: Io): Promise<number> {
  const words = readWords('bars', args, [1, 1], io);
  if (typeof words === 'number') return words;
  const name = words.names[0] ?? '';
  const loaded = await planNamed(name, io, { json: words.has('json') });
  if (typeof loaded === 'number') return loaded;
  const { resolved: plan } = loaded;
  if (plan.stock === null) return refuse(io, 'the plan tells nothing of its stock; add "stock:" with bars and kerf');
  const onHand = loaded.plan.stock?.['on hand'] ?? null;
  const list = listFor(plan.stock, blanksOf(plan), onHand);
  if (!list.ok) return refuse(io, formatRefusal(list.problem));
  const sawing: Sawing = { plan, stock: plan.stock, list: list.value, onHand };
  if (words.has('json')) writeJson(io, { format: 1, plan: name, ...jsonOf(sawing) });
  else io.out(textOf(sawing));
  return list.value.kind === 'enough' ? exitCodes.done : exitCodes.refused;
}

const blanksOf = (plan: ResolvedPlan): number =>
  plan.spares + plan.variants.reduce((sum, variant) => sum + variant.quantity, 0);

/**
 * The list that takes the least bar. The plan counts the bars on hand, not how many of each length: where the list that
 * takes the least needs more bars than there are, the longest length alone decides whether they are enough.
 */
function listFor(stock: Stock, blanks: number, onHand: number | null): Result<CutList> {
  const wishes = [{ length: stock.blank, count: blanks }];
  const least = cutList(
    stock.barLengths.map((length) => ({ length })),
    wishes,
    stock,
  );
  if (!least.ok || onHand === null || least.value.bars <= onHand) return least;
  const longest = Math.max(...stock.barLengths) as Mm;
  if (onHand > 0) return cutList([{ length: longest, count: onHand }], wishes, stock);
  return { ok: true, value: { ...least.value, kind: 'short', cuts: [], bars: 0, missing: [blanks], ...nothingTaken } };
}

const nothingTaken = { taken: 0 as Mm, waste: 0 as Mm, proven: true };

function refuse(io: Io, why: string): number {
  io.err(`millside bars: ${plainLine(why)}.\n`);
  return exitCodes.refused;
}

const blanksOn = (cut: BarCut): number => cut.blanks[0] ?? 0;
const missingOf = (list: CutList): number => list.missing[0] ?? 0;
/** Sums of binary fractions to the micrometre. */
const round = (length: number): number => Math.round(length * 1000) / 1000;

function jsonOf({ plan, stock, list, onHand }: Sawing) {
  return {
    job: plan.job,
    kind: list.kind,
    section: stock.section,
    blank_mm: round(stock.blank),
    blanks: blanksOf(plan),
    kerf_mm: round(stock.kerf),
    end_trim_mm: round(stock.endTrim),
    grip_mm: round(stock.grip),
    on_hand: onHand,
    bars: list.bars,
    cuts: list.cuts.map((cut) => ({
      bar_mm: round(cut.bar),
      times: cut.times,
      blanks: blanksOn(cut),
      left_mm: round(cut.left),
      keep: cut.worthKeeping,
    })),
    taken_mm: round(list.taken),
    waste_mm: round(list.waste),
    missing: missingOf(list),
    proven: list.proven,
  };
}

function textOf({ plan, stock, list, onHand }: Sawing): string {
  const show = (length: Mm) => formatLength(length, plan.units);
  const blanks = blanksOf(plan);
  const rules = [
    `kerf ${show(stock.kerf)}`,
    ...(stock.endTrim > 0 ? [`${show(stock.endTrim)} cropped off a new bar`] : []),
    ...(stock.grip > 0 ? [`the saw holds no end shorter than ${show(stock.grip)}`] : []),
    ...(onHand === null ? [] : [`${some(onHand, 'bar')} on hand`]),
  ];
  const cuts = list.cuts.map(
    (cut) =>
      `  ${some(cut.times, 'bar')} of ${show(cut.bar)}: ${some(blanksOn(cut), 'blank')}${cut.times > 1 ? ' each' : ''}, ` +
      `${show(cut.left)} left${cut.worthKeeping ? ', worth keeping' : ''}`,
  );
  const total = `${some(list.bars, 'bar')}, ${show(list.taken)} in all; ${show(list.waste)} to kerf, crop and scrap ends.`;
  const end =
    list.kind === 'short'
      ? `SHORT of ${some(missingOf(list), 'blank')}: these bars give ${blanks - missingOf(list)} of ${blanks}.`
      : list.proven
        ? 'No list takes less bar.'
        : 'A list that takes less bar was not ruled out.';
  return [
    `${plainLine(plan.job)}: ${some(blanks, 'blank')} of ${show(stock.blank)} from ${plainLine(stock.section)}` +
      ` (${blanks - plan.spares} ordered, ${plan.spares} spare)`,
    rules.join('; '),
    '',
    ...cuts,
    ...(cuts.length > 0 ? [''] : []),
    total,
    end,
    '',
  ].join('\n');
}

const some = (number: number, thing: string): string => `${number} ${thing}${number === 1 ? '' : 's'}`;
