/**
 * Cap screws with hexagon socket: heads, and counterbores that clear them. A counterbore must clear the knurled head, which
 * is larger than the plain one.
 */
export interface MetricCapHeadRow {
  readonly size: string;
  readonly plainMaxMm: number;
  readonly knurledMaxMm: number;
  readonly heightMm: number;
  /** Hexagon key. */
  readonly keyMm: number;
  readonly counterboreMm: number;
  readonly counterboreDepthMm: number;
}

/** Source of heads: ISO 4762; of counterbores: DIN 974-1, series 1 (M3: 6.0 mm, where several charts say 6.5). */
export const METRIC_CAP_HEADS: readonly MetricCapHeadRow[] = [
  {
    size: 'M1.6',
    plainMaxMm: 3.0,
    knurledMaxMm: 3.14,
    heightMm: 1.6,
    keyMm: 1.5,
    counterboreMm: 3.5,
    counterboreDepthMm: 1.7,
  },
  {
    size: 'M2',
    plainMaxMm: 3.8,
    knurledMaxMm: 3.98,
    heightMm: 2,
    keyMm: 1.5,
    counterboreMm: 4.3,
    counterboreDepthMm: 2.1,
  },
  {
    size: 'M2.5',
    plainMaxMm: 4.5,
    knurledMaxMm: 4.68,
    heightMm: 2.5,
    keyMm: 2,
    counterboreMm: 5,
    counterboreDepthMm: 3.0,
  },
  {
    size: 'M3',
    plainMaxMm: 5.5,
    knurledMaxMm: 5.68,
    heightMm: 3,
    keyMm: 2.5,
    counterboreMm: 6,
    counterboreDepthMm: 3.4,
  },
  { size: 'M4', plainMaxMm: 7, knurledMaxMm: 7.22, heightMm: 4, keyMm: 3, counterboreMm: 8, counterboreDepthMm: 4.4 },
  {
    size: 'M5',
    plainMaxMm: 8.5,
    knurledMaxMm: 8.72,
    heightMm: 5,
    keyMm: 4,
    counterboreMm: 10,
    counterboreDepthMm: 5.4,
  },
  {
    size: 'M6',
    plainMaxMm: 10,
    knurledMaxMm: 10.22,
    heightMm: 6,
    keyMm: 5,
    counterboreMm: 11,
    counterboreDepthMm: 6.4,
  },
  {
    size: 'M8',
    plainMaxMm: 13,
    knurledMaxMm: 13.27,
    heightMm: 8,
    keyMm: 6,
    counterboreMm: 15,
    counterboreDepthMm: 8.6,
  },
  {
    size: 'M10',
    plainMaxMm: 16,
    knurledMaxMm: 16.27,
    heightMm: 10,
    keyMm: 8,
    counterboreMm: 18,
    counterboreDepthMm: 10.6,
  },
  {
    size: 'M12',
    plainMaxMm: 18,
    knurledMaxMm: 18.27,
    heightMm: 12,
    keyMm: 10,
    counterboreMm: 20,
    counterboreDepthMm: 12.6,
  },
  {
    size: 'M14',
    plainMaxMm: 21,
    knurledMaxMm: 21.33,
    heightMm: 14,
    keyMm: 12,
    counterboreMm: 24,
    counterboreDepthMm: 14.6,
  },
  {
    size: 'M16',
    plainMaxMm: 24,
    knurledMaxMm: 24.33,
    heightMm: 16,
    keyMm: 14,
    counterboreMm: 26,
    counterboreDepthMm: 16.6,
  },
  {
    size: 'M20',
    plainMaxMm: 30,
    knurledMaxMm: 30.33,
    heightMm: 20,
    keyMm: 17,
    counterboreMm: 33,
    counterboreDepthMm: 20.6,
  },
  {
    size: 'M24',
    plainMaxMm: 36,
    knurledMaxMm: 36.39,
    heightMm: 24,
    keyMm: 19,
    counterboreMm: 40,
    counterboreDepthMm: 24.8,
  },
];

export interface InchCapHeadRow {
  readonly size: string;
  readonly headMaxIn: number;
  readonly heightIn: number;
  /** Counterbore of common practice, from memory of the appendix of ASME B18.3. */
  readonly counterbore: string;
}

/** Source of heads: ASME B18.3, table 1A (largest, knurled included); counterbores from memory. */
export const INCH_CAP_HEADS: readonly InchCapHeadRow[] = [
  { size: 'no. 0', headMaxIn: 0.096, heightIn: 0.06, counterbore: '1/8 in' },
  { size: 'no. 2', headMaxIn: 0.14, heightIn: 0.086, counterbore: '3/16 in' },
  { size: 'no. 4', headMaxIn: 0.183, heightIn: 0.112, counterbore: '7/32 in' },
  { size: 'no. 5', headMaxIn: 0.205, heightIn: 0.125, counterbore: '1/4 in' },
  { size: 'no. 6', headMaxIn: 0.226, heightIn: 0.138, counterbore: '9/32 in' },
  { size: 'no. 8', headMaxIn: 0.27, heightIn: 0.164, counterbore: '5/16 in' },
  { size: 'no. 10', headMaxIn: 0.312, heightIn: 0.19, counterbore: '3/8 in' },
  { size: '1/4', headMaxIn: 0.375, heightIn: 0.25, counterbore: '7/16 in' },
  { size: '5/16', headMaxIn: 0.469, heightIn: 0.3125, counterbore: '17/32 in' },
  { size: '3/8', headMaxIn: 0.562, heightIn: 0.375, counterbore: '5/8 in' },
  { size: '1/2', headMaxIn: 0.75, heightIn: 0.5, counterbore: '13/16 in' },
];
