package org.asmeasured.capture;

import org.asmeasured.frontend.VerticalScale;

/**
 * What raw samples go through between the noiseless analog output and the decimation: errors of the
 * vertical scale, noise, mismatch of cores, the converter. What becomes of a sample depends on its
 * number and the samples before it, never on where a block ends.
 */
final class RawChain {
  private final Setup setup;
  private final RawNoise noise;
  private final boolean coded;
  private final boolean mismatched;
  private final double shiftVolts;
  private final double levelsPerVolt;
  private long clippedLow;
  private long clippedHigh;

  RawChain(Setup setup, long seed) {
    this(setup, seed, seed);
  }

  /** With a seed of its own for the sampler, which channels may share. */
  RawChain(Setup setup, long seed, long samplerSeed) {
    this.setup = setup;
    noise = new RawNoise(setup, seed, samplerSeed);
    coded = setup.converter().bits() > 0;
    mismatched = !setup.sampler().isIdeal();
    shiftVolts = setup.shiftVolts();
    levelsPerVolt = Math.scalb(1.0, setup.converter().bits()) / setup.vertical().fullScaleVolts();
  }

  /** Begins an acquisition. */
  void acquisition(int number) {
    noise.acquisition(number);
  }

  /** With a block of the caller's for its noise. */
  void worksIn(double[] block) {
    noise.worksIn(block);
  }

  /** The random stream of the sampler in this acquisition. */
  long samplerKey() {
    return noise.samplerKey();
  }

  /**
   * Works on the next raw samples in place: volts in; code numbers out, or volts without a
   * converter.
   */
  void convert(long first, double[] raw, int count) {
    levels(first, raw, count);
    countClipped(raw, count);
    code(raw, count);
  }

  /**
   * The first half: volts in; what the converter is to round out, in its steps from its code 0, or
   * volts without a converter.
   */
  void levels(long first, double[] raw, int count) {
    VerticalScale vertical = setup.vertical();
    double gain = 1 + vertical.gainError();
    if (coded && !mismatched && !noise.isManifold()) {
      // the same operations on each sample as below, in one pass
      double[] deviates = noise.only(first, count);
      double offset = vertical.offsetVolts();
      if (deviates == null) {
        Kernels.levels(raw, count, gain, shiftVolts, offset, levelsPerVolt);
      } else {
        Kernels.noisyLevels(
            raw, deviates, noise.onlySigma(), count, gain, shiftVolts, offset, levelsPerVolt);
      }
    } else {
      if (!vertical.isExact()) {
        Kernels.affine(raw, count, gain, shiftVolts);
      }
      noise.addAnalog(raw, count);
      if (mismatched) {
        setup
            .sampler()
            .mismatch(first, vertical.offsetVolts(), vertical.fullScaleVolts(), raw, 0, count);
      }
      noise.addConverter(first, raw, count);
      if (coded) {
        Kernels.levels(raw, count, 1, 0, vertical.offsetVolts(), levelsPerVolt);
      }
    }
  }

  /** Counts what lies outside the converter's range, if there is a converter. */
  void countClipped(double[] levels, int count) {
    if (!coded) {
      return;
    }
    double low = setup.converter().lowestLevel();
    double high = setup.converter().highestLevel();
    double farthest = Kernels.farthest(levels, count, 0.5 * (low + high));
    // a little within, for the rounding of the middle and of the distance
    if (!(farthest < 0.5 * (high - low) * (1 - 1e-12))) {
      clippedLow += Kernels.below(levels, count, low);
      clippedHigh += Kernels.above(levels, count, high);
    }
  }

  /** The second half: rounds in place, if there is a converter. */
  void code(double[] levels, int count) {
    if (coded) {
      setup.converter().convert(levels, 0, count);
    }
  }

  long clippedLow() {
    return clippedLow;
  }

  long clippedHigh() {
    return clippedHigh;
  }

  /** Forgets what was clipped. */
  void reset() {
    clippedLow = 0;
    clippedHigh = 0;
  }
}
