package org.asmeasured.scenario;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.asmeasured.measure.Reading;
import org.asmeasured.scenario.Json.Type;

/** Reads a sweep. */
final class SweepReader {
  static final List<String> REQUIRED = List.of("formatVersion", "title", "scenario", "axes");
  static final List<String> OPTIONAL = List.of("$schema", "notes", "readings", "seedPerPoint");
  static final List<String> VALUE = List.of("value");
  static final List<String> VALUE_OPTIONAL =
      List.of("name", "list", "labels", "from", "to", "count", "spacing");
  static final List<String> AXIS_OPTIONAL =
      List.of("name", "list", "labels", "from", "to", "count", "spacing", "together");

  private static final int FORMAT_VERSION = 1;
  private static final int MOST_TOGETHER = 20;
  private static final Map<String, Boolean> SPACINGS =
      new TreeMap<>(Map.of("even", false, "ratio", true));

  private final Path folder;
  private final String text;

  private SweepReader(Path folder, String text) {
    this.folder = folder;
    this.text = Json.withoutMark(text);
  }

  static Sweep read(String source, String text, Path folder) {
    SweepReader reader = new SweepReader(folder, text);
    return Fields.of(Json.parse(source, text), "sweep", REQUIRED, OPTIONAL)
        .build(f -> reader.sweep(f, source));
  }

  /** An axis, and where its values and their numbers stand. */
  private record Axis(SweepAxis axis, List<Json> nodes) {}

  private Sweep sweep(Fields fields, String source) {
    if (fields.whole("formatVersion") != FORMAT_VERSION) {
      Json version = fields.child("formatVersion");
      throw version.refused("formatVersion = " + version.shown() + ": must be " + FORMAT_VERSION);
    }
    if (fields.has("$schema")) {
      fields.text("$schema");
    }
    String title = fields.text("title");
    List<String> notes = fields.has("notes") ? ScenarioReader.notes(fields) : List.of();
    boolean seedPerPoint = fields.flagOr("seedPerPoint", false);
    Sweep.ScenarioText scenario = scenario(fields.child("scenario"), source);
    Json root = scenario.parsed();
    List<Axis> axes = axes(fields, root);
    List<Integer> readings = readings(fields, ScenarioReader.read(root, scenario.folder()));
    return Sweep.of(
        title,
        notes,
        scenario,
        axes.stream().map(Axis::axis).toList(),
        readings,
        seedPerPoint,
        (axis, value, step, rule, cause) ->
            place(axes.get(axis).nodes().get(value), step).refused(rule, cause));
  }

  /** The number that a value is set to; or the value, where it is computed. */
  private static Json place(Json node, int step) {
    if (step < 0) {
      return node.members().get("value");
    }
    Json list = node.members().get("list");
    return list == null ? node : list.items().get(step);
  }

  private Sweep.ScenarioText scenario(Json node, String source) {
    if (node.type == Type.OBJECT) {
      // At its own line and column, so that messages name those of the sweep.
      String place = "\n".repeat(node.line() - 1) + " ".repeat(node.column() - 1);
      return new Sweep.ScenarioText(
          source, place + text.substring(node.start(), node.end()), folder);
    }
    if (node.type != Type.STRING) {
      throw node.refused(
          "scenario = "
              + node.shown()
              + " is "
              + node.type.words
              + ": must be the name of a file, or a scenario");
    }
    if (node.text.isBlank()) {
      throw node.refused(
          "scenario = " + node.shown() + ": must have at least one character that shows");
    }
    try {
      Path file = folder.resolve(node.text).normalize();
      String json = Json.withoutMark(TextFile.read(file, node.text));
      return new Sweep.ScenarioText(
          file.getFileName().toString(), json, file.toAbsolutePath().getParent());
    } catch (ScenarioException e) {
      throw node.refused("scenario = " + e.getMessage().replaceAll("\\.$", ""), e);
    } catch (InvalidPathException e) {
      throw node.refused("scenario = " + node.shown() + ": is no name of a file", e);
    }
  }

  private static List<Integer> readings(Fields fields, Scenario scenario) {
    if (!fields.has("readings")) {
      return Sweep.all(scenario.readings().size());
    }
    List<Json> items = fields.list("readings");
    if (items.isEmpty() || items.size() > ScenarioReader.MAX_READINGS) {
      throw fields
          .child("readings")
          .refused(
              "readings has "
                  + items.size()
                  + " entries: must have from 1 to "
                  + ScenarioReader.MAX_READINGS);
    }
    List<Integer> places = new ArrayList<>();
    for (Json item : items) {
      Reading reading = ReadingKinds.READINGS.read(item);
      int place = scenario.readings().indexOf(reading);
      if (place < 0) {
        throw item.refused(
            "the reading \""
                + reading
                + "\" is not asked for: must be one of the scenario's readings");
      }
      if (places.contains(place)) {
        throw item.refused(
            "the reading \"" + reading + "\" is asked for twice: must be asked for once");
      }
      places.add(place);
    }
    return places;
  }

  private List<Axis> axes(Fields fields, Json scenario) {
    List<Json> items = fields.list("axes");
    if (items.isEmpty() || items.size() > Sweep.MAX_AXES) {
      throw fields
          .child("axes")
          .refused("axes has " + items.size() + " entries: must have from 1 to " + Sweep.MAX_AXES);
    }
    return items.stream()
        .map(item -> Fields.of(item, "an axis", VALUE, AXIS_OPTIONAL).build(f -> axis(f, scenario)))
        .toList();
  }

  private Axis axis(Fields fields, Json scenario) {
    List<SweptValue> values = new ArrayList<>();
    List<Json> nodes = new ArrayList<>();
    values.add(value(fields, scenario, true));
    nodes.add(fields.node());
    if (fields.has("together")) {
      List<Json> items = fields.list("together");
      if (items.isEmpty() || items.size() > MOST_TOGETHER) {
        throw fields
            .child("together")
            .refused(
                "together has " + items.size() + " entries: must have from 1 to " + MOST_TOGETHER);
      }
      for (Json item : items) {
        SweptValue other =
            Fields.of(item, "a value that moves along", VALUE, VALUE_OPTIONAL)
                .build(f -> value(f, scenario, false));
        if (other.numbers().size() != values.get(0).numbers().size()) {
          throw item.refused(
              other.pointer()
                  + " has "
                  + other.numbers().size()
                  + " numbers: must have "
                  + values.get(0).numbers().size()
                  + ", as many as "
                  + values.get(0).pointer());
        }
        values.add(other);
        nodes.add(item);
      }
    }
    return new Axis(new SweepAxis(values, isRatio(fields)), nodes);
  }

  private static boolean isRatio(Fields fields) {
    return fields.has("spacing") && fields.oneOf("spacing", SPACINGS);
  }

  private SweptValue value(Fields fields, Json scenario, boolean distinct) {
    String pointer = fields.text("value");
    Json number = scenario.at(pointer);
    String key = number == null ? pointer.substring(pointer.lastIndexOf('/') + 1) : number.key();
    String name = fields.has("name") ? fields.text("name") : key;
    if (isWhole(fields)) {
      return SweptValue.ofWholes(pointer, name, wholes(fields, distinct));
    }
    List<Double> numbers = fields.has("list") ? listed(fields, distinct) : spaced(fields);
    return new SweptValue(pointer, name, Keys.unit(key), numbers);
  }

  private static boolean isWhole(Fields fields) {
    return fields.has("labels")
        || (fields.has("list")
            && fields.list("list").stream().anyMatch(item -> item.type != Type.NUMBER));
  }

  /** Values of any kind; which are allowed, the scenario says with the place of each. */
  private List<SweptValue.Whole> wholes(Fields fields, boolean distinct) {
    if (!fields.has("list")) {
      throw fields.child("labels").refused("labels is given without list: must be left out");
    }
    if (isRatio(fields)) {
      throw fields
          .child("spacing")
          .refused("spacing = \"ratio\": must be left out where list holds other than numbers");
    }
    List<Json> items = items(fields);
    List<Json> labels = fields.has("labels") ? fields.list("labels") : List.of();
    if (fields.has("labels") && labels.size() != items.size()) {
      throw fields
          .child("labels")
          .refused(
              "labels has "
                  + labels.size()
                  + " entries: must have "
                  + items.size()
                  + ", as many as list");
    }
    List<SweptValue.Whole> wholes = new ArrayList<>();
    Set<String> seen = new HashSet<>();
    for (int i = 0; i < items.size(); i++) {
      Json item = items.get(i);
      // on one line, so that places in the scenario stay where they are
      String json = text.substring(item.start(), item.end()).replaceAll("\\R\\s*", " ");
      String label = labels.isEmpty() ? label(item) : label(labels.get(i));
      if (!labels.isEmpty() && (labels.get(i).type != Type.STRING || label.isBlank())) {
        throw labels
            .get(i)
            .refused(
                "labels: "
                    + labels.get(i).shown()
                    + " must be a text with at least one character that shows");
      }
      if (label.isBlank()) {
        throw item.refused("list = " + item.shown() + ": must have labels beside it");
      }
      if (!seen.add(label) && distinct) {
        throw (labels.isEmpty() ? item : labels.get(i))
            .refused("the label \"" + label + "\" is there twice: must be there once");
      }
      wholes.add(new SweptValue.Whole(label, json));
    }
    return wholes;
  }

  /** A text as it stands; of an object its kind, and what else it says. */
  private static String label(Json item) {
    return switch (item.type) {
      case STRING, NUMBER, BOOLEAN -> item.text;
      case NULL -> "null";
      case ARRAY ->
          item.items().stream().map(SweepReader::label).collect(Collectors.joining(" and "));
      case OBJECT ->
          item.members().entrySet().stream()
              .map(m -> (m.getKey().equals("kind") ? "" : m.getKey() + " ") + label(m.getValue()))
              .collect(Collectors.joining(", "));
    };
  }

  private static List<Json> items(Fields fields) {
    for (String other : List.of("from", "to", "count")) {
      if (fields.has(other)) {
        throw fields.child(other).refused(other + " is given beside list: must be left out");
      }
    }
    List<Json> items = fields.list("list");
    if (items.isEmpty() || items.size() > Sweep.MAX_POINTS) {
      throw fields
          .child("list")
          .refused(
              "list has " + items.size() + " entries: must have from 1 to " + Sweep.MAX_POINTS);
    }
    return items;
  }

  private static List<Double> listed(Fields fields, boolean distinct) {
    List<Json> items = items(fields);
    List<Double> numbers = new ArrayList<>();
    boolean ratio = isRatio(fields);
    double[] all = fields.numbers("list");
    Set<Double> seen = new HashSet<>();
    for (int i = 0; i < all.length; i++) {
      if (ratio && !(all[i] > 0)) {
        throw items
            .get(i)
            .refused(
                "list = " + items.get(i).shown() + ": must be above 0 where spacing is \"ratio\"");
      }
      if (!seen.add(all[i] + 0.0) && distinct) {
        throw items
            .get(i)
            .refused("list = " + items.get(i).shown() + " is there twice: must be there once");
      }
      numbers.add(all[i]);
    }
    return numbers;
  }

  private static List<Double> spaced(Fields fields) {
    for (String key : List.of("from", "to", "count")) {
      if (!fields.has(key)) {
        throw fields
            .node()
            .refused(
                "key \"" + key + "\" is missing: an axis must have list, or from, to and count");
      }
    }
    double from = fields.number("from");
    double to = fields.number("to");
    int count = fields.whole("count");
    if (count < 2 || count > Sweep.MAX_POINTS) {
      throw fields
          .child("count")
          .refused("count = " + count + ": must be from 2 to " + Sweep.MAX_POINTS);
    }
    boolean ratio = isRatio(fields);
    for (String end : List.of("from", "to")) {
      if (ratio && !(fields.number(end) > 0)) {
        throw fields
            .child(end)
            .refused(
                end
                    + " = "
                    + fields.child(end).shown()
                    + ": must be above 0 where spacing is \"ratio\"");
      }
    }
    List<Double> numbers = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      double number = i == 0 ? from : to;
      if (i > 0 && i < count - 1) {
        number =
            ratio
                ? Numbers.ratioBetween(from, to, i, count - 1)
                : Numbers.between(from, to, i, count - 1);
      }
      if (i > 0 && (to > from ? !(number > numbers.get(i - 1)) : !(number < numbers.get(i - 1)))) {
        throw fields
            .child("to")
            .refused(
                "to = "
                    + fields.child("to").shown()
                    + ": must be so far from from = "
                    + fields.child("from").shown()
                    + " that "
                    + count
                    + " numbers of 12 digits differ");
      }
      numbers.add(number);
    }
    return numbers;
  }
}
