package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.asmeasured.capture.Record;
import org.asmeasured.characterisation.SineFit;
import org.asmeasured.characterisation.SineFit.Parameter;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Readings;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;

/**
 * Sine fits and statistics of a record against certified sets (NIST StRD), the bounds of Cramer and
 * Rao, and NumPy/SciPy.
 */
class SineFitReferenceTest {

  private static void holds(String check, double expected, double found, double allowed) {
    double error = Math.abs(found - expected);
    Worst.note(check, error, allowed);
    assertTrue(
        error <= allowed,
        () -> check + ": expected " + expected + ", found " + found + ", off by " + error);
  }

  // NIST StRD, nonlinear regression

  private static final double[] ENSO = {
    1.0510749193E+01,
    3.0762128085E+00,
    5.3280138227E-01,
    4.4311088700E+01,
    -1.6231428586E+00,
    5.2554493756E-01,
    2.6887614440E+01,
    2.1232288488E-01,
    1.4966870418E+00
  };

  private static double[] enso() {
    return Reference.rows("nist-strd-enso").stream()
        .mapToDouble(row -> row.number("difference"))
        .toArray();
  }

  /** One of the three sines of the certified model at month x, without the constant. */
  private static double part(int part, double x) {
    double period = part == 0 ? 12 : ENSO[part == 1 ? 3 : 6];
    double cos = ENSO[part == 0 ? 1 : part == 1 ? 4 : 7];
    double sin = ENSO[part == 0 ? 2 : part == 1 ? 5 : 8];
    double w = 2 * Math.PI * x / period;
    return cos * Math.cos(w) + sin * Math.sin(w);
  }

  /**
   * ENSO has three sines and nine parameters, a model that is not ours. But at the minimum over all
   * parameters each sine with the constant is at its own minimum, the two others being as
   * certified: so the fit of one sine to what these two leave must give the certified values, and
   * the certified sum of squares. Certified to 11 digits; what the others are cut off by is 1e-10
   * of them.
   */
  @Test
  void ensoOfNist() {
    double[] y = enso();
    assertEquals(168, y.length);
    double[] startPeriods = {12, 44, 26};
    for (int part = 0; part < 3; part++) {
      double[] left = y.clone();
      for (int i = 0; i < left.length; i++) {
        for (int other = 0; other < 3; other++) {
          left[i] -= other == part ? 0 : part(other, i + 1.0);
        }
      }
      // months are the seconds of this record; the first is month 1
      Record record = Record.of(1, 1, left);
      SineFit fit =
          part == 0
              ? SineFit.threeParameters(record, 1 / 12.0).orThrow()
              : SineFit.fourParameters(record, 1 / startPeriods[part]).orThrow();
      double atZero = fit.phaseRadians() - 2 * Math.PI * fit.frequencyHz();
      double cos = fit.amplitudeVolts() * Math.cos(atZero);
      double sin = -fit.amplitudeVolts() * Math.sin(atZero);
      int at = part == 0 ? 1 : part == 1 ? 4 : 7;
      holds("NIST ENSO: constant", ENSO[0], fit.offsetVolts(), 2e-9);
      holds("NIST ENSO: cosine", ENSO[at], cos, 2e-9);
      holds("NIST ENSO: sine", ENSO[at + 1], sin, 2e-9);
      if (part > 0) {
        holds("NIST ENSO: period", ENSO[at - 1], 1 / fit.frequencyHz(), 2e-8);
      }
      double squares = 168 * fit.residualVolts() * fit.residualVolts();
      holds("NIST ENSO: residual sum of squares", 7.8853978668E+02, squares, 5e-8);
      double deviation = Math.sqrt(squares / (168 - 9));
      holds("NIST ENSO: residual deviation", 2.2269642403E+00, deviation, 5e-10);
    }
  }

  /** From the starts of NIST, far off, backfitting of one sine after another gets there too. */
  @Test
  void ensoFromItsFirstStart() {
    double[] y = enso();
    SineFit[] fits = new SineFit[3];
    double[] starts = {1 / 12.0, 1 / 40.0, 1 / 25.0};
    for (int round = 0; round < 60; round++) {
      for (int part = 0; part < 3; part++) {
        double[] left = y.clone();
        for (int other = 0; other < 3; other++) {
          for (int i = 0; other != part && fits[other] != null && i < left.length; i++) {
            left[i] -= fits[other].volts(i) - fits[other].offsetVolts();
          }
        }
        Record record = Record.of(1, 1, left);
        fits[part] =
            part == 0
                ? SineFit.threeParameters(record, starts[0]).orThrow()
                : SineFit.fourParameters(record, starts[part]).orThrow();
        starts[part] = fits[part].frequencyHz();
      }
    }
    holds("NIST ENSO from start 1: period", ENSO[3], 1 / starts[1], 1e-7);
    holds("NIST ENSO from start 1: period", ENSO[6], 1 / starts[2], 1e-7);
    holds("NIST ENSO from start 1: constant", ENSO[0], fits[0].offsetVolts(), 1e-8);
  }

  // NIST StRD, univariate statistics

  private record Certified(
      String set, double mean, double deviation, double lag, double meanDigits, double digits) {}

  /**
   * Certified values are those of the decimal data. NumAcc3 and NumAcc4 are not doubles: their
   * deviation as doubles differs from the print in the 10th and 9th digit, and so does ours.
   */
  private static final List<Certified> SETS =
      List.of(
          new Certified("Lew", -177.435, 277.332168044316, -0.307304800605679, 1e-15, 4e-15),
          new Certified(
              "Lottery", 518.958715596330, 291.699727470969, -0.120948622967393, 2e-15, 4e-15),
          new Certified(
              "Mavro", 2.00185600000000, 0.000429123454003053, 0.937989183438248, 1e-15, 1e-12),
          new Certified(
              "Michelso", 299.852400000000, 0.0790105478190518, 0.535199668621283, 1e-15, 1e-13),
          new Certified("NumAcc1", 10000002, 1, -0.5, 1e-15, 1e-15),
          new Certified("NumAcc2", 1.2, 0.1, -0.999, 1e-15, 1e-14),
          new Certified("NumAcc3", 1000000.2, 0.1, -0.999, 1e-15, 4e-10),
          new Certified("NumAcc4", 10000000.2, 0.1, -0.999, 1e-15, 6e-9));

  private static double[] set(String name) {
    return switch (name) {
      case "NumAcc1" -> new double[] {10000001, 10000003, 10000002};
      case "NumAcc2" -> alternating(1.2, 1.1, 1.3);
      case "NumAcc3" -> alternating(1000000.2, 1000000.1, 1000000.3);
      case "NumAcc4" -> alternating(10000000.2, 10000000.1, 10000000.3);
      default ->
          Reference.rows("nist-strd-univariate").stream()
              .filter(row -> row.text("set").equals(name))
              .mapToDouble(row -> row.number("value"))
              .toArray();
    };
  }

  private static double[] alternating(double first, double low, double high) {
    double[] v = new double[1001];
    v[0] = first;
    for (int i = 1; i < 1001; i += 2) {
      v[i] = low;
      v[i + 1] = high;
    }
    return v;
  }

  private static double read(Reading reading, double[] values) {
    return reading.of(Record.of(0, 1, values)).orThrow();
  }

  /**
   * The deviation of NIST divides by n - 1; the reading, an RMS, by n. The autocorrelation is put
   * together of readings: 4 a b = (a + b)^2 - (a - b)^2.
   */
  @Test
  void univariateSetsOfNist() {
    for (Certified certified : SETS) {
      double[] y = set(certified.set);
      int n = y.length;
      assertTrue(n >= 3, certified.set);
      double mean = read(Readings.mean(), y);
      double ac = read(Readings.acRms(), y);
      String set = "NIST " + certified.set;
      holds(set + ": mean, relative", 0, mean / certified.mean - 1, certified.meanDigits);
      holds(
          set + ": deviation, relative",
          0,
          ac * Math.sqrt(n / (n - 1.0)) / certified.deviation - 1,
          certified.digits);
      double[] sum = new double[n - 1];
      double[] difference = new double[n - 1];
      for (int i = 0; i < n - 1; i++) {
        sum[i] = (y[i] - mean) + (y[i + 1] - mean);
        difference[i] = y[i + 1] - y[i];
      }
      double s = read(Readings.rms(), sum);
      double d = read(Readings.rms(), difference);
      double lag = (n - 1.0) / n * (s - d) * (s + d) / 4 / (ac * ac);
      holds(set + ": lag-1 autocorrelation", certified.lag, lag, Math.max(2e-14, certified.digits));
    }
  }

  // Cramer-Rao

  private record Bound(
      int n, double periods, double amplitude, double omega, double phase, double offset) {}

  /** The table's cases; omega 0: frequency known. Exact Fisher matrices inverted at 50 digits. */
  private static final List<Bound> BOUNDS =
      List.of(
          new Bound(
              1000,
              10,
              0.00044734014827297,
              1.555207954775e-6,
              0.00089087253079109,
              0.00031712726341313),
          new Bound(1000, 10, 0.00044721359549996, 0, 0.00044721359549996, 0.00031622776601684),
          new Bound(
              1000,
              10.37,
              0.00044971638876856,
              1.5257590539701e-6,
              0.00088462919417196,
              0.00031647878470418),
          new Bound(1000, 10.37, 0.0004496467826492, 0, 0.00044517295491292, 0.00031647632306122),
          new Bound(
              100,
              2.3,
              0.0014524538347492,
              4.6213468626009e-5,
              0.0027285957420249,
              0.0010139741388122),
          new Bound(100, 2.3, 0.0014518814434574, 0, 0.0013981520871253, 0.0010119922345765),
          new Bound(
              4096,
              479,
              0.00022097091228256,
              1.8688159174091e-7,
              0.00044187766658572,
              0.00015625021558887),
          new Bound(4096, 479, 0.0002209708691208, 0, 0.0002209708691208, 0.00015625));

  /**
   * The deviations stated are the bound when the residual's own deviation is 0.01. A residual of
   * 1e-9 leaves the parameters where they are to 1e-9.
   */
  @Test
  void statedDeviationsAreTheBound() {
    for (Bound bound : BOUNDS) {
      double[] v = new double[bound.n];
      for (int i = 0; i < v.length; i++) {
        v[i] =
            Math.cos(2 * Math.PI * bound.periods * i / bound.n + 0.3)
                + 1e-9 * ((i * 7919) % 1009 / 1009.0 - 0.5);
      }
      Record record = Record.of(0, 1, v);
      boolean free = bound.omega > 0;
      SineFit fit =
          free
              ? SineFit.fourParameters(record).orThrow()
              : SineFit.threeParameters(record, bound.periods / bound.n).orThrow();
      double deviation =
          fit.residualVolts() * Math.sqrt(bound.n / (double) (bound.n - (free ? 4 : 3)));
      double scale = 0.01 / deviation;
      String what = free ? "Cramer-Rao, four parameters" : "Cramer-Rao, three parameters";
      double allowed = 1e-8;
      holds(what, 1, fit.deviation(Parameter.AMPLITUDE) * scale / bound.amplitude, allowed);
      holds(what, 1, fit.deviation(Parameter.PHASE) * scale / bound.phase, allowed);
      holds(what, 1, fit.deviation(Parameter.OFFSET) * scale / bound.offset, allowed);
      if (free) {
        double omega = 2 * Math.PI * fit.deviation(Parameter.FREQUENCY) * scale;
        holds(what, 1, omega / bound.omega, allowed);
      }
    }
  }

  // NumPy and SciPy

  private static double[] points(Reference.Row row) {
    int n = row.whole("points");
    double cycles = row.number("cycles");
    double q = Math.scalb(1.0, -row.whole("bits"));
    double[] v = new double[n];
    for (int k = 0; k < n; k++) {
      v[k] =
          0.25
              + 0.8 * Math.cos(2 * Math.PI * cycles * k + 0.7)
              + row.number("harmonic") * Math.cos(6 * Math.PI * cycles * k)
              + row.number("rough") * ((k * 7919L) % 1009 / 1009.0 - 0.5)
              + row.number("slope") * k / n;
      if (row.whole("bits") > 0) {
        v[k] = Math.rint(v[k] / q) * q;
      }
    }
    return v;
  }

  /**
   * SciPy stops where a step no longer lowers the sum of squares: half of the digits of the step.
   */
  @Test
  void fitsOfSciPy() {
    for (Reference.Row row : Reference.rows("numpy-sine-fit")) {
      Record record = Record.of(0, 1, points(row));
      boolean free = row.whole("parameters") == 4;
      SineFit fit =
          free
              ? SineFit.fourParameters(record).orThrow()
              : SineFit.threeParameters(record, row.number("cycles")).orThrow();
      String what = "SciPy, " + row.whole("parameters") + " parameters: ";
      double allowed = free ? 2e-8 : 1e-10;
      holds(what + "amplitude", row.number("amplitude"), fit.amplitudeVolts(), allowed);
      double phase = Math.IEEEremainder(fit.phaseRadians() - row.number("phase"), 2 * Math.PI);
      holds(what + "phase", 0, phase, allowed);
      holds(what + "offset", row.number("offset"), fit.offsetVolts(), allowed);
      holds(
          what + "periods", 0, (fit.frequencyHz() - row.number("fitted")) * record.size(), allowed);
      holds(what + "residual", row.number("residual"), fit.residualVolts(), 1e-11);
      for (Parameter p : Parameter.values()) {
        String column = List.of("sdAmplitude", "sdPhase", "sdOffset", "sdCycles").get(p.ordinal());
        double scale = Math.max(row.number(column), Double.MIN_NORMAL);
        holds(
            what + "deviations, relative",
            0,
            (fit.deviation(p) - row.number(column)) / scale,
            1e-6);
      }
    }
  }

  /** A recorded sine: NIST's beam deflections, as SciPy fits them. */
  @Test
  void beamDeflections() {
    Reference.Row row = Reference.rows("numpy-beam").get(0);
    SineFit fit = SineFit.fourParameters(Record.of(0, 1, set("Lew"))).orThrow();
    String what = "SciPy, beam deflections, relative";
    holds(what, 1, fit.amplitudeVolts() / row.number("amplitude"), 1e-8);
    holds(what, 1, fit.phaseRadians() / row.number("phase"), 1e-7);
    holds(what, 1, fit.offsetVolts() / row.number("offset"), 1e-8);
    holds(what, 1, fit.frequencyHz() / row.number("cycles"), 1e-8);
    double deviation = fit.residualVolts() * Math.sqrt(200 / 196.0);
    holds(what, 1, deviation / row.number("residualSd"), 1e-12);
    holds(what, 1, fit.deviation(Parameter.AMPLITUDE) / row.number("sdAmplitude"), 1e-6);
    holds(what, 1, fit.deviation(Parameter.FREQUENCY) / row.number("sdCycles"), 1e-6);
  }

  @AfterAll
  static void writeFigures() {
    Evidence.figures();
  }
}
