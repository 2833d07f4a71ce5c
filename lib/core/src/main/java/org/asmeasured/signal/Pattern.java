package org.asmeasured.signal;

import java.util.Arrays;
import org.asmeasured.internal.ExtendedTime;
import org.asmeasured.internal.Require;

/**
 * A row of segments, played once or repeated for ever.
 *
 * <p>On segment {@code i}, with {@code u} the time since its start, the value is {@code level_i +
 * slope_i u + sum over its terms of exp(growth u) (cosine cos(2 pi f u) + sine sin(2 pi f u))}.
 * Played once, the pattern is zero before its origin and its last segment never ends. Repeated, it
 * fills one period from the origin and goes on both ways.
 *
 * <p>Starts are kept in two doubles each, so that a 1 ps edge half a millisecond into a period
 * keeps its shape.
 */
public final class Pattern implements Component {
  private final double originHi;
  private final double originLo;
  private final double period;
  private final double periodLo;
  private final Table table;

  private Pattern(double originHi, double originLo, double period, double periodLo, Table table) {
    this.originHi = originHi;
    this.originLo = originLo;
    this.period = period;
    this.periodLo = periodLo;
    this.table = table;
  }

  /** The segments themselves, shared by patterns that differ in origin only. */
  private record Table(
      double[] startHi,
      double[] startLo,
      double[] level,
      double[] slope,
      int[] termFrom,
      double[] cosine,
      double[] sine,
      double[] growth,
      double[] frequencyHz) {}

  /**
   * The instant at which the first segment starts.
   *
   * @return seconds, leading part
   */
  public double originHi() {
    return originHi;
  }

  /**
   * What {@link #originHi} leaves over.
   *
   * @return seconds
   */
  public double originLo() {
    return originLo;
  }

  /**
   * The time after which the pattern repeats.
   *
   * @return seconds; positive infinity if it is played once
   */
  public double periodSeconds() {
    return period;
  }

  /**
   * What {@link #periodSeconds} leaves over.
   *
   * @return seconds
   */
  public double periodLo() {
    return periodLo;
  }

  /**
   * Whether the pattern repeats.
   *
   * @return true if its period is finite
   */
  public boolean isPeriodic() {
    return period < Double.POSITIVE_INFINITY;
  }

  /**
   * The number of segments.
   *
   * @return 1 or more
   */
  public int count() {
    return table.level.length;
  }

  /**
   * When a segment starts, after the origin.
   *
   * @param i segment
   * @return seconds, leading part
   */
  public double startHi(int i) {
    return table.startHi[i];
  }

  /**
   * What {@link #startHi} leaves over.
   *
   * @param i segment
   * @return seconds
   */
  public double startLo(int i) {
    return table.startLo[i];
  }

  /**
   * How long a segment lasts.
   *
   * @param i segment
   * @return seconds; positive infinity for the last of a pattern that is played once
   */
  public double length(int i) {
    if (i + 1 < count()) {
      return (table.startHi[i + 1] - table.startHi[i]) + (table.startLo[i + 1] - table.startLo[i]);
    }
    return (period - table.startHi[i]) + (periodLo - table.startLo[i]);
  }

  /**
   * The constant of a segment.
   *
   * @param i segment
   * @return volts
   */
  public double level(int i) {
    return table.level[i];
  }

  /**
   * The slope of a segment's linear part.
   *
   * @param i segment
   * @return V/s
   */
  public double slope(int i) {
    return table.slope[i];
  }

  /**
   * The first exponential term of a segment.
   *
   * @param i segment, or {@link #count} for the end of the last
   * @return index for {@link #cosine}, {@link #sine}, {@link #growth} and {@link #frequencyHz}
   */
  public int termFrom(int i) {
    return table.termFrom[i];
  }

  /**
   * Cosine amplitude of a term.
   *
   * @param k term
   * @return volts
   */
  public double cosine(int k) {
    return table.cosine[k];
  }

  /**
   * Sine amplitude of a term.
   *
   * @param k term
   * @return volts
   */
  public double sine(int k) {
    return table.sine[k];
  }

  /**
   * Rate of growth of a term.
   *
   * @param k term
   * @return 1/s, zero or negative (a decay)
   */
  public double growth(int k) {
    return table.growth[k];
  }

  /**
   * Frequency of a term.
   *
   * @param k term
   * @return Hz, zero for a plain exponential
   */
  public double frequencyHz(int k) {
    return table.frequencyHz[k];
  }

  /**
   * The segment that holds an instant after the origin, within one period.
   *
   * @param hi seconds after the origin
   * @param lo seconds left over by {@code hi}
   * @return the last segment that starts no later; the first for an instant before the origin
   */
  public int segmentAt(double hi, double lo) {
    int low = 0;
    int high = count() - 1;
    while (low < high) {
      int middle = (low + high + 1) >>> 1;
      if ((table.startHi[middle] - hi) + (table.startLo[middle] - lo) <= 0) {
        low = middle;
      } else {
        high = middle - 1;
      }
    }
    return low;
  }

  @Override
  public double valueAt(double hi, double lo) {
    ExtendedTime t = sinceOrigin(hi, lo);
    if (t.hi() < 0) {
      return 0;
    }
    int i = segmentAt(t.hi(), t.lo());
    t.add(-table.startHi[i], -table.startLo[i]);
    return valueIn(i, t.hi(), t.lo());
  }

  @Override
  public double valueBefore(double timeSeconds) {
    ExtendedTime t = sinceOrigin(timeSeconds, 0);
    boolean atOrigin = t.hi() == 0;
    if (t.hi() < 0 || atOrigin && !isPeriodic()) {
      return 0;
    }
    int i = atOrigin ? count() - 1 : segmentAt(t.hi(), t.lo());
    if (atOrigin) {
      t.set(period, periodLo);
    } else if (t.hi() == table.startHi[i] && t.lo() == table.startLo[i]) {
      i--;
    }
    t.add(-table.startHi[i], -table.startLo[i]);
    return valueIn(i, t.hi(), t.lo());
  }

  /** The time since the origin, or since the start of the present period. */
  private ExtendedTime sinceOrigin(double hi, double lo) {
    ExtendedTime t = new ExtendedTime().set(hi, lo).add(-originHi, -originLo);
    if (isPeriodic()) {
      t.removeWhole(period, periodLo);
    }
    return t;
  }

  private double valueIn(int i, double hi, double lo) {
    double sum = table.level[i] + (table.slope[i] * hi + table.slope[i] * lo);
    for (int k = table.termFrom[i]; k < table.termFrom[i + 1]; k++) {
      double angle = 2 * Math.PI * ExtendedTime.fractionOfCycles(table.frequencyHz[k], hi, lo);
      sum +=
          Math.exp(table.growth[k] * hi)
              * (table.cosine[k] * Math.cos(angle) + table.sine[k] * Math.sin(angle));
    }
    return sum;
  }

  /**
   * The terms of the segment in force just after an instant, seen from that instant; nothing before
   * the origin.
   */
  Terms termsAt(double hi, double lo, Terms into) {
    ExtendedTime t = sinceOrigin(hi, lo);
    if (t.hi() >= 0) {
      int i = segmentAt(t.hi(), t.lo());
      t.add(-table.startHi[i], -table.startLo[i]);
      addTerms(i, t.hi(), t.lo(), into);
    }
    return into;
  }

  /**
   * Adds the terms of the segment in force {@code half} after an instant, seen from that instant.
   */
  void addTermsAround(double hi, double lo, double half, Terms into) {
    ExtendedTime middle = new ExtendedTime().set(hi, lo).add(half);
    ExtendedTime t = sinceOrigin(middle.hi(), middle.lo());
    if (t.hi() < 0) {
      return;
    }
    int i = segmentAt(t.hi(), t.lo());
    t.add(-half).add(-table.startHi[i], -table.startLo[i]);
    addTerms(i, t.hi(), t.lo(), into);
  }

  /** The highest frequency of the sines in force at an instant that do not die away. */
  double undampedAt(double timeSeconds) {
    ExtendedTime t = sinceOrigin(timeSeconds, 0);
    double fastest = 0;
    if (t.hi() >= 0) {
      int i = segmentAt(t.hi(), t.lo());
      for (int k = table.termFrom[i]; k < table.termFrom[i + 1]; k++) {
        if (table.growth[k] == 0) {
          fastest = Math.max(fastest, table.frequencyHz[k]);
        }
      }
    }
    return fastest;
  }

  /**
   * The greatest rate of change that is still alive at an instant, as the frequency of a sine that
   * turns as fast.
   */
  double fastestAt(double timeSeconds, double timeConstants) {
    ExtendedTime t = sinceOrigin(timeSeconds, 0);
    if (t.hi() < 0) {
      return 0;
    }
    int i = segmentAt(t.hi(), t.lo());
    double u = t.hi() - table.startHi[i];
    double fastest = 0;
    for (int k = table.termFrom[i]; k < table.termFrom[i + 1]; k++) {
      if (-table.growth[k] * u < timeConstants) {
        fastest = Math.max(fastest, Math.max(table.frequencyHz[k], -table.growth[k] / 4));
      }
    }
    return fastest;
  }

  /** Adds the terms of segment {@code i}, seen {@code hi + lo} after its start. */
  void addTerms(int i, double hi, double lo, Terms into) {
    into.level += table.level[i] + (table.slope[i] * hi + table.slope[i] * lo);
    into.slope += table.slope[i];
    for (int k = table.termFrom[i]; k < table.termFrom[i + 1]; k++) {
      into.addRotated(
          table.cosine[k], table.sine[k], table.growth[k], table.frequencyHz[k], hi, lo);
    }
  }

  @Override
  public Pattern delayedBy(double seconds) {
    ExtendedTime t = new ExtendedTime().set(originHi, originLo).add(seconds);
    return new Pattern(t.hi(), t.lo(), period, periodLo, table);
  }

  @Override
  public Pattern stretchedBy(double factor) {
    ExtendedTime origin = product(factor, originHi, originLo);
    ExtendedTime every = isPeriodic() ? product(factor, period, periodLo) : null;
    double[] startHi = new double[count()];
    double[] startLo = new double[count()];
    for (int i = 0; i < startHi.length; i++) {
      ExtendedTime start = product(factor, table.startHi[i], table.startLo[i]);
      startHi[i] = start.hi();
      startLo[i] = start.lo();
    }
    return new Pattern(
        origin.hi(),
        origin.lo(),
        every == null ? period : every.hi(),
        every == null ? periodLo : every.lo(),
        new Table(
            startHi,
            startLo,
            table.level,
            Terms.scaled(table.slope, 1 / factor),
            table.termFrom,
            table.cosine,
            table.sine,
            Terms.scaled(table.growth, 1 / factor),
            Terms.scaled(table.frequencyHz, 1 / factor)));
  }

  private static ExtendedTime product(double factor, double hi, double lo) {
    return new ExtendedTime().addProduct(factor, hi).addProduct(factor, lo);
  }

  @Override
  public Pattern times(double factor) {
    return new Pattern(
        originHi,
        originLo,
        period,
        periodLo,
        new Table(
            table.startHi,
            table.startLo,
            Terms.scaled(table.level, factor),
            Terms.scaled(table.slope, factor),
            table.termFrom,
            Terms.scaled(table.cosine, factor),
            Terms.scaled(table.sine, factor),
            table.growth,
            table.frequencyHz));
  }

  @Override
  public double bound() {
    double most = 0;
    for (int i = 0; i < count(); i++) {
      double slope = table.slope[i];
      double end = slope == 0 ? table.level[i] : table.level[i] + slope * length(i);
      double sum = Math.max(Math.abs(table.level[i]), Math.abs(end));
      for (int k = table.termFrom[i]; k < table.termFrom[i + 1]; k++) {
        sum += Math.hypot(table.cosine[k], table.sine[k]);
      }
      most = Math.max(most, sum);
    }
    return most;
  }

  /** Collects segments in ascending order of their starts. */
  static final class Builder {
    private int count;
    private int terms;
    private double[] startHi = new double[8];
    private double[] startLo = new double[8];
    private double[] level = new double[8];
    private double[] slope = new double[8];
    private int[] termFrom = new int[9];
    private double[] cosine = new double[2];
    private double[] sine = new double[2];
    private double[] growth = new double[2];
    private double[] frequencyHz = new double[2];

    /**
     * Adds a segment that starts {@code hi + lo} seconds after the origin; the first starts at
     * zero.
     */
    Builder add(double hi, double lo, double atStart, double perSecond) {
      if (count == level.length) {
        int size = 2 * count;
        startHi = Arrays.copyOf(startHi, size);
        startLo = Arrays.copyOf(startLo, size);
        level = Arrays.copyOf(level, size);
        slope = Arrays.copyOf(slope, size);
        termFrom = Arrays.copyOf(termFrom, size + 1);
      }
      startHi[count] = hi;
      startLo[count] = lo;
      level[count] = atStart;
      slope[count] = perSecond;
      termFrom[++count] = terms;
      return this;
    }

    Builder add(ExtendedTime start, double atStart, double perSecond) {
      return add(start.hi(), start.lo(), atStart, perSecond);
    }

    /** Adds a segment with all terms given. */
    Builder add(double hi, double lo, Terms t) {
      add(hi, lo, t.level, t.slope);
      for (int k = 0; k < t.count; k++) {
        term(t.cosine[k], t.sine[k], t.growth[k], t.frequencyHz[k]);
      }
      return this;
    }

    /** Adds an exponential term to the segment added last. */
    Builder term(double c, double s, double sigma, double f) {
      if (terms == cosine.length) {
        int size = 2 * terms;
        cosine = Arrays.copyOf(cosine, size);
        sine = Arrays.copyOf(sine, size);
        growth = Arrays.copyOf(growth, size);
        frequencyHz = Arrays.copyOf(frequencyHz, size);
      }
      cosine[terms] = c;
      sine[terms] = s;
      growth[terms] = sigma;
      frequencyHz[terms++] = f;
      termFrom[count] = terms;
      return this;
    }

    int count() {
      return count;
    }

    Pattern once(double originHi, double originLo) {
      return build(originHi, originLo, Double.POSITIVE_INFINITY, 0);
    }

    Pattern repeated(double originHi, double originLo, ExtendedTime period) {
      return build(originHi, originLo, period.hi(), period.lo());
    }

    private Pattern build(double originHi, double originLo, double period, double periodLo) {
      Pattern pattern =
          new Pattern(
              originHi,
              originLo,
              period,
              periodLo,
              new Table(
                  Arrays.copyOf(startHi, count),
                  Arrays.copyOf(startLo, count),
                  Arrays.copyOf(level, count),
                  Arrays.copyOf(slope, count),
                  Arrays.copyOf(termFrom, count + 1),
                  Arrays.copyOf(cosine, terms),
                  Arrays.copyOf(sine, terms),
                  Arrays.copyOf(growth, terms),
                  Arrays.copyOf(frequencyHz, terms)));
      for (int i = 0; i < count; i++) {
        double length = pattern.length(i);
        if (!(length > 0)) {
          // the words are dear, and there may be 2^20 segments
          Require.that(
              false, "segment " + i + " lasts " + length + " s: segments must follow one another");
        }
      }
      return pattern;
    }
  }
}
