package org.asmeasured.scenario;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.asmeasured.accuracy.Caution;
import org.asmeasured.accuracy.Sensitivity;
import org.asmeasured.accuracy.Verdict;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.measure.Outcome;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** A row of a sweep as JSON, there and back. */
final class SweepRowJson {
  static final List<String> ROW = List.of("number", "coordinates", "readings");
  static final List<String> ROW_OPTIONAL = List.of("cautions");
  static final List<String> CAUTION = List.of("subject", "words");
  static final List<String> READING = List.of("name", "unit", "truth", "measured", "bias");
  static final List<String> READING_OPTIONAL = List.of("sureness");
  static final List<String> SURENESS =
      List.of("mean", "standardUncertainty", "lower", "upper", "sensitivity");
  static final List<String> SURENESS_OPTIONAL = List.of("decision");
  static final List<String> SENSITIVITY =
      List.of("value", "standardError", "follows", "move", "moved", "pairs");

  private static final String VALUE = "value";
  private static final String RULING = "ruling";
  private static final String NOT_TAKEN = "notTaken";
  private static final Map<String, Verdict.Ruling> RULINGS = new TreeMap<>();
  private static final Map<String, Sensitivity.Move> MOVES = new TreeMap<>();
  private static final Map<String, Caution.Subject> SUBJECTS = new TreeMap<>();

  static {
    EnumSet.allOf(Sensitivity.Move.class).forEach(m -> MOVES.put(AssessmentWriter.word(m), m));
    EnumSet.allOf(Caution.Subject.class).forEach(c -> SUBJECTS.put(c.toString(), c));
    EnumSet.allOf(Verdict.Ruling.class).forEach(r -> RULINGS.put(AssessmentWriter.word(r), r));
  }

  private SweepRowJson() {}

  static void write(ObjectNode node, SweepRow row) {
    node.put("number", row.number());
    ArrayNode coordinates = node.putArray("coordinates");
    row.coordinates().forEach(coordinates::add);
    ArrayNode readings = node.putArray("readings");
    row.readings().forEach(reading -> write(readings.addObject(), reading));
    if (!row.cautions().isEmpty()) {
      ArrayNode cautions = node.putArray("cautions");
      row.cautions().forEach(one -> ResultWriter.caution(cautions.addObject(), one));
    }
  }

  private static void write(ObjectNode node, SweptReading reading) {
    node.put("name", reading.name());
    node.put("unit", reading.unit());
    ResultWriter.measured(node.putObject("truth"), reading.truth());
    ResultWriter.measured(node.putObject("measured"), reading.measured());
    ResultWriter.measured(node.putObject("bias"), reading.bias());
    reading.sureness().ifPresent(sure -> write(node.putObject("sureness"), sure));
  }

  private static void write(ObjectNode node, SweptReading.Sureness sure) {
    ResultWriter.measured(node.putObject("mean"), sure.mean());
    ResultWriter.measured(node.putObject("standardUncertainty"), sure.standardUncertainty());
    ResultWriter.measured(node.putObject("lower"), sure.lower());
    ResultWriter.measured(node.putObject("upper"), sure.upper());
    AssessmentWriter.sensitivity(node.putObject("sensitivity"), sure.sensitivity());
    sure.ruling().ifPresent(ruling -> write(node.putObject("decision"), ruling));
  }

  private static void write(ObjectNode node, Outcome<Verdict.Ruling> ruling) {
    if (ruling instanceof Outcome.Taken<Verdict.Ruling> taken) {
      node.put(RULING, AssessmentWriter.word(taken.result()));
    } else {
      node.put(NOT_TAKEN, ((Outcome.NotTaken<Verdict.Ruling>) ruling).reason());
    }
  }

  static SweepRow read(Json node) {
    return Fields.of(node, "a row of a sweep", ROW, ROW_OPTIONAL)
        .build(
            f -> {
              List<Double> coordinates = new ArrayList<>();
              for (double coordinate : f.numbers("coordinates")) {
                coordinates.add(coordinate);
              }
              return new SweepRow(
                  f.whole("number"),
                  coordinates,
                  f.list("readings").stream().map(SweepRowJson::reading).toList(),
                  f.has("cautions")
                      ? f.list("cautions").stream().map(SweepRowJson::caution).toList()
                      : List.of());
            });
  }

  private static Caution caution(Json node) {
    return Fields.of(node, "a caution", CAUTION, List.of())
        .build(f -> new Caution(f.oneOf("subject", SUBJECTS), f.text("words")));
  }

  private static SweptReading reading(Json node) {
    return Fields.of(node, "a reading", READING, READING_OPTIONAL)
        .build(
            f -> {
              SweptReading reading =
                  new SweptReading(
                      f.text("name"),
                      f.textOrNone("unit"),
                      measured(f.child("truth")),
                      measured(f.child("measured")),
                      f.has("sureness")
                          ? Optional.of(sureness(f.child("sureness"), f.textOrNone("unit")))
                          : Optional.empty());
              Measured bias = measured(f.child("bias"));
              if (!bias.equals(reading.bias())) {
                throw f.child("bias")
                    .refused("bias = " + bias + ": must be measured less truth, " + reading.bias());
              }
              return reading;
            });
  }

  private static SweptReading.Sureness sureness(Json node, String unit) {
    return Fields.of(node, "a sureness", SURENESS, SURENESS_OPTIONAL)
        .build(
            f ->
                new SweptReading.Sureness(
                    measured(f.child("mean")),
                    measured(f.child("standardUncertainty")),
                    measured(f.child("lower")),
                    measured(f.child("upper")),
                    sensitivity(f.child("sensitivity"), unit),
                    f.has("decision")
                        ? Optional.of(decision(f.child("decision")))
                        : Optional.empty()));
  }

  private static Outcome<Sensitivity> sensitivity(Json node, String unit) {
    List<String> all = new ArrayList<>(SENSITIVITY);
    all.add(NOT_TAKEN);
    String what = "a sensitivity";
    if (Fields.of(node, what, List.of(), all).has(NOT_TAKEN)) {
      return new Outcome.NotTaken<>(
          Fields.of(node, what, List.of(NOT_TAKEN), List.of()).text(NOT_TAKEN));
    }
    return Fields.of(node, what, SENSITIVITY, List.of())
        .build(
            f -> {
              Sensitivity read =
                  new Sensitivity(
                      f.oneOf("move", MOVES),
                      f.number(VALUE),
                      f.number("standardError"),
                      f.whole("pairs"),
                      f.number("moved"),
                      unit);
              if (f.flagOr("follows", false) != read.follows()) {
                Json follows = f.child("follows");
                throw follows.refused(
                    "follows = "
                        + follows.shown()
                        + ": must be what value and standardError say, "
                        + read.follows());
              }
              return new Outcome.Taken<>(read);
            });
  }

  private static Measured measured(Json node) {
    Fields f = either(node, "a figure", VALUE);
    return f.has(VALUE)
        ? f.build(g -> new Value(g.number(VALUE)))
        : new NotTaken(f.text(NOT_TAKEN));
  }

  private static Outcome<Verdict.Ruling> decision(Json node) {
    Fields f = either(node, "a decision", RULING);
    return f.has(RULING)
        ? new Outcome.Taken<>(f.oneOf(RULING, RULINGS))
        : new Outcome.NotTaken<>(f.text(NOT_TAKEN));
  }

  /** An object with one key: this one, or the reason why it is not there. */
  private static Fields either(Json node, String what, String key) {
    Fields fields = Fields.of(node, what, List.of(), List.of(key, NOT_TAKEN));
    if (fields.has(key) == fields.has(NOT_TAKEN)) {
      throw node.refused(what + ": must have one of " + key + " and " + NOT_TAKEN);
    }
    return fields;
  }
}
