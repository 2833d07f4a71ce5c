package org.asmeasured.uncertainty;

import org.apache.commons.statistics.distribution.NormalDistribution;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;

/** The normal distribution, and the inverse that every draw goes through. */
record Normal(double mean, double sigma) implements Distribution {
  /** More than any bench, and squares of it do not overflow. */
  static final double MAX = 1e100;

  private static final NormalDistribution STANDARD = NormalDistribution.of(0, 1);

  private static final double[] MIDDLE = {
    2509.0809287301226727, 33430.575583588128105, 67265.770927008700853, 45921.953931549871457,
    13731.693765509461125, 1971.5909503065514427, 133.14166789178437745, 3.387132872796366608
  };
  private static final double[] UNDER_MIDDLE = {
    5226.495278852854561,
    28729.085735721942674,
    39307.89580009271061,
    21213.794301586595867,
    5394.1960214247511077,
    687.1870074920579083,
    42.313330701600911252,
    1
  };
  private static final double[] NEAR = {
    7.7454501427834140764e-4, .0227238449892691845833, .24178072517745061177,
        1.27045825245236838258,
    3.64784832476320460504, 5.7694972214606914055, 4.6303378461565452959, 1.42343711074968357734
  };
  private static final double[] UNDER_NEAR = {
    1.05075007164441684324e-9,
    5.475938084995344946e-4,
    .0151986665636164571966,
    .14810397642748007459,
    .68976733498510000455,
    1.6763848301838038494,
    2.05319162663775882187,
    1
  };
  private static final double[] FAR = {
    2.01033439929228813265e-7,
    2.71155556874348757815e-5,
    .0012426609473880784386,
    .026532189526576123093,
    .29656057182850489123,
    1.7848265399172913358,
    5.4637849111641143699,
    6.6579046435011037772
  };
  private static final double[] UNDER_FAR = {
    2.04426310338993978564e-15,
    1.4215117583164458887e-7,
    1.8463183175100546818e-5,
    7.868691311456132591e-4,
    .0148753612908506148525,
    .13692988092273580531,
    .59983220655588793769,
    1
  };

  Normal {
    Require.inRange("mean", mean, "", -MAX, MAX);
    Require.above("standardDeviation", sigma, "", 0, MAX);
  }

  /** Phi. */
  static double phi(double z) {
    return STANDARD.cumulativeProbability(z);
  }

  /** 1 - Phi, with its full precision where it is small. */
  static double survival(double z) {
    return STANDARD.survivalProbability(z);
  }

  static double density(double z) {
    return StrictMath.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
  }

  /**
   * The inverse of Phi by M. J. Wichura's algorithm AS 241 (Applied Statistics 37 (1988) 477,
   * coefficients from memory, held against another algorithm by a test): about 1e-16.
   */
  static double inverse(double p) {
    double q = p - 0.5;
    if (Math.abs(q) <= 0.425) {
      double r = 0.180625 - q * q;
      return q * ratio(MIDDLE, UNDER_MIDDLE, r);
    }
    double r = Math.sqrt(-StrictMath.log(q < 0 ? p : 1 - p));
    double z = r <= 5 ? ratio(NEAR, UNDER_NEAR, r - 1.6) : ratio(FAR, UNDER_FAR, r - 5);
    return q < 0 ? -z : z;
  }

  private static double ratio(double[] over, double[] under, double x) {
    double a = over[0];
    double b = under[0];
    for (int i = 1; i < over.length; i++) {
      a = a * x + over[i];
      b = b * x + under[i];
    }
    return a / b;
  }

  @Override
  public String name() {
    return "normal, mean " + mean + ", standard deviation " + sigma;
  }

  @Override
  public String words(String unit) {
    return "normal, mean "
        + Quantity.of(mean, unit)
        + ", standard deviation "
        + Quantity.of(sigma, unit);
  }

  @Override
  public double quantile(double probability) {
    return mean + sigma * inverse(probability);
  }

  @Override
  public double estimate() {
    return mean;
  }

  @Override
  public double standardDeviation() {
    return sigma;
  }

  @Override
  public double atNormal(double z) {
    return mean + sigma * z;
  }

  @Override
  public double cumulative(double value) {
    return STANDARD.cumulativeProbability((value - mean) / sigma);
  }
}
