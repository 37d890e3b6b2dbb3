/** Width of the cut by the saw that makes it. */
export interface KerfRow {
  readonly saw: string;
  readonly lowMm: number;
  readonly highMm: number;
  readonly source: string;
  /** False: from memory. */
  readonly confirmed: boolean;
}

const MEMORY = { source: 'from memory, general workshop practice', confirmed: false } as const;
const GUIDE = { source: 'a cutting guide, table of kerfs', confirmed: true } as const;

/** Usual kerfs, mm. Measure a cut of your own saw: the set of the teeth decides. */
export const USUAL_KERFS: readonly KerfRow[] = [
  { saw: 'hacksaw', lowMm: 0.9, highMm: 1.3, ...MEMORY },
  { saw: 'small band saw', lowMm: 0.9, highMm: 1.3, ...MEMORY },
  { saw: 'band saw', lowMm: 1.6, highMm: 2.4, ...GUIDE },
  { saw: 'cold saw', lowMm: 2.4, highMm: 3.2, ...GUIDE },
  { saw: 'parting tool', lowMm: 1.5, highMm: 3, ...MEMORY },
];
