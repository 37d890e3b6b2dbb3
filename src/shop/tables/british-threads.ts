/**
 * British threads: BA, Whitworth (coarse BSW, fine BSF) and the model-engineer series (Whitworth form at constant pitch).
 * Flank and minor diameters follow from major diameter and pitch (threads.ts).
 */

export interface BaThreadRow {
  readonly number: number;
  readonly pitchMm: number;
  readonly majorMm: number;
  readonly tapDrillMm: number;
  /** Close clearance hole, from memory. */
  readonly clearanceMm: number;
  /** The nearest number or letter drills that are used instead. */
  readonly tapDrillInch: string;
  readonly clearanceInch: string;
  /** Whether a second source agreed with the tapping drill. */
  readonly confirmed: boolean;
}

/**
 * BA. Source of geometry: BS 93. Drills: trade tapping sizes (common practice); clearance from memory. 7 BA completed from
 * BS 93, its drills from memory.
 */
export const BA: readonly BaThreadRow[] = [
  {
    number: 0,
    pitchMm: 1,
    majorMm: 6,
    tapDrillMm: 5.1,
    clearanceMm: 6.1,
    tapDrillInch: 'no. 10',
    clearanceInch: 'letter C',
    confirmed: true,
  },
  {
    number: 1,
    pitchMm: 0.9,
    majorMm: 5.3,
    tapDrillMm: 4.5,
    clearanceMm: 5.4,
    tapDrillInch: 'no. 17',
    clearanceInch: 'no. 2',
    confirmed: true,
  },
  {
    number: 2,
    pitchMm: 0.81,
    majorMm: 4.7,
    tapDrillMm: 4,
    clearanceMm: 4.8,
    tapDrillInch: 'no. 24',
    clearanceInch: 'no. 12',
    confirmed: true,
  },
  {
    number: 3,
    pitchMm: 0.73,
    majorMm: 4.1,
    tapDrillMm: 3.4,
    clearanceMm: 4.2,
    tapDrillInch: 'no. 29',
    clearanceInch: 'no. 19',
    confirmed: false,
  },
  {
    number: 4,
    pitchMm: 0.66,
    majorMm: 3.6,
    tapDrillMm: 3,
    clearanceMm: 3.7,
    tapDrillInch: 'no. 32',
    clearanceInch: 'no. 27',
    confirmed: true,
  },
  {
    number: 5,
    pitchMm: 0.59,
    majorMm: 3.2,
    tapDrillMm: 2.65,
    clearanceMm: 3.3,
    tapDrillInch: 'no. 37',
    clearanceInch: 'no. 30',
    confirmed: true,
  },
  {
    number: 6,
    pitchMm: 0.53,
    majorMm: 2.8,
    tapDrillMm: 2.3,
    clearanceMm: 2.9,
    tapDrillInch: 'no. 43',
    clearanceInch: 'no. 34',
    confirmed: true,
  },
  {
    number: 7,
    pitchMm: 0.48,
    majorMm: 2.5,
    tapDrillMm: 2.05,
    clearanceMm: 2.6,
    tapDrillInch: 'no. 46',
    clearanceInch: 'no. 37',
    confirmed: false,
  },
  {
    number: 8,
    pitchMm: 0.43,
    majorMm: 2.2,
    tapDrillMm: 1.8,
    clearanceMm: 2.25,
    tapDrillInch: 'no. 50',
    clearanceInch: 'no. 43',
    confirmed: true,
  },
  {
    number: 9,
    pitchMm: 0.39,
    majorMm: 1.9,
    tapDrillMm: 1.55,
    clearanceMm: 1.95,
    tapDrillInch: 'no. 53',
    clearanceInch: 'no. 47',
    confirmed: true,
  },
  {
    number: 10,
    pitchMm: 0.35,
    majorMm: 1.7,
    tapDrillMm: 1.4,
    clearanceMm: 1.75,
    tapDrillInch: 'no. 55',
    clearanceInch: 'no. 50',
    confirmed: true,
  },
];

export interface WhitworthThreadRow {
  readonly size: string;
  readonly majorIn: number;
  readonly threadsPerInch: number;
  readonly tapDrillMm: number;
  /** Clearance hole of trade tables; left out where no table was at hand. */
  readonly clearanceMm?: number;
  readonly confirmed: boolean;
}

/** Whitworth coarse. Source: BS 84 (form and sizes), BS 1157 (drills); unconfirmed rows complete the series from memory of both. */
export const BSW: readonly WhitworthThreadRow[] = [
  { size: '1/8', majorIn: 0.125, threadsPerInch: 40, tapDrillMm: 2.55, clearanceMm: 3.3, confirmed: true },
  { size: '5/32', majorIn: 0.15625, threadsPerInch: 32, tapDrillMm: 3.2, confirmed: false },
  { size: '3/16', majorIn: 0.1875, threadsPerInch: 24, tapDrillMm: 3.7, clearanceMm: 5, confirmed: true },
  { size: '7/32', majorIn: 0.21875, threadsPerInch: 24, tapDrillMm: 4.5, confirmed: false },
  { size: '1/4', majorIn: 0.25, threadsPerInch: 20, tapDrillMm: 5.1, clearanceMm: 6.5, confirmed: true },
  { size: '5/16', majorIn: 0.3125, threadsPerInch: 18, tapDrillMm: 6.5, confirmed: false },
  { size: '3/8', majorIn: 0.375, threadsPerInch: 16, tapDrillMm: 7.9, clearanceMm: 9.8, confirmed: true },
  { size: '7/16', majorIn: 0.4375, threadsPerInch: 14, tapDrillMm: 9.3, confirmed: false },
  { size: '1/2', majorIn: 0.5, threadsPerInch: 12, tapDrillMm: 10.5, confirmed: false },
  { size: '9/16', majorIn: 0.5625, threadsPerInch: 12, tapDrillMm: 12.1, confirmed: false },
  { size: '5/8', majorIn: 0.625, threadsPerInch: 11, tapDrillMm: 13.5, confirmed: false },
  { size: '3/4', majorIn: 0.75, threadsPerInch: 10, tapDrillMm: 16.25, confirmed: false },
];

/** Whitworth fine. Source: BS 84 (form and sizes); drills from memory of BS 1157. */
export const BSF: readonly WhitworthThreadRow[] = [
  { size: '3/16', majorIn: 0.1875, threadsPerInch: 32, tapDrillMm: 4, confirmed: false },
  { size: '7/32', majorIn: 0.21875, threadsPerInch: 28, tapDrillMm: 4.6, confirmed: false },
  { size: '1/4', majorIn: 0.25, threadsPerInch: 26, tapDrillMm: 5.3, confirmed: false },
  { size: '5/16', majorIn: 0.3125, threadsPerInch: 22, tapDrillMm: 6.8, confirmed: false },
  { size: '3/8', majorIn: 0.375, threadsPerInch: 20, tapDrillMm: 8.3, confirmed: false },
  { size: '7/16', majorIn: 0.4375, threadsPerInch: 18, tapDrillMm: 9.7, confirmed: false },
  { size: '1/2', majorIn: 0.5, threadsPerInch: 16, tapDrillMm: 11.1, confirmed: false },
  { size: '9/16', majorIn: 0.5625, threadsPerInch: 16, tapDrillMm: 12.7, confirmed: false },
  { size: '5/8', majorIn: 0.625, threadsPerInch: 14, tapDrillMm: 14, confirmed: false },
  { size: '3/4', majorIn: 0.75, threadsPerInch: 12, tapDrillMm: 16.75, confirmed: false },
];

/**
 * Model-engineer series, common practice. Drills for about 75 % of the depth in steel; unconfirmed rows are computed for that.
 * 3/8 x 40: 8.9 mm, for the 8.7 mm of one list is smaller than the core (8.71 mm).
 * 3/8 x 32: 8.75 mm. Letter Q (.332 in), printed in one chart, is smaller than the core (.335 in) and breaks taps.
 */
export const ME: readonly WhitworthThreadRow[] = [
  { size: '1/8', majorIn: 0.125, threadsPerInch: 40, tapDrillMm: 2.55, confirmed: false },
  { size: '5/32', majorIn: 0.15625, threadsPerInch: 40, tapDrillMm: 3.3, clearanceMm: 4.2, confirmed: true },
  { size: '3/16', majorIn: 0.1875, threadsPerInch: 40, tapDrillMm: 4.1, clearanceMm: 5, confirmed: true },
  { size: '7/32', majorIn: 0.21875, threadsPerInch: 40, tapDrillMm: 5, clearanceMm: 5.8, confirmed: true },
  { size: '1/4', majorIn: 0.25, threadsPerInch: 32, tapDrillMm: 5.6, confirmed: false },
  { size: '1/4', majorIn: 0.25, threadsPerInch: 40, tapDrillMm: 5.8, clearanceMm: 6.6, confirmed: true },
  { size: '9/32', majorIn: 0.28125, threadsPerInch: 32, tapDrillMm: 6.35, clearanceMm: 7.5, confirmed: true },
  { size: '9/32', majorIn: 0.28125, threadsPerInch: 40, tapDrillMm: 6.5, confirmed: false },
  { size: '5/16', majorIn: 0.3125, threadsPerInch: 32, tapDrillMm: 7.15, clearanceMm: 8.2, confirmed: true },
  { size: '5/16', majorIn: 0.3125, threadsPerInch: 40, tapDrillMm: 7.3, confirmed: false },
  { size: '3/8', majorIn: 0.375, threadsPerInch: 32, tapDrillMm: 8.75, confirmed: true },
  { size: '3/8', majorIn: 0.375, threadsPerInch: 40, tapDrillMm: 8.9, confirmed: false },
  { size: '7/16', majorIn: 0.4375, threadsPerInch: 32, tapDrillMm: 10.3, confirmed: false },
  { size: '7/16', majorIn: 0.4375, threadsPerInch: 40, tapDrillMm: 10.5, confirmed: false },
  { size: '1/2', majorIn: 0.5, threadsPerInch: 32, tapDrillMm: 11.9, confirmed: false },
  { size: '1/2', majorIn: 0.5, threadsPerInch: 40, tapDrillMm: 12.1, confirmed: false },
];
