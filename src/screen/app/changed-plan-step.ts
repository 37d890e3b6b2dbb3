/** Taking up a changed plan file: first what changes, then yes or no. P7: it is never applied without a yes. */
import type { Step } from '../flow/flow.ts';
import type { PlanChange } from './services.ts';
import { choice, close, send } from './steps.ts';

/** Sentences shown beside the question; the rest is behind a line of its own. */
const mostBeside = 5;

/** The list of what changes with yes, no, and all of it where it is long. */
export function changedPlanStep({ sha256, changes }: PlanChange): Step {
  const few = changes.slice(0, mostBeside);
  const rest = changes.length - few.length;
  // A small screen has no room for all of them beside the question.
  const isList = changes.length > 1;
  const about = [
    ...(changes.length === 0 ? ['Only words around the numbers differ; nothing that is made does.'] : few),
    ...(rest > 0 ? [`and ${rest} more: 4 shows all`] : []),
    '',
  ];
  return choice(
    'TAKE UP THE CHANGED PLAN?',
    [
      { label: 'not now', next: close },
      { label: 'yes: go on by the changed plan', next: { kind: 'do', action: { kind: 'amend', sha256 } } },
      {
        label: 'no: keep the plan; not mentioned again',
        next: send({ kind: 'declineAmendment', planSha256: sha256 }),
      },
      ...(isList
        ? [
            {
              label: 'show all that changes',
              next: { kind: 'do', action: { kind: 'lines', title: 'WHAT CHANGES', lines: changes } },
            } as const,
          ]
        : []),
    ],
    about,
  );
}
