/**
 * `millside report [BATCH]`: the time report of a batch, finished or running, as text, JSON or files. The JSON shape is the
 * model of src/report/model.ts, its times ISO 8601 with offset, its spans in seconds.
 */
import { resolve } from 'node:path';
import { formatLoadsCsv, formatReportCsv } from '../report/forms/csv.ts';
import { formatReportJson } from '../report/forms/json.ts';
import { formatReportMarkdown } from '../report/forms/markdown.ts';
import { formatReportHtml } from '../report/forms/page.ts';
import { formatReportText } from '../report/forms/text.ts';
import { makeReport } from '../report/make-report.ts';
import type { ReportModel } from '../report/model.ts';
import { lookAtBatch } from '../sitting/opening.ts';
import { loadSettings } from '../sitting/settings.ts';
import { makeWorld, type World } from '../sitting/world.ts';
import { writeExport } from '../store/exports.ts';
import { isFault } from '../store/fault.ts';
import { readWords, type Words } from './arguments.ts';
import { batchNamed } from './batch-words.ts';
import { exitCodes } from './exit-codes.ts';
import type { Io } from './io.ts';
import { sayDamage, sayFault } from './say.ts';

const forms: readonly (readonly [string, (model: ReportModel) => string])[] = [
  ['csv', formatReportCsv],
  ['pieces-csv', formatLoadsCsv],
  ['markdown', formatReportMarkdown],
  ['html', formatReportHtml],
];

export async function runReport(args: readonly string[], io: Io): Promise<number> {
  const words = readWords('report', args, [0, 1], io);
  if (typeof words === 'number') return words;
  const world = makeWorld(io.env);
  const entry = await batchNamed(world, words.names[0]);
  if (isFault(entry)) return sayFault(io, entry);
  const looked = await lookAtBatch(world, entry.id);
  if (isFault(looked)) return sayFault(io, looked);
  if (looked.damage !== undefined) sayDamage(io, looked.damage);
  if (looked.state.kind === 'none') return exitCodes.badPlanOrJournal;
  const settings = loadSettings(world.configFolder).values.report;
  const model = makeReport(looked.state, world.clock.now(), { batch: entry.id, settings });
  const files = forms.flatMap(([flag, format]) => {
    const path = words.valueOf(flag);
    return path === undefined ? [] : [{ path, content: format(model) }];
  });
  for (const { path, content } of files) {
    const code = await writeFile(world, words, io, path, content);
    if (code !== exitCodes.done) return code;
  }
  if (words.has('json')) io.out(formatReportJson(model));
  else if (files.length === 0) io.out(formatReportText(model, { columns: Math.min(io.columns, 100) }));
  return exitCodes.done;
}

async function writeFile(world: World, words: Words, io: Io, path: string, content: string): Promise<number> {
  const written = await writeExport(world.disk, resolve(path), content, { overwrite: words.has('force') });
  if (isFault(written)) return sayFault(io, written);
  io.err(`millside: written ${path}\n`);
  return exitCodes.done;
}
