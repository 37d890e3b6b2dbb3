/**
 * `millside sheet PLAN`: the plan on paper, as one HTML page, as Markdown, or as Markdown on standard output when no file is
 * named. A paper on the wall is cut by long after the screen is off: a plan with a stop is put on paper only when asked for
 * (`--with-stops`), and then the stops stand at its top.
 */

import { plainLine } from '../report/neutral-text.ts';
import { sheetDrawings } from '../report/sheet/drawings.ts';
import { formatSheetHtml, formatSheetMarkdown } from '../report/sheet/sheet.ts';
import { readWords } from './arguments.ts';
import { exitCodes } from './exit-codes.ts';
import type { Io } from './io.ts';
import { stopLines } from './plan-stops.ts';
import { pastTimesFor, planNamed } from './plan-words.ts';
import { writeFileFor } from './written-file.ts';

export async function runSheet(args: readonly string[], io: Io): Promise<number> {
  const words = readWords('sheet', args, [1, 1], io);
  if (typeof words === 'number') return words;
  const name = words.names[0] ?? '';
  const loaded = await planNamed(name, io, { json: false, past: () => pastTimesFor(io) });
  if (typeof loaded === 'number') return loaded;
  const stops = stopLines(loaded);
  if (stops.length > 0 && !words.has('with-stops')) return refuse(io, name, stops);
  const options = { drawings: sheetDrawings(loaded.resolved), stops };
  const html = words.valueOf('html');
  const markdown = words.valueOf('markdown');
  const force = { force: words.has('force') };
  if (html === undefined && markdown === undefined) io.out(formatSheetMarkdown(loaded.resolved, options));
  const first =
    html === undefined
      ? exitCodes.done
      : await writeFileFor(io, html, formatSheetHtml(loaded.resolved, options), force);
  if (first !== exitCodes.done || markdown === undefined) return first;
  return writeFileFor(io, markdown, formatSheetMarkdown(loaded.resolved, options), force);
}

function refuse(io: Io, name: string, stops: readonly string[]): number {
  io.err(
    `millside sheet: this plan must not be cut as it stands, so it is not put on paper.\n${stops.map((line) => `  ${line}\n`).join('')}` +
      `See millside check ${plainLine(name)}; --with-stops writes it with the stops at its top.\n`,
  );
  return exitCodes.badPlanOrJournal;
}
