/** Everything that makes the screen look otherwise is told to one listener: keys, the batch, and the clock once a second. */
import type { BatchState } from '../../batch/state.ts';
import type { Controller } from './controller.ts';

export type SecondCommand = { readonly kind: 'noteSuspend' | 'noteClockStep'; readonly ms: number };
/** Called each second with the batch's state and the way to send what was noticed. */
export type OnSecond = (state: BatchState, send: (command: SecondCommand) => void) => void;

/** Calls `changed` on every change of the controller and of its batch, and each second after `onSecond`. */
export function tellChanges(controller: Controller, changed: () => void, onSecond: OnSecond): void {
  let watched: unknown = null;
  controller.subscribe(() => {
    changed();
    const { stage } = controller.read();
    if (stage.kind !== 'batch' || watched === stage.opened) return;
    watched = stage.opened;
    stage.opened.sitting.subscribe(changed);
  });
  setInterval(() => {
    const { stage } = controller.read();
    if (stage.kind === 'batch') {
      const { sitting } = stage.opened;
      onSecond(sitting.read().state, (command) => void sitting.send(command));
    }
    void controller.lookOn();
    changed();
  }, 1000);
}
