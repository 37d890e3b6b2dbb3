/** What a run of the screen, or of plain lines, is given by the command line. */
import type { OwnKeys } from '../keys/binding-table.ts';
import type { Theme } from '../theme.ts';
import type { Services, Target } from './services.ts';
import type { OnSecond } from './tell-changes.ts';

export type RunOptions = {
  readonly services: Services;
  readonly target: Target;
  readonly theme: Theme;
  readonly guardMs: number;
  /** Null when nobody has chosen yet. */
  readonly digitRows: number | null;
  /** Whether the distance trial may stand before the first screen. */
  readonly mayTry: boolean;
  readonly bell: boolean;
  readonly hand: 'right' | 'left';
  readonly ownKeys: OwnKeys;
  /** Called each second, for what must be noticed without a key: sleep, a clock step, a changed plan. */
  readonly onSecond: OnSecond;
};
