package org.asmeasured.capture;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.asmeasured.acquisition.Reconstruction;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;

/**
 * What was stored: points with their codes or volts, their instants, and flags. Immutable.
 *
 * <p>A record covers the span from {@link #startSeconds} for {@link #spanSeconds}; each point owns
 * one interval of it. An envelope has two values a point, {@link #lower} and {@link #upper}; of any
 * other record these are both the point's value.
 */
public final class Record {
  private final double startSeconds;
  private final double rawRateHz;
  private final int factor;
  private final double centre;
  private final boolean envelope;
  private final double offsetVolts;
  private final double stepVolts;
  private final int size;
  private final Points lower;
  private final Points upper;
  private final long clippedLow;
  private final long clippedHigh;
  private final Map<Flag, String> triggerNotes;

  /** Found when it is first asked for, by several threads alike; null until then. */
  private CodeRange codeRange;

  /** Values of the points: codes, or else volts. */
  record Points(int[] codes, double[] volts) {
    int size() {
      return codes != null ? codes.length : volts.length;
    }
  }

  Record(
      Setup setup,
      Schedule schedule,
      boolean envelope,
      int storedBits,
      Points lower,
      Points upper,
      CodeRange codeRange,
      long clippedLow,
      long clippedHigh) {
    startSeconds = schedule == null ? setup.startSeconds() : schedule.startSeconds();
    rawRateHz = setup.rateHz();
    factor = setup.decimation().factor();
    centre = setup.decimation().centre();
    this.envelope = envelope;
    offsetVolts = setup.vertical().offsetVolts();
    stepVolts = storedBits == 0 ? 0 : Math.scalb(setup.vertical().fullScaleVolts(), -storedBits);
    size = lower.size();
    this.lower = lower;
    this.upper = upper;
    this.codeRange = codeRange;
    this.clippedLow = clippedLow;
    this.clippedHigh = clippedHigh;
    triggerNotes = schedule == null ? Map.of() : schedule.notes();
  }

  /** What a setup stores when no event came: nothing, and why. */
  static Record empty(Setup setup, Schedule schedule) {
    Points none = new Points(null, new double[0]);
    return new Record(setup, schedule, false, 0, none, none, null, 0, 0);
  }

  private Record(double startSeconds, double rateHz, double[] volts) {
    this.startSeconds = startSeconds;
    rawRateHz = rateHz;
    factor = 1;
    centre = 0;
    envelope = false;
    offsetVolts = 0;
    stepVolts = 0;
    size = volts.length;
    lower = new Points(null, volts);
    upper = lower;
    clippedLow = 0;
    clippedHigh = 0;
    triggerNotes = Map.of();
  }

  private Record(Record from, Reconstruction reconstruction, int perPoint, double[] values) {
    startSeconds = from.timeSeconds(reconstruction.margin());
    rawRateHz = from.rateHz() * perPoint;
    factor = 1;
    centre = 0;
    envelope = false;
    offsetVolts = from.offsetVolts;
    stepVolts = from.stepVolts;
    size = values.length;
    lower = new Points(null, values);
    upper = lower;
    clippedLow = from.clippedLow;
    clippedHigh = from.clippedHigh;
    triggerNotes = from.triggerNotes;
  }

  /**
   * A record that came from elsewhere, so that readings can be taken of it.
   *
   * @param startSeconds the instant of point 0, -1e12 to 1e12 s
   * @param rateHz points per second, 1e-9 to 1e15 Hz
   * @param volts the points, at least one, each -1e9 to 1e9 V; copied
   * @return the record, without codes or flags
   * @throws IllegalArgumentException if a value is out of range or there is none
   */
  public static Record of(double startSeconds, double rateHz, double[] volts) {
    Require.instant("startSeconds", startSeconds);
    Require.hertz("rateHz", rateHz);
    Require.present("volts", volts);
    Require.inRange("volts.length", volts.length, 1, Setup.MAX_POINTS);
    double[] copy = volts.clone();
    for (int i = 0; i < copy.length; i++) {
      if (!(Math.abs(copy[i]) <= 1e9)) {
        Require.volts("volts[" + i + "]", copy[i]);
      }
    }
    return new Record(startSeconds, rateHz, copy);
  }

  /**
   * This record with values between its points. It starts at the first point that has any after it,
   * and ends with the last that has any before it: see {@link Reconstruction#margin}. Clipping
   * stays what it was.
   *
   * @param reconstruction what is between the points
   * @param factor values a point, 1 to 4096
   * @return the record of more points, in volts without codes
   * @throws IllegalArgumentException if the factor is out of range, or the record is too short for
   *     this reconstruction or would become too long
   * @throws IllegalStateException if the record is an envelope
   * @throws NullPointerException if the reconstruction is missing
   */
  public Record reconstructed(Reconstruction reconstruction, int factor) {
    Require.present("reconstruction", reconstruction);
    double[] points = volts();
    double[] values = new double[reconstruction.size(points.length, factor)];
    reconstruction.fill(points, factor, values);
    return new Record(this, reconstruction, factor, values);
  }

  /**
   * The product with another record of the same points: of volts and amperes, watts. A point that
   * was clipped in one of the two makes the product wrong to an unknown side, so clipped samples of
   * both count as low and as high ones.
   *
   * @param other the other record
   * @return the products, without codes
   * @throws IllegalArgumentException if the two differ in start, rate, size or place of their
   *     points; the message says in what
   * @throws IllegalStateException if one of them is an envelope
   * @throws NullPointerException if the other is missing
   */
  public Record times(Record other) {
    Require.present("other", other);
    equal("startSeconds", startSeconds, other.startSeconds);
    equal("rateHz", rateHz(), other.rateHz());
    Require.that(
        size == other.size,
        "size = " + size + ", of the other record " + other.size + ": must be equal");
    equal("place within an interval", centre / factor, other.centre / other.factor);
    double[] products = volts();
    for (int i = 0; i < size; i++) {
      products[i] *= other.volts(i);
    }
    return new Record(this, other, products);
  }

  private static void equal(String what, double here, double there) {
    Require.that(
        here == there, what + " = " + here + ", of the other record " + there + ": must be equal");
  }

  private Record(Record a, Record b, double[] products) {
    startSeconds = a.startSeconds;
    rawRateHz = a.rawRateHz;
    factor = a.factor;
    centre = a.centre;
    envelope = false;
    offsetVolts = 0;
    stepVolts = 0;
    size = a.size;
    lower = new Points(null, products);
    upper = lower;
    clippedLow = a.clippedLow + a.clippedHigh + b.clippedLow + b.clippedHigh;
    clippedHigh = clippedLow;
    triggerNotes = a.triggerNotes;
  }

  /**
   * The number of stored points.
   *
   * @return 1 or more
   */
  public int size() {
    return size;
  }

  /**
   * Whether each point has two values, the least and the greatest of its raw samples.
   *
   * @return true for an envelope
   */
  public boolean isEnvelope() {
    return envelope;
  }

  /**
   * The value of a point.
   *
   * @param index 0 to size - 1
   * @return volts
   * @throws IndexOutOfBoundsException if there is no such point
   * @throws IllegalStateException if the record is an envelope
   */
  public double volts(int index) {
    return value(single(), index);
  }

  /**
   * The least value of a point.
   *
   * @param index 0 to size - 1
   * @return volts; the value of the point unless the record is an envelope
   * @throws IndexOutOfBoundsException if there is no such point
   */
  public double lower(int index) {
    return value(lower, index);
  }

  /**
   * The greatest value of a point.
   *
   * @param index 0 to size - 1
   * @return volts; the value of the point unless the record is an envelope
   * @throws IndexOutOfBoundsException if there is no such point
   */
  public double upper(int index) {
    return value(upper, index);
  }

  /**
   * The first point, from one on, whose value is a level or above it.
   *
   * @param from where to begin, 0 to size
   * @param level volts, not NaN
   * @return its number; size if there is none
   * @throws IndexOutOfBoundsException if there is no such place
   * @throws IllegalArgumentException if the level is NaN
   * @throws IllegalStateException if the record is an envelope
   */
  public int firstAtOrAbove(int from, double level) {
    Points points = checked(from, level);
    int i = from;
    if (points.codes() != null) {
      int code = leastCode();
      int last = greatestCode();
      code += (int) Math.max(0, Math.min(last - code, (level - voltsAt(code)) / stepVolts - 1));
      while (code <= last && voltsAt(code) < level) {
        code++;
      }
      while (i < size && points.codes()[i] < code) {
        i++;
      }
      return i;
    }
    while (i < size && points.volts()[i] < level) {
      i++;
    }
    return i;
  }

  /**
   * The first point, from one on, whose value is a level or below it.
   *
   * @param from where to begin, 0 to size
   * @param level volts, not NaN
   * @return its number; size if there is none
   * @throws IndexOutOfBoundsException if there is no such place
   * @throws IllegalArgumentException if the level is NaN
   * @throws IllegalStateException if the record is an envelope
   */
  public int firstAtOrBelow(int from, double level) {
    Points points = checked(from, level);
    int i = from;
    if (points.codes() != null) {
      int first = leastCode();
      int code = greatestCode();
      code -= (int) Math.max(0, Math.min(code - first, (voltsAt(code) - level) / stepVolts - 1));
      while (code >= first && voltsAt(code) > level) {
        code--;
      }
      while (i < size && points.codes()[i] > code) {
        i++;
      }
      return i;
    }
    while (i < size && points.volts()[i] > level) {
      i++;
    }
    return i;
  }

  private Points checked(int from, double level) {
    Objects.checkIndex(from, size + 1);
    Require.that(!Double.isNaN(level), "level = NaN: must be a number");
    return single();
  }

  private double voltsAt(int code) {
    return offsetVolts + code * stepVolts;
  }

  /**
   * All values.
   *
   * @return a new array of volts
   * @throws IllegalStateException if the record is an envelope
   */
  public double[] volts() {
    return values(single());
  }

  /**
   * Some values, into an array that is there: a long record need not be copied as a whole.
   *
   * @param first the first point
   * @param out receives volts
   * @param offset where in {@code out} the first goes
   * @param count how many points
   * @throws IndexOutOfBoundsException if the record does not have or {@code out} not hold them
   * @throws IllegalStateException if the record is an envelope
   */
  public void volts(int first, double[] out, int offset, int count) {
    Points points = single();
    Objects.checkFromIndexSize(first, count, size);
    Objects.checkFromIndexSize(offset, count, out.length);
    if (points.codes() == null) {
      System.arraycopy(points.volts(), first, out, offset, count);
      return;
    }
    for (int i = 0; i < count; i++) {
      out[offset + i] = voltsAt(points.codes()[first + i]);
    }
  }

  /**
   * The least of all values.
   *
   * @return volts
   * @throws IllegalStateException if the record is empty
   */
  public double minimum() {
    checkNotEmpty();
    return hasCodes() ? voltsAt(leastCode()) : Extent.least(lower.volts());
  }

  /**
   * The greatest of all values.
   *
   * @return volts
   * @throws IllegalStateException if the record is empty
   */
  public double maximum() {
    checkNotEmpty();
    return hasCodes() ? voltsAt(greatestCode()) : Extent.greatest(upper.volts());
  }

  private void checkNotEmpty() {
    if (size == 0) {
      throw new IllegalStateException("an empty record has neither a least nor a greatest value");
    }
  }

  /**
   * All least values.
   *
   * @return a new array of volts
   */
  public double[] lower() {
    return values(lower);
  }

  /**
   * All greatest values.
   *
   * @return a new array of volts
   */
  public double[] upper() {
    return values(upper);
  }

  /**
   * Whether the points are codes. They are not without a converter, and not as a mean of several
   * acquisitions.
   *
   * @return true if there are codes
   */
  public boolean hasCodes() {
    return lower.codes() != null;
  }

  /**
   * The code of a point; it stands for offset + code x {@link #stepVolts}.
   *
   * @param index 0 to size - 1
   * @return the code in stored bits
   * @throws IndexOutOfBoundsException if there is no such point
   * @throws IllegalStateException if the record has no codes or is an envelope
   */
  public int code(int index) {
    return code(single(), index);
  }

  /**
   * Some codes, into an array that is there.
   *
   * @param first the first point
   * @param out receives codes in stored bits
   * @param offset where in {@code out} the first goes
   * @param count how many points
   * @throws IndexOutOfBoundsException if the record does not have or {@code out} not hold them
   * @throws IllegalStateException if the record has no codes or is an envelope
   */
  public void codes(int first, int[] out, int offset, int count) {
    Points points = single();
    if (points.codes() == null) {
      throw new IllegalStateException("the record holds volts, no codes");
    }
    System.arraycopy(points.codes(), first, out, offset, count);
  }

  /**
   * The code of the least value of a point.
   *
   * @param index 0 to size - 1
   * @return the code in stored bits
   * @throws IndexOutOfBoundsException if there is no such point
   * @throws IllegalStateException if the record has no codes
   */
  public int lowerCode(int index) {
    return code(lower, index);
  }

  /**
   * The code of the greatest value of a point.
   *
   * @param index 0 to size - 1
   * @return the code in stored bits
   * @throws IndexOutOfBoundsException if there is no such point
   * @throws IllegalStateException if the record has no codes
   */
  public int upperCode(int index) {
    return code(upper, index);
  }

  /**
   * The least of all codes.
   *
   * @return the code in stored bits
   * @throws IllegalStateException if the record has no codes
   */
  public int leastCode() {
    return codeRange().least();
  }

  /**
   * The greatest of all codes.
   *
   * @return the code in stored bits
   * @throws IllegalStateException if the record has no codes
   */
  public int greatestCode() {
    return codeRange().greatest();
  }

  private CodeRange codeRange() {
    if (!hasCodes()) {
      throw new IllegalStateException("the record holds volts, no codes");
    }
    CodeRange known = codeRange;
    if (known == null) {
      known = CodeRange.of(lower.codes());
      if (upper != lower) {
        known = CodeRange.both(known, CodeRange.of(upper.codes()));
      }
      codeRange = known;
    }
    return known;
  }

  /**
   * The step between neighbouring codes of a single acquisition, as stored.
   *
   * @return full scale/2<sup>stored bits</sup> in volts; 0 for infinite resolution
   */
  public double stepVolts() {
    return stepVolts;
  }

  /**
   * The voltage at code 0.
   *
   * @return volts
   */
  public double offsetVolts() {
    return offsetVolts;
  }

  /**
   * The start of the span.
   *
   * @return seconds: the instant of raw sample 0
   */
  public double startSeconds() {
    return startSeconds;
  }

  /**
   * Stored points per second.
   *
   * @return Hz
   */
  public double rateHz() {
    return rawRateHz / factor;
  }

  /**
   * The length of the span.
   *
   * @return seconds: size/rate
   */
  public double spanSeconds() {
    return (double) size * factor / rawRateHz;
  }

  /**
   * The instant a point stands for: of a picked sample, its own; of a mean or of extremes, the
   * middle of the samples.
   *
   * @param index 0 to size - 1
   * @return seconds
   * @throws IndexOutOfBoundsException if there is no such point
   */
  public double timeSeconds(int index) {
    if (index < 0 || index >= size) {
      throw new IndexOutOfBoundsException("index = " + index + ": must be from 0 to " + (size - 1));
    }
    return startSeconds + ((double) index * factor + centre) / rawRateHz;
  }

  /**
   * What else is to be said about the record.
   *
   * @return the flags that are raised, unmodifiable
   */
  public Set<Flag> flags() {
    return notes().keySet();
  }

  /**
   * The flags of the record, each with the reason for it in words.
   *
   * @return in the order of the flags, unmodifiable; empty if there is nothing to say
   */
  public Map<Flag, String> notes() {
    Map<Flag, String> notes = new EnumMap<>(Flag.class);
    if (clippedLow > 0) {
      notes.put(
          Flag.CLIPPED_LOW,
          clippedLow
              + (clippedLow == 1 ? " raw sample" : " raw samples")
              + " below the lowest code");
    }
    if (clippedHigh > 0) {
      notes.put(
          Flag.CLIPPED_HIGH,
          clippedHigh
              + (clippedHigh == 1 ? " raw sample" : " raw samples")
              + " above the highest code");
    }
    notes.putAll(triggerNotes);
    return Collections.unmodifiableMap(notes);
  }

  /**
   * How many raw samples, of all acquisitions, lay below the range.
   *
   * @return 0 or more
   */
  public long clippedLow() {
    return clippedLow;
  }

  /**
   * How many raw samples, of all acquisitions, lay above the range.
   *
   * @return 0 or more
   */
  public long clippedHigh() {
    return clippedHigh;
  }

  private Points single() {
    if (envelope) {
      throw new IllegalStateException(
          "an envelope has two values a point: ask for the lower or the upper one");
    }
    return lower;
  }

  private double value(Points points, int index) {
    return points.codes() != null ? voltsAt(points.codes()[index]) : points.volts()[index];
  }

  private double[] values(Points points) {
    if (points.codes() == null) {
      return points.volts().clone();
    }
    double[] volts = new double[size];
    for (int i = 0; i < size; i++) {
      volts[i] = voltsAt(points.codes()[i]);
    }
    return volts;
  }

  private static int code(Points points, int index) {
    if (points.codes() == null) {
      throw new IllegalStateException("the record holds volts, no codes");
    }
    return points.codes()[index];
  }

  @Override
  public String toString() {
    StringBuilder words = new StringBuilder();
    words.append(size).append(envelope ? " pairs" : size == 1 ? " point" : " points");
    words.append(" over ").append(Quantity.of(spanSeconds(), "s"));
    double start = Quantity.orNothing(startSeconds, spanSeconds());
    if (start != 0) {
      words.append(" from ").append(Quantity.of(start, "s"));
    }
    if (stepVolts > 0) {
      words.append(", step ").append(Quantity.of(stepVolts, "V"));
    }
    if (clippedLow > 0) {
      words.append(", clipped low: ").append(clippedLow);
    }
    if (clippedHigh > 0) {
      words.append(", clipped high: ").append(clippedHigh);
    }
    return words.toString();
  }
}
