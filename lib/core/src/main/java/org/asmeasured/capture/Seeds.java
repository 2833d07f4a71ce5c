package org.asmeasured.capture;

/**
 * Where the random streams of a channel begin.
 *
 * @param common to all channels of a capture: the source's edges
 * @param own the channel's: its noise
 * @param sampler of the sampler, which channels may share
 */
record Seeds(long common, long own, long sampler) {
  /** Those of a channel that is alone. */
  static Seeds of(long seed) {
    return new Seeds(seed, seed, seed);
  }
}
