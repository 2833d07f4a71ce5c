package org.asmeasured.capture;

import org.asmeasured.acquisition.Decimation;
import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.acquisition.Pick;
import org.asmeasured.acquisition.Reducer;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.digitizer.Converter;
import org.asmeasured.digitizer.IdealConverter;
import org.asmeasured.frontend.FrontEnd;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.Signal;

/**
 * One capture at work: the raw samples of a block, from volts to stored points, once an
 * acquisition.
 */
final class Acquisition {
  private final Setup setup;
  private final double skewSeconds;
  private final RawSource source;
  private final RawChain chain;
  private final boolean coded;
  private final boolean envelope;
  private final int storedBits;
  private final double storedPerLevel;

  /**
   * Whether raw samples are reduced before they are rounded, which comes to the same for an ideal
   * converter where each stored value is one of them, and leaves less to round. Every clipped
   * sample shows in a stored value of its own block then.
   */
  private final boolean roundsLast;

  private int[] lowerCodes;
  private int[] upperCodes;
  private double[] lowerVolts;
  private double[] upperVolts;

  /** Of the last acquisition, if rounding told. */
  private CodeRange range;

  /**
   * A capture of one channel.
   *
   * @param skewSeconds by how much later than the instants of the record its samples are taken
   */
  Acquisition(Setup setup, Signal signal, Seeds seeds, double skewSeconds) {
    this.setup = setup;
    this.skewSeconds = skewSeconds;
    source = RawSource.of(setup, signal, seeds.common());
    chain = new RawChain(setup, seeds.own(), seeds.sampler());
    int bits = setup.converter().bits();
    coded = bits > 0;
    envelope = setup.decimation().isEnvelope();
    storedBits = coded ? setup.decimation().storedBits(bits) : 0;
    int factor = setup.decimation().factor();
    roundsLast =
        setup.converter() instanceof IdealConverter
            && (setup.decimation() instanceof Pick && factor == 1
                || setup.decimation() instanceof PeakDetect && factor <= Blocks.RAW);
    storedPerLevel = Math.scalb(1.0, storedBits - bits);
  }

  /**
   * The record.
   *
   * @param schedule when acquisitions take place; null if at the start of the clock
   */
  Record record(Schedule schedule) {
    int wanted = setup.ensemble().count();
    // Where nothing is random all acquisitions are equal, and one of them stands for all.
    boolean repeatable = setup.isRepeatable() && schedule == null;
    int size = schedule != null ? schedule.size() : repeatable ? 1 : wanted;
    if (size == 0) {
      return Record.empty(setup, schedule);
    }
    Gathering gathering =
        new Gathering(
            setup.ensemble(),
            setup.points(),
            coded,
            envelope,
            setup.vertical().offsetVolts(),
            step());
    allocate();
    Blocks blocks = Blocks.take();
    chain.worksIn(blocks.noise);
    for (int a = 0; a < size; a++) {
      double start = schedule != null ? schedule.foundAtSeconds(a) : setup.startSeconds();
      source.startAt(a, start + skewSeconds);
      chain.acquisition(a);
      acquire(blocks);
      Record.Points lower = new Record.Points(lowerCodes, lowerVolts);
      gathering.add(lower, envelope ? new Record.Points(upperCodes, upperVolts) : lower);
    }
    blocks.leave();
    gathering.finish();
    long times = repeatable ? wanted : 1;
    return new Record(
        setup,
        schedule,
        gathering.isEnvelope(),
        storedBits,
        gathering.lower(),
        gathering.upper(),
        setup.ensemble().isSingle() ? range : null,
        chain.clippedLow() * times,
        chain.clippedHigh() * times);
  }

  /** When the acquisitions take place whose trigger is fed by a signal behind a setup. */
  static Schedule schedule(Setup setup, Trigger trigger, Signal signal, long seed) {
    FrontEnd frontEnd = setup.frontEnd();
    Response ahead = frontEnd.aheadOfAmplifier().times(frontEnd.bandwidth().response());
    return Schedule.of(
        trigger,
        trigger.pathOutput(signal, ahead),
        RawNoise.onTriggerPath(setup, trigger),
        setup.startSeconds(),
        setup.rateHz(),
        setup.spanSeconds(),
        setup.ensemble().count(),
        seed,
        DisplacedEvents.of(setup, trigger, signal, ahead, seed));
  }

  private double step() {
    return Math.scalb(setup.vertical().fullScaleVolts(), -storedBits);
  }

  private void allocate() {
    int points = setup.points();
    if (coded) {
      lowerCodes = new int[points];
      upperCodes = envelope ? new int[points] : null;
    } else {
      lowerVolts = new double[points];
      upperVolts = envelope ? new double[points] : null;
    }
  }

  private void acquire(Blocks blocks) {
    int points = setup.points();
    Decimation decimation = setup.decimation();
    Reducer reducer = decimation.reducer();
    long first = -(long) decimation.lead();
    long raws = decimation.rawSamples(points);
    double[] raw = blocks.raw;
    double[] lower = blocks.lower;
    double[] upper = envelope ? blocks.upper : null;
    int most = raw.length / decimation.factor() + 1;
    // whole groups, if one fits
    int block =
        raw.length - (decimation.factor() < raw.length ? raw.length % decimation.factor() : 0);
    int stored = 0;
    range = null;
    for (long done = 0; done < raws; ) {
      int count = (int) Math.min(block, raws - done);
      source.read(chain.samplerKey(), first + done, raw, count);
      chain.levels(first + done, raw, count);
      if (!roundsLast) {
        chain.countClipped(raw, count);
        chain.code(raw, count);
      }
      done += count;
      int written = reducer.reduce(raw, 0, count, lower, upper, 0);
      if (written < 0 || written > most || written > points - stored) {
        throw new IllegalStateException(
            decimation + ": gave " + written + " points at once after " + stored + " of " + points);
      }
      if (roundsLast) {
        CodeRange within = storeRounded(lower, lowerCodes, stored, written);
        if (envelope) {
          within = CodeRange.both(within, storeRounded(upper, upperCodes, stored, written));
        }
        if (within == null) {
          chain.countClipped(raw, count);
        }
        range = stored == 0 ? within : CodeRange.both(range, within);
      } else {
        store(lower, lowerCodes, lowerVolts, stored, written);
        if (envelope) {
          store(upper, upperCodes, upperVolts, stored, written);
        }
      }
      stored += written;
    }
    if (stored != points) {
      throw new IllegalStateException(
          decimation + ": gave " + stored + " points of " + raws + " raw samples, not " + points);
    }
  }

  /**
   * Rounds levels to codes and stores them.
   *
   * @return the least and the greatest code; null if a raw sample behind them can have been clipped
   */
  private CodeRange storeRounded(double[] levels, int[] codes, int at, int count) {
    Converter converter = setup.converter();
    CodeRange within =
        Kernels.roundWithin(levels, count, codes, at, converter.lowestCode(), converter.bits());
    if (within == null) {
      chain.code(levels, count);
      Kernels.checkCodes(levels, count, setup);
      Kernels.store(levels, count, codes, at);
    }
    return within;
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
