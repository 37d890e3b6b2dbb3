/** How to load what runs a subcommand: only the one that is asked for is read from disk. */
import type { Io } from './io.ts';

export type Runner = (args: readonly string[], io: Io) => Promise<number> | number;

export const runners: Readonly<Record<string, () => Promise<Runner>>> = {
  check: async () => (await import('./check.ts')).runCheck,
  sheet: async () => (await import('./sheet.ts')).runSheet,
  bars: async () => (await import('./bars.ts')).runBars,
  new: async () => (await import('./new-plan.ts')).runNew,
  settings: async () => (await import('./settings.ts')).runSettings,
  completions: async () => (await import('./completions.ts')).runCompletions,
  'man-page': async () => (await import('./man-page.ts')).runManPage,
  steps: async () => (await import('./steps.ts')).runSteps,
  batches: async () => (await import('./batches.ts')).runBatches,
  status: async () => (await import('./status.ts')).runStatus,
  report: async () => (await import('./report.ts')).runReport,
  rehearse: async () => (await import('./rehearse.ts')).runRehearse,
  reckon: async () => (await import('./reckon/run-reckon.ts')).runReckon,
};
