package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.asmeasured.linear.Output;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Waveform;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/**
 * Mean, RMS, least and greatest value of exact outputs over spans, against quadrature and search at
 * high precision.
 *
 * <p>Source: mpmath, validation/scripts/make_reading_vectors.py; the head of vectors/readings.csv
 * says more.
 */
class WaveformVectorsTest {
  private static final double TOLERANCE = 1e-9;

  private static List<Map<String, String>> cases() {
    try (InputStream stream =
        WaveformVectorsTest.class.getResourceAsStream("/vectors/readings.csv")) {
      List<Map<String, String>> cases = new ArrayList<>();
      for (String line : new String(stream.readAllBytes(), StandardCharsets.UTF_8).split("\n")) {
        if (line.startsWith("#") || line.isBlank()) {
          continue;
        }
        int colon = line.indexOf(": ");
        if (line.startsWith("case: ")) {
          cases.add(new HashMap<>());
        }
        cases.get(cases.size() - 1).put(line.substring(0, colon), line.substring(colon + 2));
      }
      return cases;
    } catch (IOException e) {
      throw new AssertionError(e);
    }
  }

  @TestFactory
  Stream<DynamicTest> spans() {
    return cases().stream().map(c -> dynamicTest(c.get("case"), () -> check(c)));
  }

  private static void check(Map<String, String> c) {
    Signal signal = SignalExpressions.signal(c.get("signal"));
    Response response = ResponseExpressions.response(c.get("response"));
    Output output = response.of(signal);
    hold(c, output, "");
    if (response.isIdentity()) {
      // a signal's own readings come from closed forms instead of quadrature
      hold(c, signal, " of the signal itself");
    }
  }

  private static void hold(Map<String, String> c, Waveform y, String whose) {
    double from = Double.parseDouble(c.get("from"));
    double to = Double.parseDouble(c.get("to"));
    one(c, "mean", y.mean(from, to), whose);
    one(c, "rms", y.rms(from, to), whose);
    one(c, "minimum", y.minimum(from, to), whose);
    one(c, "maximum", y.maximum(from, to), whose);
  }

  private static void one(Map<String, String> c, String key, double got, String whose) {
    double fullScale = Double.parseDouble(c.get("full scale"));
    double expected = Double.parseDouble(c.get(key));
    Worst.note("waveform: " + key + whose, Math.abs(got - expected) / fullScale, TOLERANCE);
    assertEquals(expected, got, TOLERANCE * fullScale, () -> key + whose + " of " + c);
  }

  @AfterAll
  static void table() {
    System.out.println(Worst.table("waveform"));
    Evidence.figures();
  }
}
