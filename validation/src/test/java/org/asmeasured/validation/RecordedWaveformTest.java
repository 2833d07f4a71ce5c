package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.asmeasured.linear.Output;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.SampleClock;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;

/**
 * A recorded electrocardiogram, read as if millivolts were volts, played through analog filters.
 *
 * <p>Data: MIT-BIH Arrhythmia Database, record 208 (its head names source and licence). Expected
 * values: SciPy's lsim, which is exact for piecewise-linear input; recorded/ecg-lsim.csv says more.
 */
class RecordedWaveformTest {
  private static final double RATE = 360;
  private static final double SPAN = 3.62;

  private static List<String> lines(String file) {
    try (InputStream stream = RecordedWaveformTest.class.getResourceAsStream("/recorded/" + file)) {
      List<String> lines = new ArrayList<>();
      for (String line : new String(stream.readAllBytes(), StandardCharsets.UTF_8).split("\n")) {
        if (!line.startsWith("#") && !line.startsWith("index") && !line.startsWith("response")) {
          lines.add(line);
        }
      }
      return lines;
    } catch (IOException e) {
      throw new AssertionError(e);
    }
  }

  private static double[] volts() {
    return lines("ecg-mitbih208.csv").stream()
        .mapToDouble(l -> Double.parseDouble(l.split(",")[2]))
        .toArray();
  }

  /** lsim starts from rest: before the first point nothing was there. */
  private static Signal fromRest() {
    return Signals.recorded(0, RATE, volts()).startingAt(0);
  }

  private static double[] sampled(Response response) {
    double[] out = new double[3600];
    response.of(fromRest()).sample(new SampleClock(0, RATE), 0, out, 0, out.length);
    return out;
  }

  @Test
  void everyPrintedValueOfLsim() {
    int checked = 0;
    String name = "";
    double[] got = {};
    for (String line : lines("ecg-lsim.csv")) {
      int quote = line.indexOf('"', 1);
      String response = line.substring(1, quote);
      if (!response.equals(name)) {
        name = response;
        got = sampled(ResponseExpressions.response(response));
      }
      String[] cells = line.substring(quote + 2).split(",");
      int k = Integer.parseInt(cells[0]);
      double error = Math.abs(got[k] - Double.parseDouble(cells[1])) / SPAN;
      Worst.note("ecg, lsim", error, 1e-9);
      assertEquals(Double.parseDouble(cells[1]), got[k], 1e-9 * SPAN, response + ", point " + k);
      checked++;
    }
    assertEquals(3 * 107, checked);
  }

  @Test
  void extremesAndMeansOfLsim() {
    // the same runs, SciPy 1.10.1: values as printed in the reference table
    double[] low = sampled(Response.butterworth(2, 40));
    double most = Double.NEGATIVE_INFINITY;
    double sum = 0;
    for (double v : low) {
      most = Math.max(most, v);
      sum += v;
    }
    assertEquals(2.54978439516861, most, 1e-12);
    assertEquals(-0.208068976457365, sum / low.length, 1e-12);
    double[] high = sampled(Response.highPass(0.5));
    double squares = 0;
    for (double v : high) {
      squares += v * v;
    }
    assertEquals(0.21, high[0], 1e-15);
    assertEquals(-0.082597073222262, high[100], 1e-12);
    assertEquals(-0.0401150039356909, high[1000], 1e-12);
    assertEquals(-0.10799174634735, high[3599], 1e-12);
    assertEquals(0.346847423300948, Math.sqrt(squares / high.length), 1e-12);
  }

  @Test
  void settledStartHeldTheFirstValue() {
    // before its first point a recorded waveform held that value: a low-pass starts there, a
    // high-pass at zero
    Signal settled = Signals.recorded(0, RATE, volts());
    assertEquals(0.21, Response.butterworth(2, 40).of(settled).valueAt(0), 1e-13);
    assertEquals(0, Response.highPass(0.5).of(settled).valueAt(0), 1e-13);
    Output identity = Response.identity().of(settled);
    double[] raw = volts();
    for (int k = 0; k < raw.length; k++) {
      double[] one = new double[1];
      identity.sample(new SampleClock(0, RATE), k, one, 0, 1);
      assertEquals(raw[k], one[0], 1e-15, "point " + k);
    }
  }

  @AfterAll
  static void table() {
    Evidence.figures();
  }
}
