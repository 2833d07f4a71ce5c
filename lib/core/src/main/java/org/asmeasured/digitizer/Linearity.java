package org.asmeasured.digitizer;

import java.util.Arrays;
import org.asmeasured.internal.Require;

/**
 * Gain, offset and nonlinearity of a converter, from its transition levels, exactly: no histogram,
 * no noise. Immutable.
 *
 * <p>With T<sub>k</sub> the transition level of code k in ideal steps, and k - 1/2 where it
 * belongs,
 *
 * <pre>
 * INL_k = G T_k + V - (k - 1/2)                          k = lowest + 1 ... highest
 * DNL_k = G (T_(k+1) - T_k) - 1 = INL_(k+1) - INL_k      k = lowest + 1 ... highest - 1
 * </pre>
 *
 * in steps, where gain G and offset V are those of the {@link Line}: by end points, the first and
 * the last INL are zero; by least squares, the sum of INL<sup>2</sup> is least. Gain error = G - 1
 * and offset error = V, in steps: positive reads too large, too high. A positive INL is a
 * transition that lies too high. IEEE Std 1241 defines the same G and V, and an epsilon of the
 * opposite sign (4.6, gain and offset; 4.7, linearity; clauses and sign from memory).
 *
 * <p>One bit has one transition: its gain is 1 and its INL zero by definition, and it has no DNL.
 */
public final class Linearity {
  /** Below this DNL a code counts as missing. */
  private static final double MISSING = -0.9;

  private static final int CHUNK = 4096;

  private final int bits;
  private final double[] transitions;

  /** How gain and offset are taken out. */
  public enum Line {
    /** Through the first and the last transition. */
    END_POINTS,
    /** Least squares of all transitions. */
    LEAST_SQUARES
  }

  private Linearity(int bits, double[] transitions) {
    this.bits = bits;
    this.transitions = transitions;
  }

  /**
   * The linearity of a converter. Its transition levels are taken from it if it is a {@link
   * TransitionConverter}, and found by halving otherwise, to the last place of a double.
   *
   * @param converter one whose code never falls when the level rises, 1 to 24 bits
   * @return its linearity
   * @throws IllegalArgumentException if it has infinite resolution, or codes that are seen to fall
   * @throws NullPointerException if it is missing
   */
  public static Linearity of(Converter converter) {
    Require.present("converter", converter);
    Require.inRange("converter.bits", converter.bits(), 1, Converter.MAX_BITS);
    return new Linearity(
        converter.bits(),
        converter instanceof TransitionConverter exact
            ? exact.transitionLevels()
            : search(converter));
  }

  /**
   * All transitions halve their brackets together: the least level whose code is not below k. Where
   * a level on the transition itself still belongs to the code below, the transition is found one
   * place of a double higher.
   */
  private static double[] search(Converter converter) {
    int low = converter.lowestCode();
    int count = (1 << converter.bits()) - 1;
    double[] found = new double[count];
    double[] work = new double[Math.min(CHUNK, count)];
    double[] lower = new double[work.length];
    double[] upper = new double[work.length];
    double reach = 4 * (count + 1.0);
    for (int at = 0; at < count; at += CHUNK) {
      int n = Math.min(CHUNK, count - at);
      Arrays.fill(lower, 0, n, -reach);
      Arrays.fill(upper, 0, n, reach);
      boolean open = true;
      while (open) {
        for (int i = 0; i < n; i++) {
          work[i] = lower[i] + (upper[i] - lower[i]) / 2;
        }
        double[] middle = Arrays.copyOf(work, n);
        converter.convert(work, 0, n);
        open = false;
        for (int i = 0; i < n; i++) {
          if (middle[i] > lower[i] && middle[i] < upper[i]) {
            open = true;
            if (work[i] >= low + at + i + 1) {
              upper[i] = middle[i];
            } else {
              lower[i] = middle[i];
            }
          }
        }
      }
      System.arraycopy(upper, 0, found, at, n);
    }
    checkSteps(converter, found);
    return found;
  }

  /** Between two transitions found lies the one code that belongs there: both ends are tried. */
  private static void checkSteps(Converter converter, double[] found) {
    int low = converter.lowestCode();
    double[] probe = new double[3];
    for (int i = 1; i < found.length; i++) {
      probe[0] = Math.nextUp(found[i - 1]);
      probe[1] = found[i - 1] + (found[i] - found[i - 1]) / 2;
      probe[2] = Math.nextDown(found[i]);
      boolean rises = found[i - 1] <= found[i];
      if (probe[0] < probe[2]) {
        converter.convert(probe, 0, probe.length);
        for (double code : probe) {
          rises &= code == low + i;
        }
      }
      Require.that(
          rises, converter + ": the code falls as the level rises, near code " + (low + i));
    }
  }

  /**
   * The gain error.
   *
   * @param line how it is defined
   * @return G - 1, positive reads too large
   * @throws NullPointerException if the line is missing
   */
  public double gainError(Line line) {
    return fit(line).gainError;
  }

  /**
   * The offset error.
   *
   * @param line how it is defined
   * @return V in steps, positive reads too high
   * @throws NullPointerException if the line is missing
   */
  public double offsetErrorSteps(Line line) {
    return fit(line).offset;
  }

  /**
   * The integral nonlinearity.
   *
   * @param line how gain and offset are taken out
   * @return a new array of 2<sup>bits</sup> - 1 values in steps, from the transition to code lowest
   *     + 1 on
   * @throws NullPointerException if the line is missing
   */
  public double[] inl(Line line) {
    Fit fit = fit(line);
    double[] inl = new double[transitions.length];
    for (int i = 0; i < inl.length; i++) {
      // the departure is taken first: it is small, and so is what is left of it
      double departure = transitions[i] - place(i);
      inl[i] = departure + fit.gainError * transitions[i] + fit.offset;
    }
    return inl;
  }

  /**
   * The differential nonlinearity.
   *
   * @param line how the gain is taken out
   * @return a new array of 2<sup>bits</sup> - 2 values in steps, from code lowest + 1 on; -1 for a
   *     missing code
   * @throws NullPointerException if the line is missing
   */
  public double[] dnl(Line line) {
    Fit fit = fit(line);
    double[] dnl = new double[transitions.length - 1];
    for (int i = 0; i < dnl.length; i++) {
      double width = transitions[i + 1] - transitions[i];
      dnl[i] = (width - 1) + fit.gainError * width;
    }
    return dnl;
  }

  /**
   * Codes of which hardly anything is left: DNL at or below -0.9 by end points (IEEE Std 1241,
   * missing codes, from memory).
   *
   * @return a new array, ascending
   */
  public int[] missingCodes() {
    double[] dnl = dnl(Line.END_POINTS);
    int low = -(1 << (bits - 1));
    int[] codes = new int[dnl.length];
    int found = 0;
    for (int i = 0; i < dnl.length; i++) {
      if (dnl[i] <= MISSING) {
        codes[found++] = low + 1 + i;
      }
    }
    return Arrays.copyOf(codes, found);
  }

  private record Fit(double gainError, double offset) {}

  /** Where a transition belongs. */
  private double place(int index) {
    return index + 0.5 - Math.scalb(1.0, bits - 1);
  }

  private Fit fit(Line line) {
    int n = transitions.length;
    if (Require.present("line", line) == Line.END_POINTS || n == 1) {
      double gainError = n == 1 ? 0 : (n - 1 - (transitions[n - 1] - transitions[0])) / span();
      return new Fit(gainError, place(0) - transitions[0] - gainError * transitions[0]);
    }
    // departures p - T are regressed on T: nothing large cancels
    double meanLevel = 0;
    double meanDeparture = 0;
    for (int i = 0; i < n; i++) {
      meanLevel += (transitions[i] - meanLevel) / (i + 1);
      meanDeparture += (place(i) - transitions[i] - meanDeparture) / (i + 1);
    }
    double square = 0;
    double product = 0;
    for (int i = 0; i < n; i++) {
      double level = transitions[i] - meanLevel;
      square += level * level;
      product += level * (place(i) - transitions[i] - meanDeparture);
    }
    double gainError = square == 0 ? 0 : product / square;
    return new Fit(gainError, meanDeparture - gainError * meanLevel);
  }

  private double span() {
    double span = transitions[transitions.length - 1] - transitions[0];
    return span == 0 ? 1 : span;
  }

  @Override
  public String toString() {
    double[] inl = inl(Line.END_POINTS);
    double[] dnl = dnl(Line.END_POINTS);
    return "INL from "
        + least(inl)
        + " to "
        + -least(negated(inl))
        + ", DNL from "
        + least(dnl)
        + " to "
        + -least(negated(dnl))
        + " steps by end points";
  }

  private static double least(double[] values) {
    return Arrays.stream(values).min().orElse(0);
  }

  private static double[] negated(double[] values) {
    return Arrays.stream(values).map(v -> -v).toArray();
  }
}
