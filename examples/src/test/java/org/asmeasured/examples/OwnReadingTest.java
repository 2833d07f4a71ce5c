package org.asmeasured.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.asmeasured.accuracy.Prediction;
import org.asmeasured.accuracy.StageBias;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Noise;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Readings;
import org.asmeasured.measure.Statistics;
import org.asmeasured.scenario.Results;
import org.asmeasured.scenario.Scenario;
import org.asmeasured.scenario.ScenarioResult;
import org.asmeasured.signal.Signals;
import org.asmeasured.signal.Waveform;
import org.junit.jupiter.api.Test;

/** A reading of one's own, in a few lines; it then works wherever the library's own do. */
class OwnReadingTest {

  /** Greatest modulus over RMS: root of two for a sine. */
  record CrestFactor() implements Reading {
    @Override
    public String name() {
      return "crest factor";
    }

    @Override
    public String unit() {
      return "";
    }

    @Override
    public Measured of(Record record) {
      return ratio(
          Readings.minimum().of(record), Readings.maximum().of(record), Readings.rms().of(record));
    }

    @Override
    public Measured of(Waveform truth, double from, double to) {
      return ratio(
          Readings.minimum().of(truth, from, to),
          Readings.maximum().of(truth, from, to),
          Readings.rms().of(truth, from, to));
    }

    /** Whatever cannot be read lends its reason. */
    private static Measured ratio(Measured least, Measured greatest, Measured rms) {
      for (Measured part : List.of(least, greatest, rms)) {
        if (!part.isTaken()) {
          return part;
        }
      }
      if (rms.orThrow() == 0) {
        return new Measured.NotTaken("there is nothing but zero");
      }
      double peak = Math.max(Math.abs(least.orThrow()), Math.abs(greatest.orThrow()));
      return new Measured.Value(peak / rms.orThrow());
    }
  }

  private static final Setup SETUP =
      Setup.ideal(1e8, 5000)
          .bandwidth(Bandwidth.singlePole(20e6))
          .noise(Noise.white(1e-6))
          .vertical(VerticalScale.of(0.5))
          .bits(8);

  @Test
  void biasByStage() {
    Prediction prediction = Prediction.of(new CrestFactor(), Signals.sine(1, 1e6), SETUP);
    assertEquals(Math.sqrt(2), prediction.truth().orThrow(), 1e-12);
    List<String> stages = prediction.byStage().stream().map(StageBias::stage).toList();
    assertTrue(
        stages.containsAll(List.of("bandwidth", "amplifier noise", "quantisation")),
        stages::toString);
    double sum = 0;
    for (StageBias stage : prediction.byStage()) {
      sum += stage.bias().orThrow();
    }
    assertEquals(prediction.bias().orThrow(), sum, 1e-12);
    // one pole makes a smaller sine of a sine, whose crest factor is the same
    StageBias bandwidth = prediction.byStage().get(stages.indexOf("bandwidth"));
    assertEquals(0, bandwidth.bias().orThrow(), 1e-12);
    assertTrue(prediction.byStage().get(stages.indexOf("amplifier noise")).bias().orThrow() > 0);
  }

  @Test
  void statisticsOverManyCaptures() {
    Statistics one = Statistics.over(new CrestFactor(), Signals.sine(1, 1e6), SETUP, 1, 40, 1);
    assertEquals(40, one.count());
    assertTrue(one.standardDeviation().orThrow() > 0);
    assertEquals(one, Statistics.over(new CrestFactor(), Signals.sine(1, 1e6), SETUP, 1, 40, 3));
  }

  @Test
  void inAScenarioAndItsReport() throws Exception {
    Scenario scenario =
        new Scenario(
                "Crest factor, invented",
                List.of(),
                Signals.sine(1, 1e6),
                SETUP,
                List.of(new CrestFactor()))
            .withCaptures(5);
    ScenarioResult result = ScenarioResult.of(scenario);
    assertTrue(Results.toJson(result).contains("\"name\" : \"crest factor\""));
    Account account = Accounts.of(result);
    assertEquals("1.414", account.outcomes().get(0).truthText().substring(0, 5));
    assertEquals("crest factor", account.spreads().get(0).name());
    assertTrue(
        new String(
                Report.files(account, "{}").get(Report.PAGE),
                java.nio.charset.StandardCharsets.UTF_8)
            .contains("crest factor"));
  }

  @Test
  void saysWhyItCannotBeTaken() {
    Prediction nothing = Prediction.of(new CrestFactor(), Signals.constant(0), Setup.ideal(1, 4));
    assertEquals("not taken: there is nothing but zero", nothing.truth().toString());
    Prediction clipped = Prediction.of(new CrestFactor(), Signals.sine(5, 1e6), SETUP);
    assertTrue(clipped.measured().toString().contains("clipped"), clipped.measured()::toString);
  }
}
