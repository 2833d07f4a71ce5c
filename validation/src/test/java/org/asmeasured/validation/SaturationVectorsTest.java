package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import org.asmeasured.frontend.SaturatedOutput;
import org.asmeasured.frontend.Saturation;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;

/** Saturation against SciPy's integration between events, and against the printed clipped sine. */
class SaturationVectorsTest {
  private static final double TOLERANCE = 1e-10;

  @Test
  void integratedBetweenEvents() throws IOException {
    String[] lines;
    try (InputStream in =
        SaturationVectorsTest.class.getResourceAsStream("/vectors/saturation.csv")) {
      lines = new String(in.readAllBytes(), StandardCharsets.UTF_8).split("\n");
    }
    double[] last = null;
    SaturatedOutput y = null;
    int rows = 0;
    for (String line : lines) {
      if (line.startsWith("#") || line.startsWith("amplitude")) {
        continue;
      }
      double[] c = Arrays.stream(line.split(",")).mapToDouble(Double::parseDouble).toArray();
      if (last == null || !Arrays.equals(c, 0, 9, last, 0, 9)) {
        int cycles = (int) Math.ceil(c[8] * c[1]) + 1;
        y =
            new Saturation(c[4], c[5], c[6], c[7])
                .of(
                    Signals.burst(c[0], c[1], cycles, 0),
                    Response.singlePole(c[2]),
                    Response.butterworth(2, c[3]),
                    0,
                    c[8]);
        last = c;
      }
      double error = Math.abs(y.valueAt(c[9]) - c[10]);
      Worst.note("saturation, DOP853", error, TOLERANCE);
      assertEquals(c[10], y.valueAt(c[9]), TOLERANCE, line);
      rows++;
    }
    assertTrue(rows > 300, rows + " rows");
  }

  @Test
  void clippedSine() {
    for (Reference.Row row : Reference.rows("clipped-sine")) {
      double f = 3e6;
      double overdrive = row.number("overdrive");
      SaturatedOutput y =
          Saturation.at(1)
              .of(Signals.sine(overdrive, f), Response.identity(), Response.identity(), 0, 1 / f);
      row.check("rms", y.rms(0, 1 / f), 1e-12);
      // the fundamental by its definition, on a lattice so fine that the corners do not matter
      double sum = 0;
      int n = 1 << 17;
      for (int k = 0; k < n; k++) {
        double phase = 2 * Math.PI * (k + 0.5) / n;
        sum += y.valueAt((k + 0.5) / n / f) * Math.sin(phase);
      }
      double fundamental = 2 * sum / n;
      row.check("fundamental", fundamental, 1e-10);
      double rms = y.rms(0, 1 / f);
      row.check(
          "thdPercent", 100 * Math.sqrt(2 * rms * rms / (fundamental * fundamental) - 1), 1e-5);
    }
  }
}
