package org.asmeasured.scenario;

import java.util.List;
import java.util.function.IntFunction;
import org.asmeasured.acquisition.Decimation;
import org.asmeasured.advice.Choices;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;

/** Reads what a bench offers to choose from. */
final class OffersReader {
  static final List<String> KEYS =
      List.of("scales", "greatestOffsetVolts", "couplings", "limits", "decimations", "averages");
  static final List<String> SCALES = List.of("leastVoltsPerDivision", "greatestVoltsPerDivision");

  private static final int MOST = 100;

  private OffersReader() {}

  static Choices read(Json node) {
    return Fields.of(node, "what is offered", List.of(), KEYS).build(OffersReader::choices);
  }

  private static Choices choices(Fields f) {
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
    if (f.has("decimations")) {
      choices =
          choices.decimations(all(f, "decimations", SetupReader.DECIMATIONS, Decimation[]::new));
    }
    if (f.has("averages")) {
      requireSome(f, "averages");
      choices = choices.averages(f.wholes("averages"));
    }
    return choices;
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
