/**
 * Lays a panel out in the room there is: a pure function of panel and room. The readings take what they need to be read
 * from across the shop; the picture stands beside them where there is room; facts and cautions fill what is left, the most
 * needed first. Nothing wraps or scrolls: the answer has exactly `rows` lines of at most `columns`.
 */
import {
  besideLines,
  centreLine,
  cropLine,
  emptyLine,
  type Line,
  lineOf,
  spreadLine,
  wrapText,
} from '../parts/lines.ts';
import type { Panel, Room } from './panel.ts';
import { pictureLines } from './picture-lines.ts';
import { readingLines } from './reading-lines.ts';

/** Smaller than this, numbers are shown as plain text; it still counts. */
export const smallestFullScreen = { columns: 50, rows: 15 } as const;

/** Exactly `room.rows` lines, each at most `room.columns` wide. */
export function layoutPanel(panel: Panel, room: Room): Line[] {
  if (room.columns < smallestFullScreen.columns || room.rows < smallestFullScreen.rows) return layoutSmall(panel, room);
  const head = [bannerLine(panel, room.columns), ...headlineLines(panel, room)];
  const foot = footLines(panel, room);
  const bodyRows = room.rows - head.length - foot.length;
  const body = bodyLines(panel, { ...room, rows: bodyRows });
  return [...head, ...padRows(body, bodyRows), ...foot].map((line) => cropLine(line, room.columns));
}

/** Fewer than 50x15: the numbers in plain text, the message, the keys. */
function layoutSmall(panel: Panel, room: Room): Line[] {
  const readings = panel.readings.map((one) => `${one.label} ${one.text}`.trim()).join('  ');
  const lines = [
    lineOf(readings === '' ? (panel.headline?.text ?? '') : readings, 'strong'),
    panel.message === null ? emptyLine : lineOf(panel.message.text, panel.message.role),
    lineOf(panel.banner.left),
    lineOf(panel.hints.join('  ')),
    ...panel.facts.map((fact) => lineOf(fact)),
  ];
  return padRows(
    lines.map((line) => cropLine(line, room.columns)),
    room.rows,
  );
}

function bannerLine(panel: Panel, columns: number): Line {
  return spreadLine(
    lineOf(` ${panel.banner.left}`, 'reverse'),
    lineOf(`${panel.banner.right} `, 'reverse'),
    columns,
    'reverse',
  );
}

function headlineLines(panel: Panel, room: Room): Line[] {
  if (panel.headline === null) return [];
  const line = lineOf(panel.headline.text, panel.headline.role);
  return room.rows >= 20 ? [emptyLine, centreLine(line, room.columns), emptyLine] : [centreLine(line, room.columns)];
}

/** Message, pace and keys at the bottom: the message takes the place of the pace where rows are few. */
function footLines(panel: Panel, room: Room): Line[] {
  const message = panel.message === null ? null : lineOf(` ${panel.message.text} `, panel.message.role);
  const pace = panel.pace.map((text) => lineOf(text));
  const hints = lineOf(hintText(panel.hints, room.columns), 'strong');
  if (room.rows < 20) return [message ?? pace[0] ?? emptyLine, hints];
  return [message ?? emptyLine, ...pace.slice(0, 2), hints];
}

/** As many whole hints as fit; the first ones matter most. */
function hintText(hints: readonly string[], columns: number): string {
  let text = '';
  for (const hint of hints) {
    const joined = text === '' ? hint : `${text}   ${hint}`;
    if (joined.length > columns) break;
    text = joined;
  }
  return text;
}

function bodyLines(panel: Panel, room: Room): Line[] {
  const beside = panel.picture === null ? null : bodyWithPicture(panel, panel.picture, room);
  if (beside !== null) return beside;
  const readings = readingLines(panel.readings, { ...room, rows: rowsForReadings(panel, room) });
  return [...readings, ...factLines(panel, room.columns, room.rows - readings.length)].slice(0, room.rows);
}

/** The picture stands at the left where the readings keep their wanted size beside it. */
function bodyWithPicture(panel: Panel, picture: NonNullable<Panel['picture']>, room: Room): Line[] | null {
  const columns = Math.min(Math.floor(room.columns * 0.32), 60);
  const drawn = pictureLines(picture(columns, Math.max(0, rowsForReadings(panel, room))));
  if (drawn.length === 0) return null;
  const width = Math.max(...drawn.map((line) => line.reduce((sum, one) => sum + one.text.length, 0)));
  const right = room.columns - width - 2;
  const readings = readingLines(panel.readings, { ...room, columns: right, rows: rowsForReadings(panel, room) });
  const wanted = Math.min(
    room.digitRows,
    Math.floor(rowsForReadings(panel, room) / Math.max(1, panel.readings.length)),
  );
  const isTooSmall = panel.readings.length > 0 && readings.length < wanted * panel.readings.length;
  if (isTooSmall) return null;
  const top = besideLines(drawn, readings, width, 2);
  return [...top, ...factLines(panel, room.columns, room.rows - top.length)].slice(0, room.rows);
}

/** Readings leave at least the first facts and cautions their rows: one of each where rows are few. */
function rowsForReadings(panel: Panel, room: Room): number {
  const kept = Math.min(panel.facts.length + panel.cautions.length, room.rows < 16 ? 1 : Math.floor(room.rows / 4));
  return Math.max(0, room.rows - kept);
}

function factLines(panel: Panel, columns: number, rows: number): Line[] {
  if (rows <= 0) return [];
  const cautions = panel.cautions.flatMap((text, index) =>
    wrapText(`${index === panel.cautions.length - 1 ? '' : '! '}${text}`, columns, 2),
  );
  const facts = panel.facts.flatMap((text) => wrapText(text, columns, 2));
  const keptCautions = cautions.slice(
    0,
    Math.max(0, Math.min(cautions.length, rows - Math.min(facts.length, Math.ceil(rows / 2)))),
  );
  const keptFacts = facts.slice(0, rows - keptCautions.length);
  const gap = keptFacts.length > 0 && keptCautions.length > 0 && keptFacts.length + keptCautions.length < rows;
  return [...keptFacts, ...(gap ? [emptyLine] : []), ...keptCautions];
}

function padRows(lines: readonly Line[], rows: number): Line[] {
  return Array.from({ length: Math.max(0, rows) }, (_, row) => lines[row] ?? emptyLine);
}
