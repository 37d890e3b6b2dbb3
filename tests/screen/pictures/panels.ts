/** The panels that the screen is looked at on, and how large they look from where one stands. */

/** A panel with its visible area in mm and the characters on it. */
export type PanelSize = {
  readonly name: string;
  readonly wide_mm: number;
  readonly high_mm: number;
  readonly columns: number;
  readonly rows: number;
};

/** 7 inch 16:9 is 155 x 87 mm, 14 inch 310 x 174 mm, less the rim that a bezel hides. */
export const panelSizes: readonly PanelSize[] = [
  { name: '7in-80x24', wide_mm: 154, high_mm: 86, columns: 80, rows: 24 },
  { name: '7in-100x30', wide_mm: 154, high_mm: 86, columns: 100, rows: 30 },
  { name: '7in-50x15', wide_mm: 154, high_mm: 86, columns: 50, rows: 15 },
  { name: '14in-170x48', wide_mm: 310, high_mm: 174, columns: 170, rows: 48 },
];

/** Where the picture is looked at: a desk screen of 0.25 mm a pixel, 600 mm from the eyes. */
const desk = { away_mm: 600, pixel_mm: 0.25 } as const;

/**
 * Pixels on a desk screen under the same visual angle as `size_mm` from `metres` away.
 * Example: 154 mm from 2 m is 154 x 600 / 2000 / 0.25 = 184.8, so 185.
 */
export function pixelsFromAfar(size_mm: number, metres: number): number {
  return Math.round((size_mm * desk.away_mm) / (metres * 1000) / desk.pixel_mm);
}
