/**
 * `millside rehearse PLAN`: the batch played at speed by an invented operator, then its report. It touches no real batch and
 * says so before and after; `--json` gives the report alone, with `"rehearsal": true`.
 */

import { cellAt, placeAt } from '../batch/flow.ts';
import { rehearse, seededChance } from '../batch/rehearsal.ts';
import type { Batch } from '../batch/state.ts';
import { formatReportText } from '../report/forms/text.ts';
import { makeReport } from '../report/make-report.ts';
import { plainLine } from '../report/neutral-text.ts';
import { formatHours } from '../report/time-text.ts';
import { readPastTimes } from '../sitting/history.ts';
import { loadPlan } from '../sitting/plan-loading.ts';
import { loadSettings } from '../sitting/settings.ts';
import { readShopMachines } from '../sitting/shop-machines.ts';
import { makeWorld } from '../sitting/world.ts';
import { isFault } from '../store/fault.ts';
import { readWords } from './arguments.ts';
import { exitCodes } from './exit-codes.ts';
import { type Io, writeJson } from './io.ts';
import { stopsAbove } from './plan-stops.ts';
import { sayFault, sayProblems } from './say.ts';
import { openingOf } from './services.ts';

const seed = 20_260_301;

export async function runRehearse(args: readonly string[], io: Io): Promise<number> {
  const words = readWords('rehearse', args, [1, 1], io);
  if (typeof words === 'number') return words;
  const name = words.names[0] ?? '';
  const world = makeWorld(io.env);
  const settings = loadSettings(world.configFolder).values;
  const loaded = await loadPlan(world.disk, name, readShopMachines(settings.machines), () => readPastTimes(world));
  if (isFault(loaded)) return sayFault(io, loaded);
  if (loaded.kind === 'problems') {
    sayProblems(io, loaded, name);
    return exitCodes.badPlanOrJournal;
  }
  io.err(stopsAbove(loaded, name));
  const { kind: _, ...opening } = openingOf(loaded, name, world, settings);
  const played = rehearse(opening, world.clock.now(), seededChance(seed));
  const report = makeReport(played.state, played.ended, { batch: 'rehearsal', settings: settings.report });
  if (words.has('json')) {
    writeJson(io, { ...report, rehearsal: true });
    return exitCodes.done;
  }
  const banner = 'REHEARSAL: an invented operator, invented times; no real batch is touched.';
  io.out(`${banner}\n\n${plainLine(loaded.resolved.job)}\n${linesOf(played.state).join('\n')}\n\n`);
  io.out(`${formatReportText(report, { columns: Math.min(io.columns, 100) })}\n${banner}\n`);
  return exitCodes.done;
}

function linesOf(batch: Batch): readonly string[] {
  return batch.cells.map((_, at) => {
    const cell = cellAt(batch, at);
    const { operation } = placeAt(batch, at);
    const name = `op ${cell.operation} ${operation.title}${cell.lane === '*' ? '' : ` (${cell.lane})`}`;
    const scrap = cell.scrap === 0 ? '' : `, ${cell.scrap} scrap`;
    return `  ${plainLine(name).padEnd(46)}${String(cell.good).padStart(4)} good${scrap}, run ${formatHours(cell.accounts.run / 1000)}`;
  });
}
