package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.SplittableRandom;
import org.asmeasured.acquisition.Boxcar;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.Converter;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.SampleClock;
import org.asmeasured.signal.Signal;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;

/**
 * A whole setup against the signal and the vectors: the same figures come out at the end of the
 * chain.
 */
class CaptureTest {
  private static void sameBits(double[] expected, double[] actual, String what) {
    assertEquals(expected.length, actual.length);
    for (int i = 0; i < expected.length; i++) {
      int at = i;
      assertTrue(
          Double.doubleToRawLongBits(expected[i]) == Double.doubleToRawLongBits(actual[i]),
          () -> what + ": point " + at + ": expected " + expected[at] + ", got " + actual[at]);
    }
  }

  @Test
  void idealSetupIsTheSignalBitForBit() {
    SplittableRandom seeds = new SplittableRandom(7);
    for (int i = 0; i < 300; i++) {
      long seed = seeds.nextLong();
      RandomChains r = new RandomChains(seed);
      Signal x = r.any();
      SampleClock clock = new SampleClock(r.instant(1e-6), r.logUniform(1e6, 5e9));
      int n = 1 + r.below(3000);
      double[] plain = new double[n];
      x.sample(clock, 0, plain, 0, n);
      Setup ideal = Setup.ideal(clock.rateHz(), n).startingAt(clock.startSeconds());
      sameBits(plain, ideal.capture(x).volts(), "seed " + seed + "L: " + x);
    }
  }

  @Test
  void setupWithOneBandwidthIsTheOutputBitForBit() {
    SplittableRandom seeds = new SplittableRandom(8);
    for (int i = 0; i < 200; i++) {
      long seed = seeds.nextLong();
      RandomChains r = new RandomChains(seed);
      Signal x = r.any();
      Response h = r.response();
      SampleClock clock = new SampleClock(r.instant(1e-6), r.logUniform(1e6, 5e9));
      int n = 1 + r.below(9000);
      double[] output = new double[n];
      h.of(x).sample(clock, 0, output, 0, n);
      Setup setup =
          Setup.ideal(clock.rateHz(), n)
              .startingAt(clock.startSeconds())
              .bandwidth(Bandwidth.of("random response", h));
      sameBits(output, setup.capture(x).volts(), "seed " + seed + "L: " + x + " through " + h);
    }
  }

  @Test
  void vectorsAtTheEndOfTheChain() {
    int records = 0;
    for (String file : List.of("builders", "orders", "edges", "ac-coupling", "starts", "algebra")) {
      for (Vectors.Case c : Vectors.read(file + ".csv")) {
        long last = 0;
        for (Vectors.Row row : c.rows()) {
          if (row.kind() == Vectors.Kind.SAMPLE && row.index() >= 0 && row.index() < 4000) {
            last = Math.max(last, row.index());
          }
        }
        Setup setup =
            Setup.ideal(c.clock().rateHz(), (int) last + 1)
                .startingAt(c.clock().startSeconds())
                .converter(Converter.none())
                .bandwidth(
                    Bandwidth.of(
                        "response of the case", ResponseExpressions.response(c.response())));
        double[] volts = setup.capture(SignalExpressions.signal(c.signal())).volts();
        for (Vectors.Row row : c.rows()) {
          if (row.kind() == Vectors.Kind.SAMPLE && row.index() >= 0 && row.index() <= last) {
            double error = Math.abs(volts[(int) row.index()] - row.volts()) / c.fullScale();
            Worst.note("record: vectors at the end of the chain", error, c.tolerance());
            assertTrue(
                error <= c.tolerance(),
                () ->
                    file
                        + ", "
                        + c.name()
                        + ", point "
                        + row.index()
                        + ": "
                        + error
                        + " of full scale");
          }
        }
        records++;
      }
    }
    assertTrue(records >= 300, records + " records");
  }

  @Test
  void meanOfManySamplesIsTheMeanOfTheVector() {
    // boxcar of 4 over the exact output: the mean of the samples that the output itself gives
    SplittableRandom seeds = new SplittableRandom(9);
    for (int i = 0; i < 100; i++) {
      long seed = seeds.nextLong();
      RandomChains r = new RandomChains(seed);
      Signal x = r.any();
      Response h = r.response();
      double[] raw = new double[400];
      h.of(x).sample(new SampleClock(0, 1e9), 0, raw, 0, raw.length);
      Setup setup =
          Setup.ideal(1e9, 100)
              .bandwidth(Bandwidth.of("random response", h))
              .decimation(Boxcar.of(4));
      double[] volts = setup.capture(x).volts();
      for (int k = 0; k < volts.length; k++) {
        double mean = (raw[4 * k] + raw[4 * k + 1] + raw[4 * k + 2] + raw[4 * k + 3]) / 4;
        assertEquals(
            mean, volts[k], 1e-12 * Math.max(1, x.bound()), "seed " + seed + "L, point " + k);
      }
    }
  }

  @AfterAll
  static void table() {
    Evidence.figures();
  }
}
