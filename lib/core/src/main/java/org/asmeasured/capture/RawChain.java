package org.asmeasured.capture;

import org.asmeasured.digitizer.Converter;
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

  /** The random stream of the sampler in this acquisition. */
  long samplerKey() {
    return noise.samplerKey();
  }

  /**
   * Works on the next raw samples in place: volts in; code numbers out, or volts without a
   * converter.
   */
  void convert(long first, double[] raw, int count) {
    VerticalScale vertical = setup.vertical();
    if (!vertical.isExact()) {
      Kernels.affine(raw, count, 1 + vertical.gainError(), shiftVolts);
    }
    noise.addAnalog(raw, count);
    if (mismatched) {
      setup
          .sampler()
          .mismatch(first, vertical.offsetVolts(), vertical.fullScaleVolts(), raw, 0, count);
    }
    noise.addConverter(first, raw, count);
    if (coded) {
      Converter converter = setup.converter();
      Kernels.levels(raw, count, vertical.offsetVolts(), levelsPerVolt);
      double low = converter.lowestLevel();
      double high = converter.highestLevel();
      if (Kernels.anyOutside(raw, count, low, high)) {
        clippedLow += Kernels.below(raw, count, low);
        clippedHigh += Kernels.above(raw, count, high);
      }
      converter.convert(raw, 0, count);
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
