package org.asmeasured.scenario;

import org.asmeasured.fitting.ChainFit;
import org.asmeasured.fitting.Correction;
import org.asmeasured.fitting.Unknown;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Outcome;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * Writes fits as JSON, in the format of {@link #schema()}. Numbers are SI units and read back to
 * the same double; the text depends on the result alone.
 */
public final class BenchFitResults {
  private static final String SCHEMA = "fit-result.schema.json";
  private static final int FORMAT_VERSION = 1;

  private BenchFitResults() {}

  /**
   * The JSON Schema (draft 2020-12) of a fit's result.
   *
   * @return the text of the schema
   */
  public static String schema() {
    return Scenarios.resource(SCHEMA);
  }

  /**
   * A result as JSON.
   *
   * @param result what to write
   * @return the text, ending with a line feed
   * @throws NullPointerException if it is missing
   */
  public static String toJson(BenchFitResult result) {
    Require.present("result", result);
    ObjectNode root = JsonNodeFactory.instance.objectNode();
    root.put("formatVersion", FORMAT_VERSION);
    root.put("title", result.asked().title());
    result.asked().notes().forEach(root.putArray("notes")::add);
    root.put("signal", result.asked().recordings().get(0).measurement().signal().toString());
    root.put("setup", result.asked().recordings().get(0).measurement().setup().toString());
    ResultWriter.cautions(root, result.cautions(), "of", result.places());
    if (result.fit() instanceof Outcome.Taken<ChainFit> taken) {
      fit(root.putObject("fit"), taken.result());
    } else {
      root.putObject("fit").put("notTaken", ((Outcome.NotTaken<ChainFit>) result.fit()).reason());
    }
    ArrayNode corrections = root.putArray("corrections");
    for (int i = 0; i < result.corrections().size(); i++) {
      ObjectNode node = corrections.addObject();
      BenchFit.Taken asked = result.asked().readings().get(i);
      node.put("reading", asked.reading().toString());
      node.put("unit", asked.reading().unit());
      node.put("value", asked.value());
      if (result.corrections().get(i) instanceof Outcome.Taken<Correction> taken) {
        correction(node, taken.result());
      } else {
        node.put("notTaken", ((Outcome.NotTaken<Correction>) result.corrections().get(i)).reason());
      }
    }
    return ResultWriter.text(root);
  }

  private static void fit(ObjectNode node, ChainFit fit) {
    ArrayNode unknowns = node.putArray("unknowns");
    for (int j = 0; j < fit.unknowns().size(); j++) {
      Unknown unknown = fit.unknowns().get(j);
      ObjectNode one = unknowns.addObject();
      one.put("name", unknown.name());
      one.put("unit", unknown.parameter().unit());
      one.put("estimate", fit.estimate(j));
      one.put("standardUncertainty", fit.standardUncertainty(j));
      one.put("atBound", fit.atBounds().contains(unknown.name()));
    }
    ArrayNode correlations = node.putArray("correlations");
    for (int i = 0; i < fit.unknowns().size(); i++) {
      for (int j = 0; j < i; j++) {
        ObjectNode one = correlations.addObject();
        one.put("first", fit.unknowns().get(j).name());
        one.put("second", fit.unknowns().get(i).name());
        one.put("coefficient", fit.correlation(j, i));
      }
    }
    node.put("reducedChiSquared", fit.reducedChiSquared());
    node.put("degreesOfFreedom", fit.degreesOfFreedom());
    if (fit.probability() instanceof Measured.Value p) {
      node.put("probability", p.value());
    }
    ArrayNode recordings = node.putArray("recordings");
    for (int i = 0; i < fit.recordings().size(); i++) {
      ObjectNode one = recordings.addObject();
      one.put("points", fit.recordings().get(i).record().size());
      one.put("residualRmsVolts", fit.residualRmsVolts(i));
      one.put("expectedRmsVolts", fit.expectedRmsVolts(i));
    }
    fit.notes().forEach(node.putArray("notes")::add);
  }

  private static void correction(ObjectNode node, Correction c) {
    node.put("correction", c.correction());
    node.put("corrected", c.corrected());
    node.put("standardUncertainty", c.standardUncertainty());
    if (c.uncertaintyOfCorrection() instanceof Measured.Value u) {
      node.put("uncertaintyOfCorrection", u.value());
    }
    if (c.scatterOfCaptures() instanceof Measured.Value s) {
      node.put("scatterOfCaptures", s.value());
    }
    ObjectNode interval = node.putObject("interval");
    interval.put("lower", c.interval().lower());
    interval.put("upper", c.interval().upper());
    interval.put("probability", 0.95);
    node.put("asExpected", c.isAsExpected());
  }
}
