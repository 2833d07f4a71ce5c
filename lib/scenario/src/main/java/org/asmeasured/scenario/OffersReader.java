package org.asmeasured.scenario;

import java.util.List;
import java.util.function.IntFunction;
import org.asmeasured.acquisition.Decimation;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.advice.Choices;
import org.asmeasured.capture.Setup;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.internal.Require;

/** Reads what a bench offers to choose from. */
final class OffersReader {
  static final List<String> KEYS =
      List.of(
          "scales",
          "greatestOffsetVolts",
          "couplings",
          "limits",
          "rates",
          "records",
          "decimations",
          "triggers",
          "averages");
  static final List<String> SCALES = List.of("leastVoltsPerDivision", "greatestVoltsPerDivision");

  static final List<String> RATES = List.of("rateHz", "mostPoints");
  static final List<String> RECORD = List.of("rateHz", "points");

  private static final int MOST = 100;
  private static final double LEAST_HERTZ = 1e-9;
  private static final double MOST_HERTZ = 1e15;

  private OffersReader() {}

  /** Of a bench whose clock and memory are not known. */
  static Choices read(Json node) {
    return read(node, Double.POSITIVE_INFINITY, Setup.MAX_POINTS);
  }

  /** Of an instrument. */
  static Choices read(Json node, double mostRateHz, int mostPoints) {
    return Fields.of(node, "what is offered", List.of(), KEYS)
        .build(f -> choices(f, mostRateHz, mostPoints));
  }

  private static Choices choices(Fields f, double mostRateHz, int mostPoints) {
    Choices choices = Choices.none();
    if (f.has("scales")) {
      Choices sofar = choices;
      choices =
          Fields.of(f.child("scales"), "scales", SCALES, List.of())
              .build(
                  s ->
                      sofar.scalesBetween(
                          s.number("leastVoltsPerDivision"), s.number("greatestVoltsPerDivision")));
    }
    if (f.has("greatestOffsetVolts")) {
      choices = choices.offsets(0).centred(f.number("greatestOffsetVolts"));
    }
    if (f.has("couplings")) {
      choices = choices.couplings(all(f, "couplings", FrontEndReader.COUPLINGS, Coupling[]::new));
    }
    if (f.has("limits")) {
      choices = choices.limits(all(f, "limits", ResponseKinds.BANDWIDTHS, Bandwidth[]::new));
    }
    if (f.has("rates")) {
      Choices sofar = choices;
      choices =
          Fields.of(f.child("rates"), "rates", RATES, List.of())
              .build(r -> rates(sofar, r, mostRateHz, mostPoints));
    }
    if (f.has("records")) {
      for (Json item : requireSome(f, "records")) {
        Choices sofar = choices;
        choices =
            Fields.of(item, "a record", RECORD, List.of())
                .build(
                    r ->
                        sofar.record(
                            rateHz(r.number("rateHz"), mostRateHz),
                            points("points", r, mostPoints)));
      }
    }
    if (f.has("decimations")) {
      choices =
          choices.decimations(all(f, "decimations", SetupReader.DECIMATIONS, Decimation[]::new));
    }
    if (f.has("triggers")) {
      choices =
          choices.triggers(
              requireSome(f, "triggers").stream().map(TriggerReader::read).toArray(Trigger[]::new));
    }
    if (f.has("averages")) {
      requireSome(f, "averages");
      choices = choices.averages(f.wholes("averages"));
    }
    return choices;
  }

  private static Choices rates(Choices sofar, Fields f, double mostRateHz, int mostPoints) {
    requireSome(f, "rateHz");
    double[] rateHz = f.numbers("rateHz");
    for (int i = 0; i < rateHz.length; i++) {
      Require.inRange("rateHz[" + i + "]", rateHz[i], "Hz", LEAST_HERTZ, most(mostRateHz));
    }
    return sofar.rates(points("mostPoints", f, mostPoints), rateHz);
  }

  private static double rateHz(double value, double mostRateHz) {
    return Require.inRange("rateHz", value, "Hz", LEAST_HERTZ, most(mostRateHz));
  }

  private static double most(double mostRateHz) {
    return Math.min(mostRateHz, MOST_HERTZ);
  }

  private static int points(String key, Fields f, int mostPoints) {
    return Require.inRange(key, f.whole(key), 1, mostPoints);
  }

  private static <T> T[] all(Fields f, String key, Kinds<T> kinds, IntFunction<T[]> array) {
    return requireSome(f, key).stream().map(kinds::read).toArray(array);
  }

  private static List<Json> requireSome(Fields f, String key) {
    List<Json> items = f.list(key);
    if (items.isEmpty() || items.size() > MOST) {
      throw f.child(key)
          .refused(key + " has " + items.size() + " entries: must have from 1 to " + MOST);
    }
    return items;
  }
}
