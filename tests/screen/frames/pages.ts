/** Pages and questions over a batch, each reached by its keys on the controller: what a batch played alone does not show. */
import type { Instant } from '../../../src/batch/instant.ts';
import { planChanges } from '../../../src/batch/plan-changes.ts';
import type { BatchState } from '../../../src/batch/state.ts';
import { followBatch } from '../../../src/forecast/batch-forecast.ts';
import { groundLines, outlookAt } from '../../../src/forecast/outlook.ts';
import { type Supposition, supposeAt, supposedLines } from '../../../src/forecast/suppose.ts';
import { formatReportText } from '../../../src/report/forms/text.ts';
import { makeReport } from '../../../src/report/make-report.ts';
import type { Offer, Services } from '../../../src/screen/app/services.ts';
import type { AppState } from '../../../src/screen/app/state.ts';
import { line, type MenuLine } from '../../menu-lines.ts';
import { makeRig, type Rig } from '../app/rig.ts';
import { stillServices } from './draw-frame.ts';
import { everyKindPlan } from './every-kind-plan.ts';

export type PageShot = { readonly name: string; readonly app: AppState };

type Keys = readonly (string | MenuLine)[];

const menu = (...lines: readonly string[]): Keys => ['/', ...lines.map(line)];

/** A check that fails, the stop set right, a note of it. */
const toTroubles: Keys = [
  ...['3', '.', '2', 'enter'],
  ...menu('machine:', 'correct a target', 'stop length'),
  ...['6', '1', '.', '2', 'enter', 'enter'],
  ...['e', 'b', 'u', 'r', 'r', 'enter'],
];

/** Each page with the keys that lead to it from the work at hand. */
const pages: readonly (readonly [string, Keys])[] = [
  ['menu', menu()],
  ['menu: pieces', menu('pieces:')],
  ['menu: machine', menu('machine:')],
  ['menu: work', menu('work:')],
  ['menu: show', menu('show:')],
  ['menu: batch', menu('batch:')],
  ['menu: screen', menu('screen:')],
  ['what if', menu('show:', 'what if:')],
  ['what if: a time being typed', [...menu('show:', 'what if:', 'if I stop'), '2', '1', '3', '0']],
  ['what if: no time of day', [...menu('show:', 'what if:', 'if I stop'), '2', '5', '0', '0', 'enter']],
  ['what if: I stop at 21:30', [...menu('show:', 'what if:', 'if I stop'), '2', '1', '3', '0', 'enter']],
  ['what if: 6 more', [...menu('show:', 'what if:', 'if I make more'), '6', 'enter']],
  ['when it ends', menu('show:', 'when it ends')],
  ['report so far', menu('show:', 'report so far')],
  ['cautions', menu('show:', 'cautions')],
  ['handover', [...menu('work:', 'initials'), 'A', 'B', 'enter']],
  ['handover with a correction, a note and suspects', [...toTroubles, ...menu('work:', 'initials'), 'A', 'B', 'enter']],
  ['changed plan', menu('batch:', 'the changed plan')],
  ['changed plan: all that changes', menu('batch:', 'the changed plan', 'show all')],
  ['keys', ['?']],
  ['keys, leafed on', ['?', 'down', 'down', 'down']],
  ['pedal: press it now', menu('screen:', 'the pedal')],
  ['another key: which command', menu('screen:', 'change another key')],
  ['another key: where', [...menu('screen:', 'change another key'), '1']],
  ['another key: press it', [...menu('screen:', 'change another key'), '1', '1']],
  ['another key: refused', [...menu('screen:', 'change another key'), '1', '1', 'escape', '1', 'p']],
];

/** The plan with so much changed that the list is longer than the question shows. */
const changedPlan = {
  ...everyKindPlan,
  operations: everyKindPlan.operations.map((one) => ({ ...one, title: `${one.title} again` })),
};
const changes = planChanges(everyKindPlan, changedPlan);

/** Forecast and report as they are, over the batch in memory. */
const realServices: Partial<Services> = {
  planChange: () => ({ sha256: 'f'.repeat(64), changes }),
  report: (state, id, columns) =>
    state.kind === 'none'
      ? []
      : formatReportText(makeReport(state, stillServices(900).now(), { batch: id }), { columns }).split('\n'),
  outlook: (state, now) => ({ ...stillServices().outlook(state, now), grounds: grounds(state, now) }),
  suppose: (state, now, question) => supposed(state, now, question),
};

function grounds(state: BatchState, now: Instant): readonly string[] {
  if (state.kind === 'none') return [];
  const followed = followBatch(null, state);
  return groundLines(followed, outlookAt(followed, state, now), now);
}

function supposed(state: BatchState, now: Instant, question: Supposition): readonly string[] {
  if (state.kind === 'none') return [];
  const followed = followBatch(null, state);
  return supposedLines(followed, supposeAt(followed, state, outlookAt(followed, state, now), { now, question }), now);
}

/** Every page at a width: the report and the list of keys are made for it. */
export async function pagesAt(columns: number): Promise<readonly PageShot[]> {
  const rigAt = (): Promise<Rig> => makeRig(everyKindPlan, { columns: () => columns }, { services: realServices });
  const shots: PageShot[] = [];
  for (const [name, keys] of pages) {
    const rig = await rigAt();
    // Two pieces are made, so that there is something to report.
    await rig.press(['enter', '3', '.', '0', '0', 'enter', 'enter'], 30);
    await rig.press(keys);
    shots.push({ name, app: rig.controller.read() });
  }
  const trial = await rigAt();
  shots.push({ name: 'digit-size trial', app: { ...trial.controller.read(), isTrial: true } });
  shots.push({ name: 'which job', app: { ...trial.controller.read(), isTrial: false, stage: choosing } });
  shots.push({ name: 'report at the end', app: await reportAtEnd(await rigAt()) });
  return shots;
}

/** The list as the command line makes it: batches first, then plans. */
const offers: readonly Offer[] = [
  {
    kind: 'batch',
    id: 'k3v9',
    title: 'go on: Keeper plates',
    about: 'at op 30, 12 of 40 pieces finished; nobody has it open',
  },
  { kind: 'plan', path: 'jobs/hinge-straps.yaml', title: 'new: Hinge straps', about: 'jobs/hinge-straps.yaml' },
];
const choosing: AppState['stage'] = { kind: 'choose', offers, chosen: 0 };

/** The batch made to its end with the one key, then its report. */
async function reportAtEnd(rig: Rig): Promise<AppState> {
  for (let key = 0; key < 400 && rig.batch().kind === 'open'; key += 1) await rig.press(['enter'], 20);
  await rig.press(['down']);
  return rig.controller.read();
}
