package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.stream.Stream;
import org.asmeasured.acquisition.LiveTime;
import org.asmeasured.acquisition.Qualifier;
import org.asmeasured.acquisition.Slope;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.acquisition.TriggerPath;
import org.asmeasured.capture.Schedule;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Waveform;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Trigger events against a convolution integral of high precision: vectors/trigger.psv, made by
 * scripts/make_trigger_vectors.py.
 */
class TriggerVectorsTest {
  /** Of the period: about what a double holds of an instant, over a search of three periods. */
  private static final double TOLERANCE = 1e-12;

  /**
   * Of the signal's full scale: an error of the analog output, divided by the slope, is one of the
   * event. The 10 Hz corner under a period of 1 us, settled within 6e-5 a period, leaves 1.4e-12;
   * the output promises 1e-9.
   */
  private static final double OUTPUT_TOLERANCE = 2e-12;

  static List<String> rows() throws IOException {
    try (InputStream stream =
        TriggerVectorsTest.class.getResourceAsStream("/vectors/trigger.psv")) {
      String text = new String(stream.readAllBytes(), StandardCharsets.UTF_8);
      return text.lines().filter(l -> !l.startsWith("#") && !l.startsWith("signal|")).toList();
    }
  }

  @Test
  void allRowsAreThere() throws IOException {
    assertEquals(23, rows().size());
  }

  @ParameterizedTest
  @MethodSource("rows")
  void eventsAreWhereTheIntegralPutsThem(String row) {
    String[] cells = row.split("\\|", -1);
    assertEquals(10, cells.length);
    Signal signal = SignalExpressions.signal(cells[0]);
    double period = number(cells[3]);
    double limit = number(cells[8]);
    Trigger trigger =
        Trigger.at(number(cells[4]))
            .path(new TriggerPath(number(cells[1]), number(cells[2])))
            .slope(cells[5].equals("rising") ? Slope.RISING : Slope.FALLING)
            .hysteresis(number(cells[6]))
            .qualifier(
                switch (cells[7]) {
                  case "none" -> Qualifier.none();
                  case "shorter" -> Qualifier.shorterThan(limit);
                  case "longer" -> Qualifier.longerThan(limit);
                  case "runt" -> Qualifier.runtBelow(limit);
                  default -> throw new IllegalArgumentException(cells[7]);
                })
            .preTrigger(0)
            .armedAt(0);
    double[] expected =
        Stream.of(cells[9].split(" ")).mapToDouble(TriggerVectorsTest::number).toArray();
    assertTrue(expected.length > 0);
    Waveform path = trigger.pathOutput(signal, Response.identity());
    // a record so short that no event is missed, and once around
    int count = expected.length + 1;
    Schedule schedule = Schedule.of(trigger, path, 0, 0, 1e15, 1e-6 * period, count, 1);
    assertEquals(count, schedule.size());
    double fullScale = signal.maximum(0, period) - signal.minimum(0, period);
    for (int i = 0; i < count; i++) {
      double at = i < expected.length ? expected[i] : expected[0] + period;
      double h = 1e-5 * period;
      double slope = (path.valueAt(at + h) - path.valueAt(at - h)) / (2 * h);
      double allowed = Math.max(TOLERANCE * period, OUTPUT_TOLERANCE * fullScale / Math.abs(slope));
      double error = Math.abs(schedule.eventSeconds(i) - at);
      Worst.note("trigger.event, of its period", error / period, allowed / period);
      assertEquals(at, schedule.eventSeconds(i), allowed);
    }
  }

  /**
   * Reference values, section 7 (Poisson, computed to 30 digits): 0.1 events per second, 10 us
   * recorded of every ms, seen in a minute; and the time for 95 %.
   */
  @Test
  void rareEventsAreSeenAtTheTabledChance() {
    LiveTime live = new LiveTime(10e-6, 990e-6);
    assertEquals(0.05823546641575129, live.chanceOfSeeing(0.1, 60), 1e-16);
    assertEquals(2995.73227355, live.secondsForChance(0.1, 0.95), 1e-8);
  }

  private static double number(String text) {
    return Double.parseDouble(text);
  }
}
