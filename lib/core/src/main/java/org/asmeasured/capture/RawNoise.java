package org.asmeasured.capture;

import java.util.Optional;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.FrontEnd;
import org.asmeasured.internal.CounterRandom;
import org.asmeasured.linear.NoiseProcess;
import org.asmeasured.linear.NoiseSampler;

/**
 * The noise of source and amplifier at the sampler: its models made once, its values once an
 * acquisition.
 */
final class RawNoise {
  // Random streams of a capture; the schedule and the sampler have their own.
  private static final long AMPLIFIER = 0x6e6f69736501L;
  private static final long SOURCE = 0x6e6f69736502L;
  private static final long CONVERTER = 0x6e6f69736503L;
  private static final long SAMPLER = 0x6e6f69736504L;

  private final Setup setup;
  private final long seed;
  private final long samplerSeed;
  private final Optional<NoiseProcess> amplifier;
  private final Optional<NoiseProcess> source;
  private NoiseSampler amplifierSampler;
  private NoiseSampler sourceSampler;
  private long converterKey;
  private long samplerKey;
  private double[] work = {};

  /**
   * The noise of a channel.
   *
   * @param seed of what is the channel's own
   * @param samplerSeed of the sampler, which channels may share
   */
  RawNoise(Setup setup, long seed, long samplerSeed) {
    this.setup = setup;
    this.seed = seed;
    this.samplerSeed = samplerSeed;
    FrontEnd frontEnd = setup.frontEnd();
    amplifier =
        frontEnd
            .noise()
            .process(
                frontEnd, setup.vertical().fullScaleVolts(), setup.rateHz(), setup.spanSeconds());
    source = frontEnd.sourceNoise().process(frontEnd, setup.rateHz());
  }

  /** Begins an acquisition: all its noise depends on the seed and its number. */
  void acquisition(int number) {
    amplifierSampler = amplifier.map(p -> p.sampler(key(seed, AMPLIFIER, number))).orElse(null);
    sourceSampler = source.map(p -> p.sampler(key(seed, SOURCE, number))).orElse(null);
    converterKey = key(seed, CONVERTER, number);
    samplerKey = key(samplerSeed, SAMPLER, number);
  }

  private static long key(long seed, long stream, int number) {
    return CounterRandom.key(CounterRandom.key(seed, stream), number);
  }

  long samplerKey() {
    return samplerKey;
  }

  /** Whether a sample takes in more than one value of noise. */
  boolean isManifold() {
    int kinds = amplifier.isPresent() ? 1 : 0;
    kinds += source.isPresent() ? 1 : 0;
    kinds += setup.converterNoise().isIdeal() ? 0 : 1;
    return kinds > 1;
  }

  /**
   * The noise of the next raw samples where there is no more than one kind, as deviates.
   *
   * @return null if there is none
   */
  double[] only(long first, int count) {
    NoiseSampler sampler = amplifierSampler != null ? amplifierSampler : sourceSampler;
    if (sampler != null) {
      sampler.read(work(count), 0, count);
      return work;
    }
    if (setup.converterNoise().isIdeal()) {
      return null;
    }
    setup.converterNoise().deviates(converterKey, first, work(count), 0, count);
    return work;
  }

  /** What the deviates are multiplied by. */
  double onlySigma() {
    return amplifier.isPresent() || source.isPresent()
        ? 1
        : setup.converterNoise().rmsOfFullScale() * setup.vertical().fullScaleVolts();
  }

  /** Instead of a block of its own, which would be made at need. */
  void worksIn(double[] block) {
    work = block;
  }

  private double[] work(int count) {
    if (work.length < count) {
      work = new double[count + 40]; // not a whole page from the raw samples
    }
    return work;
  }

  /** Adds the noise of source and amplifier to the next raw samples. */
  void addAnalog(double[] raw, int count) {
    add(sourceSampler, raw, count);
    add(amplifierSampler, raw, count);
  }

  private void add(NoiseSampler sampler, double[] raw, int count) {
    if (sampler == null) {
      return;
    }
    sampler.read(work(count), 0, count);
    Kernels.add(work, raw, count);
  }

  /** Adds the noise of the converter. */
  void addConverter(long first, double[] raw, int count) {
    if (setup.converterNoise().isIdeal()) {
      return;
    }
    setup
        .converterNoise()
        .add(converterKey, first, setup.vertical().fullScaleVolts(), raw, 0, count, work(count));
  }

  /**
   * The standard deviation of the amplifier's noise on the trigger's path: its filter shapes it in
   * the limit's place.
   */
  static double onTriggerPath(Setup setup, Trigger trigger) {
    FrontEnd frontEnd = setup.frontEnd();
    if (!frontEnd.bandwidth().isIdeal()) {
      frontEnd = frontEnd.withLimit(Bandwidth.of("trigger path", trigger.path().response()));
    }
    return frontEnd
        .noise()
        .process(frontEnd, setup.vertical().fullScaleVolts(), setup.rateHz(), setup.spanSeconds())
        .map(NoiseProcess::rms)
        .orElse(0.0);
  }
}
