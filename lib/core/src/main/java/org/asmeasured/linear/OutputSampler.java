package org.asmeasured.linear;

import java.util.Objects;
import org.asmeasured.internal.Require;
import org.asmeasured.signal.SampleClock;

/**
 * Reads an {@link Output} at uniform instants, block by block, in any order.
 *
 * <p>A sample depends on its number alone, not on the blocks it was read in, bit for bit. After the
 * first reads nothing is allocated. For one thread; make one for each.
 */
public final class OutputSampler {
  private static final long MOST = 1L << 53;

  private final Output output;
  private final SampleClock clock;
  private final TonesReader[] tones;
  private final PatternReader[] patterns;

  OutputSampler(Output output, SampleClock clock) {
    this.output = output;
    this.clock = clock;
    Rows rows = new Rows(clock.rateHz());
    Output.TonesOutput[] t = output.tones();
    tones = new TonesReader[t.length];
    for (int i = 0; i < t.length; i++) {
      tones[i] = new TonesReader(t[i], clock, rows);
    }
    PatternOutput[] p = output.patterns();
    patterns = new PatternReader[p.length];
    for (int i = 0; i < p.length; i++) {
      patterns[i] = new PatternReader(p[i], clock, rows);
    }
  }

  /**
   * The instants read at.
   *
   * @return the clock
   */
  public SampleClock clock() {
    return clock;
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
    Objects.checkFromIndexSize(offset, count, Require.present("out", out).length);
    Require.inRange("first", first, -MOST, MOST - count);
    if (output.response().isIdentity()) {
      output.signal().sample(clock, first, out, offset, count);
      return;
    }
    boolean more = false;
    for (TonesReader t : tones) {
      t.read(first, out, offset, count, more);
      more = true;
    }
    for (PatternReader p : patterns) {
      p.read(first, out, offset, count, more);
      more = true;
    }
  }
}
