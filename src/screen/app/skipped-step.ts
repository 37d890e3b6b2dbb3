/** A first-off that was passed over is left at that, with a reason for the report. */
import { firstOffsSkipped } from '../../batch/questions/skipped.ts';
import type { Batch } from '../../batch/state.ts';
import type { Step } from '../flow/flow.ts';
import { choice, close, open, ownReasonStep, send } from './steps.ts';

const whyNot = ['measured with another gauge', 'same setup as before', 'it does not matter there'] as const;

/** Which one, where there are several; then why. */
export function skippedStep(batch: Batch): Step {
  const skipped = batch.current === null ? [] : firstOffsSkipped(batch, batch.current);
  const why = (check: string, title: string): Step =>
    ownReasonStep('WHY IS IT NOT MEASURED?', whyNot, (reason) => send({ kind: 'takeSkip', check, reason }), [
      `First-off: ${title}. Nothing reminds of it from here on; the report keeps it.`,
    ]);
  const steps = skipped.map(({ check }) => ({ label: check.title, step: why(check.id, check.title) }));
  const [only] = steps;
  if (only === undefined) return choice('NO FIRST-OFF IS SKIPPED HERE', [{ label: 'go back', next: close }]);
  return steps.length === 1
    ? only.step
    : choice(
        'WHICH FIRST-OFF?',
        steps.map(({ label, step }) => ({ label, next: open(step) })),
      );
}
