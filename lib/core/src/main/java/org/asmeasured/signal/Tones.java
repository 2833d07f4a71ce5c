package org.asmeasured.signal;

import org.asmeasured.internal.ExtendedTime;
import org.asmeasured.internal.Require;

/**
 * A constant and sines that have been there for ever: {@code level + sum cosine_i cos(2 pi f_i t) +
 * sine_i sin(2 pi f_i t)}.
 *
 * <p>The arrays are owned by the value and never change after construction.
 */
public final class Tones implements Component {
  private final double level;
  private final double[] frequencyHz;
  private final double[] cosine;
  private final double[] sine;

  /**
   * A constant and sines.
   *
   * @param level volts
   * @param frequencyHz frequencies, 1e-9 to 1e15 Hz
   * @param cosine amplitudes of the cosines, volts, as many
   * @param sine amplitudes of the sines, volts, as many
   * @throws IllegalArgumentException if a value is out of range or the lengths differ
   */
  public Tones(double level, double[] frequencyHz, double[] cosine, double[] sine) {
    this(
        Require.volts("level", level),
        Require.present("frequencyHz", frequencyHz).clone(),
        Require.present("cosine", cosine).clone(),
        Require.present("sine", sine).clone(),
        true);
    Require.that(
        frequencyHz.length == cosine.length && cosine.length == sine.length,
        "frequencyHz, cosine and sine have lengths "
            + frequencyHz.length
            + ", "
            + cosine.length
            + ", "
            + sine.length
            + ": must be equal");
    for (int i = 0; i < frequencyHz.length; i++) {
      Require.hertz("frequencyHz[" + i + "]", frequencyHz[i]);
      Require.volts("cosine[" + i + "]", cosine[i]);
      Require.volts("sine[" + i + "]", sine[i]);
    }
  }

  private Tones(double level, double[] frequencyHz, double[] cosine, double[] sine, boolean owned) {
    this.level = level;
    this.frequencyHz = frequencyHz;
    this.cosine = cosine;
    this.sine = sine;
  }

  /**
   * The constant part.
   *
   * @return volts
   */
  public double level() {
    return level;
  }

  /**
   * The number of sines.
   *
   * @return 0 or more
   */
  public int count() {
    return frequencyHz.length;
  }

  /**
   * A frequency.
   *
   * @param i which sine
   * @return Hz
   */
  public double frequencyHz(int i) {
    return frequencyHz[i];
  }

  /**
   * The amplitude of a cosine.
   *
   * @param i which sine
   * @return volts
   */
  public double cosine(int i) {
    return cosine[i];
  }

  /**
   * The amplitude of a sine.
   *
   * @param i which sine
   * @return volts
   */
  public double sine(int i) {
    return sine[i];
  }

  Tones plus(Tones other) {
    return new Tones(
        level + other.level,
        joined(frequencyHz, other.frequencyHz),
        joined(cosine, other.cosine),
        joined(sine, other.sine),
        true);
  }

  private static double[] joined(double[] a, double[] b) {
    double[] c = java.util.Arrays.copyOf(a, a.length + b.length);
    System.arraycopy(b, 0, c, a.length, b.length);
    return c;
  }

  @Override
  public double valueAt(double hi, double lo) {
    double sum = level;
    for (int i = 0; i < frequencyHz.length; i++) {
      double angle = 2 * Math.PI * ExtendedTime.fractionOfCycles(frequencyHz[i], hi, lo);
      sum += cosine[i] * Math.cos(angle) + sine[i] * Math.sin(angle);
    }
    return sum;
  }

  @Override
  public double valueBefore(double timeSeconds) {
    return valueAt(timeSeconds, 0);
  }

  @Override
  public Tones delayedBy(double seconds) {
    double[] c = new double[cosine.length];
    double[] s = new double[sine.length];
    for (int i = 0; i < c.length; i++) {
      double angle = 2 * Math.PI * ExtendedTime.fractionOfCycles(frequencyHz[i], seconds, 0);
      double re = Math.cos(angle);
      double im = Math.sin(angle);
      c[i] = cosine[i] * re - sine[i] * im;
      s[i] = sine[i] * re + cosine[i] * im;
    }
    return new Tones(level, frequencyHz, c, s, true);
  }

  @Override
  public Tones stretchedBy(double factor) {
    double[] stretched = Terms.scaled(frequencyHz, 1 / factor);
    for (double f : stretched) {
      Require.hertz("frequencyHz", f);
    }
    return new Tones(level, stretched, cosine, sine, true);
  }

  @Override
  public Tones times(double factor) {
    return new Tones(
        level * factor,
        frequencyHz,
        Terms.scaled(cosine, factor),
        Terms.scaled(sine, factor),
        true);
  }

  /** The integral over a span, or that of the square, in closed form. */
  private double integral(double from, double to, boolean square) {
    Terms terms = termsAt(from, 0);
    return square ? terms.integralOfSquare(to - from) : terms.integral(to - from);
  }

  /**
   * The mean over a span.
   *
   * @param fromSeconds start of the span, -1e12 to 1e12 s
   * @param toSeconds end of the span, after its start
   * @return volts
   * @throws IllegalArgumentException if the span is empty or an end of it out of range
   */
  public double mean(double fromSeconds, double toSeconds) {
    Require.span(fromSeconds, toSeconds);
    return integral(fromSeconds, toSeconds, false) / (toSeconds - fromSeconds);
  }

  /**
   * The root of the mean square over a span.
   *
   * @param fromSeconds start of the span, -1e12 to 1e12 s
   * @param toSeconds end of the span, after its start
   * @return volts
   * @throws IllegalArgumentException if the span is empty or an end of it out of range
   */
  public double rms(double fromSeconds, double toSeconds) {
    Require.span(fromSeconds, toSeconds);
    double square = integral(fromSeconds, toSeconds, true) / (toSeconds - fromSeconds);
    return Math.sqrt(Math.max(0, square));
  }

  @Override
  public double bound() {
    double sum = Math.abs(level);
    for (int i = 0; i < cosine.length; i++) {
      sum += Math.hypot(cosine[i], sine[i]);
    }
    return sum;
  }

  /** The terms seen from an instant: level and undamped sines with their phase there. */
  Terms termsAt(double hi, double lo) {
    Terms terms = new Terms();
    terms.level = level;
    for (int i = 0; i < frequencyHz.length; i++) {
      terms.addRotated(cosine[i], sine[i], 0, frequencyHz[i], hi, lo);
    }
    return terms;
  }
}
