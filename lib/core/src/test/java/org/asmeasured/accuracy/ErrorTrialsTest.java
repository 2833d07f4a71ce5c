package org.asmeasured.accuracy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.measure.Readings;
import org.asmeasured.signal.Signals;
import org.asmeasured.uncertainty.Distribution;
import org.asmeasured.uncertainty.RefusedInput;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;

class ErrorTrialsTest {
  private static final Measurement STILL =
      new Measurement(Signals.constant(2), Setup.ideal(1e6, 10));

  /** The error is V g + o F of the very draws, F that of each setup. */
  @Test
  void setupsMeetTheSameDraws() {
    Tolerances t =
        Tolerances.none()
            .with(Parameters.gainError(), Distribution.normal(0, 0.01))
            .with(Parameters.offsetError(), Distribution.rectangular(-0.01, 0.01));
    ErrorTrials trials = ErrorTrials.of(Readings.mean(), STILL, t, 3);
    assertEquals(2, trials.truth().orThrow());
    ErrorTrials.Of coarse = trials.of(STILL);
    ErrorTrials.Of fine = trials.of(STILL.withSetup(STILL.setup().scale(0.1)));
    double[] errors = fine.errors(20);
    for (int i = 0; i < 20; i++) {
      double[] x = trials.draws().values(i);
      assertEquals(2 * x[0] + 8 * x[1], coarse.error(i).orThrow(), 1e-12);
      assertEquals(2 * x[0] + 0.8 * x[1], errors[i], 1e-12);
    }
  }

  /** Half a period of a sine has a mean of 2 A/pi; a setup that sees the whole one reads 0. */
  @Test
  void theMeasurandIsTheOneAskedFor() {
    Setup half = Setup.ideal(1e6, 500);
    Measurement asked = new Measurement(Signals.sine(1, 1e3), half);
    ErrorTrials trials = ErrorTrials.of(Readings.mean(), asked, Tolerances.none(), 0);
    assertEquals(2 / Math.PI, trials.truth().orThrow(), 1e-9);
    Measurement whole = asked.withSetup(half.points(1000));
    assertEquals(-2 / Math.PI, trials.of(whole).error(0).orThrow(), 1e-9);
    Assessment a =
        Assessment.of(
                List.of(Readings.mean()), asked, whole, Tolerances.none(), AssessmentMethod.usual())
            .get(0);
    assertEquals(-2 / Math.PI, a.bias().orThrow(), 1e-9);
    assertTrue(trials.isRepeatable(asked));
    assertFalse(trials.isRepeatable(asked.withSetup(half.converterNoise(new ConverterNoise(0.1)))));
  }

  /** A limit that is off has no tolerance; one of another frequency must be told relative. */
  @Test
  void tolerancesConcernWhatIsThere() {
    Tolerances relative =
        Tolerances.none()
            .with(Parameters.gainError(), Distribution.normal(0, 0.01))
            .with(Parameters.relative(Parameters.limit()), Distribution.normal(0, 0.05));
    Setup limited = STILL.setup().limit(Bandwidth.singlePole(20e3));
    assertEquals(1, relative.concerning(STILL).list().size());
    assertEquals(2, relative.concerning(STILL.withSetup(limited)).list().size());
    ErrorTrials trials = ErrorTrials.of(Readings.mean(), STILL, relative, 0);
    assertEquals(2 * trials.draws().values(5)[0], trials.of(STILL).error(5).orThrow(), 1e-12);
    assertTrue(trials.of(STILL.withSetup(limited)).error(5).isTaken());

    Tolerances absolute =
        Tolerances.none().with(Parameters.limit(), Distribution.normal(20e3, 1e3));
    ErrorTrials stated = ErrorTrials.of(Readings.mean(), STILL, absolute, 0);
    assertTrue(stated.of(STILL.withSetup(limited)).error(0).isTaken());
    Measurement other = STILL.withSetup(limited.limit(Bandwidth.singlePole(50e3)));
    assertTrue(
        assertThrows(IllegalArgumentException.class, () -> stated.of(other))
            .getMessage()
            .contains("state it relative"));
  }

  @Test
  void refusesBadInput() {
    assertThrows(
        NullPointerException.class, () -> ErrorTrials.of(null, STILL, Tolerances.none(), 0));
    assertThrows(
        NullPointerException.class,
        () -> ErrorTrials.of(Readings.mean(), null, Tolerances.none(), 0));
    assertThrows(NullPointerException.class, () -> ErrorTrials.of(Readings.mean(), STILL, null, 0));
    ErrorTrials trials = ErrorTrials.of(Readings.mean(), STILL, Tolerances.none(), 0);
    assertThrows(NullPointerException.class, () -> trials.of(null));
    Measurement other = STILL.withSignal(Signals.constant(2));
    assertTrue(
        assertThrows(IllegalArgumentException.class, () -> trials.of(other))
            .getMessage()
            .contains("must be that of the measurand"));
    assertThrows(NullPointerException.class, () -> Tolerances.none().concerning(null));
  }

  /** By the setup asked for, and by one that has what that has not. */
  @Test
  void refusesAToleranceThatReachesTooFar() {
    Tolerances t =
        Tolerances.none()
            .with(Parameters.gainError(), Distribution.normal(0, 0.01))
            .with(Parameters.limit(), Distribution.normal(20e3, 6e3));
    Measurement limited = STILL.withSetup(STILL.setup().limit(Bandwidth.singlePole(20e3)));
    String words = "bandwidth limit (" + Distribution.normal(20e3, 6e3).name() + "): reaches -85";
    for (Executable call :
        List.<Executable>of(
            () -> ErrorTrials.of(Readings.mean(), limited, t, 0),
            () -> ErrorTrials.of(Readings.mean(), STILL, t, 0).of(limited),
            () -> t.requirePossible(limited),
            () -> Assessment.of(Readings.mean(), limited, t))) {
      String message = assertThrows(RefusedInput.class, call).getMessage();
      assertTrue(message.startsWith(words), message);
      assertFalse(message.contains("gain error"), message);
    }
    // 20 kHz is 5 standard deviations, and the ends are tried up to 4.75
    Tolerances.none()
        .with(Parameters.limit(), Distribution.normal(20e3, 4e3))
        .requirePossible(limited);
    Tolerances wrong = Tolerances.none().with(Parameters.limit(), Distribution.normal(-1, 0.1));
    assertTrue(
        assertThrows(RefusedInput.class, () -> wrong.atEstimates(limited))
            .getMessage()
            .startsWith("bandwidth limit (" + Distribution.normal(-1, 0.1).name()));
    assertThrows(NullPointerException.class, () -> t.requirePossible(null));
    assertTrue(
        assertThrows(IllegalArgumentException.class, () -> t.requirePossible(STILL))
            .getMessage()
            .contains("has no stated half-power frequency"));
  }
}
