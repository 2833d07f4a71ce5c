package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.accuracy.Parameter;
import org.asmeasured.accuracy.Tolerances;
import org.asmeasured.advice.Advice;
import org.asmeasured.advice.AdviceMethod;
import org.asmeasured.advice.Candidate;
import org.asmeasured.advice.Choices;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.measure.Readings;
import org.asmeasured.signal.Signals;
import org.asmeasured.uncertainty.Distribution;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;

/** Scores of advice against published formulas for single contributions. */
class AdviceReferenceTest {
  @AfterAll
  static void figures() {
    Evidence.figures();
  }

  private static void holds(String check, double expected, double found, double allowed) {
    double error = Math.abs(found / expected - 1);
    Worst.note(check, error, allowed);
    assertTrue(error <= allowed, () -> check + ": expected " + expected + ", found " + found);
  }

  /**
   * JCGM 100:2008, F.2.2.1 (clause from memory): an indication of resolution d stands for anything
   * within d/2 of it, u = d/sqrt(12) = 0.29 d. A still voltage, equally probable over two hundred
   * steps of the coarsest scale of 8 bits, read at scales from coarse to fine; the truth follows
   * the voltage. So u falls with full scale, F/256/sqrt(12), and the finest scale that holds it is
   * advised. 1024 even draws of one quantity: 2 % allowed (the mean square of 1024 plain uniform
   * draws scatters by 2.8 %, of even ones by far less).
   */
  @Test
  void quantisationFallsWithFullScale() {
    double[] scales = {0.2, 0.5, 1};
    Measurement m = new Measurement(Signals.constant(0), Setup.ideal(1e6, 1).bits(8).scale(1));
    Parameter level =
        Parameter.of("level", "V", x -> 0, (x, v) -> x.withSignal(Signals.constant(v)));
    Tolerances t = Tolerances.none().with(level, Distribution.rectangular(-0.78, 0.78));
    Advice advice =
        Advice.of(
                Readings.mean(),
                m,
                t,
                Choices.none().scales(scales),
                AdviceMethod.usual().withTrials(1024, 1024, 100_000))
            .orThrow();
    List<Candidate> ranking = advice.ranking();
    assertEquals(3, ranking.size());
    for (int i = 0; i < 3; i++) {
      assertEquals(scales[i], ranking.get(i).setup().vertical().voltsPerDivision());
      double step = 8 * scales[i] / 256;
      holds(
          "u of a step of " + step + " V, d/sqrt(12)",
          step / Math.sqrt(12),
          ranking.get(i).standardUncertainty(),
          0.02);
    }
  }

  /**
   * JCGM 100:2008, 4.2.3 (clause from memory): the mean of n independent readings has s/sqrt(n). A
   * recorder's noise of 1 mV, 25 points, and means of 1 to 64 acquisitions; 4096 trials, 5 standard
   * deviations of a sample deviation, 1/sqrt(2 x 4096): 5.6 %, false alarm below 1e-5 for all.
   */
  @Test
  void averagingFallsWithTheRootOfTheNumber() {
    Measurement m =
        new Measurement(
            Signals.constant(1),
            Setup.ideal(1e6, 25).scale(1).converterNoise(new ConverterNoise(1e-3 / 8)));
    Advice advice =
        Advice.of(
                Readings.mean(),
                m,
                Tolerances.none(),
                Choices.none().averages(1, 4, 16, 64),
                AdviceMethod.usual().withTrials(4096, 4096, 100_000))
            .orThrow();
    int[] counts = {64, 16, 4, 1};
    for (int i = 0; i < 4; i++) {
      Candidate c = advice.ranking().get(i);
      assertEquals(counts[i], c.setup().ensemble().count());
      holds(
          "u of a mean of " + counts[i] + ", s/sqrt(n)",
          1e-3 / 5 / Math.sqrt(counts[i]),
          c.standardUncertainty(),
          5 / Math.sqrt(2 * 4096));
    }
  }
}
