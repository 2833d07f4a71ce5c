package org.asmeasured.signal;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;
import org.apache.commons.math3.analysis.solvers.BrentSolver;
import org.asmeasured.internal.Require;

/**
 * For how long a waveform stays below a level: its distribution over a span, as a histogram of
 * infinitely many samples would show it. The time spent below a level follows from the crossings of
 * that level, which are bracketed roots; nothing is sampled.
 *
 * <p>Of a waveform that repeats itself at least twice in the span, one period is looked at, and
 * what is left over.
 */
public final class Dwell {
  /** A piece is at most an eighth of a cycle: 16 points integrate it to the last digit. */
  private static final GaussIntegrator UNIT = new GaussIntegratorFactory().legendre(16, 0, 1);

  private static final double SHARE_OF_RANGE = 1e-15;
  private static final int MAX_EVALUATIONS = 500;

  private final Waveform waveform;
  private final List<Part> parts = new ArrayList<>();
  private final double span;
  private final double least;
  private final double greatest;

  private record Part(MonotonePieces pieces, double fromSeconds, double times) {}

  private Dwell(Waveform waveform, double from, double to) {
    this.waveform = Require.present("waveform", waveform);
    Require.span(from, to);
    span = to - from;
    OptionalDouble period = waveform.periodSeconds();
    double rest = to;
    if (period.isPresent() && span >= 2 * period.getAsDouble()) {
      double length = period.getAsDouble();
      double cycles = Math.floor(span / length);
      parts.add(new Part(MonotonePieces.of(waveform, from, from + length), from, cycles));
      rest = from + (span - cycles * length);
    }
    if (rest > from) {
      parts.add(new Part(MonotonePieces.of(waveform, from, rest), from, 1));
    }
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (Part part : parts) {
      MonotonePieces p = part.pieces;
      for (int i = 0; i < p.size(); i++) {
        low = Math.min(low, Math.min(p.startVolts(i), p.endVolts(i)));
        high = Math.max(high, Math.max(p.startVolts(i), p.endVolts(i)));
      }
    }
    least = low;
    greatest = high;
  }

  /**
   * The distribution of a waveform over a span.
   *
   * @param waveform the waveform
   * @param fromSeconds start of the span, -1e12 to 1e12 s
   * @param toSeconds end of the span, after its start
   * @return the distribution
   * @throws IllegalArgumentException if the span is empty, or has more pieces than are looked at
   */
  public static Dwell of(Waveform waveform, double fromSeconds, double toSeconds) {
    return new Dwell(waveform, fromSeconds, toSeconds);
  }

  /**
   * The least value, both sides of a jump included.
   *
   * @return volts
   */
  public double minimum() {
    return least;
  }

  /**
   * The greatest value, both sides of a jump included.
   *
   * @return volts
   */
  public double maximum() {
    return greatest;
  }

  /**
   * The share of the span that the waveform spends below a level.
   *
   * @param volts the level; a value equal to it is not below
   * @return 0 to 1
   */
  public double shareBelow(double volts) {
    if (volts <= least) {
      return 0;
    }
    if (volts > greatest) {
      return 1;
    }
    double time = 0;
    for (Part part : parts) {
      double sum = 0;
      for (int i = 0; i < part.pieces.size(); i++) {
        sum += timeBelow(part.pieces, i, volts);
      }
      time += sum * part.times;
    }
    return Math.min(1, time / span);
  }

  private static double timeBelow(MonotonePieces pieces, int i, double level) {
    double start = pieces.startVolts(i);
    double end = pieces.endVolts(i);
    boolean startsBelow = start < level;
    boolean endsBelow = end < level;
    if (startsBelow && endsBelow) {
      return pieces.lengthSeconds(i);
    }
    if (!startsBelow && !endsBelow) {
      return 0;
    }
    double at = pieces.timeTo(i, level);
    return startsBelow ? at : pieces.lengthSeconds(i) - at;
  }

  /**
   * The level below which the waveform spends a share of the span. Where it rests at one value for
   * a while, that is the answer for a whole range of shares.
   *
   * @param share 0 to 1
   * @return volts, to 1e-15 of the range
   * @throws IllegalArgumentException if the share is out of range
   */
  public double quantile(double share) {
    Require.inRange("share", share, "", 0, 1);
    if (share == 0 || least == greatest) {
      return least;
    }
    if (share == 1) {
      return greatest;
    }
    double place =
        new BrentSolver(0x1p-53, SHARE_OF_RANGE, 0)
            .solve(
                MAX_EVALUATIONS,
                x -> x <= 0 ? -share : x >= 1 ? 1 - share : shareBelow(level(x)) - share,
                0,
                1);
    return level(place);
  }

  private double level(double place) {
    return least + place * (greatest - least);
  }

  /**
   * The mean of the values below a level, or of the others.
   *
   * @param volts the level
   * @param below whether of those below it
   * @return volts; the level itself if there are none
   */
  public double mean(double volts, boolean below) {
    double time = 0;
    double area = 0;
    for (Part part : parts) {
      MonotonePieces p = part.pieces;
      for (int i = 0; i < p.size(); i++) {
        double length = p.lengthSeconds(i);
        double under = timeBelow(p, i, volts);
        double inside = below ? under : length - under;
        if (inside > 0) {
          boolean first = p.startVolts(i) < volts == below;
          double start = p.startSeconds(i) + (first ? 0 : length - inside);
          double height =
              UNIT.integrate(x -> waveform.valueAt(part.fromSeconds, start + x * inside) - volts);
          time += inside * part.times;
          area += height * inside * part.times;
        }
      }
    }
    return time > 0 ? volts + area / time : volts;
  }
}
