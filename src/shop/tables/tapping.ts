/** What a blind tapped hole needs below its full thread. */

/**
 * Drilled cylinder beyond the last full thread, in mm by pitch in mm. Source: DIN 76-1, e1, normal.
 */
export const RUN_OUT_DIN_76_MM: readonly (readonly [pitch: number, runOut: number])[] = [
  [0.35, 2.1],
  [0.4, 2.3],
  [0.45, 2.6],
  [0.5, 2.8],
  [0.6, 3.4],
  [0.7, 3.8],
  [0.75, 4.0],
  [0.8, 4.2],
  [1.0, 5.1],
  [1.25, 6.2],
  [1.5, 7.3],
  [1.75, 8.3],
  [2.0, 9.3],
  [2.5, 11.2],
  [3.0, 13.1],
];

export interface TapLeadRow {
  readonly form: string;
  /** Threads of the lead (chamfer). */
  readonly threads: readonly [least: number, most: number];
  readonly use: string;
}

/** Leads of taps. Sources: DIN 2197 (forms A to E), ANSI tap chamfers (taper, plug, bottoming). */
export const TAP_LEADS: readonly TapLeadRow[] = [
  { form: 'form A', threads: [6, 8], use: 'short through holes' },
  { form: 'form B', threads: [3.5, 5.5], use: 'through holes, spiral point' },
  { form: 'form C', threads: [2, 3], use: 'blind holes' },
  { form: 'form D', threads: [3.5, 5], use: 'through or blind with run-out' },
  { form: 'form E', threads: [1.5, 2], use: 'blind, little run-out' },
  { form: 'taper', threads: [7, 10], use: 'starting' },
  { form: 'plug', threads: [3, 5], use: 'general' },
  { form: 'bottoming', threads: [1, 2], use: 'bottoming' },
];
