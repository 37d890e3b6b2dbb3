/**
 * `millside report [BATCH]`: the time report of a batch, finished or running, as text, JSON or files. The JSON shape is the
 * model of src/report/model.ts (reportSchema), its times ISO 8601 with offset, its spans in seconds. The text ends with the
 * lines that matter: each operation and the batch against last time.
 */

import { batchEndLine, operationEndLine } from '../report/end-lines.ts';
import { formatLoadsCsv, formatReportCsv } from '../report/forms/csv.ts';
import { formatReportJson } from '../report/forms/json.ts';
import { formatReportMarkdown } from '../report/forms/markdown.ts';
import { formatReportHtml } from '../report/forms/page.ts';
import { formatReportText } from '../report/forms/text.ts';
import { makeReport } from '../report/make-report.ts';
import type { ReportModel } from '../report/model.ts';
import { plainLine } from '../report/neutral-text.ts';
import { rowName } from '../report/row-names.ts';
import { lastTimeOf, medianLastTime, readPastBatchesOrNone, workLastTime } from '../sitting/history.ts';
import { lookAtBatch } from '../sitting/opening.ts';
import { loadSettings } from '../sitting/settings.ts';
import { makeWorld, type World } from '../sitting/world.ts';
import { isFault } from '../store/fault.ts';
import { readWords } from './arguments.ts';
import { batchNamed } from './batch-words.ts';
import { exitCodes } from './exit-codes.ts';
import type { Io } from './io.ts';
import { sayDamage, sayFault } from './say.ts';
import { writeBack } from './write-back.ts';
import { writeFileFor } from './written-file.ts';

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
  const force = { force: words.has('force') };
  const files = forms.flatMap(([flag, format]) => {
    const path = words.valueOf(flag);
    return path === undefined ? [] : [{ path, content: format(model) }];
  });
  for (const { path, content } of files) {
    const code = await writeFileFor(io, path, content, force);
    if (code !== exitCodes.done) return code;
  }
  const plan = words.valueOf('write-back');
  if (words.has('json')) io.out(formatReportJson(model));
  else if (files.length === 0 && plan === undefined) await sayReport(world, io, model);
  return plan === undefined ? exitCodes.done : writeBack(io, model, plan, force);
}

async function sayReport(world: World, io: Io, model: ReportModel): Promise<void> {
  io.out(formatReportText(model, { columns: Math.min(io.columns, 100) }));
  const { summaries } = await readPastBatchesOrNone(world);
  const lines = endLines(model, lastTimeOf(summaries, model.plan.id, model.batch));
  io.out(`\nIN SHORT\n${lines.map((line) => `${plainLine(line)}\n`).join('')}`);
}

/** What each operation with a count and the batch come to, against the newest finished batch of the plan. */
function endLines(model: ReportModel, then: Parameters<typeof workLastTime>[0]): readonly string[] {
  const counted = model.operations.filter((row) => row.good + row.scrap > 0);
  return [
    ...counted.map((row) => `${rowName(row)}: ${operationEndLine(row, medianLastTime(then, row.operation, row.lane))}`),
    `${model.job}: ${batchEndLine(model, workLastTime(then))}`,
  ];
}
