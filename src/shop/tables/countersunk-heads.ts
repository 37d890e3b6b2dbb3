/**
 * Countersunk heads by standard, all of 90 degrees.
 *
 * Old DIN and present ISO heads of one thread differ: DIN 963/965 M4 measures 7.5 mm, ISO 2009/7046 M4 8.4 mm (9.4 sharp).
 */
export interface CountersunkHeadRow {
  readonly size: string;
  /** Height of the head, largest. */
  readonly heightMm: number;
  /** Sharp (theoretical) diameter, largest: where the cone would end without the rounded rim. */
  readonly sharpMm?: number;
  /** Head as it measures over the rim. */
  readonly leastMm?: number;
  readonly largestMm?: number;
  /** Mouth of the countersink that the standard wants. */
  readonly countersinkMm?: number;
}

/**
 * Hexagon socket countersunk. Source: ISO 10642, table of dimensions; the least measured diameters from memory, but M5.
 */
export const ISO_10642: readonly CountersunkHeadRow[] = [
  { size: 'M3', sharpMm: 6.72, leastMm: 5.54, heightMm: 1.86 },
  { size: 'M4', sharpMm: 8.96, leastMm: 7.53, heightMm: 2.48 },
  { size: 'M5', sharpMm: 11.2, leastMm: 9.43, heightMm: 3.1 },
  { size: 'M6', sharpMm: 13.44, leastMm: 11.34, heightMm: 3.72 },
  { size: 'M8', sharpMm: 17.92, leastMm: 15.24, heightMm: 4.96 },
  { size: 'M10', sharpMm: 22.4, leastMm: 19.22, heightMm: 6.2 },
  { size: 'M12', sharpMm: 26.88, leastMm: 23.12, heightMm: 7.44 },
  { size: 'M14', sharpMm: 30.8, leastMm: 26.52, heightMm: 8.4 },
  { size: 'M16', sharpMm: 33.6, leastMm: 29.01, heightMm: 8.8 },
  { size: 'M20', sharpMm: 40.32, leastMm: 36.05, heightMm: 10.16 },
];

/**
 * Slotted and cross-recessed. Source: ISO 2009, ISO 7046 (heads, ISO 7721 form), ISO 15065 (least countersink). The largest
 * countersink of ISO 15065 is 0.1 to 0.3 mm more.
 */
export const ISO_2009_7046: readonly CountersunkHeadRow[] = [
  { size: 'M1.6', sharpMm: 3.6, leastMm: 2.7, largestMm: 3.0, heightMm: 1.0, countersinkMm: 3.6 },
  { size: 'M2', sharpMm: 4.4, leastMm: 3.5, largestMm: 3.8, heightMm: 1.2, countersinkMm: 4.4 },
  { size: 'M2.5', sharpMm: 5.5, leastMm: 4.4, largestMm: 4.7, heightMm: 1.5, countersinkMm: 5.5 },
  { size: 'M3', sharpMm: 6.3, leastMm: 5.2, largestMm: 5.5, heightMm: 1.65, countersinkMm: 6.3 },
  { size: 'M3.5', sharpMm: 8.2, leastMm: 6.94, largestMm: 7.3, heightMm: 2.35, countersinkMm: 8.2 },
  { size: 'M4', sharpMm: 9.4, leastMm: 8.04, largestMm: 8.4, heightMm: 2.7, countersinkMm: 9.4 },
  { size: 'M5', sharpMm: 10.4, leastMm: 8.94, largestMm: 9.3, heightMm: 2.7, countersinkMm: 10.4 },
  { size: 'M6', sharpMm: 12.6, leastMm: 10.87, largestMm: 11.3, heightMm: 3.3, countersinkMm: 12.6 },
  { size: 'M8', sharpMm: 17.3, leastMm: 15.37, largestMm: 15.8, heightMm: 4.65, countersinkMm: 17.3 },
  { size: 'M10', sharpMm: 20.0, leastMm: 17.78, largestMm: 18.3, heightMm: 5.0, countersinkMm: 20.0 },
];

/**
 * Old slotted and cross-recessed heads, still in many drawers. Sources: DIN 963 and DIN 965 (withdrawn) for the head,
 * DIN 74-1:1980 form A medium for the countersink (tolerance H13).
 */
export const DIN_963_965: readonly CountersunkHeadRow[] = [
  { size: 'M1.6', largestMm: 3.0, heightMm: 0.96, countersinkMm: 3.7 },
  { size: 'M2', largestMm: 3.8, heightMm: 1.2, countersinkMm: 4.6 },
  { size: 'M2.5', largestMm: 4.7, heightMm: 1.5, countersinkMm: 5.7 },
  { size: 'M3', largestMm: 5.6, heightMm: 1.65, countersinkMm: 6.5 },
  { size: 'M3.5', largestMm: 6.5, heightMm: 1.93, countersinkMm: 7.6 },
  { size: 'M4', largestMm: 7.5, heightMm: 2.2, countersinkMm: 8.6 },
  { size: 'M5', largestMm: 9.2, heightMm: 2.5, countersinkMm: 10.4 },
  { size: 'M6', largestMm: 11, heightMm: 3, countersinkMm: 12.4 },
  { size: 'M8', largestMm: 14.5, heightMm: 4, countersinkMm: 16.4 },
  { size: 'M10', largestMm: 18, heightMm: 5, countersinkMm: 20.4 },
];

/** Old hexagon socket countersunk heads. Source: DIN 7991 (withdrawn, replaced by ISO 10642). */
export const DIN_7991: readonly CountersunkHeadRow[] = [
  { size: 'M3', largestMm: 6, heightMm: 1.7 },
  { size: 'M4', largestMm: 8, heightMm: 2.3 },
  { size: 'M5', largestMm: 10, heightMm: 2.8 },
  { size: 'M6', largestMm: 12, heightMm: 3.3 },
  { size: 'M8', largestMm: 16, heightMm: 4.4 },
  { size: 'M10', largestMm: 20, heightMm: 5.5 },
  { size: 'M12', largestMm: 24, heightMm: 6.5 },
  { size: 'M16', largestMm: 30, heightMm: 7.5 },
  { size: 'M20', largestMm: 36, heightMm: 8.5 },
];
