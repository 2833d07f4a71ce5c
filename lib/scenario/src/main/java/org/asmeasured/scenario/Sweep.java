package org.asmeasured.scenario;

import java.nio.file.Path;
import java.util.AbstractList;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.RandomAccess;
import java.util.Set;
import java.util.stream.IntStream;
import org.asmeasured.internal.CounterRandom;
import org.asmeasured.internal.Require;
import org.asmeasured.scenario.Json.Type;
import tools.jackson.databind.node.JsonNodeFactory;

/**
 * A scenario over a grid of some of its values. Immutable; every point's scenario has been read and
 * checked when it is there.
 *
 * <p>Points are numbered from 0, the last axis running fastest. They share the scenario's seed, so
 * that neighbours differ by what was varied and not by other noise; or each has a seed of its own,
 * which follows from the scenario's and its number alone.
 */
public final class Sweep {
  /** The greatest number of points. */
  public static final int MAX_POINTS = 100_000;

  /** The greatest number of axes. */
  public static final int MAX_AXES = 3;

  private static final long POINTS = 0x706f696e7473L;
  private static final String SEED = "/seed";

  private final String title;
  private final List<String> notes;
  private final ScenarioText text;
  private final Scenario base;
  private final List<SweepAxis> axes;
  private final List<Integer> readings;
  private final boolean seedPerPoint;
  private final List<SweptValue> values;
  private final List<Place> places;
  private final int size;

  /**
   * A value in the text of the scenario, and which coordinate goes there; what stands before and
   * after it where the scenario leaves its key out.
   */
  private record Place(int start, int end, int coordinate, String before, String after) {}

  /**
   * The text of a scenario.
   *
   * @param source what messages call it
   * @param json the text
   * @param folder where recorded waveforms are looked for
   */
  record ScenarioText(String source, String json, Path folder) {
    Json parsed() {
      return Json.parse(source, json);
    }
  }

  /** Says whose fault a refusal is. */
  interface Blame {
    /**
     * A refusal of one value of a sweep.
     *
     * @param axis number of the axis
     * @param value which of the values that move together there
     * @param step which of its numbers, -1 for all of them
     */
    ScenarioException refused(int axis, int value, int step, String rule, Exception cause);
  }

  private Sweep(
      String title,
      List<String> notes,
      ScenarioText text,
      List<SweepAxis> axes,
      List<Integer> readings,
      boolean seedPerPoint,
      Blame blame) {
    this.title = title;
    this.notes = List.copyOf(notes);
    this.text = text;
    this.axes = List.copyOf(axes);
    this.readings = List.copyOf(readings);
    this.seedPerPoint = seedPerPoint;
    Json root = text.parsed();
    this.base = ScenarioReader.read(root, text.folder());
    for (int reading : this.readings) {
      Require.inRange("readings", reading, 0, base.readings().size() - 1);
    }
    List<SweptValue> all = new ArrayList<>();
    List<Place> found = new ArrayList<>();
    long points = 1;
    Set<String> names = new HashSet<>();
    for (int a = 0; a < this.axes.size(); a++) {
      List<SweptValue> together = this.axes.get(a).values();
      for (int v = 0; v < together.size(); v++) {
        SweptValue value = together.get(v);
        Json there = root.at(value.pointer());
        Json parent = there == null ? parent(root, value.pointer()) : null;
        String fault = null;
        if (there == null && parent == null) {
          fault = "the scenario has no such value, and nothing that could have it";
        } else if (there != null && there.type != Type.NUMBER && !value.isWhole()) {
          fault =
              "it is "
                  + there.type.words
                  + " in the scenario: must be a number there, or be"
                  + " varied by whole values";
        } else if (all.stream().anyMatch(one -> isWithin(one.pointer(), value.pointer()))) {
          fault = "lies within another value that is varied, or has one within: must not";
        } else if (all.stream().anyMatch(one -> one.pointer().equals(value.pointer()))) {
          fault = "is varied twice: must be varied once";
        } else if (!names.add(value.name())) {
          fault =
              "the name \"" + value.name() + "\" is given to two values: each must have its own";
        }
        if (fault != null) {
          throw blame.refused(a, v, -1, "value = \"" + value.pointer() + "\": " + fault, null);
        }
        found.add(place(root, there, parent, value.pointer(), all));
        all.add(value);
      }
      points *= this.axes.get(a).size();
      if (points > MAX_POINTS) {
        throw blame.refused(
            a,
            0,
            -1,
            "the sweep has " + points + " points or more: must have at most " + MAX_POINTS,
            null);
      }
    }
    found.sort(Comparator.comparingInt(Place::start));
    this.values = List.copyOf(all);
    this.places = List.copyOf(found);
    this.size = (int) points;
    check(blame);
  }

  /** The object that could have what the last step of a pointer names. */
  private static Json parent(Json root, String pointer) {
    int last = pointer.lastIndexOf('/');
    Json parent = last < 0 ? null : root.at(pointer.substring(0, last));
    return parent != null && parent.type == Type.OBJECT && last + 1 < pointer.length()
        ? parent
        : null;
  }

  private static boolean isWithin(String one, String other) {
    return one.startsWith(other + "/") || other.startsWith(one + "/");
  }

  private static Place place(
      Json root, Json there, Json parent, String pointer, List<SweptValue> before) {
    if (there != null) {
      return new Place(there.start(), there.end(), before.size(), "", "");
    }
    String key = pointer.substring(pointer.lastIndexOf('/') + 1);
    String quoted =
        JsonNodeFactory.instance.stringNode(key.replace("~1", "/").replace("~0", "~")).toString();
    // into an empty object the second key comes after a comma
    boolean first =
        before.stream()
            .noneMatch(v -> root.at(v.pointer()) == null && parent(root, v.pointer()) == parent);
    boolean empty = parent.members().isEmpty();
    return new Place(
        parent.start() + 1,
        parent.start() + 1,
        before.size(),
        (empty && !first ? "," : "") + quoted + ":",
        empty ? "" : ",");
  }

  /**
   * A sweep of a scenario's text.
   *
   * @param title one line that names the sweep, not blank
   * @param notes what a reader should know, may be empty
   * @param scenario text of the scenario, in the format of {@link Scenarios#schema()}
   * @param folder where recorded waveforms that it names are looked for
   * @param axes 1 to 3; each value that they vary must stand in the text, or the object that can
   *     have it
   * @param readings which of the scenario's readings are taken, as places in its list from 0; at
   *     least one
   * @param seedPerPoint whether each point has a seed of its own
   * @return the sweep, each of its points checked
   * @throws ScenarioException if the text, or the text of any point, is no scenario; a value has no
   *     place there, or is varied twice; or there are more than {@link #MAX_POINTS} points
   * @throws IllegalArgumentException if the title is blank, the number of axes is out of range, or
   *     a reading is not there or named twice
   * @throws NullPointerException if one is missing
   */
  public static Sweep of(
      String title,
      List<String> notes,
      String scenario,
      Path folder,
      List<SweepAxis> axes,
      List<Integer> readings,
      boolean seedPerPoint) {
    Require.present("scenario", scenario);
    Require.present("folder", folder);
    return of(
        title,
        notes,
        new ScenarioText("scenario", Json.withoutMark(scenario), folder),
        axes,
        readings,
        seedPerPoint,
        (axis, value, step, rule, cause) ->
            new ScenarioException(title + ": " + rule + ".", cause));
  }

  static Sweep of(
      String title,
      List<String> notes,
      ScenarioText text,
      List<SweepAxis> axes,
      List<Integer> readings,
      boolean seedPerPoint,
      Blame blame) {
    Require.present("title", title);
    Require.that(!title.isBlank(), "title is blank: must have at least one character that shows");
    Require.present("notes", notes);
    Require.present("axes", axes);
    Require.inRange("axes.size", axes.size(), 1, MAX_AXES);
    Require.present("readings", readings);
    Require.that(!readings.isEmpty(), "readings = []: must have at least one");
    Require.that(
        readings.stream().distinct().count() == readings.size(),
        "readings = " + readings + ": each must be named once");
    return new Sweep(title, notes, text, axes, readings, seedPerPoint, blame);
  }

  /** Each point before any is computed. */
  private void check(Blame blame) {
    for (int p = 0; p < size; p++) {
      int[] steps = steps(p);
      List<Double> coordinates = coordinates(steps);
      try {
        ScenarioReader.read(Json.parse(text.source(), spliced(coordinates)), text.folder());
      } catch (ScenarioException e) {
        throw refused(blame, steps, coordinates, e);
      }
    }
  }

  private ScenarioException refused(
      Blame blame, int[] steps, List<Double> coordinates, ScenarioException e) {
    // The value whose place the message names; else the first.
    int axis = 0;
    int value = 0;
    StringBuilder said = new StringBuilder();
    for (int a = 0, c = 0; a < axes.size(); a++) {
      for (int v = 0; v < axes.get(a).values().size(); v++, c++) {
        SweptValue one = values.get(c);
        if (e.getMessage().contains(", at " + one.pointer() + ": ")) {
          axis = a;
          value = v;
        }
        said.append(said.length() == 0 ? "" : ", ").append(one.pointer()).append(" = ");
        said.append(one.label(coordinates.get(c)));
        said.append(one.unit().isEmpty() ? "" : " " + one.unit());
      }
    }
    return blame.refused(
        axis, value, steps[axis], said + ": " + e.getMessage().replaceAll("\\.$", ""), e);
  }

  /** How far each axis has come at a point. */
  private int[] steps(int point) {
    int[] steps = new int[axes.size()];
    int rest = point;
    for (int a = axes.size() - 1; a >= 0; a--) {
      steps[a] = rest % axes.get(a).size();
      rest /= axes.get(a).size();
    }
    return steps;
  }

  private List<Double> coordinates(int[] steps) {
    List<Double> coordinates = new ArrayList<>();
    for (int a = 0; a < steps.length; a++) {
      for (SweptValue value : axes.get(a).values()) {
        coordinates.add(value.numbers().get(steps[a]));
      }
    }
    return coordinates;
  }

  private String spliced(List<Double> coordinates) {
    StringBuilder spliced = new StringBuilder(text.json().length() + 64);
    int from = 0;
    for (Place place : places) {
      spliced.append(text.json(), from, place.start());
      int c = place.coordinate();
      spliced.append(place.before());
      spliced.append(values.get(c).json(coordinates.get(c)));
      spliced.append(place.after());
      from = place.end();
    }
    return spliced.append(text.json(), from, text.json().length()).toString();
  }

  /**
   * One point, whole.
   *
   * @param number from 0 to {@link #size()} - 1, the last axis running fastest
   * @return the point
   * @throws IllegalArgumentException if there is no such point
   */
  public SweepPoint point(int number) {
    Require.inRange("number", number, 0, size - 1);
    List<Double> coordinates = coordinates(steps(number));
    return new SweepPoint(
        number,
        spliced(coordinates),
        text.folder(),
        coordinates,
        readings,
        seed(number, coordinates));
  }

  private long seed(int number, List<Double> coordinates) {
    long seed = base.seed();
    for (int c = 0; c < values.size(); c++) {
      if (values.get(c).pointer().equals(SEED)) {
        seed =
            values.get(c).isWhole()
                ? Scenarios.parse(spliced(coordinates), text.folder()).seed()
                : coordinates.get(c).longValue();
      }
    }
    return seedPerPoint ? CounterRandom.key(CounterRandom.key(seed, POINTS), number) >>> 11 : seed;
  }

  /**
   * All points in order, each made when it is asked for.
   *
   * @return unmodifiable
   */
  public List<SweepPoint> points() {
    return new Points();
  }

  private final class Points extends AbstractList<SweepPoint> implements RandomAccess {
    @Override
    public SweepPoint get(int index) {
      return point(index);
    }

    @Override
    public int size() {
      return size;
    }
  }

  /**
   * How many points there are: the product of the sizes of the axes.
   *
   * @return 1 to {@link #MAX_POINTS}
   */
  public int size() {
    return size;
  }

  /**
   * One line that names the sweep.
   *
   * @return not blank
   */
  public String title() {
    return title;
  }

  /**
   * What a reader should know.
   *
   * @return a paragraph an entry, may be empty
   */
  public List<String> notes() {
    return notes;
  }

  /**
   * What is varied.
   *
   * @return 1 to 3 axes
   */
  public List<SweepAxis> axes() {
    return axes;
  }

  /**
   * All values that are varied, in the order of the coordinates of a point.
   *
   * @return those of the first axis first
   */
  public List<SweptValue> values() {
    return values;
  }

  /**
   * Whether each point has a seed of its own.
   *
   * @return false if all share that of the scenario
   */
  public boolean isSeedPerPoint() {
    return seedPerPoint;
  }

  /**
   * The scenario as it stands, before anything is varied.
   *
   * @return the scenario
   */
  public Scenario scenario() {
    return base;
  }

  /**
   * The readings of each row.
   *
   * @return their names, each unlike the others, in the order of a row
   */
  public List<String> readingNames() {
    List<String> all = PointReadings.names(base);
    List<String> names = new ArrayList<>(readings.stream().map(all::get).toList());
    base.channels().ifPresent(c -> names.addAll(PointReadings.names(c)));
    return names;
  }

  /**
   * The units of the readings of each row.
   *
   * @return in the order of a row
   */
  public List<String> readingUnits() {
    List<String> units =
        new ArrayList<>(readings.stream().map(r -> base.readings().get(r).unit()).toList());
    base.channels().ifPresent(c -> c.readings().forEach(q -> units.add(q.reading().unit())));
    return units;
  }

  /**
   * Whether rows tell how sure a reading is, and whether they tell what is decided about its limit.
   *
   * @param reading place in a row
   * @return 0 for neither, 1 for how sure it is, 2 for both
   */
  int sureness(int reading) {
    if (base.assessment().isEmpty() || reading >= readings.size()) {
      return 0;
    }
    boolean limited =
        base.assessment().get().limits().stream()
            .anyMatch(l -> l.reading().equals(base.readings().get(readings.get(reading))));
    return limited ? 2 : 1;
  }

  /** Places in the scenario's list of all of its readings. */
  static List<Integer> all(int count) {
    return IntStream.range(0, count).boxed().toList();
  }

  @Override
  public String toString() {
    return title + ": " + size + (size == 1 ? " point" : " points");
  }
}
