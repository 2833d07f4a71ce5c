package org.asmeasured.scenario;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import org.asmeasured.accuracy.Caution;
import org.asmeasured.accuracy.Prediction;
import org.asmeasured.capture.Record;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Reading;

/**
 * What a scenario comes to: the record, a prediction for each reading, and the cautions that belong
 * beside them.
 *
 * <p>Immutable, and a function of the scenario alone, its seed included: the same scenario gives
 * the same bits on any machine.
 *
 * @param scenario what was asked
 * @param record what the setup captures of the signal
 * @param predictions one for each reading of the scenario, in its order
 * @param cautions sentences for whoever would do this at a bench; empty where there is nothing to
 *     warn of
 */
public record ScenarioResult(
    Scenario scenario, Record record, List<Prediction> predictions, List<String> cautions) {

  /**
   * Copies the lists.
   *
   * @param scenario what was asked
   * @param record what is captured
   * @param predictions one for each reading
   * @param cautions may be empty
   * @throws NullPointerException if anything is null
   * @throws IllegalArgumentException if there is not one prediction for each reading
   */
  public ScenarioResult {
    Require.present("scenario", scenario);
    Require.present("record", record);
    predictions = List.copyOf(Require.present("predictions", predictions));
    cautions = List.copyOf(Require.present("cautions", cautions));
    Require.that(
        predictions.size() == scenario.readings().size(),
        "predictions has "
            + predictions.size()
            + " entries: must have one for each of the "
            + scenario.readings().size()
            + " readings");
  }

  /**
   * Captures the signal of a scenario and predicts each of its readings.
   *
   * @param scenario what to compute
   * @return the result
   * @throws NullPointerException if there is no scenario
   * @throws ScenarioException if signal and setup together ask for more than can be computed
   */
  public static ScenarioResult of(Scenario scenario) {
    Require.present("scenario", scenario);
    Record record =
        attempt(
            scenario, "record", () -> scenario.setup().capture(scenario.signal(), scenario.seed()));
    List<Prediction> predictions = predictions(scenario);
    List<String> cautions =
        attempt(
            scenario,
            "cautions",
            () ->
                Caution.of(scenario.signal(), scenario.setup()).stream()
                    .map(Caution::words)
                    .toList());
    return new ScenarioResult(scenario, record, predictions, cautions);
  }

  private static List<Prediction> predictions(Scenario scenario) {
    try {
      return predictions(scenario, scenario.readings());
    } catch (IllegalArgumentException e) {
      // One by one, to say which of them it was.
      List<Prediction> predictions = new ArrayList<>();
      for (Reading reading : scenario.readings()) {
        predictions.addAll(
            attempt(
                scenario,
                "reading \"" + reading + "\"",
                () -> predictions(scenario, List.of(reading))));
      }
      return predictions;
    }
  }

  private static List<Prediction> predictions(Scenario scenario, List<Reading> readings) {
    return Prediction.of(readings, scenario.signal(), scenario.setup(), scenario.seed());
  }

  // Signal and setup are sound by themselves; together they may ask for more than can be computed.
  private static <T> T attempt(Scenario scenario, String what, Supplier<T> work) {
    try {
      return work.get();
    } catch (IllegalArgumentException e) {
      throw new ScenarioException(scenario.title() + ": " + what + ": " + e.getMessage() + ".", e);
    }
  }
}
