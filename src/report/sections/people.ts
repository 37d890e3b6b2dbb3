/** Who worked when: sittings, days of the calendar, pauses. */
import { type Block, left, right, section, tableOf } from '../document.ts';
import type { ReportModel } from '../model.ts';
import { formatClockTime, readableInstant } from '../time-text.ts';

/** Sittings, pieces by day and pauses. */
export function peopleSection(model: ReportModel): Block[] {
  const sittings = model.sittings.map((one) => [
    readableInstant(one.began),
    one.ended === null ? 'still open' : readableInstant(one.ended),
    formatClockTime(one.length_s),
    one.by ?? '-',
    one.why ?? '-',
  ]);
  const days = model.days.map((day) => [day.date, formatClockTime(day.worked_s), String(day.pieces)]);
  const pauses = model.pauses.map((one) => [
    readableInstant(one.began),
    formatClockTime(one.length_s),
    one.reason ?? '-',
  ]);
  return [
    ...section(
      'Sittings',
      tableOf([left('Began'), left('Ended'), right('Length'), left('By'), left('Left because')], sittings),
    ),
    ...section('By day', tableOf([left('Day'), right('At work'), right('Pieces counted')], days)),
    ...section('Pauses', tableOf([left('Began'), right('Length'), left('Reason')], pauses)),
  ];
}
