package org.asmeasured.uncertainty;

import java.util.Arrays;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;
import org.asmeasured.internal.Require;

/**
 * Global risks: of items taken from a production, measured by a system of normal errors and
 * accepted or rejected (JCGM 106, 9.5, clause from memory).
 *
 * <p>R_C = integral over the values outside the tolerance of F(x) g(x) dx, R_P = integral over
 * those inside of (1 - F(x)) g(x) dx, where g is the density of the production and F(x) = Phi((A_U
 * - x)/u_m) - Phi((A_L - x)/u_m) the chance that an item of the value x is accepted. The inner of
 * both integrals is a difference of Phi; the outer one is taken over z, x being the value of the
 * production at the probability of z, in panels that end at every limit and step by no more than
 * u_m near the limits of acceptance, by Gauss and Legendre of 16 points. Accuracy 1e-12 for
 * productions whose distribution is smooth; at corners of a distribution 1e-6.
 *
 * @param conforming share of the production that conforms
 * @param consumersRisk R_C, share of the production that is accepted and does not conform
 * @param producersRisk R_P, share of the production that is rejected and conforms
 */
public record GlobalRisk(double conforming, double consumersRisk, double producersRisk) {
  private static final GaussIntegrator LEGENDRE = new GaussIntegratorFactory().legendre(16, -1, 1);
  private static final int REACH = 9;

  /** Beyond it lies 1e-17 of any production. */
  private static final double END = 8.5;

  /**
   * Checks the shares.
   *
   * @param conforming share of the production that conforms
   * @param consumersRisk R_C, share of the production that is accepted and does not conform
   * @param producersRisk R_P, share of the production that is rejected and conforms
   * @throws IllegalArgumentException if one is not from 0 to 1
   */
  public GlobalRisk {
    Require.inRange("conforming", conforming, "", 0, 1);
    Require.inRange("consumersRisk", consumersRisk, "", 0, 1);
    Require.inRange("producersRisk", producersRisk, "", 0, 1);
  }

  /**
   * The risks of a production.
   *
   * @param production how the values of its items are distributed
   * @param standardUncertainty u_m of the measuring system, normal, above 0
   * @param tolerance what is allowed
   * @param acceptance what is accepted
   * @return the risks
   * @throws IllegalArgumentException if the uncertainty is out of range
   * @throws NullPointerException if an argument is missing
   */
  public static GlobalRisk of(
      Distribution production,
      double standardUncertainty,
      Tolerance tolerance,
      Tolerance acceptance) {
    Require.present("production", production);
    Require.above("standardUncertainty", standardUncertainty, "", 0, Normal.MAX);
    Require.present("tolerance", tolerance);
    Require.present("acceptance", acceptance);
    double um = standardUncertainty;
    double zLower = at(production, tolerance.lower());
    double zUpper = at(production, tolerance.upper());
    double consumers = 0;
    double producers = 0;
    double[] ends = panels(production, um, acceptance, zLower, zUpper);
    for (int i = 0; i + 1 < ends.length; i++) {
      double half = 0.5 * (ends[i + 1] - ends[i]);
      double middle = ends[i] + half;
      if (!(half > 0)) {
        continue;
      }
      boolean inside = middle > zLower && middle < zUpper;
      double part =
          half
              * LEGENDRE.integrate(
                  t -> {
                    double z = middle + half * t;
                    double x = production.atNormal(z);
                    double wrong =
                        inside ? rejected(acceptance, x, um) : accepted(acceptance, x, um);
                    return wrong * Normal.density(z);
                  });
      if (inside) {
        producers += part;
      } else {
        consumers += part;
      }
    }
    double conforming = Normal.phi(zUpper) - Normal.phi(zLower);
    return new GlobalRisk(
        conforming, Math.max(0, Math.min(1, consumers)), Math.max(0, Math.min(1, producers)));
  }

  /**
   * The smallest guard band that keeps the consumer's risk at or below a stated one.
   *
   * @param production how the values of its items are distributed
   * @param standardUncertainty u_m of the measuring system, normal, above 0
   * @param tolerance what is allowed
   * @param consumersRisk R_C that may not be exceeded, 1e-9 to 0.5
   * @return w of {@link Tolerance#guarded}; 0 if no guard band is needed
   * @throws IllegalArgumentException if a value is out of range, or no guard band keeps the risk
   * @throws NullPointerException if an argument is missing
   */
  public static double guardBand(
      Distribution production,
      double standardUncertainty,
      Tolerance tolerance,
      double consumersRisk) {
    Require.inRange("consumersRisk", consumersRisk, "", 1e-9, 0.5);
    if (of(production, standardUncertainty, tolerance, tolerance).consumersRisk <= consumersRisk) {
      return 0;
    }
    double room = 0.5 * (tolerance.upper() - tolerance.lower());
    double most = room < Double.POSITIVE_INFINITY ? room * (1 - 1e-9) : 10 * standardUncertainty;
    while (room == Double.POSITIVE_INFINITY
        && most < Normal.MAX / 4
        && consumers(production, standardUncertainty, tolerance, most) > consumersRisk) {
      most *= 2;
    }
    Require.that(
        consumers(production, standardUncertainty, tolerance, most) <= consumersRisk,
        "consumersRisk = " + consumersRisk + ": must be one that a guard band can keep");
    return Bisection.turn(
        0, most, w -> consumers(production, standardUncertainty, tolerance, w) <= consumersRisk);
  }

  private static double consumers(
      Distribution production, double um, Tolerance tolerance, double w) {
    return of(production, um, tolerance, tolerance.guarded(w)).consumersRisk;
  }

  private static double at(Distribution production, double limit) {
    if (limit == Double.NEGATIVE_INFINITY) {
      return -END;
    }
    return limit == Double.POSITIVE_INFINITY
        ? END
        : Bisection.turn(-END, END, z -> production.atNormal(z) > limit);
  }

  private static double[] panels(
      Distribution production, double um, Tolerance acceptance, double zLower, double zUpper) {
    double[] ends = new double[(int) (4 * END) + 1 + 2 + 2 * (2 * REACH + 1)];
    int n = 0;
    for (int i = 0; i <= 4 * END; i++) {
      ends[n++] = -END + 0.5 * i;
    }
    ends[n++] = zLower;
    ends[n++] = zUpper;
    for (double limit : new double[] {acceptance.lower(), acceptance.upper()}) {
      for (int i = -REACH; i <= REACH; i++) {
        ends[n++] = at(production, limit + i * um);
      }
    }
    Arrays.sort(ends);
    return ends;
  }

  /** The chance of acceptance, by the tails, which keep their digits where it is small. */
  private static double accepted(Tolerance acceptance, double x, double um) {
    double toUpper = (acceptance.upper() - x) / um;
    double toLower = (acceptance.lower() - x) / um;
    return toLower > 0
        ? Normal.survival(toLower) - Normal.survival(toUpper)
        : Normal.phi(toUpper) - Normal.phi(toLower);
  }

  private static double rejected(Tolerance acceptance, double x, double um) {
    return Normal.survival((acceptance.upper() - x) / um)
        + Normal.phi((acceptance.lower() - x) / um);
  }
}
