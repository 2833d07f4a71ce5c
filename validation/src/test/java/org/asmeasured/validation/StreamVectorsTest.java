package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import org.asmeasured.linear.Response;
import org.asmeasured.linear.StreamFilter;
import org.junit.jupiter.api.Test;

/** The streaming filter on a recorded electrocardiogram, against SciPy's lsim of the same input. */
class StreamVectorsTest {
  private static final double RATE = 360;

  /** 1e-9 of the span of the record, 3.62 mV. */
  private static final double TOLERANCE = 3.62e-9;

  private static String[] lines(String path) throws IOException {
    try (InputStream in = StreamVectorsTest.class.getResourceAsStream(path)) {
      return Arrays.stream(new String(in.readAllBytes(), StandardCharsets.UTF_8).split("\n"))
          .filter(line -> !line.startsWith("#"))
          .skip(1)
          .toArray(String[]::new);
    }
  }

  private static double[] electrocardiogram() throws IOException {
    return Arrays.stream(lines("/recorded/ecg-mitbih208.csv"))
        .mapToDouble(line -> Double.parseDouble(line.split(",")[2]))
        .toArray();
  }

  /** From rest, in blocks of 100. */
  private static double[] streamed(Response response, double[] volts) {
    StreamFilter filter = new StreamFilter(response, RATE, StreamFilter.Start.AT_REST);
    double[] out = volts.clone();
    for (int k = 0; k < out.length; k += 100) {
      filter.process(out, k, out, k, Math.min(100, out.length - k));
    }
    return out;
  }

  @Test
  void everyVectorOfLsim() throws IOException {
    double[] volts = electrocardiogram();
    Map<String, double[]> outputs = new HashMap<>();
    int rows = 0;
    for (String line : lines("/recorded/ecg-lsim.csv")) {
      String response = line.substring(1, line.indexOf('"', 1));
      String[] cells = line.substring(line.indexOf('"', 1) + 2).split(",");
      double[] out =
          outputs.computeIfAbsent(response, r -> streamed(ResponseExpressions.response(r), volts));
      double want = Double.parseDouble(cells[1]);
      double got = out[Integer.parseInt(cells[0])];
      Worst.note("stream, electrocardiogram by lsim", Math.abs(got - want), TOLERANCE);
      assertEquals(want, got, TOLERANCE, line);
      rows++;
    }
    assertTrue(rows > 300, rows + " rows");
  }

  /** Reference values, section 16: computed with SciPy 1.10.1, all printed digits. */
  @Test
  void printedRows() throws IOException {
    double[] volts = electrocardiogram();
    double[] low = streamed(Response.butterworth(2, 40), volts);
    assertEquals(-0.0626624732915258, low[100], 1e-12);
    assertEquals(-0.606373190494772, low[1000], 1e-12);
    assertEquals(-0.197106394139332, low[2000], 1e-12);
    assertEquals(-0.748105785749274, low[3599], 1e-12);
    assertEquals(2.54978439516861, Arrays.stream(low).max().orElseThrow(), 1e-12);
    assertEquals(-0.208068976457365, Arrays.stream(low).average().orElseThrow(), 1e-12);
    double[] high = streamed(Response.highPass(0.5), volts);
    assertEquals(0.21, high[0], 1e-15);
    assertEquals(-0.082597073222262, high[100], 1e-12);
    assertEquals(-0.0401150039356909, high[1000], 1e-12);
    assertEquals(-0.10799174634735, high[3599], 1e-12);
    double square = Arrays.stream(high).map(v -> v * v).average().orElseThrow();
    assertEquals(0.346847423300948, Math.sqrt(square), 1e-12);
  }
}
