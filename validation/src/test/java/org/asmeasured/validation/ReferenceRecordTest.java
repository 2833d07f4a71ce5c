package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;
import org.asmeasured.acquisition.Boxcar;
import org.asmeasured.acquisition.Decimation;
import org.asmeasured.acquisition.RollingBoxcar;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.Converter;
import org.asmeasured.digitizer.IdealConverter;
import org.asmeasured.frontend.Loading;
import org.asmeasured.frontend.Termination;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.linear.Response;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Readings;
import org.asmeasured.pulse.PulseMethod;
import org.asmeasured.pulse.PulseQuantity;
import org.asmeasured.pulse.PulseReadings;
import org.asmeasured.pulse.StateLevels;
import org.asmeasured.signal.SampleClock;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;

/** Front end, converter, decimation and readings against the tables under resources/reference. */
class ReferenceRecordTest {

  @Test
  void loading() {
    for (Reference.Row row : Reference.rows("loading")) {
      Termination input =
          new Termination(row.number("inputOhms"), row.number("inputPicofarads") * 1e-12);
      Response h = new Loading(row.number("sourceOhms"), input).response();
      row.check("dcError", h.dcGain() - 1, 1e-15);
      row.check("f3dB", h.halfPowerHz(), 0);
      row.check("rise1090", h.riseTimeSeconds(), 0);
    }
  }

  // Converter.

  private static double code(Converter converter, double level) {
    double[] one = {level};
    converter.convert(one, 0, 1);
    return one[0];
  }

  /** Where the converter passes from one code to the next, found from outside by bisection. */
  private static double transition(Converter converter, int toCode) {
    double low = toCode - 1;
    double high = toCode;
    while (true) {
      double middle = low + (high - low) / 2;
      if (middle <= low || middle >= high) {
        return middle;
      }
      if (code(converter, middle) < toCode) {
        low = middle;
      } else {
        high = middle;
      }
    }
  }

  @Test
  void sineThroughEveryIdealConverter() {
    GaussIntegratorFactory factory = new GaussIntegratorFactory();
    for (Reference.Row row : Reference.rows("quantiser-sine")) {
      int bits = row.whole("bits");
      Converter converter = new IdealConverter(bits);
      double amplitude = Math.scalb(1.0, bits - 1);
      double centre = transition(converter, 0);
      double square = 0;
      double inPhase = 0;
      double from = -Math.PI / 2;
      for (int k = converter.lowestCode(); k <= converter.highestCode(); k++) {
        double to =
            k == converter.highestCode()
                ? Math.PI / 2
                : Math.asin((transition(converter, k + 1) - centre) / amplitude);
        assertEquals(k, code(converter, centre + amplitude * Math.sin((from + to) / 2)));
        int code = k;
        DoubleUnaryOperator error = t -> code - centre - amplitude * Math.sin(t);
        GaussIntegrator rule = factory.legendre(16, from, to);
        square += rule.integrate(t -> error.applyAsDouble(t) * error.applyAsDouble(t));
        inPhase += rule.integrate(t -> error.applyAsDouble(t) * Math.sin(t));
        from = to;
      }
      double mse = square / Math.PI;
      double gain = 2 * inPhase / Math.PI;
      double residual = mse - gain * gain / 2;
      double bitsFromFit = bits - Math.log(12 * residual) / Math.log(4);
      row.check("mse", 12 * mse, 1e-10);
      row.check("bitsFromMse", bits - Math.log(12 * mse) / Math.log(4), 1e-10);
      row.check("amplitudeGainOverQ", gain, 1e-10);
      row.check("residualMse", 12 * residual, 1e-10);
      row.check("bitsFromFit", bitsFromFit, 1e-10);
      row.check(
          "sinadDb", 10 * Math.log10((amplitude + gain) * (amplitude + gain) / 2 / residual), 1e-9);
    }
  }

  @Test
  void effectiveBitsOfARecord() {
    // design goal: within 0.02 bit of the exact figure; a coherent record of 2^16 points comes far
    // closer
    for (Reference.Row row : Reference.rows("quantiser-sine")) {
      int bits = row.whole("bits");
      int n = 1 << 16;
      double fullScale = 8;
      double q = fullScale / Math.scalb(1.0, bits);
      Signal sine = Signals.sine(fullScale / 2, 1e9 * 4999 / n, 0.1).plus(-q / 2);
      Record record = Setup.ideal(1e9, n).scale(1).bits(bits).capture(sine);
      double[] truth = new double[n];
      sine.sample(new SampleClock(0, 1e9), 0, truth, 0, n);
      double square = 0;
      for (int i = 0; i < n; i++) {
        double e = record.volts(i) - truth[i];
        square += e * e;
      }
      double found = bits - Math.log(12 * square / n / (q * q)) / Math.log(4);
      double error = Math.abs(found - row.number("bitsFromMse"));
      Worst.note("record: effective bits of a captured sine", error, 0.02);
      assertTrue(
          error <= 0.02,
          bits + " bits: " + found + " effective, expected " + row.text("bitsFromMse"));
      assertTrue(record.flags().isEmpty(), () -> "flags " + record.flags());
    }
  }

  @Test
  void clippedSine() {
    // 24 bits: the step is 6e-8 of the span, and the top code lies one step below +c
    int n = 1 << 20;
    for (Reference.Row row : Reference.rows("clipped-sine")) {
      double amplitude = row.number("overdrive");
      Signal sine = Signals.sine(amplitude, 1e9 * 4999 / n, 0.1);
      Record record = Setup.ideal(1e9, n).vertical(VerticalScale.of(0.25)).bits(24).capture(sine);
      double fraction = (double) (record.clippedLow() + record.clippedHigh()) / n;
      double re = 0;
      double im = 0;
      double square = 0;
      for (int i = 0; i < n; i++) {
        double v = record.volts(i);
        double angle = 2 * Math.PI * ((4999L * i) % n) / n;
        re += v * Math.cos(angle);
        im += v * Math.sin(angle);
        square += v * v;
      }
      double fundamental = 2 * Math.hypot(re, im) / n;
      double rms = Math.sqrt(square / n);
      // four boundaries a cycle, each placed to a sample of the equivalent-time grid
      row.check("clippedFraction", fraction, 4.0 / n);
      row.check("fundamental", fundamental, 3e-7);
      row.check("rms", rms, 3e-7);
      // sums are those of what was stored; what rests on a cut extreme is not taken
      row.check("rms", Readings.rms().of(record).orThrow(), 3e-7);
      assertFalse(Readings.peakToPeak().of(record).isTaken(), "peak to peak of a clipped record");
      // the root of a small difference: an error of rms or fundamental counts 1/THD-fold
      double thd = Math.sqrt(2 * rms * rms / (fundamental * fundamental) - 1);
      row.check("thdPercent", 100 * thd, 100 * 6e-7 / thd);
    }
  }

  // Decimation.

  @Test
  void boxcarOfASine() {
    double rate = 1e9;
    for (Reference.Row row : Reference.rows("boxcar")) {
      int m = row.whole("m");
      row.check("magnitudeAtTenth", gain(Boxcar.of(m), m, rate / (10 * m)), 1e-12);
      row.check("magnitudeAtHalf", gain(Boxcar.of(m), m, 0.5 * rate / m), 1e-12);
      row.check("magnitudeAtTenth", gain(RollingBoxcar.of(m), 1, rate / (10 * m)), 1e-12);
      assertEquals(
          Math.sqrt(0.5),
          gain(Boxcar.of(m), m, row.number("f3dB") * rate / m),
          1e-12,
          "half power of a mean of " + m);
    }
  }

  /**
   * The gain from the stored points, each of which must be that gain times the sine at the instant
   * it stands for.
   */
  private static double gain(Decimation decimation, int factor, double hz) {
    int n = 400;
    double phase = 0.4;
    Record record =
        Setup.ideal(1e9, n)
            .startingAt(3.3e-9)
            .decimation(decimation)
            .capture(Signals.sine(1, hz, phase));
    double[] sine = new double[n];
    double squares = 0;
    double product = 0;
    for (int i = 0; i < n; i++) {
      sine[i] = Math.sin(2 * Math.PI * hz * record.timeSeconds(i) + phase);
      squares += sine[i] * sine[i];
      product += sine[i] * record.volts(i);
    }
    double gain = product / squares;
    for (int i = 0; i < n; i++) {
      // a point stands at the middle of its samples, so the mean moves nothing
      assertEquals(
          gain * sine[i],
          record.volts(i),
          1e-11,
          "mean of " + factor + " at " + hz + " Hz, point " + i);
    }
    return gain;
  }

  // Readings.

  /** Between the least and the greatest value. */
  private static final Reading PEAK_RISE =
      PulseReadings.of(
          PulseQuantity.RISE_TIME, PulseMethod.standard().levels(StateLevels.peakMagnitude()));

  private static void truth(
      Reading reading, Signal signal, double span, double expected, double tolerance) {
    double got = reading.of(signal, 0, span).orThrow();
    Worst.note(
        "record: " + reading.name() + " of the truth, closed forms",
        Math.abs(got - expected),
        tolerance);
    assertEquals(expected, got, tolerance, reading.name() + " of " + signal);
  }

  /** Elementary; IEEE Std 181 words the readings (clauses from memory). */
  @Test
  void periodicWaveforms() {
    double a = 1.7;
    double t = 1e-6;
    double eps = 1e-13;
    Signal sine = Signals.sine(a, 1 / t);
    truth(Readings.mean(), sine, t, 0, eps);
    truth(Readings.rms(), sine, t, a / Math.sqrt(2), eps);
    truth(Readings.acRms(), sine, t, a / Math.sqrt(2), eps);
    truth(Readings.peakToPeak(), sine, t, 2 * a, eps);
    Signal half = sine.gated(0, t / 2);
    Signal full = half.repeatedEvery(t / 2);
    truth(Readings.mean(), full, t, 2 * a / Math.PI, eps);
    truth(Readings.rms(), full, t, a / Math.sqrt(2), eps);
    truth(Readings.acRms(), full, t, 0.3077584530612424 * a, eps);
    Signal halfWave = half.repeatedEvery(t);
    truth(Readings.mean(), halfWave, t, 0.3183098861837907 * a, eps);
    truth(Readings.rms(), halfWave, t, a / 2, eps);
    truth(Readings.acRms(), halfWave, t, 0.3855889214664527 * a, eps);
    Signal square = Signals.square(-a, a, t, 0.5);
    truth(Readings.mean(), square, t, 0, eps);
    truth(Readings.rms(), square, t, a, eps);
    truth(Readings.peakToPeak(), square, t, 2 * a, eps);
    for (double symmetry : new double[] {0, 0.3, 0.5, 1}) {
      Signal triangle = Signals.triangle(-a, a, t, symmetry);
      truth(Readings.mean(), triangle, t, 0, eps);
      truth(Readings.rms(), triangle, t, 0.5773502691896258 * a, eps);
      truth(Readings.peakToPeak(), triangle, t, 2 * a, eps);
    }
    double duty = 0.3;
    Signal pulse = Signals.square(0, a, t, duty);
    truth(Readings.mean(), pulse, t, duty * a, eps);
    truth(Readings.rms(), pulse, t, a * Math.sqrt(duty), eps);
    truth(Readings.acRms(), pulse, t, a * Math.sqrt(duty * (1 - duty)), eps);
    Signal trapezoid = Signals.pulseTrain(0, 3, 10, 5.5, 1, 2);
    truth(Readings.mean(), trapezoid, 10, 1.65, eps);
    truth(Readings.rms(), trapezoid, 10, 2.121320343559643, eps);
    truth(Readings.acRms(), trapezoid, 10, 1.333229162597338, eps);
    truth(Readings.maximum(), trapezoid, 10, 3, eps);
    truth(Readings.minimum(), trapezoid, 10, 0, eps);
    double edge = 0.1 * t;
    truth(
        Readings.rms(),
        Signals.trapezoid(-a, a, t, 0.5, edge, edge),
        t,
        a * Math.sqrt(1 - 4.0 / 30),
        eps);
    double tau = 0.4 * t;
    Signal sawtooth =
        Signals.step(a, 0).minus(Signals.exponentialEdge(a, 0, tau)).gated(0, t).repeatedEvery(t);
    double x = Math.exp(-t / tau);
    truth(Readings.mean(), sawtooth, t, a * tau / t * (1 - x), eps);
    truth(Readings.rms(), sawtooth, t, a * Math.sqrt(tau / (2 * t) * (1 - x * x)), eps);
    truth(Readings.peakToPeak(), sawtooth, t, a * (1 - x), eps);
    Signal tones =
        Signals.multiTone(
            new double[] {1, 0.5, 0.25}, new double[] {1e6, 3e6, 7e6}, new double[] {0, 1, 2});
    truth(Readings.rms(), tones, t, Math.sqrt((1 + 0.25 + 0.0625) / 2), eps);
  }

  @Test
  void riseTimes() {
    double tau = 1e-9;
    Signal edge = Signals.exponentialEdge(1, 0, tau);
    double rise = PulseReadings.riseTime(0, 1).of(edge, 0, 60 * tau).orThrow() / tau;
    Worst.note("record: rise time of the truth", Math.abs(rise - 2.197224577336219), 1e-12);
    assertEquals(2.197224577336219, rise, 1e-12, "ln 9");
    // truncated at n tau, 100 % read there
    assertEquals(1.832500191401202, PEAK_RISE.of(edge, 0, 3 * tau).orThrow() / tau, 1e-12);
    assertEquals(2.139099022579578, PEAK_RISE.of(edge, 0, 5 * tau).orThrow() / tau, 1e-12);
    Signal ramp = Signals.ramp(1, 0, 4e-9);
    assertEquals(
        3.2e-9,
        PulseReadings.riseTime().of(ramp, -1e-9, 6e-9).orThrow(),
        1e-21,
        "linear edge: 0.8 of it");
    double[][] filtered = {
      {0.5, 2.229169599156147},
      {1, 2.360726779398669},
      {2, 2.757263878340395},
      {5, 4.488095993794793}
    };
    for (double[] row : filtered) {
      double got =
          PulseReadings.riseTime(0, 1)
                  .of(
                      Response.singlePole(1 / (2 * Math.PI * tau))
                          .of(Signals.ramp(1, 0, row[0] * tau)),
                      -tau,
                      60 * tau)
                  .orThrow()
              / tau;
      assertEquals(row[1], got, 1e-12, "edge of " + row[0] + " tau through one pole");
    }
  }

  /** The record with known answers: modes 0 and 1, rising 10, 50, 90 % at 21, 25, 29. */
  @Test
  void recordWithKnownAnswers() {
    for (double shift : new double[] {0, 0.3}) {
      double[] y = new double[100];
      for (int i = 0; i < y.length; i++) {
        double n = i - shift;
        y[i] = n <= 60 ? Math.min(1, Math.max(0, (n - 20) / 10)) : Math.max(0, 1 - (n - 60) / 20);
      }
      Record record = Record.of(0, 1, y);
      assertEquals(8, PulseReadings.riseTime().of(record).orThrow(), 1e-12, "shift " + shift);
      assertEquals(0.45, Readings.mean().of(record).orThrow(), 1e-15, "shift " + shift);
      assertEquals(1, Readings.peakToPeak().of(record).orThrow(), 0, "shift " + shift);
    }
  }

  @AfterAll
  static void table() {
    Evidence.figures();
  }
}
