package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.asmeasured.accuracy.Assessment;
import org.asmeasured.accuracy.AssessmentMethod;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.accuracy.Sensitivity;
import org.asmeasured.accuracy.Tolerances;
import org.asmeasured.capture.Setup;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.pulse.PulseReadings;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;

/**
 * How rise times behind a filter follow that of the edge, against SciPy
 * (reference/scipy-sensitivity.csv; the script is named in it).
 */
class SensitivityReferenceTest {
  private static final double HALF_POWER = 350e6;

  @AfterAll
  static void figures() {
    Evidence.figures();
  }

  private static void holds(String check, double expected, double found, double allowed) {
    double error = Math.abs(found - expected);
    Worst.note(check, error, allowed);
    assertEquals(expected, found, allowed, check);
  }

  /**
   * Samples of 1 ps: a crossing by a straight line between two of them is off by no more than a
   * eighth of the square of the step times the curvature over the slope, some 1e-5 of these
   * durations.
   */
  @Test
  void riseTimesFollowTheEdgeAsFarAsTheFilterLetsThem() {
    List<Reference.Row> rows = Reference.rows("scipy-sensitivity");
    assertEquals(15, rows.size());
    for (Reference.Row row : rows) {
      double rise = row.number("rise_s");
      Setup setup =
          Setup.ideal(1e12, 12_000)
              .startingAt(-2e-9)
              .bandwidth(filter(row.text("shape"), row.whole("order")));
      Assessment a =
          Assessment.of(
                  List.of(PulseReadings.riseTime(0, 1)),
                  new Measurement(Signals.ramp(1, 0, rise / 0.8), setup),
                  Tolerances.none(),
                  AssessmentMethod.usual())
              .get(0);
      Sensitivity s = a.sensitivity().orThrow();
      double read = row.number("read_s");
      holds("rise time behind a filter, relative", 1, a.measured().orThrow() / read, 1e-5);
      holds("sensitivity of a rise time", row.number("sensitivity"), s.value(), 1e-5);
      assertTrue(s.follows(), row.toString());
    }
  }

  private static Bandwidth filter(String shape, int order) {
    return shape.equals("bessel")
        ? Bandwidth.bessel(order, HALF_POWER)
        : order == 1 ? Bandwidth.singlePole(HALF_POWER) : Bandwidth.butterworth(order, HALF_POWER);
  }
}
