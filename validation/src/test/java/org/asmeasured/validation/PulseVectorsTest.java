package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.asmeasured.capture.Record;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Readings;
import org.asmeasured.pulse.PulseAnalysis;
import org.asmeasured.pulse.PulseMethod;
import org.asmeasured.pulse.PulseQuantity;
import org.asmeasured.pulse.ReferenceLevels;
import org.asmeasured.pulse.StateLevels;
import org.asmeasured.pulse.States;
import org.asmeasured.pulse.Summary;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;

/**
 * Levels, percentiles, transitions and cycles of records against NumPy and SciPy
 * (reference/numpy-pulses.csv, reference/scipy-heartbeat.csv; the script is named in them).
 */
class PulseVectorsTest {
  private static final double ROUNDING = 1e-11;

  private static Record record(String name) {
    return Record.of(
        0,
        1,
        Reference.rows("numpy-pulse-records").stream().mapToDouble(r -> r.number(name)).toArray());
  }

  private static Map<String, Double> figures(String name) {
    Map<String, Double> figures = new HashMap<>();
    for (Reference.Row row : Reference.rows("numpy-pulses")) {
      if (row.text("record").equals(name)) {
        figures.put(row.text("figure"), row.number("value"));
      }
    }
    return figures;
  }

  private static void check(String what, double expected, Measured measured) {
    check(what, expected, measured.orThrow());
  }

  private static void check(String what, double expected, double got) {
    double allowed = ROUNDING * Math.max(1, Math.abs(expected));
    Worst.note("pulse: " + what, Math.abs(got - expected), allowed);
    assertEquals(expected, got, allowed, what);
  }

  private static void percentiles(Record record, Map<String, Double> figures) {
    int found = 0;
    for (Map.Entry<String, Double> figure : figures.entrySet()) {
      if (figure.getKey().startsWith("percentile")) {
        double percent = Double.parseDouble(figure.getKey().substring("percentile".length()));
        check("percentile", figure.getValue(), Readings.percentile(percent).of(record));
        found++;
      }
    }
    assertTrue(found >= 6, "percentiles: " + found);
  }

  @Test
  void levelsAndPercentiles() {
    for (String name : List.of("ringing", "noisy", "sagging")) {
      Record record = record(name);
      Map<String, Double> figures = figures(name);
      percentiles(record, figures);
      States modes = StateLevels.histogramMode().of(record);
      check("low state, mode", figures.get("lowMode"), modes.lowVolts());
      if (!name.equals("sagging")) {
        // values spread over a sagging top: no mode stands out
        check("high state, mode", figures.get("highMode"), modes.highVolts());
      }
      States means = StateLevels.histogramMean().of(record);
      check("low state, mean", figures.get("lowMean"), means.lowVolts());
      check("high state, mean", figures.get("highMean"), means.highVolts());
    }
  }

  @Test
  void transitionsAndCycles() {
    Map<String, PulseQuantity> quantities =
        Map.of(
            "riseTime", PulseQuantity.RISE_TIME,
            "fallTime", PulseQuantity.FALL_TIME,
            "period", PulseQuantity.PERIOD,
            "frequency", PulseQuantity.FREQUENCY,
            "positiveDuration", PulseQuantity.POSITIVE_DURATION,
            "negativeDuration", PulseQuantity.NEGATIVE_DURATION,
            "cycleMean", PulseQuantity.CYCLE_MEAN,
            "cycleRms", PulseQuantity.CYCLE_RMS,
            "preshoot", PulseQuantity.PRESHOOT_RISING,
            "tilt", PulseQuantity.TILT_HIGH);
    for (String name : List.of("ringing", "sagging")) {
      Map<String, Double> figures = figures(name);
      PulseMethod method =
          PulseMethod.standard()
              .levels(StateLevels.given(figures.get("lowMode"), figures.get("highMode")));
      PulseAnalysis pulses = PulseAnalysis.of(record(name), method);
      assertEquals(figures.get("transitions"), pulses.transitions().size(), name);
      quantities.forEach(
          (figure, quantity) ->
              check(
                  quantity.words(),
                  figures.get(figure),
                  pulses.value(quantity, quantity.summary())));
      check(
          "overshoot",
          figures.get("overshoot"),
          pulses.value(PulseQuantity.OVERSHOOT_RISING, Summary.FIRST));
    }
    Map<String, Double> figures = figures("ringing");
    for (int percent : new int[] {1, 2, 5}) {
      check(
          "settling duration",
          figures.get("settling" + percent),
          PulseAnalysis.of(record("ringing"), PulseMethod.standard().settling(percent, 3))
              .value(PulseQuantity.SETTLING_RISING, Summary.FIRST));
    }
  }

  private static Record heartbeat() {
    try (InputStream stream =
        PulseVectorsTest.class.getResourceAsStream("/recorded/ecg-mitbih208.csv")) {
      double[] volts =
          new String(stream.readAllBytes(), StandardCharsets.UTF_8)
              .lines()
              .filter(l -> Character.isDigit(l.charAt(0)))
              .mapToDouble(l -> Double.parseDouble(l.split(",")[2]))
              .toArray();
      return Record.of(0, 360, volts);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Read as if millivolts were volts. */
  @Test
  void recordedHeartbeat() {
    Record record = heartbeat();
    Map<String, Double> figures = new HashMap<>();
    Reference.rows("scipy-heartbeat")
        .forEach(r -> figures.put(r.text("figure"), r.number("value")));
    percentiles(record, figures);
    check("mean", figures.get("mean"), Readings.mean().of(record));
    check("RMS", figures.get("rms"), Readings.rms().of(record));
    check("AC RMS", figures.get("acRms"), Readings.acRms().of(record));
    check("minimum", figures.get("minimum"), Readings.minimum().of(record));
    check("maximum", figures.get("maximum"), Readings.maximum().of(record));
    check(
        "low state, mode",
        figures.get("lowMode"),
        StateLevels.histogramMode().of(record).lowVolts());
    // beats are counted by find_peaks above 0.5 mV, and here where they pass 0.5 mV
    PulseMethod beats =
        PulseMethod.standard()
            .levels(StateLevels.peakMagnitude())
            .references(ReferenceLevels.volts(0.4, 0.5, 0.6))
            .hysteresis(2);
    PulseAnalysis pulses = PulseAnalysis.of(record, beats);
    long rising = pulses.transitions().stream().filter(t -> t.rising()).count();
    assertEquals(figures.get("peaks"), rising, "beats");
    // from peak to peak or from foot to foot: the beats differ in shape by up to 0.1 s
    double spacing = figures.get("meanSpacing");
    double period = pulses.value(PulseQuantity.PERIOD, Summary.MEAN).orThrow();
    assertEquals(spacing, period, 0.1 / 20, "mean spacing of beats");
  }

  @AfterAll
  static void table() {
    Evidence.figures();
  }
}
