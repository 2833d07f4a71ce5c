package org.asmeasured.scenario;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.accuracy.Parameter;
import org.asmeasured.accuracy.Parameters;
import org.asmeasured.accuracy.Tolerances;
import org.asmeasured.measure.Reading;
import org.asmeasured.uncertainty.Input;
import org.asmeasured.uncertainty.Tolerance;

/** Reads how sure the readings of a scenario are asked to be. */
final class AssessmentReader {
  static final String KEY = "assessment";
  static final List<String> OPTIONAL =
      List.of(
          "tolerances", "contributions", "correlations", "limits", "digits", "captures", "offers");
  static final List<String> TOLERANCE = List.of("parameter", "distribution");
  static final List<String> TOLERANCE_OPTIONAL = List.of("relative", "name", "degreesOfFreedom");
  static final List<String> CONTRIBUTION = List.of("name", "distribution");
  static final List<String> CONTRIBUTION_OPTIONAL = List.of("unit", "degreesOfFreedom");
  static final List<String> CORRELATION = List.of("first", "second", "coefficient");
  static final List<String> LIMIT = List.of("reading");
  static final List<String> LIMIT_OPTIONAL = List.of("lower", "upper", "risk", "production");

  private static final int MOST = 100;

  private AssessmentReader() {}

  static Optional<RequestedAssessment> read(
      Fields scenario, Measurement measurement, List<Reading> readings) {
    if (!scenario.has(KEY)) {
      return Optional.empty();
    }
    return Optional.of(
        Fields.of(scenario.child(KEY), "an assessment", List.of(), OPTIONAL)
            .build(f -> assessment(f, measurement, readings)));
  }

  private static RequestedAssessment assessment(
      Fields fields, Measurement measurement, List<Reading> readings) {
    Tolerances tolerances = Tolerances.none();
    for (Json item : items(fields, "tolerances")) {
      Tolerances sofar = tolerances;
      tolerances =
          Fields.of(item, "a tolerance", TOLERANCE, TOLERANCE_OPTIONAL)
              .build(f -> withTolerance(sofar, f, measurement));
    }
    for (Json item : items(fields, "contributions")) {
      Tolerances sofar = tolerances;
      tolerances =
          Fields.of(item, "a contribution", CONTRIBUTION, CONTRIBUTION_OPTIONAL)
              .build(f -> withContribution(sofar, f, readings));
    }
    for (Json item : items(fields, "correlations")) {
      Tolerances sofar = tolerances;
      tolerances =
          Fields.of(item, "a correlation", CORRELATION, List.of())
              .build(
                  f ->
                      sofar.correlated(f.text("first"), f.text("second"), f.number("coefficient")));
    }
    List<RequestedAssessment.Limit> limits = new ArrayList<>();
    for (Json item : items(fields, "limits")) {
      limits.add(Fields.of(item, "a limit", LIMIT, LIMIT_OPTIONAL).build(f -> limit(f, readings)));
    }
    return new RequestedAssessment(
        tolerances,
        limits,
        fields.wholeOr("digits", RequestedAssessment.USUAL_DIGITS),
        fields.wholeOr("captures", RequestedAssessment.USUAL_CAPTURES),
        fields.has("offers")
            ? Optional.of(OffersReader.read(fields.child("offers")))
            : Optional.empty());
  }

  private static List<Json> items(Fields fields, String key) {
    if (!fields.has(key)) {
      return List.of();
    }
    List<Json> items = fields.list(key);
    if (items.isEmpty() || items.size() > MOST) {
      throw fields
          .child(key)
          .refused(key + " has " + items.size() + " entries: must have from 1 to " + MOST);
    }
    return items;
  }

  private static Tolerances withTolerance(
      Tolerances sofar, Fields fields, Measurement measurement) {
    Parameter parameter = fields.oneOf("parameter", ParameterNames.PARAMETERS);
    boolean relative = fields.flagOr("relative", false);
    Parameter drawn = relative ? Parameters.relative(parameter) : parameter;
    Input input =
        input(fields, fields.has("name") ? fields.text("name") : parameter.name(), drawn.unit());
    return PossibleTolerance.with(sofar, drawn, input, measurement, fields);
  }

  private static Input input(Fields fields, String name, String unit) {
    Input input =
        Input.of(name, unit, DistributionKinds.DISTRIBUTIONS.read(fields.child("distribution")));
    return fields.has("degreesOfFreedom")
        ? input.withDegreesOfFreedom(fields.number("degreesOfFreedom"))
        : input;
  }

  /** In a unit it concerns the readings of that unit; without one it is a fraction of each. */
  private static Tolerances withContribution(
      Tolerances sofar, Fields fields, List<Reading> readings) {
    if (!fields.has("unit")) {
      return sofar.plusRelative(input(fields, fields.text("name"), ""));
    }
    String unit = fields.text("unit");
    if (readings.stream().noneMatch(r -> r.unit().equals(unit))) {
      throw fields
          .child("unit")
          .refused("unit = \"" + unit + "\": must be that of a reading of the scenario");
    }
    return sofar.plus(input(fields, fields.text("name"), unit));
  }

  private static RequestedAssessment.Limit limit(Fields fields, List<Reading> readings) {
    Reading reading = ReadingKinds.READINGS.read(fields.child("reading"));
    if (!readings.contains(reading)) {
      throw fields
          .child("reading")
          .refused("the reading \"" + reading + "\" is not asked for: must be one of readings");
    }
    return new RequestedAssessment.Limit(
        reading,
        new Tolerance(
            fields.numberOr("lower", Double.NEGATIVE_INFINITY),
            fields.numberOr("upper", Double.POSITIVE_INFINITY)),
        fields.numberOr("risk", RequestedAssessment.USUAL_RISK),
        fields.has("production")
            ? Optional.of(DistributionKinds.DISTRIBUTIONS.read(fields.child("production")))
            : Optional.empty());
  }
}
