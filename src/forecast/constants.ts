/**
 * The constants of the forecast in one place. They are judgements about manual work, not measurements of one shop. Most
 * were varied from about half to double, one at a time, on the training runs and on runs of other laws
 * (`npm run bench:forecast`): the score moved by less than four per cent, mostly by less than one, so none needs tuning to
 * a shop; what a shop is like is learned from its own batches (history.ts). Log scale means natural logarithm.
 */
export const constants = {
  /** Prior mean of ln(true time / planned time): planners are optimists by about 7 %. */
  cycleFactor: 0.07,
  setupFactor: 0.07,
  /** Classes of planner quality: standard deviation of ln(true/plan) from one operation to the next, and prior weight. */
  plannerScatter: [0.06, 0.12, 0.2, 0.32, 0.5],
  plannerWeight: [0.15, 0.2, 0.3, 0.2, 0.15],
  /** The class of estimates that are worth next to nothing (minutes typed for seconds). */
  wildScatter: 2,
  wildWeight: 0.003,
  /** Most that common factor and scatter together may vary, as a variance on the log scale. */
  widestVariance: 2.5,
  /** Now and then one estimate is a slip of the pen, whatever the planner: how often, and its sd on the log scale. */
  grossError: { share: 0.01, scatter: 2 },
  /** Standard deviation of the factor common to all operations, as a multiple of the class's scatter. */
  commonScatterRatio: 1.2,
  /** A time that was not planned but taken from a default scatters by this much on the log scale, whatever the class. */
  defaultScatter: 0.8,
  /** Prior standard deviation of ln(load time) within an operation, and the loads that this opinion is worth. */
  noise: 0.2,
  noiseWeight: 5,
  /** Operations that the prior of the noise is worth when finished ones tell another. */
  noisePoolWeight: 2,
  /** Noise variance of an operation's first load, as a multiple of the usual one. */
  firstLoadNoise: 3,
  /** The first load after a break: ln excess (cold hands, finding one's place again) and its noise variance, as a multiple. */
  afterBreak: { excess: 0.12, noise: 4 },
  /**
   * Shapes of learning that run side by side: ln excess of the first load over the settled time, its sd, the loads in which
   * it decays to a third (0: no learning), and the weight of the shape before anything is known.
   */
  learning: [
    { excess: 0, scatter: 0, loads: 0, weight: 1 },
    { excess: 0.2, scatter: 0.25, loads: 5, weight: 0.8 },
    { excess: 0.4, scatter: 0.4, loads: 14, weight: 0.5 },
  ],
  /** What the prior of the excess is worth in operations. */
  learningWeight: 1.5,
  /** Loads in a row, alike within a factor of two, that overrule all before them: while none has been regular, and later. */
  overrule: { early: 2, later: 3, alike: 0.69, doubt: 0.3 },
  /** Wander of the level over one operation (drift, tool wear), standard deviation on the log scale. */
  wander: 0.17,
  wanderLoads: 20,
  /** Part of a load's time that does not depend on how many pieces it holds. */
  loadFixedPart: 0.55,
  /** Hiccups: seen per loads (prior counts), size in mean loads on top, weight of that size, coefficient of variation. */
  hiccups: { count: 0.5, loads: 40, size: 3.5, sizeWeight: 3, variation: 0.6 },
  /** Unmarked interruptions: seen per bench hours (prior counts), size in seconds, its weight, coefficient of variation. */
  interruptions: { count: 0.4, hours: 1.6, size_s: 780, sizeWeight: 3, variation: 0.75 },
  /** Scrap: pieces per pieces (prior counts). */
  scrap: { count: 0.7, pieces: 120 },
  /** Setups: scatter of their common factor, of each one, and how far they follow the factor of the cycles. */
  setup: { commonScatter: 0.22, ownScatter: 0.32, tie: 0.5 },
  /** Setup estimates are pulled toward the job's geometric mean: extreme guesses are often wrong guesses. */
  setupShrink: 0.8,
  /** Times per piece are pulled back in proportion to the planner's scatter over the spread of the true times. */
  estimatePull: { trueSpread: 0.9, part: 0.7 },
  /** On the variance of the body, for all that the model leaves out. */
  inflate: 1.1,
} as const;
