package org.asmeasured.capture;

import java.util.Objects;
import org.asmeasured.acquisition.Decimation;
import org.asmeasured.acquisition.Pick;
import org.asmeasured.acquisition.Reducer;
import org.asmeasured.digitizer.Converter;
import org.asmeasured.digitizer.IdealConverter;
import org.asmeasured.internal.Require;
import org.asmeasured.linear.StreamFilter;

/**
 * A setup at work on recorded samples, handed in block by block: front end, errors of the vertical
 * scale, converter, decimation; stored points come out as codes or as volts.
 *
 * <p>The samples are the open-circuit voltage of the source at the raw sample instants of the
 * setup. Between them the voltage is taken to run along straight lines, and for that voltage the
 * analog output is exact ({@link StreamFilter}): the points equal those that {@link Setup#capture}
 * makes of {@link org.asmeasured.signal.Signals#recorded(double, double, double[])} of the same
 * samples, but for codes on the very edge of a step. A stream has no last point; the setup's number
 * of points has no effect.
 *
 * <p>The points do not depend on how the samples were cut into blocks, bit for bit. Memory is
 * constant, and nothing is allocated at work, as long as converter and decimation keep to that
 * themselves. For one thread; make one for each.
 *
 * <pre>{@code
 * CaptureStream stream = setup.stream();
 * int[] codes = new int[stream.mostPoints(block.length)];
 * while (source.read(block)) {
 *   int points = stream.process(block, 0, block.length, codes);
 *   ...
 * }
 * }</pre>
 */
public final class CaptureStream {
  private static final int BLOCK = 2048;

  private final Setup setup;
  private final StreamFilter filter;
  private final RawChain chain;
  private final boolean coded;
  private final boolean envelope;
  private final int storedBits;
  private final double storedPerLevel;
  private final int lead;
  private final double[] raw = new double[BLOCK];
  private final double[] leading;
  private final double[] lower;
  private final double[] upper;
  private Reducer reducer;
  private final boolean direct;
  private long points;

  CaptureStream(Setup setup, StreamFilter.Start start, long seed) {
    Require.present("start", start);
    Require.that(
        setup.ensemble().isSingle(),
        "ensemble = " + setup.ensemble() + ": a stream is a single acquisition");
    Require.that(
        setup.trigger().isEmpty(),
        "trigger = " + setup.trigger() + ": a stream is captured from its first sample on");
    Require.that(
        setup.frontEnd().saturation().isIdeal(),
        "saturation = "
            + setup.frontEnd().saturation()
            + ": a stream has no closed form to find overloads in");
    Require.that(
        setup.frontEnd().sourceJitter().isNone(),
        "sourceJitter = "
            + setup.frontEnd().sourceJitter()
            + ": recorded samples have no edges in closed form to displace");
    Require.that(
        setup.sampler().onTime() && setup.sampler().hasEqualResponses(),
        "sampler = " + setup.sampler() + ": the samples of a stream are taken already");
    this.setup = setup;
    filter = new StreamFilter(setup.frontEnd().response(), setup.rateHz(), start);
    chain = new RawChain(setup, seed);
    chain.acquisition(0);
    Converter converter = setup.converter();
    coded = converter.bits() > 0;
    Decimation decimation = setup.decimation();
    envelope = decimation.isEnvelope();
    storedBits = coded ? decimation.storedBits(converter.bits()) : 0;
    storedPerLevel = Math.scalb(1.0, storedBits - converter.bits());
    lead = decimation.lead();
    leading = new double[Math.min(lead, BLOCK)];
    lower = new double[BLOCK / decimation.factor() + 1];
    upper = new double[envelope ? lower.length : 0];
    reducer = decimation.reducer();
    direct = converter instanceof IdealConverter && decimation.equals(new Pick(1));
  }

  /**
   * What the samples go through.
   *
   * @return the setup
   */
  public Setup setup() {
    return setup;
  }

  /**
   * Whether points have codes.
   *
   * @return false if the converter has infinite resolution: then there are volts only
   */
  public boolean hasCodes() {
    return coded;
  }

  /**
   * Whether each point has two values, the least and the greatest.
   *
   * @return true for an envelope
   */
  public boolean isEnvelope() {
    return envelope;
  }

  /**
   * What one stored code is worth.
   *
   * @return volts; 0 without a converter
   */
  public double stepVolts() {
    return coded ? Math.scalb(setup.vertical().fullScaleVolts(), -storedBits) : 0;
  }

  /**
   * How many samples went in since the start.
   *
   * @return 0 or more
   */
  public long samples() {
    return filter.count();
  }

  /**
   * How many points came out since the start.
   *
   * @return 0 or more
   */
  public long points() {
    return points;
  }

  /**
   * The raw samples so far that lay below the lowest code by more than half a step.
   *
   * @return 0 or more
   */
  public long clippedLow() {
    return chain.clippedLow();
  }

  /**
   * The raw samples so far that lay above the highest code by more than half a step.
   *
   * @return 0 or more
   */
  public long clippedHigh() {
    return chain.clippedHigh();
  }

  /**
   * The instant a stored point stands for.
   *
   * @param point its number since the start, 0 or more
   * @return start + (point x factor + centre)/rate, in seconds
   * @throws IllegalArgumentException if the number is out of range
   */
  public double timeSeconds(long point) {
    Require.inRange("point", point, 0, (1L << 53) / Decimation.MAX_FACTOR);
    Decimation decimation = setup.decimation();
    return setup.startSeconds()
        + (point * decimation.factor() + decimation.centre()) / setup.rateHz();
  }

  /**
   * The greatest number of points that the next samples can complete.
   *
   * @param samples how many go in, 0 or more
   * @return places that an array for the points must have
   * @throws IllegalArgumentException if the number is negative
   */
  public int mostPoints(int samples) {
    Require.inRange("samples", samples, 0, Integer.MAX_VALUE);
    int factor = setup.decimation().factor();
    int fresh = filter.count() == 0 && factor > 1 ? lead : 0;
    return (int) Math.min(Integer.MAX_VALUE, ((long) samples + fresh + factor - 1) / factor);
  }

  /** Forgets everything: the next sample is the first of a new stream. */
  public void reset() {
    filter.reset();
    reducer = setup.decimation().reducer();
    points = 0;
    chain.reset();
    chain.acquisition(0);
  }

  /**
   * Takes the next samples, and writes the codes of the points that they complete.
   *
   * <p>If a sample is refused, the whole block is, and the stream can go on with another block in
   * its place.
   *
   * @param in volts, -1e9 to 1e9
   * @param offset index of the first
   * @param count how many, 0 or more
   * @param codes receives the codes from index 0; at least {@link #mostPoints} places
   * @return how many points were written
   * @throws IndexOutOfBoundsException if {@code in} does not hold the samples
   * @throws IllegalArgumentException if a sample is out of range, infinite or NaN; or if there are
   *     too few places
   * @throws IllegalStateException if there is no converter, if points are envelopes, or if a
   *     converter or decimation of the user's own breaks its contract
   */
  public int process(double[] in, int offset, int count, int[] codes) {
    Require.present("codes", codes);
    mustHaveCodes();
    mustBeSingle("codes");
    room("codes", codes.length, count);
    return run(in, offset, count, codes, null, null, null);
  }

  /**
   * Takes the next samples, and writes the codes of the envelope that they complete.
   *
   * @param in volts, -1e9 to 1e9
   * @param offset index of the first
   * @param count how many, 0 or more
   * @param lowerCodes receives the least codes from index 0; at least {@link #mostPoints} places
   * @param upperCodes receives the greatest; where points are no envelope, the same as the least
   * @return how many points were written
   * @throws IndexOutOfBoundsException if {@code in} does not hold the samples
   * @throws IllegalArgumentException if a sample is out of range, infinite or NaN; or if there are
   *     too few places
   * @throws IllegalStateException if there is no converter, or if a converter or decimation of the
   *     user's own breaks its contract
   */
  public int process(double[] in, int offset, int count, int[] lowerCodes, int[] upperCodes) {
    Require.present("lowerCodes", lowerCodes);
    Require.present("upperCodes", upperCodes);
    mustHaveCodes();
    room("lowerCodes", lowerCodes.length, count);
    room("upperCodes", upperCodes.length, count);
    return run(in, offset, count, lowerCodes, upperCodes, null, null);
  }

  /**
   * Takes the next samples, and writes the volts of the points that they complete.
   *
   * @param in volts, -1e9 to 1e9
   * @param offset index of the first
   * @param count how many, 0 or more
   * @param volts receives the points from index 0; at least {@link #mostPoints} places
   * @return how many points were written
   * @throws IndexOutOfBoundsException if {@code in} does not hold the samples
   * @throws IllegalArgumentException if a sample is out of range, infinite or NaN; or if there are
   *     too few places
   * @throws IllegalStateException if points are envelopes, or if a stage, converter or decimation
   *     of the user's own breaks its contract
   */
  public int process(double[] in, int offset, int count, double[] volts) {
    Require.present("volts", volts);
    mustBeSingle("volts");
    room("volts", volts.length, count);
    return run(in, offset, count, null, null, volts, null);
  }

  /**
   * Takes the next samples, and writes the volts of the envelope that they complete.
   *
   * @param in volts, -1e9 to 1e9
   * @param offset index of the first
   * @param count how many, 0 or more
   * @param lowerVolts receives the least volts from index 0; at least {@link #mostPoints} places
   * @param upperVolts receives the greatest; where points are no envelope, the same as the least
   * @return how many points were written
   * @throws IndexOutOfBoundsException if {@code in} does not hold the samples
   * @throws IllegalArgumentException if a sample is out of range, infinite or NaN; or if there are
   *     too few places
   * @throws IllegalStateException if a stage, converter or decimation of the user's own breaks its
   *     contract
   */
  public int process(double[] in, int offset, int count, double[] lowerVolts, double[] upperVolts) {
    Require.present("lowerVolts", lowerVolts);
    Require.present("upperVolts", upperVolts);
    room("lowerVolts", lowerVolts.length, count);
    room("upperVolts", upperVolts.length, count);
    return run(in, offset, count, null, null, lowerVolts, upperVolts);
  }

  private void mustHaveCodes() {
    if (!coded) {
      throw new IllegalStateException(setup.converter() + ": take volts");
    }
  }

  private void mustBeSingle(String what) {
    if (envelope) {
      throw new IllegalStateException(setup.decimation() + ": take lower and upper " + what);
    }
  }

  private void room(String name, int length, int count) {
    if (count >= 0 && length < mostPoints(count)) {
      throw new IllegalArgumentException(
          name + ".length = " + length + ": must be at least " + mostPoints(count));
    }
  }

  private int run(
      double[] in,
      int offset,
      int count,
      int[] lowerCodes,
      int[] upperCodes,
      double[] lowerVolts,
      double[] upperVolts) {
    Objects.checkFromIndexSize(offset, count, Require.present("in", in).length);
    // the whole block at the door, before any of it goes in
    for (int i = offset; i < offset + count; i++) {
      if (!(Math.abs(in[i]) <= 1e9)) {
        Require.volts("in[" + i + "]", in[i]);
      }
    }
    int written = 0;
    for (int done = 0; done < count; ) {
      int n = Math.min(BLOCK, count - done);
      long first = filter.count();
      filter.process(in, offset + done, raw, 0, n);
      if (first == 0 && lead > 0) {
        double before = filter.start() == StreamFilter.Start.SETTLED ? raw[0] : 0;
        for (int ahead = lead; ahead > 0; ) {
          int m = Math.min(leading.length, ahead);
          java.util.Arrays.fill(leading, 0, m, before);
          written +=
              digitise(-ahead, leading, m, lowerCodes, upperCodes, lowerVolts, upperVolts, written);
          ahead -= m;
        }
      }
      written += digitise(first, raw, n, lowerCodes, upperCodes, lowerVolts, upperVolts, written);
      done += n;
    }
    return written;
  }

  private int digitise(
      long first,
      double[] volts,
      int count,
      int[] lowerCodes,
      int[] upperCodes,
      double[] lowerVolts,
      double[] upperVolts,
      int at) {
    if (direct && lowerVolts != null && upperVolts == null && count <= lowerVolts.length - at) {
      return straightToVolts(first, volts, count, lowerVolts, at);
    }
    chain.convert(first, volts, count);
    int n = reducer.reduce(volts, 0, count, lower, envelope ? upper : null, 0);
    int places = lowerCodes != null ? lowerCodes.length : lowerVolts.length;
    if (n < 0 || n > lower.length || n > places - at) {
      throw new IllegalStateException(
          setup.decimation() + ": gave " + n + " points of " + count + " raw samples");
    }
    points += n;
    store(lower, n, lowerCodes, lowerVolts, at);
    if (envelope) {
      store(upper, n, upperCodes, upperVolts, at);
    } else if (upperCodes != null) {
      System.arraycopy(lowerCodes, at, upperCodes, at, n);
    } else if (upperVolts != null) {
      System.arraycopy(lowerVolts, at, upperVolts, at, n);
    }
    return n;
  }

  /** Every raw sample a point, rounded by an ideal converter: the same numbers in one pass. */
  private int straightToVolts(long first, double[] levels, int count, double[] volts, int at) {
    chain.levels(first, levels, count);
    chain.countClipped(levels, count);
    setup.converter().toVolts(levels, lower, 0, count, setup.vertical().offsetVolts(), stepVolts());
    Kernels.checkFinite(lower, count, setup);
    System.arraycopy(lower, 0, volts, at, count);
    points += count;
    return count;
  }

  private void store(double[] values, int count, int[] codes, double[] volts, int at) {
    if (coded) {
      Kernels.checkCodes(values, count, setup);
      double half = Math.scalb(1.0, storedBits - 1);
      Kernels.rescale(values, count, storedPerLevel, -half, half - 1);
      if (codes != null) {
        Kernels.store(values, count, codes, at);
        return;
      }
      Kernels.volts(values, count, setup.vertical().offsetVolts(), stepVolts());
    } else {
      Kernels.checkFinite(values, count, setup);
    }
    System.arraycopy(values, 0, volts, at, count);
  }

  @Override
  public String toString() {
    return "stream through: " + setup;
  }
}
