/** What it cost, and what to change in the plan for next time. */
import { type Block, left, right, section, sentence, tableOf } from '../document.ts';
import type { Money, ReportModel } from '../model.ts';
import { formatDecimalHours, formatHours, formatSpan } from '../time-text.ts';

/** Money at two places, with the currency when there is one: `12.30 EUR`. Halves away from zero. */
function formatMoney(amount: number, currency: string): string {
  const cents = Math.sign(amount) * Math.round(Math.abs(amount) * 100 + 1e-7);
  return `${(cents / 100 + 0).toFixed(2)}${currency === '' ? '' : ` ${currency}`}`;
}

/** Cost and price of a good piece, with its four shares. */
export function moneySection(model: ReportModel): Block[] {
  const money = model.money;
  if (money === null) return [];
  return section(model.state === 'running' ? 'Cost so far' : 'Cost', [
    sentence(
      `${formatHours(money.charged_s)} (${formatDecimalHours(money.charged_s)} h) of set-up, run, check and delay at ${formatMoney(money.rate_per_hour, money.currency)} an hour${
        money.currency === '' ? ' (the rate was stated without a currency)' : ''
      }; in all ${formatMoney(money.total, money.currency)}.`,
    ),
    ...shares(money),
  ]);
}

function shares(money: Money): Block[] {
  const each = money.per_good_piece;
  if (each === null) return [sentence('No good piece is through, so there is no cost of one.')];
  const show = (amount: number) => formatMoney(amount, money.currency);
  return tableOf(
    [left('For one good piece'), right('Amount')],
    [
      ['Set-up', show(each.setup)],
      ['Work', show(each.work)],
      ['Material', show(each.material)],
      ['Scrap', show(each.scrap)],
      ['Cost', show(each.cost)],
      ...(each.price === null ? [] : [[`Price with ${each.margin_pct ?? 0} % margin`, show(each.price)]]),
    ],
  );
}

/** Which estimates to change, by how much and on what evidence. */
export function nextTimeSection(model: ReportModel): Block[] {
  const rows = model.next_time.map((change) => [
    String(change.operation),
    change.field === 'setup' ? 'set-up' : 'a piece',
    formatSpan(change.planned_s),
    formatSpan(change.suggested_s),
    change.evidence,
  ]);
  return section(
    'Next time',
    tableOf([right('Operation'), left('Estimate'), right('Plan'), right('Better'), left('It rests on')], rows),
  );
}
