/** What a drill makes of a hole. */

/**
 * The hole that a drill probably cuts, inches, by the drill's own diameter. Source: common practice, a tapping-drill chart; a
 * twist drill in a hand-fed machine cuts over its size.
 */
export const PROBABLE_HOLES_IN: readonly (readonly [drill: number, hole: number])[] = [
  [0.0469, 0.0484],
  [0.089, 0.091],
  [0.136, 0.1389],
  [0.201, 0.2048],
  [0.3125, 0.3169],
  [0.4219, 0.4266],
];
