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

  /** Adds the noise of source and amplifier to the next raw samples. */
  void addAnalog(double[] raw, int count) {
    add(sourceSampler, raw, count);
    add(amplifierSampler, raw, count);
  }

  private void add(NoiseSampler sampler, double[] raw, int count) {
    if (sampler == null) {
      return;
    }
    if (work.length < count) {
      work = new double[count + 40]; // not a whole page from the raw samples
    }
    sampler.read(work, 0, count);
    Kernels.add(work, raw, count);
  }

  /** Adds the noise of the converter. */
  void addConverter(long first, double[] raw, int count) {
    if (setup.converterNoise().isIdeal()) {
      return;
    }
    if (work.length < count) {
      work = new double[count + 40]; // not a whole page from the raw samples
    }
    setup
        .converterNoise()
        .add(converterKey, first, setup.vertical().fullScaleVolts(), raw, 0, count, work);
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
