package org.asmeasured.linear;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import org.apache.commons.math3.analysis.solvers.BrentSolver;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.internal.Extremes;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;

/**
 * A stable rational response {@code H(s) = gain prod(s - zero_i) / prod(s - pole_i)}, s in rad/s,
 * with real coefficients and no more zeros than poles.
 *
 * <p>Immutable and safe for use by many threads. Products of responses keep every factor, so
 * nothing is lost to expanded polynomials: poles may repeat or lie nine decades apart.
 */
public final class Response {
  /** The greatest number of poles. */
  public static final int MAX_POLES = 40;

  private static final double MIN_RADIANS = 1e-10;
  private static final double MAX_RADIANS = 1e17;
  private static final double PAIRED = 1e-12;
  private static final double DAMPED = 1e-12;
  private static final double TWO_PI = 2 * Math.PI;
  private static final Response IDENTITY = new Response(List.of(), List.of(), 1, () -> "ideal");

  private final List<Complex> zeros;
  private final List<Complex> poles;

  /** The gain is mantissa times a power of two: thirty poles at 1e11 rad/s do not fit a double. */
  private final double mantissa;

  private final long exponent;
  private final Supplier<String> words;
  private volatile Modes modes;

  private Response(List<Complex> zeros, List<Complex> poles, double gain, Supplier<String> words) {
    this(zeros, poles, gain, 0, words);
  }

  private Response(
      List<Complex> zeros,
      List<Complex> poles,
      double gain,
      long exponent,
      Supplier<String> words) {
    this.zeros = List.copyOf(zeros);
    this.poles = List.copyOf(poles);
    int shift = gain == 0 ? 0 : Math.getExponent(gain);
    this.mantissa = Math.scalb(gain, -shift);
    this.exponent = exponent + shift;
    this.words = words;
  }

  // Builders.

  /**
   * The response that changes nothing.
   *
   * @return H = 1
   */
  public static Response identity() {
    return IDENTITY;
  }

  /**
   * A plain factor.
   *
   * @param factor any number from -1e9 to 1e9
   * @return H = factor
   * @throws IllegalArgumentException if the factor is out of range
   */
  public static Response gain(double factor) {
    Require.inRange("factor", factor, "", -1e9, 1e9);
    return factor == 1
        ? IDENTITY
        : new Response(List.of(), List.of(), factor, () -> "gain of " + factor);
  }

  /**
   * A first-order low-pass.
   *
   * @param bandwidthHz half-power frequency, 1e-9 to 1e15 Hz
   * @return H = 1/(1 + s/w)
   * @throws IllegalArgumentException if the frequency is out of range
   */
  public static Response singlePole(double bandwidthHz) {
    Require.hertz("bandwidthHz", bandwidthHz);
    return allPole(List.of(new Complex(-1, 0)), bandwidthHz, () -> "single pole");
  }

  /**
   * A first-order high-pass, as AC coupling is.
   *
   * @param cornerHz half-power frequency, 1e-9 to 1e15 Hz
   * @return H = s/(s + w)
   * @throws IllegalArgumentException if the frequency is out of range
   */
  public static Response highPass(double cornerHz) {
    Require.hertz("cornerHz", cornerHz);
    return new Response(
        List.of(Complex.ZERO),
        List.of(new Complex(-TWO_PI * cornerHz, 0)),
        1,
        () -> "high-pass, -3 dB at " + Quantity.of(cornerHz, "Hz"));
  }

  /**
   * A Butterworth low-pass, flattest in magnitude.
   *
   * @param order number of poles, 1 to 10
   * @param bandwidthHz half-power frequency, 1e-9 to 1e15 Hz
   * @return the response, of unit gain at DC
   * @throws IllegalArgumentException if an argument is out of range
   */
  public static Response butterworth(int order, double bandwidthHz) {
    checkShape(order, bandwidthHz);
    return allPole(Shapes.butterworth(order), bandwidthHz, () -> "Butterworth of order " + order);
  }

  /**
   * A Bessel low-pass, flattest in delay, normalised to half power at its bandwidth.
   *
   * @param order number of poles, 1 to 10
   * @param bandwidthHz half-power frequency, 1e-9 to 1e15 Hz
   * @return the response, of unit gain at DC
   * @throws IllegalArgumentException if an argument is out of range
   */
  public static Response bessel(int order, double bandwidthHz) {
    checkShape(order, bandwidthHz);
    return allPole(Shapes.bessel(order), bandwidthHz, () -> "Bessel of order " + order);
  }

  /**
   * An all-pole approximation of the Gaussian magnitude, normalised to half power at its bandwidth:
   * {@code |H|^2 = 1 / sum_{k<=n} (c w^2)^k / k!}.
   *
   * @param order number of poles, 1 to 10
   * @param bandwidthHz half-power frequency, 1e-9 to 1e15 Hz
   * @return the response, of unit gain at DC
   * @throws IllegalArgumentException if an argument is out of range
   */
  public static Response gaussian(int order, double bandwidthHz) {
    checkShape(order, bandwidthHz);
    return allPole(Shapes.gaussian(order), bandwidthHz, () -> "Gaussian of order " + order);
  }

  private static void checkShape(int order, double bandwidthHz) {
    Require.inRange("order", order, 1, Shapes.MAX_ORDER);
    Require.hertz("bandwidthHz", bandwidthHz);
  }

  private static Response allPole(List<Complex> unit, double bandwidthHz, Supplier<String> shape) {
    double w = TWO_PI * bandwidthHz;
    List<Complex> poles = new ArrayList<>();
    double gain = 1;
    long exponent = 0;
    for (Complex p : unit) {
      Complex scaled = new Complex(p.getReal() * w, p.getImaginary() * w);
      poles.add(scaled);
      if (p.getImaginary() > 0) {
        gain *= scaled.getReal() * scaled.getReal() + scaled.getImaginary() * scaled.getImaginary();
      } else if (p.getImaginary() == 0) {
        gain *= -scaled.getReal();
      }
      int shift = Math.getExponent(gain);
      gain = Math.scalb(gain, -shift);
      exponent += shift;
    }
    return new Response(
        List.of(),
        poles,
        gain,
        exponent,
        () -> shape.get() + ", -3 dB at " + Quantity.of(bandwidthHz, "Hz"));
  }

  /**
   * A response from its zeros, poles and gain.
   *
   * @param zeros zeros in rad/s, complex ones with their conjugates, of modulus zero or from 1e-10
   *     to 1e17 rad/s; no more than poles
   * @param poles poles in rad/s, complex ones with their conjugates, all with a negative real part
   *     of at least 1e-12 of their modulus, and a modulus from 1e-10 to 1e17 rad/s; at most 40
   * @param gain the factor in front, finite: with as many zeros as poles the gain at infinite
   *     frequency
   * @return the response
   * @throws IllegalArgumentException if a root has no conjugate, a pole is not stable or a number
   *     is out of range; the message says which
   */
  public static Response of(List<Complex> zeros, List<Complex> poles, double gain) {
    Require.inRange("gain", gain, "", -Double.MAX_VALUE, Double.MAX_VALUE);
    Require.present("zeros", zeros);
    Require.present("poles", poles);
    Require.that(
        poles.size() <= MAX_POLES,
        "poles has " + poles.size() + " entries: must be at most " + MAX_POLES);
    Require.that(
        zeros.size() <= poles.size(),
        "zeros has "
            + zeros.size()
            + " entries and poles "
            + poles.size()
            + ": there must not be more zeros than poles");
    for (int i = 0; i < poles.size(); i++) {
      Complex p = Require.present("poles[" + i + "]", poles.get(i));
      Require.inRange("poles[" + i + "].modulus", p.abs(), "rad/s", MIN_RADIANS, MAX_RADIANS);
      Require.that(
          -p.getReal() >= DAMPED * p.abs(),
          "poles["
              + i
              + "] = "
              + p.getReal()
              + " + "
              + p.getImaginary()
              + "j rad/s: must have a negative real part, of at least 1e-12 of its modulus");
    }
    for (int i = 0; i < zeros.size(); i++) {
      Complex z = Require.present("zeros[" + i + "]", zeros.get(i));
      if (z.abs() != 0) {
        Require.inRange("zeros[" + i + "].modulus", z.abs(), "rad/s", MIN_RADIANS, MAX_RADIANS);
      }
    }
    return new Response(
        paired("zeros", zeros),
        paired("poles", poles),
        gain,
        () -> zeros.size() + " zeros, " + poles.size() + " poles");
  }

  /** Puts each complex root beside its exact conjugate. */
  private static List<Complex> paired(String name, List<Complex> roots) {
    List<Complex> rest = new ArrayList<>(roots);
    List<Complex> out = new ArrayList<>();
    while (!rest.isEmpty()) {
      Complex a = rest.remove(0);
      if (a.getImaginary() == 0) {
        out.add(a);
        continue;
      }
      Complex mirror = a.conjugate();
      Complex nearest = null;
      for (Complex b : rest) {
        if (nearest == null || b.subtract(mirror).abs() < nearest.subtract(mirror).abs()) {
          nearest = b;
        }
      }
      Require.that(
          nearest != null && nearest.subtract(mirror).abs() <= PAIRED * a.abs(),
          name
              + ": "
              + a.getReal()
              + " + "
              + a.getImaginary()
              + "j rad/s must come with its conjugate");
      rest.remove(nearest);
      Complex upper = a.getImaginary() > 0 ? a : mirror;
      out.add(upper);
      out.add(upper.conjugate());
    }
    return out;
  }

  // Algebra.

  /**
   * Two responses one after the other.
   *
   * @param other the other response
   * @return the product, with all zeros and poles of both
   * @throws IllegalArgumentException if more than 40 poles would result
   */
  public Response times(Response other) {
    Require.present("other", other);
    if (other == IDENTITY) {
      return this;
    }
    if (this == IDENTITY) {
      return other;
    }
    Require.that(
        poles.size() + other.poles.size() <= MAX_POLES,
        () ->
            "the product has "
                + (poles.size() + other.poles.size())
                + " poles: must be at most "
                + MAX_POLES);

    List<Complex> z = new ArrayList<>(zeros);
    z.addAll(other.zeros);
    List<Complex> p = new ArrayList<>(poles);
    p.addAll(other.poles);
    return new Response(
        z,
        p,
        mantissa * other.mantissa,
        exponent + other.exponent,
        () -> words.get() + "; " + other.words.get());
  }

  /**
   * The response with another gain.
   *
   * @param factor any number from -1e9 to 1e9
   * @return factor H
   * @throws IllegalArgumentException if the factor is out of range
   */
  public Response scaledBy(double factor) {
    return times(gain(factor));
  }

  /**
   * Whether the response changes nothing at all.
   *
   * @return true for H = 1 without poles
   */
  public boolean isIdentity() {
    return poles.isEmpty() && gain() == 1;
  }

  /**
   * The zeros.
   *
   * @return rad/s, complex ones beside their conjugates
   */
  public List<Complex> zeros() {
    return zeros;
  }

  /**
   * The poles.
   *
   * @return rad/s, complex ones beside their conjugates
   */
  public List<Complex> poles() {
    return poles;
  }

  /**
   * The factor in front of the zeros and poles.
   *
   * @return its unit is (rad/s) to the power of poles less zeros; infinite or zero where that
   *     leaves the range of a double, as with thirty poles at 1e11 rad/s (the response itself does
   *     not suffer)
   */
  public double gain() {
    return Math.scalb(mantissa, clamped(exponent));
  }

  // Frequency.

  /**
   * The gain at DC.
   *
   * @return H(0)
   */
  public double dcGain() {
    return evaluate(0, 0).getReal();
  }

  /**
   * The gain at infinite frequency: what a jump of the input becomes at once.
   *
   * @return H(infinity), zero with fewer zeros than poles
   */
  public double directGain() {
    return zeros.size() == poles.size() ? gain() : 0;
  }

  /**
   * The complex gain of a sine.
   *
   * @param frequencyHz its frequency, 0 to 1e15 Hz
   * @return H(2 pi j f)
   * @throws IllegalArgumentException if the frequency is out of range
   */
  public Complex at(double frequencyHz) {
    Require.inRange("frequencyHz", frequencyHz, "Hz", 0, 1e15);
    return evaluate(0, TWO_PI * frequencyHz);
  }

  /** H at any s; scaled as it goes, so that twenty poles at 1e10 rad/s do not overflow. */
  Complex evaluate(double sRe, double sIm) {
    double re = mantissa;
    double im = 0;
    long scale = exponent;
    int z = 0;
    for (Complex p : poles) {
      double dr = sRe - p.getReal();
      double di = sIm - p.getImaginary();
      double d2 = dr * dr + di * di;
      double t = (re * dr + im * di) / d2;
      im = (im * dr - re * di) / d2;
      re = t;
      if (z < zeros.size()) {
        Complex zero = zeros.get(z++);
        double nr = sRe - zero.getReal();
        double ni = sIm - zero.getImaginary();
        t = re * nr - im * ni;
        im = re * ni + im * nr;
        re = t;
      }
      int shift = Math.getExponent(Math.max(Math.abs(re), Math.abs(im)));
      if (shift > 300 || shift < -300 && (re != 0 || im != 0)) {
        re = Math.scalb(re, -shift);
        im = Math.scalb(im, -shift);
        scale += shift;
      }
    }
    int e = clamped(scale);
    return new Complex(Math.scalb(re, e), Math.scalb(im, e));
  }

  /** An exponent as far out as scaling can tell apart. */
  static int clamped(long exponent) {
    return (int) Math.max(-4000, Math.min(4000, exponent));
  }

  double mantissa() {
    return mantissa;
  }

  long exponent() {
    return exponent;
  }

  /**
   * The gain of a sine.
   *
   * @param frequencyHz its frequency, 0 to 1e15 Hz
   * @return |H|
   * @throws IllegalArgumentException if the frequency is out of range
   */
  public double magnitude(double frequencyHz) {
    Complex h = at(frequencyHz);
    return Math.hypot(h.getReal(), h.getImaginary());
  }

  /**
   * The phase of a sine's output against its input.
   *
   * @param frequencyHz its frequency, 0 to 1e15 Hz
   * @return radians from -pi to pi, positive for a lead
   * @throws IllegalArgumentException if the frequency is out of range
   */
  public double phaseRadians(double frequencyHz) {
    Complex h = at(frequencyHz);
    return Math.atan2(h.getImaginary(), h.getReal());
  }

  /**
   * The delay of a slow change in a sine's amplitude, {@code -d phase / d omega}.
   *
   * @param frequencyHz its frequency, 0 to 1e15 Hz
   * @return seconds; not a number at a zero on the imaginary axis
   * @throws IllegalArgumentException if the frequency is out of range
   */
  public double groupDelaySeconds(double frequencyHz) {
    Require.inRange("frequencyHz", frequencyHz, "Hz", 0, 1e15);
    double w = TWO_PI * frequencyHz;
    double sum = 0;
    for (Complex p : poles) {
      double d = w - p.getImaginary();
      sum -= p.getReal() / (p.getReal() * p.getReal() + d * d);
    }
    for (Complex z : zeros) {
      double d = w - z.getImaginary();
      if (z.getReal() != 0) {
        sum += z.getReal() / (z.getReal() * z.getReal() + d * d);
      } else if (d == 0) {
        return Double.NaN;
      }
    }
    return sum;
  }

  /**
   * The greatest gain over all frequencies.
   *
   * @return the maximum of |H|
   */
  public double peakGain() {
    return magnitude(peakHz());
  }

  private double peakHz() {
    if (poles.isEmpty()) {
      return 0;
    }
    double[] grid = grid();
    double best = 0;
    int at = -1;
    for (int i = 0; i < grid.length; i++) {
      // a level top counts from its lowest frequency, and rounding does not move it
      double m = magnitude(grid[i]);
      if (m > best * (1 + 1e-12)) {
        best = m;
        at = i;
      }
    }
    if (at <= 0 || at == grid.length - 1) {
      return grid[Math.max(0, at)];
    }
    double[] around = {grid[at - 1], grid[at + 1]};
    double top = Extremes.maximum(this::magnitude, this::magnitude, around);
    // where it is reached: golden section would do; the gain itself is what counts
    return top > best ? argument(top, grid[at - 1], grid[at + 1]) : grid[at];
  }

  private double argument(double top, double a, double b) {
    double low = a;
    double high = b;
    for (int i = 0; i < 200 && high - low > Math.ulp(high); i++) {
      double m1 = low + (high - low) / 3;
      double m2 = high - (high - low) / 3;
      if (magnitude(m1) < magnitude(m2)) {
        low = m1;
      } else {
        high = m2;
      }
      if (magnitude(m1) >= top) {
        return m1;
      }
    }
    return low + (high - low) / 2;
  }

  /** Frequencies from DC to far beyond the last root, sixty to the decade. */
  private double[] grid() {
    double least = Double.POSITIVE_INFINITY;
    double most = 0;
    for (List<Complex> roots : List.of(poles, zeros)) {
      for (Complex r : roots) {
        if (r.abs() > 0) {
          least = Math.min(least, r.abs());
          most = Math.max(most, r.abs());
        }
      }
    }
    double from = least / TWO_PI / 1000;
    double to = Math.min(1e15, most / TWO_PI * 1000);
    int n = (int) Math.ceil(60 * Math.log10(to / from)) + 2;
    double[] grid = new double[n];
    for (int i = 1; i < n; i++) {
      grid[i] = from * Math.pow(to / from, (i - 1) / (n - 2.0));
    }
    grid[n - 1] = to;
    // a resonance may be narrower than the grid
    int m = n;
    grid = java.util.Arrays.copyOf(grid, n + 2 * poles.size());
    for (Complex p : poles) {
      if (p.getImaginary() > 0) {
        double square = p.getImaginary() * p.getImaginary() - p.getReal() * p.getReal();
        grid[m++] = p.getImaginary() / TWO_PI;
        grid[m++] = Math.sqrt(Math.max(0, square)) / TWO_PI;
      }
    }
    return java.util.Arrays.stream(grid, 0, m).sorted().distinct().toArray();
  }

  /**
   * The upper half-power frequency: the lowest one above the peak at which |H|^2 has fallen to half
   * of its greatest value.
   *
   * @return Hz
   * @throws IllegalStateException if the response does not fall to half power (a gain, a high-pass)
   */
  public double halfPowerHz() {
    double[] grid = grid0();
    double peak = peakHz();
    double dc = Math.abs(dcGain());
    double target = (dc > 0 ? dc : magnitude(peak)) * Math.sqrt(0.5);
    double below = peak;
    for (double f : grid) {
      if (f <= peak) {
        continue;
      }
      if (magnitude(f) < target) {
        return new BrentSolver(1e-15, 1e-300, 1e-16)
            .solve(200, x -> magnitude(x) / target - 1, below, f);
      }
      below = f;
    }
    throw new IllegalStateException(
        "halfPowerHz: this response does not fall to half power (" + words.get() + ")");
  }

  private double[] grid0() {
    return poles.isEmpty() ? new double[0] : grid();
  }

  /**
   * The integral of the squared gain over frequency: what white noise of unit density, one-sided,
   * has for its variance behind this response.
   *
   * @return integral of |H|^2 df from 0 Hz on, in Hz
   * @throws IllegalStateException if the response does not fall to zero, so that it passes
   *     unbounded noise
   */
  public double squaredGainIntegralHz() {
    if (poles.isEmpty() || zeros.size() == poles.size()) {
      throw new IllegalStateException(
          "squaredGainIntegralHz: this response does not fall to zero at high frequencies ("
              + words.get()
              + ")");
    }
    return modes().impulseEnergy() / 2;
  }

  /**
   * The equivalent noise bandwidth: the width of a rectangle as high as the greatest |H|^2 that
   * passes as much white noise, {@code integral of |H|^2 df / max |H|^2}.
   *
   * @return Hz, one-sided
   * @throws IllegalStateException if the response does not fall to zero, so that it passes
   *     unbounded noise
   */
  public double equivalentNoiseBandwidthHz() {
    if (poles.isEmpty() || zeros.size() == poles.size()) {
      throw new IllegalStateException(
          "equivalentNoiseBandwidthHz: this response does not fall to zero at high frequencies ("
              + words.get()
              + ")");
    }
    double peak = peakGain();
    return squaredGainIntegralHz() / (peak * peak);
  }

  // Time.

  /**
   * What this response makes of a signal.
   *
   * @param signal the input
   * @return the exact output
   */
  public Output of(Signal signal) {
    return new Output(signal, this);
  }

  /**
   * The answer to a step of 1 V at t = 0, from rest.
   *
   * @param timeSeconds any finite instant
   * @return volts
   */
  public double stepResponse(double timeSeconds) {
    return of(Signals.step(1, 0)).valueAt(timeSeconds);
  }

  /**
   * The 10 % to 90 % rise time of the step response: from its first crossing of a tenth of the gain
   * at DC to its first crossing of nine tenths.
   *
   * @return seconds; zero for a plain gain
   * @throws IllegalStateException if the gain at DC is zero, or the step response jumps past a
   *     level
   */
  public double riseTimeSeconds() {
    double top = dcGain();
    if (top == 0) {
      throw new IllegalStateException(
          "riseTimeSeconds: the step response comes back to zero (" + words.get() + ")");
    }
    if (poles.isEmpty()) {
      return 0;
    }
    if (directGain() / top >= 0.1) {
      throw new IllegalStateException(
          "riseTimeSeconds: the step response jumps past 10 % at once (" + words.get() + ")");
    }
    Output step = of(Signals.step(1, 0));
    double slowest = Double.POSITIVE_INFINITY;
    for (Complex p : poles) {
      slowest = Math.min(slowest, -p.getReal());
    }
    double[] knots = step.knots(0, 40 / slowest);
    double t10 = crossing(step, knots, 0.1 * top, top > 0);
    return crossing(step, knots, 0.9 * top, top > 0) - t10;
  }

  private double crossing(Output step, double[] knots, double level, boolean rising) {
    for (int i = 1; i < knots.length; i++) {
      double v = step.valueAt(knots[i]) - level;
      if (rising ? v >= 0 : v <= 0) {
        return new BrentSolver(1e-15, 1e-300, 0)
            .solve(300, t -> (step.valueAt(t) - level) / level, knots[i - 1], knots[i]);
      }
    }
    throw new IllegalStateException(
        "riseTimeSeconds: the step response never reaches its level (" + words.get() + ")");
  }

  Modes modes() {
    Modes made = modes;
    if (made == null) {
      made = Modes.of(this);
      modes = made;
    }
    return made;
  }

  @Override
  public String toString() {
    return words.get();
  }
}
