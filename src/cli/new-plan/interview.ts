/**
 * The whole interview. Every operation is proved with the plan so far as soon as it is answered: what a check says stop to is
 * said and asked again, so that what is written passes `check`.
 */
import type { LengthUnit } from '../../shop/units.ts';
import type { ShopMachines } from '../../sitting/shop-machines.ts';
import { askOneOf, type Interview } from './asking.ts';
import { type Draft, type DraftValue, proveDraft } from './draft.ts';
import { askJob, blankOf } from './job-questions.ts';
import { askMachine, askSetup } from './machine-questions.ts';
import { type AddedOperation, askOperation } from './operation-questions.ts';

/** Asks for a plan; `shop` are the machines of the settings. Null when it has no operation. */
export function* interviewPlan(shop: ShopMachines): Interview<Draft | null> {
  const job = yield* askJob();
  const unit = job['units'] as LengthUnit;
  const machine = yield* askMachine(unit, shop);
  const setup = machine.station === 'mill' ? yield* askSetup(unit, machine.key) : null;
  let draft: Draft = {
    ...job,
    machines: {
      ...(machine.described === null ? {} : { [machine.key]: machine.described }),
      bench: { name: 'Bench', station: 'bench' },
    },
    ...(setup === null ? {} : { setups: { vice: setup } }),
    tools: {},
    points: {},
    operations: [],
  };
  const blank = blankOf(job);
  if (blank !== null) draft = yield* askSawing(draft, blank);
  let lastPoints: readonly string[] = [];
  for (;;) {
    const added = yield* askOperation({
      number: 10 * (operationsOf(draft).length + 1),
      unit,
      machine,
      variants: Object.keys((job['variants'] ?? {}) as Draft),
      lastPoints,
      points: Object.keys(draft['points'] as Draft).length,
    });
    if (added === null) return operationsOf(draft).length === 0 ? null : draftWithoutEmpty(draft);
    const next = withOperation(draft, added);
    const { against } = proveDraft(draftWithoutEmpty(next), shop);
    if (against.length > 0) {
      yield { kind: 'say', text: `That will not do:\n${against.map((line) => `  ${line}`).join('\n')}\nOnce more:` };
      continue;
    }
    draft = next;
    lastPoints = (added.operation['points'] as readonly string[] | undefined) ?? lastPoints;
  }
}

const operationsOf = (draft: Draft): readonly DraftValue[] => draft['operations'] as readonly DraftValue[];

function withOperation(draft: Draft, added: AddedOperation): Draft {
  return {
    ...draft,
    tools: { ...(draft['tools'] as Draft), ...added.tools },
    points: { ...(draft['points'] as Draft), ...added.points },
    operations: [...operationsOf(draft), added.operation],
  };
}

/** Sawing the blanks and deburring them, which nearly every plan with stock begins with. */
function* askSawing(draft: Draft, blank: string): Interview<Draft> {
  const yes = yield* askOneOf(`Begin with sawing blanks of ${blank} and deburring them?`, ['yes', 'no'], 'yes');
  if (yes === 'no') return draft;
  return {
    ...draft,
    machines: { ...(draft['machines'] as Draft), saw: { name: 'Saw', station: 'saw' } },
    tools: { blade: { kind: 'saw blade' } },
    operations: [
      { number: '10', title: 'Saw blanks', kind: 'saw', machine: 'saw', tool: 'blade', length: blank },
      { number: '20', title: 'Deburr sawn ends', kind: 'deburr', machine: 'bench' },
    ],
  };
}

/** A section without entries is left out of the file. */
const draftWithoutEmpty = (draft: Draft): Draft =>
  Object.fromEntries(
    Object.entries(draft).filter(([, value]) => typeof value !== 'object' || Object.keys(value).length > 0),
  );
