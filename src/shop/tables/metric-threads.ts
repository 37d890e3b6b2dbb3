/**
 * ISO metric threads that a small shop meets, with the drill used before the tap. Everything else follows from major
 * diameter and pitch (threads.ts): flank and minor diameters from ISO 68-1 / ISO 724, 6H limits from ISO 965-1.
 *
 * Source of sizes: ISO 261 / ISO 262. Source of drills: ISO 2306. Rows with `confirmed: false` were completed from the
 * same standards by rule (major diameter less pitch, to the next drill of the standard) and proved against the 6H limits.
 */
export interface MetricThreadRow {
  readonly majorMm: number;
  readonly pitchMm: number;
  readonly tapDrillMm: number;
  /** Other drills that charts give for this thread; each lies inside the 6H limits too. */
  readonly otherDrillsMm?: readonly number[];
  readonly confirmed: boolean;
}

/** Coarse series: the pitch that a bare `M6` means. */
export const METRIC_COARSE: readonly MetricThreadRow[] = [
  { majorMm: 1.6, pitchMm: 0.35, tapDrillMm: 1.25, confirmed: false },
  { majorMm: 2, pitchMm: 0.4, tapDrillMm: 1.6, confirmed: true },
  { majorMm: 2.5, pitchMm: 0.45, tapDrillMm: 2.05, confirmed: true },
  { majorMm: 3, pitchMm: 0.5, tapDrillMm: 2.5, confirmed: true },
  { majorMm: 3.5, pitchMm: 0.6, tapDrillMm: 2.9, confirmed: true },
  { majorMm: 4, pitchMm: 0.7, tapDrillMm: 3.3, confirmed: true },
  { majorMm: 5, pitchMm: 0.8, tapDrillMm: 4.2, confirmed: true },
  { majorMm: 6, pitchMm: 1, tapDrillMm: 5, confirmed: false },
  { majorMm: 7, pitchMm: 1, tapDrillMm: 6, confirmed: false },
  { majorMm: 8, pitchMm: 1.25, tapDrillMm: 6.8, otherDrillsMm: [6.75], confirmed: true },
  { majorMm: 10, pitchMm: 1.5, tapDrillMm: 8.5, confirmed: true },
  { majorMm: 12, pitchMm: 1.75, tapDrillMm: 10.2, otherDrillsMm: [10.25, 10.3], confirmed: true },
  { majorMm: 14, pitchMm: 2, tapDrillMm: 12, otherDrillsMm: [12.1], confirmed: true },
  { majorMm: 16, pitchMm: 2, tapDrillMm: 14, confirmed: true },
  { majorMm: 18, pitchMm: 2.5, tapDrillMm: 15.5, confirmed: true },
  { majorMm: 20, pitchMm: 2.5, tapDrillMm: 17.5, confirmed: false },
  { majorMm: 22, pitchMm: 2.5, tapDrillMm: 19.5, confirmed: false },
  { majorMm: 24, pitchMm: 3, tapDrillMm: 21, confirmed: false },
];

/** Fine pitches. */
export const METRIC_FINE: readonly MetricThreadRow[] = [
  { majorMm: 2.5, pitchMm: 0.35, tapDrillMm: 2.15, confirmed: true },
  { majorMm: 3, pitchMm: 0.35, tapDrillMm: 2.65, confirmed: true },
  { majorMm: 3.5, pitchMm: 0.35, tapDrillMm: 3.15, confirmed: false },
  { majorMm: 4, pitchMm: 0.5, tapDrillMm: 3.5, confirmed: true },
  { majorMm: 5, pitchMm: 0.5, tapDrillMm: 4.5, confirmed: true },
  { majorMm: 6, pitchMm: 0.75, tapDrillMm: 5.2, confirmed: true },
  { majorMm: 8, pitchMm: 0.75, tapDrillMm: 7.2, confirmed: true },
  { majorMm: 8, pitchMm: 1, tapDrillMm: 7, confirmed: false },
  { majorMm: 10, pitchMm: 0.75, tapDrillMm: 9.25, confirmed: false },
  { majorMm: 10, pitchMm: 1, tapDrillMm: 9, confirmed: true },
  { majorMm: 10, pitchMm: 1.25, tapDrillMm: 8.8, confirmed: false },
  { majorMm: 12, pitchMm: 1, tapDrillMm: 11, confirmed: true },
  { majorMm: 12, pitchMm: 1.25, tapDrillMm: 10.8, confirmed: true },
  { majorMm: 12, pitchMm: 1.5, tapDrillMm: 10.5, confirmed: true },
  { majorMm: 14, pitchMm: 1, tapDrillMm: 13, confirmed: false },
  { majorMm: 14, pitchMm: 1.25, tapDrillMm: 12.8, confirmed: false },
  { majorMm: 14, pitchMm: 1.5, tapDrillMm: 12.5, confirmed: true },
  { majorMm: 16, pitchMm: 1, tapDrillMm: 15, confirmed: true },
  { majorMm: 16, pitchMm: 1.5, tapDrillMm: 14.5, confirmed: true },
  { majorMm: 18, pitchMm: 1, tapDrillMm: 17, confirmed: false },
  { majorMm: 18, pitchMm: 1.5, tapDrillMm: 16.5, confirmed: true },
  { majorMm: 18, pitchMm: 2, tapDrillMm: 16, confirmed: false },
  { majorMm: 20, pitchMm: 1, tapDrillMm: 19, confirmed: false },
  { majorMm: 20, pitchMm: 1.5, tapDrillMm: 18.5, confirmed: true },
  { majorMm: 20, pitchMm: 2, tapDrillMm: 18, confirmed: false },
  { majorMm: 22, pitchMm: 1, tapDrillMm: 21, confirmed: false },
  { majorMm: 22, pitchMm: 1.5, tapDrillMm: 20.5, confirmed: true },
  { majorMm: 22, pitchMm: 2, tapDrillMm: 20, confirmed: false },
  { majorMm: 24, pitchMm: 1, tapDrillMm: 23, confirmed: false },
  { majorMm: 24, pitchMm: 1.5, tapDrillMm: 22.5, confirmed: true },
  { majorMm: 24, pitchMm: 2, tapDrillMm: 22, confirmed: true },
];

/**
 * Tolerance of the minor diameter of an internal thread, grade 6 (the 6 of 6H), in mm by pitch. Source: ISO 965-1, table
 * of TD1.
 */
export const MINOR_TOLERANCE_6_MM: Readonly<Record<string, number>> = {
  '0.35': 0.1,
  '0.4': 0.112,
  '0.45': 0.125,
  '0.5': 0.14,
  '0.6': 0.16,
  '0.7': 0.18,
  '0.75': 0.19,
  '0.8': 0.2,
  '1': 0.236,
  '1.25': 0.265,
  '1.5': 0.3,
  '1.75': 0.335,
  '2': 0.375,
  '2.5': 0.45,
  '3': 0.5,
};

/** Clearance holes in mm by nominal diameter of the screw: fine (H12), medium (H13), coarse (H14). Source: ISO 273. */
export const CLEARANCE_ISO_273_MM: Readonly<Record<string, readonly [fine: number, medium: number, coarse: number]>> = {
  '1.6': [1.7, 1.8, 2],
  '2': [2.2, 2.4, 2.6],
  '2.5': [2.7, 2.9, 3.1],
  '3': [3.2, 3.4, 3.6],
  '3.5': [3.7, 3.9, 4.2],
  '4': [4.3, 4.5, 4.8],
  '5': [5.3, 5.5, 5.8],
  '6': [6.4, 6.6, 7],
  '7': [7.4, 7.6, 8],
  '8': [8.4, 9, 10],
  '10': [10.5, 11, 12],
  '12': [13, 13.5, 14.5],
  '14': [15, 15.5, 16.5],
  '16': [17, 17.5, 18.5],
  '18': [19, 20, 21],
  '20': [21, 22, 24],
  '22': [23, 24, 26],
  '24': [25, 26, 28],
};
