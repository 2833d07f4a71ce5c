package org.asmeasured.scenario;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.asmeasured.internal.Parallel;
import org.asmeasured.internal.Require;
import org.asmeasured.uncertainty.Progress;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * One point of a sweep, whole: all that is needed to compute its row, anywhere. Immutable.
 *
 * <p>It goes through JSON and back unchanged, so that points can be computed elsewhere. Recorded
 * waveforms stay files: {@code folder} must hold the same ones there.
 *
 * @param number of the point in its sweep, from 0
 * @param scenario text of the scenario, with the numbers of this point in their places
 * @param folder where recorded waveforms are looked for
 * @param coordinates the numbers of this point, in the order of the axes
 * @param readings which of the scenario's readings are taken, as places in its list from 0
 * @param seed in place of the scenario's own, 0 to 2<sup>53</sup> - 1
 */
public record SweepPoint(
    int number,
    String scenario,
    Path folder,
    List<Double> coordinates,
    List<Integer> readings,
    long seed) {
  static final List<String> KEYS =
      List.of("formatVersion", "number", "scenario", "folder", "coordinates", "readings", "seed");
  private static final int FORMAT_VERSION = 1;

  /** The greatest whole number that every reader of JSON keeps (RFC 8259, section 6). */
  private static final long MAX_SEED = (1L << 53) - 1;

  /**
   * Checks and copies.
   *
   * @param number from 0
   * @param scenario text of the scenario
   * @param folder where recorded waveforms are looked for
   * @param coordinates the numbers of this point, each finite
   * @param readings places in the scenario's list, from 0, at least one
   * @param seed 0 to 2<sup>53</sup> - 1
   * @throws IllegalArgumentException if a number is out of range
   * @throws NullPointerException if one is missing
   */
  public SweepPoint {
    Require.inRange("number", number, 0, Integer.MAX_VALUE);
    Require.present("scenario", scenario);
    Require.present("folder", folder);
    coordinates = List.copyOf(Require.present("coordinates", coordinates));
    for (double coordinate : coordinates) {
      Require.inRange("coordinates", coordinate, "", -Double.MAX_VALUE, Double.MAX_VALUE);
    }
    readings = List.copyOf(Require.present("readings", readings));
    Require.that(!readings.isEmpty(), "readings = []: must have at least one");
    for (int reading : readings) {
      Require.inRange("readings", reading, 0, Integer.MAX_VALUE);
    }
    Require.inRange("seed", seed, 0, MAX_SEED);
  }

  /**
   * Computes its row on the caller's thread.
   *
   * @return the row, a function of this point alone
   * @throws ScenarioException if the text is no scenario, or has no such reading
   */
  public SweepRow run() {
    return run(1, (done, most) -> true);
  }

  /**
   * Computes its row.
   *
   * @param threads how many share the work of an assessment, 1 to 1024; the figures do not depend
   *     on them
   * @param progress told of the trials of an assessment, and asked whether to go on
   * @return the row, a function of this point alone
   * @throws ScenarioException if the text is no scenario, or has no such reading
   * @throws IllegalArgumentException if the number of threads is out of range
   * @throws java.util.concurrent.CancellationException if the progress says so, or the thread is
   *     interrupted, which stays marked
   * @throws NullPointerException if there is no progress
   */
  public SweepRow run(int threads, Progress progress) {
    Require.inRange("threads", threads, 1, Parallel.MAX_THREADS);
    Require.present("progress", progress);
    Scenario own = read().withSeed(seed);
    return new SweepRow(
        number,
        coordinates,
        new PointReadings(own, readings).take(threads, progress),
        ScenarioCautions.of(own));
  }

  /** The scenario that the text says, checked. */
  private Scenario read() {
    Scenario read = Scenarios.parse(scenario, folder);
    for (int reading : readings) {
      if (reading >= read.readings().size()) {
        throw new ScenarioException(
            "point "
                + number
                + ": readings = "
                + reading
                + ": must be from 0 to "
                + (read.readings().size() - 1)
                + ".");
      }
    }
    return read;
  }

  /**
   * This point as JSON.
   *
   * @return the text, on one line
   */
  public String toJson() {
    ObjectNode root = JsonNodeFactory.instance.objectNode();
    root.put("formatVersion", FORMAT_VERSION);
    root.put("number", number);
    root.put("scenario", scenario);
    root.put("folder", folder.toString());
    ArrayNode at = root.putArray("coordinates");
    coordinates.forEach(at::add);
    ArrayNode places = root.putArray("readings");
    readings.forEach(places::add);
    root.put("seed", seed);
    return ResultWriter.oneLine(root);
  }

  /**
   * A point from its JSON.
   *
   * @param json what {@link #toJson} gave
   * @return an equal point
   * @throws ScenarioException if it is no such text
   * @throws NullPointerException if it is missing
   */
  public static SweepPoint parse(String json) {
    Json root = Json.parse("sweep point", Require.present("json", json));
    return Fields.of(root, "sweep point", KEYS, List.of())
        .build(
            f -> {
              if (f.whole("formatVersion") != FORMAT_VERSION) {
                Json version = f.child("formatVersion");
                throw version.refused(
                    "formatVersion = " + version.shown() + ": must be " + FORMAT_VERSION);
              }
              List<Double> coordinates = new ArrayList<>();
              for (double coordinate : f.numbers("coordinates")) {
                coordinates.add(coordinate);
              }
              List<Integer> readings = new ArrayList<>();
              for (int reading : f.wholes("readings")) {
                readings.add(reading);
              }
              return new SweepPoint(
                  f.whole("number"),
                  f.text("scenario"),
                  Path.of(f.text("folder")),
                  coordinates,
                  readings,
                  f.seed("seed"));
            });
  }
}
