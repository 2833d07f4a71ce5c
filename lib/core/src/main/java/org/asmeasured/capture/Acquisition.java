package org.asmeasured.capture;

import org.asmeasured.acquisition.Decimation;
import org.asmeasured.acquisition.MeanAccumulator;
import org.asmeasured.acquisition.Reducer;
import org.asmeasured.digitizer.Converter;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.linear.OutputSampler;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.SampleClock;
import org.asmeasured.signal.Signal;

/** One capture at work: the raw samples of a block, from volts to stored points. */
final class Acquisition {
  private static final int BLOCK = 2048;

  private final Setup setup;
  private final Sampler sampler;
  private final boolean coded;
  private final boolean envelope;
  private final int storedBits;
  private final double storedPerLevel;
  private int[] lowerCodes;
  private int[] upperCodes;
  private double[] lowerVolts;
  private double[] upperVolts;
  private long clippedLow;
  private long clippedHigh;

  /** The analog output at raw sample instants. */
  private interface Sampler {
    void read(long first, double[] out, int offset, int count);
  }

  Acquisition(Setup setup, Signal signal) {
    this.setup = setup;
    sampler = sampler(setup, signal);
    int bits = setup.converter().bits();
    coded = bits > 0;
    envelope = setup.decimation().isEnvelope();
    storedBits = coded ? setup.decimation().storedBits(bits) : 0;
    storedPerLevel = Math.scalb(1.0, storedBits - bits);
  }

  private static Sampler sampler(Setup setup, Signal signal) {
    SampleClock clock = new SampleClock(setup.startSeconds(), setup.rateHz());
    Response response = setup.frontEnd().response();
    if (response.isIdentity()) {
      return (first, out, offset, count) -> signal.sample(clock, first, out, offset, count);
    }
    OutputSampler output = response.of(signal).sampler(clock);
    return output::read;
  }

  Record record() {
    acquire();
    Record.Points lower = new Record.Points(lowerCodes, lowerVolts);
    Record.Points upper = envelope ? new Record.Points(upperCodes, upperVolts) : lower;
    if (!setup.ensemble().isSingle()) {
      lower = mean(lower);
      upper = envelope ? mean(upper) : lower;
    }
    return new Record(
        setup,
        storedBits,
        lower,
        upper,
        clippedLow * setup.ensemble().count(),
        clippedHigh * setup.ensemble().count());
  }

  /**
   * The mean over the ensemble. Nothing in this chain is random, so all its acquisitions are equal,
   * and one of them has the mean of all.
   */
  private Record.Points mean(Record.Points points) {
    int size = setup.points();
    double[] volts = new double[size];
    if (!coded) {
      MeanAccumulator accumulator = MeanAccumulator.ofVolts(size);
      accumulator.add(points.volts());
      accumulator.mean(volts);
    } else {
      MeanAccumulator accumulator = MeanAccumulator.ofCodes(size);
      accumulator.add(points.codes());
      accumulator.mean(volts);
      Kernels.volts(volts, size, setup.vertical().offsetVolts(), step());
    }
    return new Record.Points(null, volts);
  }

  private double step() {
    return Math.scalb(setup.vertical().fullScaleVolts(), -storedBits);
  }

  private void acquire() {
    int points = setup.points();
    if (coded) {
      lowerCodes = new int[points];
      upperCodes = envelope ? new int[points] : null;
    } else {
      lowerVolts = new double[points];
      upperVolts = envelope ? new double[points] : null;
    }
    Decimation decimation = setup.decimation();
    Reducer reducer = decimation.reducer();
    long first = -(long) decimation.lead();
    long raws = decimation.rawSamples(points);
    double[] raw = new double[(int) Math.min(BLOCK, Math.max(1, raws))];
    double[] lower = new double[raw.length / decimation.factor() + 1];
    double[] upper = envelope ? new double[lower.length] : null;
    int stored = 0;
    for (long done = 0; done < raws; ) {
      int count = (int) Math.min(raw.length, raws - done);
      sampler.read(first + done, raw, 0, count);
      done += count;
      convert(raw, count);
      int written = reducer.reduce(raw, 0, count, lower, upper, 0);
      if (written < 0 || written > lower.length || written > points - stored) {
        throw new IllegalStateException(
            decimation + ": gave " + written + " points at once after " + stored + " of " + points);
      }
      store(lower, lowerCodes, lowerVolts, stored, written);
      if (envelope) {
        store(upper, upperCodes, upperVolts, stored, written);
      }
      stored += written;
    }
    if (stored != points) {
      throw new IllegalStateException(
          decimation + ": gave " + stored + " points of " + raws + " raw samples, not " + points);
    }
  }

  private void convert(double[] raw, int count) {
    VerticalScale vertical = setup.vertical();
    if (!vertical.isExact()) {
      Kernels.affine(raw, count, 1 + vertical.gainError(), setup.shiftVolts());
    }
    if (coded) {
      Converter converter = setup.converter();
      Kernels.levels(
          raw,
          count,
          vertical.offsetVolts(),
          Math.scalb(1.0, converter.bits()) / vertical.fullScaleVolts());
      clippedLow += Kernels.below(raw, count, converter.lowestCode() - 0.5);
      clippedHigh += Kernels.above(raw, count, converter.highestCode() + 0.5);
      converter.convert(raw, 0, count);
    }
  }

  private void store(double[] values, int[] codes, double[] volts, int at, int count) {
    if (!coded) {
      Kernels.checkFinite(values, count, setup);
      System.arraycopy(values, 0, volts, at, count);
      return;
    }
    Kernels.checkCodes(values, count, setup);
    double half = Math.scalb(1.0, storedBits - 1);
    Kernels.rescale(values, count, storedPerLevel, -half, half - 1);
    Kernels.store(values, count, codes, at);
  }
}
