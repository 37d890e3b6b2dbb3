/** Feeds. A band holds sizes over the one before, up to and including its own end. */

export interface DrillFeedRow {
  /** Largest drill of the band in inches; the last band is open. */
  readonly upToIn: number;
  readonly lowIn: number;
  readonly highIn: number;
}

/**
 * Feed a turn of HSS drills, inches; the lower end for the harder materials. Source: US Navy training course 14345, drill
 * press section. A drilling and reaming table (common practice) goes up to half as high again below 1/2 in, and a college
 * table of power feeds higher still (0.2 mm at 6 mm in mild steel): both too heavy for the hand, so the lower stands.
 */
export const DRILL_FEEDS: readonly DrillFeedRow[] = [
  { upToIn: 0.125, lowIn: 0.001, highIn: 0.002 },
  { upToIn: 0.25, lowIn: 0.002, highIn: 0.004 },
  { upToIn: 0.5, lowIn: 0.004, highIn: 0.007 },
  { upToIn: 1, lowIn: 0.007, highIn: 0.015 },
  { upToIn: Number.POSITIVE_INFINITY, lowIn: 0.015, highIn: 0.025 },
];

/** Feed a turn of small drills by hand, mm. Source: from memory, general workshop practice. */
export const SMALL_DRILL_FEEDS_MM: readonly (readonly [diameter: number, low: number, high: number])[] = [
  [1, 0.01, 0.02],
  [1.5, 0.015, 0.03],
  [2, 0.02, 0.05],
];

/** Materials as the tables of feeds for end mills group them. */
export type MillFeedGroup = 'aluminium' | 'brass and bronze' | 'cast iron' | 'stainless steel' | 'steel' | 'plastics';

/** Diameters of the columns of `END_MILL_FEEDS_IN`, inches. */
export const END_MILL_COLUMNS_IN = [0.125, 0.25, 0.5, 1] as const;

/**
 * Feed a tooth of HSS end mills, inches, by diameter 1/8, 1/4, 1/2, 1 in: upper ends. Source: common practice, a cutter
 * sheet. Plastics as aluminium, from memory.
 */
export const END_MILL_FEEDS_IN: Readonly<Record<MillFeedGroup, readonly [number, number, number, number]>> = {
  aluminium: [0.001, 0.002, 0.0025, 0.003],
  'brass and bronze': [0.0008, 0.0015, 0.003, 0.006],
  'cast iron': [0.0008, 0.0015, 0.0025, 0.005],
  'stainless steel': [0.0005, 0.0007, 0.0012, 0.002],
  steel: [0.001, 0.002, 0.004, 0.006],
  plastics: [0.001, 0.002, 0.0025, 0.003],
};

/**
 * Feed a tooth of solid carbide end mills, mm. Source: common practice on a rigid machine, a cutter catalogue; the first for
 * steel below 1000 N/mm2, cast iron and unalloyed aluminium, the second for stainless steel.
 */
export const CARBIDE_MILL_FEEDS_MM: readonly (readonly [diameter: number, steel: number, stainless: number])[] = [
  [3, 0.01, 0.015],
  [4, 0.02, 0.02],
  [5, 0.03, 0.02],
  [6, 0.04, 0.025],
  [8, 0.06, 0.025],
  [10, 0.08, 0.05],
  [12, 0.1, 0.06],
];

/** Least share of a carbide end mill's diameter that one tooth takes. Source: common practice, users' guide of a catalogue. */
export const CARBIDE_LEAST_SHARE = { steel: 0.005, stainless: 0.002 } as const;

/** Feed a tooth of small HSS end mills on a light mill, mm: steel and aluminium. Source: from memory. */
export const LIGHT_MILL_FEEDS_MM: readonly (readonly [diameter: number, steel: number, aluminium: number])[] = [
  [2, 0.005, 0.01],
  [3, 0.008, 0.02],
  [4, 0.012, 0.03],
  [6, 0.02, 0.05],
  [8, 0.03, 0.06],
  [10, 0.04, 0.08],
  [12, 0.05, 0.1],
];

/**
 * Deep holes: from a depth of so many diameters, the share of speed and feed that is left. Source: drilling reference guide,
 * trade data sheet (6 d: 35 to 40 % slower, the slower taken).
 */
export const DEEP_HOLE_SHARES: readonly (readonly [diameters: number, speed: number, feed: number])[] = [
  [6, 0.6, 0.8],
  [5, 0.7, 0.8],
  [4, 0.8, 0.9],
  [3, 0.9, 0.9],
];
