package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.asmeasured.accuracy.Assessment;
import org.asmeasured.accuracy.AssessmentMethod;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.accuracy.Parameters;
import org.asmeasured.accuracy.Tolerances;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Readings;
import org.asmeasured.pulse.PulseReadings;
import org.asmeasured.signal.Signals;
import org.asmeasured.uncertainty.Distribution;
import org.asmeasured.uncertainty.MonteCarlo;
import org.junit.jupiter.api.Test;

/**
 * How far the standard uncertainties of 1024 trials are off, of readings of noisy 8-bit captures: a
 * trapezoid of 5 V peak to peak through 200 MHz, whose gain, offset and bandwidth are not exact,
 * and whose trigger leaves the clock of the samples free within one interval (common practice, no
 * source). The truth is the mean of eight runs of 65 536 trials, sure to a tenth of the figures
 * held here.
 */
class ThousandTrialsTest {
  private static final int RUNS = 200;
  private static final List<Reading> READINGS =
      List.of(Readings.peakToPeak(), Readings.rms(), PulseReadings.riseTime());

  private static double[] uncertainties(int trials, long seed) {
    Measurement measurement =
        new Measurement(
            Signals.trapezoid(-2.5, 2.5, 500e-9, 0.5, 3e-9, 3e-9),
            Setup.ideal(1e9, 500)
                .bandwidth(Bandwidth.bessel(4, 200e6))
                .bits(8)
                .converterNoise(ConverterNoise.ofSteps(0.3, 8)));
    Tolerances tolerances =
        Tolerances.none()
            .with(Parameters.gainError(), Distribution.normal(0, 0.01))
            .with(Parameters.offsetError(), Distribution.rectangular(-0.05 / 8, 0.05 / 8))
            .with(Parameters.relative(Parameters.bandwidth()), Distribution.triangular(-0.1, 0.1))
            .with(Parameters.start(), Distribution.rectangular(-100e-9, -99e-9));
    return Assessment.of(
            READINGS,
            measurement,
            tolerances,
            AssessmentMethod.usual()
                .byTrialsAlone()
                .withCaptures(2)
                .withTrials(MonteCarlo.ofTrials(0.95, trials))
                .withSeed(seed))
        .stream()
        .mapToDouble(a -> a.trials().orThrow().standardUncertainty().orThrow())
        .toArray();
  }

  /**
   * Root mean square over 200 runs, below 1 % for each reading: it is 0.8 % of peak to peak, 0.1 %
   * of RMS and 0.7 % of rise time, and scatters by a twentieth of itself, so a false alarm has odds
   * below 1e-5.
   */
  @Test
  void giveTheStandardUncertaintyToOnePercent() {
    double[] truth = new double[READINGS.size()];
    for (int run = 0; run < 8; run++) {
      double[] u = uncertainties(65_536, 1000 + run);
      for (int r = 0; r < truth.length; r++) {
        truth[r] += u[r] / 8;
      }
    }
    double[] square = new double[READINGS.size()];
    for (int run = 0; run < RUNS; run++) {
      double[] u = uncertainties(1024, run);
      for (int r = 0; r < truth.length; r++) {
        square[r] += (u[r] / truth[r] - 1) * (u[r] / truth[r] - 1) / RUNS;
      }
    }
    for (int r = 0; r < truth.length; r++) {
      double rms = Math.sqrt(square[r]);
      assertTrue(rms < 0.01, READINGS.get(r) + ": " + rms);
      assertTrue(rms > 1e-5, READINGS.get(r) + ": no trial differs from another");
    }
  }
}
