package org.asmeasured.capture;

import org.asmeasured.digitizer.SampledOutput;
import org.asmeasured.digitizer.Sampler;
import org.asmeasured.frontend.FrontEnd;
import org.asmeasured.frontend.SaturatedOutput;
import org.asmeasured.signal.SampleClock;
import org.asmeasured.signal.Signal;

/**
 * The noiseless analog output at the instants of a setup's sampler, for one acquisition after
 * another.
 */
interface RawSource {
  /**
   * Begins an acquisition.
   *
   * @param acquisition its number
   * @param startSeconds the instant of raw sample 0
   */
  void startAt(int acquisition, double startSeconds);

  /**
   * Reads raw samples.
   *
   * @param key the sampler's random stream in this acquisition
   * @param first number of the first
   * @param out receives volts from index 0
   * @param count how many
   */
  void read(long key, long first, double[] out, int count);

  /**
   * The source for a setup: a linear chain, one whose amplifier saturates, or one whose signal has
   * edges that jitter.
   *
   * @param seed of what all channels of a capture have in common
   */
  static RawSource of(Setup setup, Signal signal, long seed) {
    FrontEnd frontEnd = setup.frontEnd();
    if (!frontEnd.saturation().isIdeal()) {
      return new Saturated(setup, signal);
    }
    RawSource linear = linear(setup, signal);
    return EdgeJitter.of(frontEnd.sourceJitter(), signal, seed)
        .<RawSource>map(jitter -> new DisplacedSource(setup, linear, jitter))
        .orElse(linear);
  }

  private static RawSource linear(Setup setup, Signal signal) {
    FrontEnd frontEnd = setup.frontEnd();
    SampledOutput output =
        new SampledOutput(
            signal,
            frontEnd.response(),
            setup.sampler(),
            new SampleClock(setup.startSeconds(), setup.rateHz()));
    return new RawSource() {
      @Override
      public void startAt(int acquisition, double startSeconds) {
        output.startAt(startSeconds);
      }

      @Override
      public void read(long key, long first, double[] out, int count) {
        output.read(key, first, out, 0, count);
      }
    };
  }

  /**
   * Overloads are followed over the span of each acquisition, or for ever if the signal repeats.
   */
  final class Saturated implements RawSource {
    private final Setup setup;
    private final Signal signal;
    private SaturatedOutput output;
    private SaturatedOutput.Sampler samples;
    private double[] shifts = {};

    private Saturated(Setup setup, Signal signal) {
      this.setup = setup;
      this.signal = signal;
    }

    @Override
    public void startAt(int acquisition, double startSeconds) {
      if (output == null || signal.periodSeconds().isEmpty()) {
        double margin =
            (setup.decimation().lead() + 2) / setup.rateHz() + setup.sampler().maxShiftSeconds();
        output =
            setup.saturatedOutput(
                signal, startSeconds - margin, startSeconds + setup.spanSeconds() + margin);
      }
      samples =
          output.sampler(setup.sampler().clock(new SampleClock(startSeconds, setup.rateHz())));
    }

    @Override
    public void read(long key, long first, double[] out, int count) {
      Sampler sampler = setup.sampler();
      if (sampler.onTime()) {
        samples.read(first, out, 0, count);
        return;
      }
      if (shifts.length < count) {
        shifts = new double[count];
      }
      sampler.shifts(key, first, shifts, 0, count);
      samples.read(first, shifts, out, 0, count);
    }
  }
}
