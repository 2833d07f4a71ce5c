package org.asmeasured.frontend;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.linear.Response;

/**
 * Resistors with a capacitor across each, one after another in series: the network of a source, a
 * passive probe and an input in closed form.
 *
 * <p>Each is {@code Z_i = R_i/(1 + s tau_i)}, tau_i = R_i C_i, and the voltage across some of them
 * is the share that their sum has in the sum of all. With a common denominator that is a ratio of
 * polynomials of degree two at most, whose coefficients are sums of positive terms; equal time
 * constants are one element, which is how a pole and a zero cancel. The poles are real. Where they
 * lie so near each other that double arithmetic would lose digits, there is no such divider, and
 * the network is to be solved otherwise.
 */
final class RcDivider {
  /** Relative difference of time constants that are taken as one. */
  private static final double EQUAL = 1e-15;

  /** Least discriminant as a share of its greater part: it loses two digits at most. */
  private static final double APART = 0.01;

  private static final double SLOWEST = 1e-10;
  private static final double FASTEST = 1e17;

  /** In series, the source's first; time constants differ. */
  private final double[] seconds;

  /** What each time constant has of the elements from the first, the second and the third on. */
  private final double[][] ohmsFrom;

  private final List<Complex> poles;

  private RcDivider(double[] seconds, double[][] ohmsFrom, List<Complex> poles) {
    this.seconds = seconds;
    this.ohmsFrom = ohmsFrom;
    this.poles = poles;
  }

  /**
   * The divider.
   *
   * @return empty if the elements are no such divider, or its poles are too near each other, or out
   *     of a response's range
   */
  static Optional<RcDivider> of(
      Source source, Probe probe, GroundLead lead, Termination termination, Coupling coupling) {
    if (!lead.isIdeal() || coupling.isCapacitor()) {
      return Optional.empty();
    }
    double seriesOhms;
    double seriesFarads;
    double cableFarads;
    if (probe instanceof PassiveDivider divider) {
      seriesOhms = divider.seriesOhms();
      seriesFarads = divider.seriesFarads(termination);
      cableFarads = divider.cableFarads();
    } else if (probe instanceof TimesOneProbe straight) {
      seriesOhms = straight.seriesOhms();
      seriesFarads = 0;
      cableFarads = straight.cableFarads();
    } else {
      return Optional.empty();
    }
    return of(
        new double[] {source.ohms(), seriesOhms, termination.ohms()},
        new double[] {
          source.ohms() * source.farads(),
          seriesOhms * seriesFarads,
          termination.ohms() * (termination.farads() + cableFarads)
        });
  }

  private static Optional<RcDivider> of(double[] ohms, double[] seconds) {
    double[] different = new double[3];
    double[][] from = new double[3][3];
    int n = 0;
    for (int i = 0; i < 3; i++) {
      if (ohms[i] == 0) {
        continue;
      }
      int at = 0;
      while (at < n && !isEqual(different[at], seconds[i])) {
        at++;
      }
      if (at == n) {
        different[n++] = seconds[i];
      }
      for (int first = 0; first <= i; first++) {
        from[first][at] += ohms[i];
      }
    }
    double[] taus = Arrays.copyOf(different, n);
    List<Complex> poles = roots(from[0], taus);
    RcDivider made = new RcDivider(taus, from, poles);
    return poles == null || made.zeros(1) == null || made.zeros(2) == null
        ? Optional.empty()
        : Optional.of(made);
  }

  private static boolean isEqual(double a, double b) {
    return Math.abs(a - b) <= EQUAL * Math.max(a, b);
  }

  /**
   * The roots of {@code sum_i R_i prod_{j != i} (1 + s tau_j)}; null if they are not well told
   * apart, or out of range. A time constant without resistance is a factor of all terms.
   */
  private static List<Complex> roots(double[] ohms, double[] seconds) {
    List<Complex> roots = new ArrayList<>(2);
    double[] r = new double[3];
    double[] tau = new double[3];
    int n = 0;
    boolean sound = true;
    for (int i = 0; i < seconds.length; i++) {
      if (ohms[i] > 0) {
        r[n] = ohms[i];
        tau[n++] = seconds[i];
      } else if (seconds[i] > 0) {
        sound &= add(roots, -1 / seconds[i]);
      }
    }
    if (n == 2) {
      sound &= add(roots, -(r[0] + r[1]) / (r[0] * tau[1] + r[1] * tau[0]));
    } else if (n == 3) {
      double c = r[0] + r[1] + r[2];
      double b = r[0] * (tau[1] + tau[2]) + r[1] * (tau[0] + tau[2]) + r[2] * (tau[0] + tau[1]);
      double a = r[0] * tau[1] * tau[2] + r[1] * tau[0] * tau[2] + r[2] * tau[0] * tau[1];
      double discriminant = b * b - 4 * a * c;
      double q = -0.5 * (b + Math.sqrt(Math.max(0, discriminant)));
      sound &= discriminant > APART * b * b && add(roots, c / q) && add(roots, q / a);
    }
    return sound ? roots : null;
  }

  private static boolean add(List<Complex> roots, double root) {
    roots.add(new Complex(root, 0));
    return -root >= SLOWEST && -root <= FASTEST;
  }

  /** From the source's open-circuit voltage to the voltage at the probe's tip. */
  Response atTip() {
    return across(1);
  }

  /** From the source's open-circuit voltage to the voltage at the input. */
  Response atInput() {
    return across(2);
  }

  private Response across(int first) {
    if (Arrays.equals(ohmsFrom[first], ohmsFrom[0])) {
      return Response.identity(); // nothing is ahead of it
    }
    List<Complex> zeros = zeros(first);
    double part = 0;
    double all = 0;
    for (int i = 0; i < seconds.length; i++) {
      part += ohmsFrom[first][i];
      all += ohmsFrom[0][i];
    }
    double gain = part / all;
    for (Complex pole : poles) {
      gain *= -pole.getReal();
    }
    for (Complex zero : zeros) {
      gain /= -zero.getReal();
    }
    return Response.of(zeros, poles, gain);
  }

  private List<Complex> zeros(int first) {
    return roots(ohmsFrom[first], seconds);
  }
}
