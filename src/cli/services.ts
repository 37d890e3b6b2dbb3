/** What the screen asks of the floors below, over this computer's disk and clock (see screen/app/services.ts). */
import { resolve } from 'node:path';
import type { Amendment } from '../batch/decide/amending.ts';
import type { EventOf } from '../batch/events.ts';
import type { Instant } from '../batch/instant.ts';
import { planChanges } from '../batch/plan-changes.ts';
import { shopClock } from '../forecast/calendar.ts';
import { checkPlan } from '../plan/checks/check-plan.ts';
import type { Finding } from '../plan/checks/finding.ts';
import { formatProblem } from '../plan/read/problem.ts';
import { readPlan } from '../plan/read/read-plan.ts';
import { formatReportText } from '../report/forms/text.ts';
import { makeReport } from '../report/make-report.ts';
import type { Begun, Offer, Services } from '../screen/app/services.ts';
import type { OwnKeys } from '../screen/keys/binding-table.ts';
import { readPastTimes } from '../sitting/history.ts';
import { makeLookingOn } from '../sitting/looking-on.ts';
import { beginBatch, openBatch } from '../sitting/opening.ts';
import { type LoadedPlan, loadPlan } from '../sitting/plan-loading.ts';
import { type PlanWatch, planSightWords } from '../sitting/plan-watch.ts';
import { type Settings, settingsSchema } from '../sitting/settings.ts';
import { readShopMachines, type ShopMachines } from '../sitting/shop-machines.ts';
import type { World } from '../sitting/world.ts';
import { listBatches, makeBatchId } from '../store/batches.ts';
import { type Fault, isFault } from '../store/fault.ts';
import { openSettings, saveSettings } from '../store/settings.ts';
import { batchRow } from './batches.ts';
import type { BatchRow } from './batches-shape.ts';
import { makeFinishServices } from './finish-services.ts';

export type ServicesOptions = {
  readonly world: World;
  readonly settings: Settings;
  /** Plans to offer besides the batches there are. */
  readonly plans: readonly string[];
  readonly plan: PlanWatch;
};

export function makeServices({ world, settings, plans, plan }: ServicesOptions): Services {
  const by = settings.initials;
  const finish = makeFinishServices(world, settings.report);
  return {
    now: () => world.clock.now(),
    clockText: (now) => clockText(now),
    offers: async () => {
      const entries = await listBatches(world.disk, world.home);
      if (isFault(entries)) return entries;
      const offers: Offer[] = [];
      for (const entry of entries.slice(0, 50)) {
        const row = await batchRow(world, entry);
        if (row.state === 'finished' || row.state === 'given up' || row.job === null) continue;
        offers.push({ kind: 'batch', id: entry.id, title: `go on: ${row.job}`, about: aboutBatch(row) });
      }
      for (const path of plans) {
        const loaded = await loadPlan(world.disk, path, readShopMachines(settings.machines));
        if (!isFault(loaded) && loaded.kind === 'plan') {
          offers.push({ kind: 'plan', path, title: `new: ${loaded.resolved.job}`, about: path });
        }
      }
      return offers;
    },
    open: (id, takeFromOtherHost) => {
      finish.readHistory(id);
      return openBatch(world, id, { takeFromOtherHost, by, amendment: () => amendmentOf(plan) });
    },
    begin: (path, word) => begin(path, word, world, settings),
    planNote: () => planSightWords(plan.sight()),
    planChange: (state) => {
      const amendment = amendmentOf(plan);
      if (state.kind === 'none' || amendment === null) return null;
      return { sha256: amendment.planSha256, changes: planChanges(state.plan, amendment.plan) };
    },
    warnings: makeWarnings(readShopMachines(settings.machines)),
    look: makeLookingOn(world),
    report: (state, id, columns) =>
      state.kind === 'none'
        ? []
        : formatReportText(makeReport(state, world.clock.now(), { batch: id, settings: settings.report }), {
            columns,
          }).split('\n'),
    saveScreenSettings: async (patch) => {
      const values = openSettings(world.configFolder, settingsSchema).values;
      const saved = await saveSettings(world.configFolder, settingsSchema, { screen: { ...values.screen, ...patch } });
      return isFault(saved) ? saved : null;
    },
    saveKeys: async (ownKeys) => {
      const keys = Object.fromEntries(Object.entries(ownKeys).map(([id, places]) => [id, mutableKeys(places)]));
      const saved = await saveSettings(world.configFolder, settingsSchema, { keys });
      return isFault(saved) ? saved : null;
    },
    outlook: finish.outlook,
    suppose: finish.suppose,
    endLine: finish.endLine,
  };
}

/** Example: "at op 30, 12 of 40 pieces finished; nobody has it open". */
function aboutBatch({ at, good, ordered, state }: BatchRow): string {
  const where = at === null ? 'not begun' : `at op ${at.operation}`;
  const who = state === 'left' || state === 'ready' ? 'nobody has it open' : `open elsewhere, ${state}`;
  return `${where}, ${good} of ${ordered} pieces finished; ${who}`;
}

function amendmentOf(plan: PlanWatch): Amendment | null {
  const sight = plan.sight();
  return sight.kind === 'changed' ? sight.amendment : null;
}

async function begin(path: string, word: string | null, world: World, settings: Settings): Promise<Begun | Fault> {
  const machines = readShopMachines(settings.machines);
  const loaded = await loadPlan(world.disk, path, machines, () => readPastTimes(world));
  if (isFault(loaded)) return loaded;
  if (loaded.kind === 'problems') {
    const lines = loaded.problems.map((problem) => formatProblem(problem, loaded.file.text, path));
    return { kind: 'stopped', lines, canBeTaken: false };
  }
  const findings = checkPlan(loaded.plan, loaded.resolved, loaded.positions, machines);
  const stops = findings.filter((one) => one.severity === 'stop');
  if (stops.length > 0 && word === null) return { kind: 'stopped', lines: stops.map(findingLine), canBeTaken: true };
  const overrides = stops.map(({ code, message }) => ({ code, message, reason: word ?? '' }));
  const id = makeBatchId();
  const made = await beginBatch(world, id, settings.initials, openingOf(loaded, path, world, settings, overrides));
  return made ?? { kind: 'begun', id };
}

function findingLine(finding: Finding): string {
  const where = finding.operation === null ? '' : `op ${finding.operation}: `;
  return `${where}${finding.message}${finding.tryThis === '' ? '' : ` Try: ${finding.tryThis}`} (${finding.code})`;
}

/** Findings below a stop, of the plan that the batch keeps; reckoned once a plan. */
function makeWarnings(machines: ShopMachines): Services['warnings'] {
  let sha = '';
  let findings: readonly Finding[] = [];
  return (state, operation) => {
    if (state.kind === 'none') return [];
    if (sha !== state.planSha256) {
      sha = state.planSha256;
      const read = readPlan(state.planText);
      findings = read.ok ? checkPlan(read.plan, state.plan, read.positions, machines) : [];
    }
    return findings.filter((one) => one.operation === operation && one.severity !== 'note').map(findingLine);
  };
}

/** The first event of a batch of this plan, with the hours and the rate as they are now. */
export function openingOf(
  loaded: LoadedPlan,
  path: string,
  world: World,
  settings: Settings,
  overrides: EventOf<'BatchOpened'>['overrides'] = [],
): EventOf<'BatchOpened'> {
  const { file, resolved } = loaded;
  const week = resolved.hours ?? settings.hours?.week ?? null;
  const hours =
    week === null
      ? null
      : { week: { ...week }, daysOff: settings.hours?.daysOff ?? [], changes: settings.hours?.changes ?? [] };
  return {
    kind: 'BatchOpened',
    planText: file.text,
    planSha256: file.sha256,
    planPath: resolve(path),
    plan: resolved,
    zone: world.clock.now().zone,
    hours: hours as EventOf<'BatchOpened'>['hours'],
    rate: resolved.rate ?? settings.report.rate,
    overrides,
  };
}

/** "21:05" by the shop's clock. */
function clockText(now: Instant): string {
  const clock = shopClock(now.zone, now.wall_ms);
  return `${String(clock.hour).padStart(2, '0')}:${String(clock.minute).padStart(2, '0')}`;
}

function mutableKeys(places: OwnKeys[string]): Record<string, string[]> {
  return Object.fromEntries(Object.entries(places).map(([place, keys]) => [place, [...(keys ?? [])]]));
}
