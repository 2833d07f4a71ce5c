package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import org.apache.commons.math3.stat.regression.SimpleRegression;
import org.asmeasured.uncertainty.Distribution;
import org.asmeasured.uncertainty.Input;
import org.asmeasured.uncertainty.Inputs;
import org.asmeasured.uncertainty.LawOfPropagation;
import org.asmeasured.uncertainty.Model;
import org.asmeasured.uncertainty.Propagated;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;

/**
 * The law of propagation against the worked examples of JCGM 100:2008 (GUM 1995 with minor
 * corrections), annexes G and H. Inputs and printed results of H.1 to H.3 as published there;
 * figures of more digits come of the same formulas in 30 digits (mpmath).
 */
class UncertaintyPropagationTest {
  private static final LawOfPropagation LAW = LawOfPropagation.standard();

  @AfterAll
  static void figures() {
    Evidence.figures();
  }

  private static void holds(String check, double expected, double found, double allowed) {
    double error = Math.abs(found - expected);
    Worst.note(check, error, allowed);
    assertTrue(
        error <= allowed,
        () -> check + ": expected " + expected + ", found " + found + ", off by " + error);
  }

  /** Rounded to the places of the print it is the print, digit by digit. */
  private static void prints(String printed, double found) {
    BigDecimal print = new BigDecimal(printed);
    assertEquals(
        print, new BigDecimal(found).setScale(print.scale(), RoundingMode.HALF_UP), "of " + found);
  }

  private static Inputs gauge() {
    return Inputs.of(
        Input.of("lS", "nm", Distribution.studentT(50_000_623, 25, 18)),
        Input.of("d, observations", "nm", Distribution.studentT(215, 5.8, 24)),
        Input.of("d, random effects", "nm", Distribution.studentT(0, 3.9, 5)),
        Input.of("d, systematic effects", "nm", Distribution.studentT(0, 6.7, 8)),
        Input.of("delta alpha", "1/degC", Distribution.rectangular(-1e-6, 1e-6))
            .withDegreesOfFreedom(50),
        Input.of("delta theta", "degC", Distribution.rectangular(-0.05, 0.05))
            .withDegreesOfFreedom(2),
        Input.of("alpha S", "1/degC", Distribution.rectangular(9.5e-6, 13.5e-6)),
        Input.of("theta, mean", "degC", Distribution.normal(-0.1, 0.2)),
        Input.of("theta, cyclic", "degC", Distribution.arcsine(-0.5, 0.5)));
  }

  /** l = lS + d - lS (delta alpha theta + alpha S delta theta), formula H.3. */
  private static final Model LENGTH =
      Model.of(x -> x[0] + x[1] + x[2] + x[3] - x[0] * (x[4] * (x[7] + x[8]) + x[6] * x[5]));

  /** JCGM 100, H.1: end-gauge calibration, unrounded inputs; print in mm, nm and 99 %. */
  @Test
  void endGauge() {
    Propagated l = LAW.of(gauge(), LENGTH).orThrow();
    prints("50000838", l.estimate());
    prints("32", l.standardUncertainty());
    // the print cuts 1002.6 off
    prints("1002", Math.floor(l.standardUncertainty() * l.standardUncertainty()));
    holds("H.1 uc", 31.663879111009, l.standardUncertainty(), 1e-6);
    prints("25", l.budget().get(0).contribution());
    double d =
        Math.hypot(
            Math.hypot(l.budget().get(1).contribution(), l.budget().get(2).contribution()),
            l.budget().get(3).contribution());
    prints("9.7", d);
    prints("2.9", l.budget().get(4).contribution());
    prints("16.6", l.budget().get(5).contribution());
    holds("H.1 delta theta", 16.59902706, l.budget().get(5).contribution(), 1e-6);
    holds("H.1 effective degrees", 16.7518557376, l.effectiveDegreesOfFreedom(), 1e-6);
    prints("2.92", l.coverageFactor(0.99));
    // the print multiplies what it has rounded; unrounded it is 92.5
    prints("93", l.coverageFactor(0.99) * Math.rint(l.standardUncertainty()));
    holds("H.1 U99", 92.4832761997, l.expandedUncertainty(0.99), 1e-5);
    assertEquals(List.of("alpha S", "theta, mean", "theta, cyclic"), l.insensitiveTo());
  }

  /** JCGM 100, H.1.7: terms of the second order take 32 nm to 34 nm. */
  @Test
  void endGaugeToTheSecondOrder() {
    Propagated l = LAW.of(gauge(), LENGTH).orThrow();
    double second = l.secondOrderStandardUncertainty().orThrow();
    prints("34", second);
    holds("H.1.7 uc", 33.806545429522, second, 2e-5);
  }

  private static final double[] V = {5.007, 4.994, 5.005, 4.990, 4.999};
  private static final double[] I = {19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3};
  private static final double[] PHI = {1.0456, 1.0438, 1.0468, 1.0428, 1.0433};

  /** JCGM 100, H.2: simultaneous resistance and reactance, tables H.2 to H.4, approach 1. */
  @Test
  void impedance() {
    Inputs inputs =
        Inputs.ofSimultaneousReadings(
            List.of("V", "I", "phi"), List.of("V", "A", "rad"), V, I, PHI);
    prints("4.9990", inputs.get(0).distribution().estimate());
    prints("19.6610", inputs.get(1).distribution().estimate() * 1e3);
    prints("1.04446", inputs.get(2).distribution().estimate());
    prints("0.0032", inputs.get(0).distribution().standardUncertainty());
    prints("0.0095", inputs.get(1).distribution().standardUncertainty() * 1e3);
    prints("0.00075", inputs.get(2).distribution().standardUncertainty());
    prints("-0.36", inputs.correlation(0, 1));
    prints("0.86", inputs.correlation(0, 2));
    prints("-0.65", inputs.correlation(1, 2));

    LawOfPropagation fine = LAW.withStep(1e-2);
    Propagated r = fine.of(inputs, Model.of(x -> x[0] / x[1] * Math.cos(x[2]))).orThrow();
    Propagated x = fine.of(inputs, Model.of(v -> v[0] / v[1] * Math.sin(v[2]))).orThrow();
    Propagated z = fine.of(inputs, Model.of(v -> v[0] / v[1])).orThrow();
    prints("127.732", r.estimate());
    prints("219.847", x.estimate());
    prints("254.260", z.estimate());
    prints("0.071", r.standardUncertainty());
    // print: 0.295; this rounds to 0.296. The data as printed give 0.2956 whatever the order of the
    // steps, so the print is that of approach 2 (0.29549) or was cut; it holds to one unit of its
    // last digit
    holds("H.2 u(X), print", 0.295, x.standardUncertainty(), 0.001);
    holds("H.2 u(X)", 0.29558167735864, x.standardUncertainty(), 1e-9);
    prints("0.236", z.standardUncertainty());
    holds("H.2 u(R)", 0.071071407396996, r.standardUncertainty(), 1e-9);
    holds("H.2 u(Z)", 0.23633613008238, z.standardUncertainty(), 1e-9);
    prints("-0.588", r.correlation(x));
    prints("-0.485", r.correlation(z));
    prints("0.993", x.correlation(z));
    // read simultaneously, so one term of four degrees of freedom
    assertEquals(4, r.effectiveDegreesOfFreedom(), 1e-12);
  }

  /**
   * JCGM 100, H.2.4, table H.4, approach 2: R, X and Z of each set of readings, then their means,
   * the standard deviations of these, and the correlations (table from memory; its digits follow
   * from the data of table H.2).
   */
  @Test
  void impedanceOfEachSet() {
    String[][] print = {
      {"127.67", "220.32", "254.64"},
      {"127.89", "219.79", "254.29"},
      {"127.51", "220.64", "254.84"},
      {"127.71", "218.97", "253.49"},
      {"127.88", "219.51", "254.04"}
    };
    double[][] each = new double[3][V.length];
    for (int k = 0; k < V.length; k++) {
      each[0][k] = V[k] / I[k] * Math.cos(PHI[k]);
      each[1][k] = V[k] / I[k] * Math.sin(PHI[k]);
      each[2][k] = V[k] / I[k];
      for (int i = 0; i < 3; i++) {
        prints(print[k][i], each[i][k]);
      }
    }
    Inputs inputs =
        Inputs.ofSimultaneousReadings(
            List.of("R", "X", "Z"), List.of("ohm", "ohm", "ohm"), each[0], each[1], each[2]);
    String[] means = {"127.732", "219.847", "254.260"};
    String[] deviations = {"0.071", "0.295", "0.236"};
    double[] exactMeans = {127.73163048282, 219.84689460329, 254.26004958674};
    double[] exactDeviations = {0.071273543178597, 0.29548908561009, 0.23624750170398};
    for (int i = 0; i < 3; i++) {
      int which = i;
      Propagated y = LAW.of(inputs, Model.of(q -> q[which])).orThrow();
      prints(means[i], y.estimate());
      prints(deviations[i], y.standardUncertainty());
      holds("H.2 approach 2, mean", exactMeans[i], y.estimate(), 1e-10);
      holds("H.2 approach 2, u", exactDeviations[i], y.standardUncertainty(), 1e-11);
      assertEquals(4, y.effectiveDegreesOfFreedom(), 1e-12);
    }
    prints("-0.588", inputs.correlation(0, 1));
    prints("-0.485", inputs.correlation(0, 2));
    prints("0.993", inputs.correlation(1, 2));
  }

  /** JCGM 100, table H.5: what comes of it if the correlations are ignored. */
  @Test
  void impedanceWithoutCorrelations() {
    Inputs inputs =
        Inputs.of(
            Input.of("V", "V", Distribution.ofReadings(V)),
            Input.of("I", "A", Distribution.ofReadings(I)),
            Input.of("phi", "rad", Distribution.ofReadings(PHI)));
    LawOfPropagation fine = LAW.withStep(1e-2);
    Propagated r = fine.of(inputs, Model.of(x -> x[0] / x[1] * Math.cos(x[2]))).orThrow();
    Propagated x = fine.of(inputs, Model.of(v -> v[0] / v[1] * Math.sin(v[2]))).orThrow();
    Propagated z = fine.of(inputs, Model.of(v -> v[0] / v[1])).orThrow();
    prints("0.195", r.standardUncertainty());
    prints("0.201", x.standardUncertainty());
    prints("0.204", z.standardUncertainty());
  }

  /**
   * JCGM 100, H.3: calibration of a thermometer. Intercept and slope by least squares (Commons
   * Math), their correlation in the law: b(30 degC) with nine degrees of freedom.
   */
  @Test
  void thermometer() {
    double[] t = {
      21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511
    };
    double[] b = {
      -0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160
    };
    SimpleRegression line = new SimpleRegression();
    double sum = 0;
    double squares = 0;
    for (int k = 0; k < t.length; k++) {
      line.addData(t[k] - 20, b[k]);
      sum += t[k] - 20;
      squares += (t[k] - 20) * (t[k] - 20);
    }
    double correlation = -sum / Math.sqrt(t.length * squares);
    prints("-0.1712", line.getIntercept());
    prints("0.0029", line.getInterceptStdErr());
    prints("0.00218", line.getSlope());
    prints("0.00067", line.getSlopeStdErr());
    prints("-0.930", correlation);
    Inputs inputs =
        Inputs.of(
                Input.of(
                    "y1",
                    "degC",
                    Distribution.studentT(line.getIntercept(), line.getInterceptStdErr(), 9)),
                Input.of(
                    "y2", "", Distribution.studentT(line.getSlope(), line.getSlopeStdErr(), 9)))
            .correlated("y1", "y2", correlation);
    Propagated at30 = LAW.of(inputs, Model.of(y -> y[0] + y[1] * (30 - 20))).orThrow();
    prints("-0.1494", at30.estimate());
    prints("0.0041", at30.standardUncertainty());
    holds("H.3 b(30)", -0.1493768127324772, at30.estimate(), 1e-13);
    holds("H.3 u(b(30))", 0.004138595752854947, at30.standardUncertainty(), 1e-13);
    assertEquals(9, at30.effectiveDegreesOfFreedom(), 1e-9);
  }

  /** JCGM 100, G.4.1, example: Y = b X1 X2 X3, relative uncertainties 0.25, 0.57, 0.82 %. */
  @Test
  void effectiveDegreesOfFreedomOfAProduct() {
    Inputs inputs =
        Inputs.of(
            Input.of("X1", "", Distribution.studentT(1, 0.0025, 9)),
            Input.of("X2", "", Distribution.studentT(1, 0.0057, 4)),
            Input.of("X3", "", Distribution.studentT(1, 0.0082, 14)));
    Propagated y = LAW.of(inputs, Model.of(x -> x[0] * x[1] * x[2])).orThrow();
    prints("1.03", 100 * y.standardUncertainty());
    prints("19.0", y.effectiveDegreesOfFreedom());
    holds("G.4.1 uc", 0.010294658809305, y.standardUncertainty(), 1e-14);
    holds("G.4.1 effective degrees", 18.998742314268, y.effectiveDegreesOfFreedom(), 1e-9);
    // the print takes 19.0 as 19; truncated it is 18
    prints("2.09", Propagated.coverageFactor(0.95, 19));
    prints("2.2", 100 * Propagated.coverageFactor(0.95, 19) * y.standardUncertainty());
  }

  /** JCGM 100, table G.2; columns of 68.27, 95.45 and 99.73 % mean one, two and three sigma. */
  @Test
  void tableG2() {
    for (Reference.Row row : Reference.rows("jcgm-100-g2")) {
      double nu = Double.parseDouble(row.text("nu"));
      for (int sigmas = 1; sigmas <= 3; sigmas++) {
        double p = org.apache.commons.math3.special.Erf.erf(sigmas / Math.sqrt(2));
        double k = Propagated.coverageFactor(p, nu);
        holds("G.2", row.number("sigma" + sigmas), k, 1e-9 * k);
      }
      for (String p : List.of("0.90", "0.95", "0.99")) {
        double k = Propagated.coverageFactor(Double.parseDouble(p), nu);
        holds("G.2", row.number("p" + p), k, 1e-9 * k);
      }
    }
  }
}
