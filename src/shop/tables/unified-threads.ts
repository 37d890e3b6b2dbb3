/**
 * Unified inch threads with their published internal minor limits of class 2B and the drill of the usual charts.
 *
 * Source of limits: ASME B1.1, class 2B (four places below no. 6, three from there: the standard's own rounding, kept as
 * printed). Source of drills: the usual inch tap-drill charts (common practice). Rows with `confirmed: false` carry limits
 * from memory of ASME B1.1; each agrees within 0.0006 in with the tolerance formula of that standard, as the tests show.
 */
export interface UnifiedThreadRow {
  readonly size: string;
  readonly majorIn: number;
  readonly threadsPerInch: number;
  readonly minor2bIn: readonly [min: number, max: number];
  readonly tapDrill: string;
  /** Other drills that charts give, kept even where one lies a hair above the 2B maximum. */
  readonly otherDrills?: readonly string[];
  readonly confirmed: boolean;
}

/** Unified coarse. */
export const UNC: readonly UnifiedThreadRow[] = [
  {
    size: 'no. 1',
    majorIn: 0.073,
    threadsPerInch: 64,
    minor2bIn: [0.0561, 0.0623],
    tapDrill: 'no. 53',
    confirmed: false,
  },
  {
    size: 'no. 2',
    majorIn: 0.086,
    threadsPerInch: 56,
    minor2bIn: [0.0667, 0.0737],
    tapDrill: 'no. 50',
    confirmed: true,
  },
  {
    size: 'no. 3',
    majorIn: 0.099,
    threadsPerInch: 48,
    minor2bIn: [0.0764, 0.0845],
    tapDrill: 'no. 47',
    confirmed: true,
  },
  {
    size: 'no. 4',
    majorIn: 0.112,
    threadsPerInch: 40,
    minor2bIn: [0.0849, 0.0939],
    tapDrill: 'no. 43',
    confirmed: true,
  },
  {
    size: 'no. 5',
    majorIn: 0.125,
    threadsPerInch: 40,
    minor2bIn: [0.0979, 0.1062],
    tapDrill: 'no. 38',
    confirmed: true,
  },
  { size: 'no. 6', majorIn: 0.138, threadsPerInch: 32, minor2bIn: [0.104, 0.114], tapDrill: 'no. 36', confirmed: true },
  { size: 'no. 8', majorIn: 0.164, threadsPerInch: 32, minor2bIn: [0.13, 0.139], tapDrill: 'no. 29', confirmed: true },
  { size: 'no. 10', majorIn: 0.19, threadsPerInch: 24, minor2bIn: [0.145, 0.156], tapDrill: 'no. 25', confirmed: true },
  {
    size: 'no. 12',
    majorIn: 0.216,
    threadsPerInch: 24,
    minor2bIn: [0.171, 0.181],
    tapDrill: 'no. 16',
    confirmed: false,
  },
  { size: '1/4', majorIn: 0.25, threadsPerInch: 20, minor2bIn: [0.196, 0.207], tapDrill: 'no. 7', confirmed: true },
  {
    size: '5/16',
    majorIn: 0.3125,
    threadsPerInch: 18,
    minor2bIn: [0.252, 0.265],
    tapDrill: 'letter F',
    confirmed: false,
  },
  { size: '3/8', majorIn: 0.375, threadsPerInch: 16, minor2bIn: [0.307, 0.321], tapDrill: '5/16 in', confirmed: true },
  {
    size: '7/16',
    majorIn: 0.4375,
    threadsPerInch: 14,
    minor2bIn: [0.36, 0.376],
    tapDrill: 'letter U',
    confirmed: true,
  },
  // biome-ignore lint/suspicious/noApproximativeNumericConstant: a published limit of ASME B1.1, no logarithm
  { size: '1/2', majorIn: 0.5, threadsPerInch: 13, minor2bIn: [0.417, 0.434], tapDrill: '27/64 in', confirmed: true },
  {
    size: '9/16',
    majorIn: 0.5625,
    threadsPerInch: 12,
    minor2bIn: [0.472, 0.49],
    tapDrill: '31/64 in',
    confirmed: false,
  },
  {
    size: '5/8',
    majorIn: 0.625,
    threadsPerInch: 11,
    minor2bIn: [0.527, 0.546],
    tapDrill: '17/32 in',
    confirmed: false,
  },
  { size: '3/4', majorIn: 0.75, threadsPerInch: 10, minor2bIn: [0.642, 0.663], tapDrill: '21/32 in', confirmed: false },
];

/** Unified fine. The 33/64 and 37/64 drills of many charts lie 0.0006 and 0.0001 in above the 2B maximum. */
export const UNF: readonly UnifiedThreadRow[] = [
  {
    size: 'no. 0',
    majorIn: 0.06,
    threadsPerInch: 80,
    minor2bIn: [0.0465, 0.0514],
    tapDrill: '3/64 in',
    confirmed: true,
  },
  {
    size: 'no. 1',
    majorIn: 0.073,
    threadsPerInch: 72,
    minor2bIn: [0.058, 0.0635],
    tapDrill: 'no. 53',
    confirmed: true,
  },
  {
    size: 'no. 2',
    majorIn: 0.086,
    threadsPerInch: 64,
    minor2bIn: [0.0691, 0.0753],
    tapDrill: 'no. 50',
    confirmed: false,
  },
  {
    size: 'no. 3',
    majorIn: 0.099,
    threadsPerInch: 56,
    minor2bIn: [0.0797, 0.0865],
    tapDrill: 'no. 45',
    confirmed: false,
  },
  {
    size: 'no. 4',
    majorIn: 0.112,
    threadsPerInch: 48,
    minor2bIn: [0.0894, 0.0968],
    tapDrill: 'no. 42',
    confirmed: true,
  },
  {
    size: 'no. 5',
    majorIn: 0.125,
    threadsPerInch: 44,
    minor2bIn: [0.1004, 0.1079],
    tapDrill: 'no. 37',
    confirmed: false,
  },
  {
    size: 'no. 6',
    majorIn: 0.138,
    threadsPerInch: 40,
    minor2bIn: [0.111, 0.119],
    tapDrill: 'no. 33',
    confirmed: false,
  },
  { size: 'no. 8', majorIn: 0.164, threadsPerInch: 36, minor2bIn: [0.134, 0.142], tapDrill: 'no. 29', confirmed: true },
  { size: 'no. 10', majorIn: 0.19, threadsPerInch: 32, minor2bIn: [0.156, 0.164], tapDrill: 'no. 21', confirmed: true },
  {
    size: 'no. 12',
    majorIn: 0.216,
    threadsPerInch: 28,
    minor2bIn: [0.177, 0.186],
    tapDrill: 'no. 14',
    confirmed: true,
  },
  { size: '1/4', majorIn: 0.25, threadsPerInch: 28, minor2bIn: [0.211, 0.22], tapDrill: 'no. 3', confirmed: false },
  {
    size: '5/16',
    majorIn: 0.3125,
    threadsPerInch: 24,
    minor2bIn: [0.267, 0.277],
    tapDrill: 'letter I',
    confirmed: false,
  },
  { size: '3/8', majorIn: 0.375, threadsPerInch: 24, minor2bIn: [0.33, 0.34], tapDrill: 'letter Q', confirmed: false },
  {
    size: '7/16',
    majorIn: 0.4375,
    threadsPerInch: 20,
    minor2bIn: [0.383, 0.395],
    tapDrill: '25/64 in',
    confirmed: false,
  },
  { size: '1/2', majorIn: 0.5, threadsPerInch: 20, minor2bIn: [0.446, 0.457], tapDrill: '29/64 in', confirmed: false },
  {
    size: '9/16',
    majorIn: 0.5625,
    threadsPerInch: 18,
    minor2bIn: [0.502, 0.515],
    tapDrill: '13 mm',
    otherDrills: ['33/64 in'],
    confirmed: false,
  },
  {
    size: '5/8',
    majorIn: 0.625,
    threadsPerInch: 18,
    minor2bIn: [0.565, 0.578],
    tapDrill: '14.5 mm',
    otherDrills: ['37/64 in'],
    confirmed: false,
  },
  { size: '3/4', majorIn: 0.75, threadsPerInch: 16, minor2bIn: [0.682, 0.696], tapDrill: '11/16 in', confirmed: false },
];

/**
 * Clearance drills by size: close, normal, loose. Source: ASME B18.2.8; no. 12 and 9/16 are not in that standard. 5/8 and
 * 3/4 from memory of it.
 */
export const CLEARANCE_B18_2_8: Readonly<Record<string, readonly [close: string, normal: string, loose: string]>> = {
  'no. 0': ['no. 51', 'no. 48', '3/32 in'],
  'no. 1': ['no. 46', 'no. 43', 'no. 37'],
  'no. 2': ['3/32 in', 'no. 38', 'no. 32'],
  'no. 3': ['no. 36', 'no. 32', 'no. 30'],
  'no. 4': ['no. 31', 'no. 30', 'no. 27'],
  'no. 5': ['9/64 in', '5/32 in', '11/64 in'],
  'no. 6': ['no. 23', 'no. 18', 'no. 13'],
  'no. 8': ['no. 15', 'no. 9', 'no. 3'],
  'no. 10': ['no. 5', 'no. 2', 'letter B'],
  '1/4': ['17/64 in', '9/32 in', '19/64 in'],
  '5/16': ['21/64 in', '11/32 in', '23/64 in'],
  '3/8': ['25/64 in', '13/32 in', '27/64 in'],
  '7/16': ['29/64 in', '15/32 in', '31/64 in'],
  '1/2': ['17/32 in', '9/16 in', '39/64 in'],
  '5/8': ['21/32 in', '11/16 in', '3/4 in'],
  '3/4': ['25/32 in', '13/16 in', '29/32 in'],
};
