package org.asmeasured.scenario;

import org.asmeasured.uncertainty.Distribution;

/** What a scenario can say about a figure that is not known exactly; in the figure's own unit. */
final class DistributionKinds {
  static final Kinds<Distribution> DISTRIBUTIONS =
      new Kinds<Distribution>("distribution")
          .add(
              "normal",
              "mean standardDeviation",
              f -> Distribution.normal(f.number("mean"), f.number("standardDeviation")))
          .add(
              "expanded",
              "estimate expandedUncertainty coverageFactor",
              f ->
                  Distribution.expanded(
                      f.number("estimate"),
                      f.number("expandedUncertainty"),
                      f.number("coverageFactor")))
          .add(
              "rectangular",
              "lower upper",
              f -> Distribution.rectangular(f.number("lower"), f.number("upper")))
          .add(
              "triangular",
              "lower upper",
              f -> Distribution.triangular(f.number("lower"), f.number("upper")))
          .add(
              "trapezoidal",
              "lower upper topRatio",
              f ->
                  Distribution.trapezoidal(
                      f.number("lower"), f.number("upper"), f.number("topRatio")))
          .add(
              "curvilinearTrapezoid",
              "lower upper inexactness",
              f ->
                  Distribution.curvilinearTrapezoid(
                      f.number("lower"), f.number("upper"), f.number("inexactness")))
          .add(
              "arcsine",
              "lower upper",
              f -> Distribution.arcsine(f.number("lower"), f.number("upper")))
          .add(
              "studentT",
              "estimate scale degreesOfFreedom",
              f ->
                  Distribution.studentT(
                      f.number("estimate"), f.number("scale"), f.number("degreesOfFreedom")))
          .add("readings", "values", f -> Distribution.ofReadings(f.numbers("values")));

  private DistributionKinds() {}
}
