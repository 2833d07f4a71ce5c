package org.asmeasured.linear;

import java.util.BitSet;
import java.util.Objects;
import org.asmeasured.internal.ExtendedTime;
import org.asmeasured.internal.Require;
import org.asmeasured.signal.SampleClock;

/**
 * Reads an {@link Output} at uniform instants, or at instants shifted from them, block by block, in
 * any order.
 *
 * <p>A sample depends on its number and its shift alone, not on the blocks it was read in, bit for
 * bit. After the first reads nothing is allocated. For one thread; make one for each.
 */
public final class OutputSampler {
  private static final long MOST = 1L << 53;

  /** Shifts are worked on in pieces that stay in the cache. */
  private static final int CHUNK = 4 * Kernels.SQUARES;

  private final Output output;
  private final double rateHz;
  private final TonesReader[] tones;
  private final PatternReader[] patterns;
  private final double servedSamples;
  private final ExtendedTime time = new ExtendedTime();
  private double startSeconds;
  // made by the first shifted read
  private BitSet strays;
  private double[] shiftSamples;
  private double[] squares;

  OutputSampler(Output output, SampleClock clock, double maxShiftSeconds) {
    this.output = output;
    rateHz = clock.rateHz();
    startSeconds = clock.startSeconds();
    Rows rows = new Rows(rateHz);
    Shift shift =
        maxShiftSeconds == 0
            ? Shift.NONE
            : Shift.of(
                maxShiftSeconds * rateHz,
                output.fastestPerSecond(0) / rateHz,
                output.fastestPerSecond(rateHz) / rateHz);
    servedSamples = shift.maxSamples();
    Output.TonesOutput[] t = output.tones();
    tones = new TonesReader[t.length];
    for (int i = 0; i < t.length; i++) {
      tones[i] = new TonesReader(t[i], clock, rows, shift);
    }
    PatternOutput[] p = output.patterns();
    patterns = new PatternReader[p.length];
    for (int i = 0; i < p.length; i++) {
      patterns[i] = new PatternReader(p[i], clock, rows, shift);
    }
  }

  /**
   * The instants read at.
   *
   * @return the clock
   */
  public SampleClock clock() {
    return new SampleClock(startSeconds, rateHz);
  }

  /**
   * Moves sample 0 to another instant; the tables, which depend on the rate alone, are kept.
   *
   * @param newStartSeconds the instant of sample 0
   * @throws IllegalArgumentException if the instant is out of range
   */
  public void startAt(double newStartSeconds) {
    Require.instant("newStartSeconds", newStartSeconds);
    startSeconds = newStartSeconds;
    for (TonesReader t : tones) {
      t.startAt(newStartSeconds);
    }
    for (PatternReader p : patterns) {
      p.startAt(newStartSeconds);
    }
  }

  /**
   * Reads samples.
   *
   * @param first number of the first sample wanted, up to 2^53 either way
   * @param out receives {@code count} volts
   * @param offset where in {@code out} the first goes
   * @param count how many
   * @throws IndexOutOfBoundsException if {@code out} does not hold them
   * @throws IllegalArgumentException if {@code first} is out of range
   */
  public void read(long first, double[] out, int offset, int count) {
    check(first, out, offset, count);
    if (output.response().isIdentity()) {
      output.signal().sample(clock(), first, out, offset, count);
    } else {
      sum(first, null, out, offset, count);
    }
  }

  /**
   * Reads samples, each later than its place by a time of its own: jitter, skew. Shifts up to the
   * size stated for this sampler cost a few derivatives; larger ones are evaluated one by one, as
   * exactly.
   *
   * @param first number of the first sample wanted, up to 2^53 either way
   * @param shiftsSeconds how much later each is taken, seconds, finite, either sign; entry {@code
   *     j} for sample {@code first + j}
   * @param out receives {@code count} volts
   * @param offset where in {@code out} the first goes
   * @param count how many
   * @throws IndexOutOfBoundsException if an array does not hold them
   * @throws IllegalArgumentException if {@code first} or a shift is out of range
   */
  public void read(long first, double[] shiftsSeconds, double[] out, int offset, int count) {
    check(first, out, offset, count);
    Objects.checkFromIndexSize(0, count, Require.present("shiftsSeconds", shiftsSeconds).length);
    if (shiftSamples == null) {
      strays = new BitSet();
      shiftSamples = new double[CHUNK];
      squares = new double[Kernels.SQUARES];
    }
    for (int done = 0; done < count; done += CHUNK) {
      shifted(first, done, Math.min(CHUNK, count - done), shiftsSeconds, out, offset);
    }
  }

  /** Reads samples {@code first + from} on. */
  private void shifted(
      long first, int from, int count, double[] shiftsSeconds, double[] out, int offset) {
    int to = from + count;
    if (output.response().isIdentity()) {
      for (int j = from; j < to; j++) {
        alone(first, j, shiftsSeconds, out, offset);
      }
      return;
    }
    double[] shifts = shiftSamples;
    System.arraycopy(shiftsSeconds, from, shifts, 0, count);
    Kernels.scale(shifts, rateHz, count);
    boolean allServed = count == CHUNK && allSmall(shifts);
    if (!allServed) {
      allServed = true;
      for (int j = 0; j < count; j++) {
        if (!(Math.abs(shifts[j]) <= servedSamples)) {
          shifts[j] = 0;
          allServed = false;
        }
      }
    }
    sum(first + from, shifts, out, offset + from, count);
    if (!allServed) {
      for (int j = from; j < to; j++) {
        if (!(Math.abs(shiftsSeconds[j] * rateHz) <= servedSamples)) {
          alone(first, j, shiftsSeconds, out, offset);
        }
      }
    }
    for (PatternReader p : patterns) {
      strays.clear();
      p.strays(first + from, shifts, servedSamples, count, strays);
      for (int j = strays.nextSetBit(0); j >= 0; j = strays.nextSetBit(j + 1)) {
        alone(first, from + j, shiftsSeconds, out, offset);
      }
    }
  }

  /** Whether no shift of a chunk can be too large: true on good days, and soon told. */
  private boolean allSmall(double[] shifts) {
    Kernels.squares(shifts, squares);
    double most = servedSamples * servedSamples;
    for (double square : squares) {
      if (!(square <= most)) {
        return false;
      }
    }
    return true;
  }

  private void alone(long first, int j, double[] shiftsSeconds, double[] out, int offset) {
    double shift = Require.instant("shiftsSeconds", shiftsSeconds[j]);
    time.setQuotient(first + j, rateHz).add(startSeconds).add(shift);
    out[offset + j] = output.valueAt(time.hi(), time.lo());
  }

  private void check(long first, double[] out, int offset, int count) {
    Objects.checkFromIndexSize(offset, count, Require.present("out", out).length);
    Require.inRange("first", first, -MOST, MOST - count);
  }

  private void sum(long first, double[] shifts, double[] out, int offset, int count) {
    boolean more = false;
    for (TonesReader t : tones) {
      t.read(first, shifts, out, offset, count, more);
      more = true;
    }
    for (PatternReader p : patterns) {
      p.read(first, shifts, out, offset, count, more);
      more = true;
    }
  }
}
