package org.asmeasured.scenario;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Every way to get a sweep wrong is answered by one sentence that names the place, the value and
 * what is allowed, before anything is computed.
 */
class BadSweepTest {
  private static final String SCENARIO =
      """
      {"formatVersion": 1, "title": "t",
       "signal": {"kind": "sine", "amplitudeVolts": 1, "frequencyHz": 1e3},
       "setup": {
        "vertical": {"voltsPerDivision": 1},
        "converter": {"kind": "ideal", "bits": 8},
        "sampling": {"rateHz": 1e6, "points": 100}},
       "readings": [{"kind": "mean"}, {"kind": "rms"}]}
      """
          .strip();

  @TempDir Path folder;

  private static String sweep(String axes) {
    return sweep(SCENARIO, axes, "");
  }

  private static String sweep(String scenario, String axes, String more) {
    return "{\"formatVersion\": 1, \"title\": \"s\", \"scenario\": "
        + scenario
        + ",\n\"axes\": ["
        + axes
        + "]"
        + more
        + "}";
  }

  private static String axis(String numbers) {
    return sweep("\n{\"value\": \"/signal/amplitudeVolts\", " + numbers + "}");
  }

  private static Stream<Arguments> sweeps() {
    return Stream.of(
        arguments("", "sweep: is empty: must be one JSON object."),
        arguments("[]", "at the top: sweep = [...] is an array: must be an object."),
        arguments(
            axis("\"list\": [1]")
                .replace(
                    "{\"formatVersion\": 1, \"title\": \"s\"",
                    "{\"formatVersion\": 2, \"title\": \"s\""),
            "at /formatVersion: formatVersion = 2: must be 1."),
        arguments(
            axis("\"list\": [1]").replace("\"title\": \"s\"", "\"title\": \" \""),
            "at /title: title = \" \": must have at least one character"),
        arguments(
            axis("\"list\": [1]").replace("\"axes\"", "\"axis\""),
            "at the top: unknown key \"axis\" in sweep: \"axes\" may be meant."),
        arguments(sweep(""), "at /axes: axes has 0 entries: must have from 1 to 3."),
        arguments(sweep("1, 2, 3, 4"), "at /axes: axes has 4 entries: must have from 1 to 3."),
        arguments(sweep("1"), "at /axes/0: an axis = 1 is a number: must be an object."),
        arguments(
            sweep("{\"list\": [1]}"),
            "at /axes/0: key \"value\" is missing: an axis must have it."),
        arguments(
            axis("\"values\": [1]"),
            "at /axes/0: unknown key \"values\" in an axis: an axis has value, name, list"),
        arguments(
            axis("\"name\": \"a\""),
            "at /axes/0: key \"from\" is missing: an axis must have list, or from, to and count."),
        arguments(
            axis("\"from\": 1, \"to\": 2"),
            "at /axes/0: key \"count\" is missing: an axis must have list"),
        arguments(
            axis("\"list\": [1], \"to\": 2"),
            "at /axes/0/to: to is given beside list: must be left out."),
        arguments(
            axis("\"list\": []"),
            "at /axes/0/list: list has 0 entries: must have from 1 to 100000."),
        arguments(
            axis("\"list\": [\"1\"]"),
            "at /axes/0/list/0: /signal/amplitudeVolts = 1: sweep, line 2, column 47, at /signal/amplitudeVolts: amplitudeVolts = \"1\" is a text: must be a number, in V."),
        arguments(
            axis("\"list\": [{\"kind\": \"none\"}]")
                .replace("signal/amplitudeVolts", "setup/coupling"),
            "at /axes/0/list/0: /setup/coupling = none: sweep, line 3, column "),
        arguments(
            axis("\"list\": [1, {\"a\": [true, null]}]"),
            "at /axes/0/list/1: /signal/amplitudeVolts = a true and null: "),
        arguments(
            axis("\"list\": [\"\"]"),
            "at /axes/0/list/0: list = \"\": must have labels beside it."),
        arguments(
            axis("\"list\": [\"a\", \"a\"]"),
            "at /axes/0/list/1: the label \"a\" is there twice: must be there once."),
        arguments(
            axis("\"list\": [1, 2], \"labels\": [\"one\"]"),
            "at /axes/0/labels: labels has 1 entries: must have 2, as many as list."),
        arguments(
            axis("\"list\": [1, 2], \"labels\": [\"one\", \"one\"]"),
            "at /axes/0/labels/1: the label \"one\" is there twice: must be there once."),
        arguments(
            axis("\"list\": [1, 2], \"labels\": [\"one\", 2]"),
            "at /axes/0/labels/1: labels: 2 must be a text with at least one character that shows."),
        arguments(
            axis("\"from\": 1, \"to\": 2, \"count\": 2, \"labels\": [\"one\", \"two\"]"),
            "at /axes/0/labels: labels is given without list: must be left out."),
        arguments(
            axis("\"list\": [1, \"2\"], \"spacing\": \"ratio\""),
            "at /axes/0/spacing: spacing = \"ratio\": must be left out where list holds other than numbers."),
        arguments(
            axis("\"list\": [1e999]"), "at /axes/0/list/0: list = 1e999: does not fit in a double"),
        arguments(
            axis("\"list\": [1, 2, 1.0]"),
            "at /axes/0/list/2: list = 1.0 is there twice: must be there once."),
        arguments(
            axis("\"list\": [0, 1]").replace("amplitudeVolts\", \"list", "frequencyHz\", \"list"),
            "at /axes/0/list/0: /signal/frequencyHz = 0 Hz: sweep, line 2, column 65, at /signal/frequencyHz: frequencyHz = 0.0 Hz: must be from 1.0E-9 Hz"),
        arguments(
            axis("\"list\": [1, 0], \"spacing\": \"ratio\""),
            "at /axes/0/list/1: list = 0: must be above 0 where spacing is \"ratio\"."),
        arguments(
            axis("\"list\": [1], \"spacing\": \"log\""),
            "at /axes/0/spacing: spacing = \"log\": must be one of even, ratio."),
        arguments(
            axis("\"from\": 1, \"to\": 2, \"count\": 1"),
            "at /axes/0/count: count = 1: must be from 2 to 100000."),
        arguments(
            axis("\"from\": 1, \"to\": 2, \"count\": 2.5"),
            "at /axes/0/count: count = 2.5: must be a whole number."),
        arguments(
            axis("\"from\": 1, \"to\": 2, \"count\": 100001"),
            "at /axes/0/count: count = 100001: must be from 2 to 100000."),
        arguments(
            axis("\"from\": 1, \"to\": 1, \"count\": 2"),
            "at /axes/0/to: to = 1: must be so far from from = 1 that 2 numbers of 12 digits differ."),
        arguments(
            axis("\"from\": 1, \"to\": 1.00000000001, \"count\": 5"),
            "that 5 numbers of 12 digits differ."),
        arguments(
            axis("\"from\": -1, \"to\": 1, \"count\": 3, \"spacing\": \"ratio\""),
            "at /axes/0/from: from = -1: must be above 0 where spacing is \"ratio\"."),
        arguments(
            axis("\"from\": 1, \"to\": 0, \"count\": 3, \"spacing\": \"ratio\""),
            "at /axes/0/to: to = 0: must be above 0 where spacing is \"ratio\"."),
        arguments(
            axis("\"from\": 1, \"to\": -1, \"count\": 3")
                .replace("amplitudeVolts\", \"from", "frequencyHz\", \"from"),
            "at /axes/0: /signal/frequencyHz = 0 Hz: sweep, line 2, "),
        arguments(
            axis("\"list\": [1], \"name\": \" \""),
            "at /axes/0/name: name = \" \": must have at least one character that shows."),
        arguments(
            axis("\"list\": [1], \"together\": []"),
            "at /axes/0/together: together has 0 entries: must have from 1 to 20."),
        arguments(
            axis(
                "\"list\": [1, 2], \"together\": [{\"value\": \"/signal/frequencyHz\", \"list\": [1]}]"),
            "at /axes/0/together/0: /signal/frequencyHz has 1 numbers: must have 2, as many as /signal/amplitudeVolts."),
        arguments(
            axis(
                "\"list\": [1, 2], \"together\": [{\"value\": \"/signal/frequencyHz\", \"list\": [1, -1]}]"),
            "at /axes/0/together/0/list/1: /signal/amplitudeVolts = 2 V, /signal/frequencyHz = -1 Hz: sweep, line 2, "),
        arguments(
            axis(
                "\"list\": [1, 2], \"together\": [{\"value\": \"/signal/frequencyHz\", \"list\": [1, 2], \"together\": []}]"),
            "at /axes/0/together/0: unknown key \"together\" in a value that moves along"));
  }

  private static Stream<Arguments> pointers() {
    return Stream.of(
        arguments(
            "/signal/frequencyHz/x",
            "value = \"/signal/frequencyHz/x\": the scenario has no such value, and nothing that could have it."),
        arguments("signal/amplitudeVolts", "the scenario has no such value"),
        arguments("/readings/2/kind", "the scenario has no such value"),
        arguments("/readings/01", "the scenario has no such value"),
        arguments("/readings/-", "the scenario has no such value"),
        arguments(
            "/signal",
            "value = \"/signal\": it is an object in the scenario: must be a number there, or be varied by whole values."),
        arguments(
            "/title",
            "it is a text in the scenario: must be a number there, or be varied by whole values."),
        arguments(
            "/readings/0/kind",
            "it is a text in the scenario: must be a number there, or be varied by whole values."));
  }

  @ParameterizedTest
  @MethodSource("sweeps")
  void refuses(String text, String words) {
    refused(text, words);
  }

  @ParameterizedTest
  @MethodSource("pointers")
  void refusesAPointer(String pointer, String words) {
    refused(sweep("{\"value\": \"" + pointer + "\", \"list\": [1]}"), "at /axes/0/value: ");
    refused(sweep("{\"value\": \"" + pointer + "\", \"list\": [1]}"), words);
  }

  private void refused(String text, String words) {
    ScenarioException e = assertThrows(ScenarioException.class, () -> Sweeps.parse(text, folder));
    assertTrue(e.getMessage().contains(words), e::getMessage);
    BadScenarioTest.assertOneSentence(e);
  }

  @Test
  void refusesTheSameTwice() {
    String amplitude = "{\"value\": \"/signal/amplitudeVolts\", \"list\": [1]}";
    refused(
        sweep(amplitude + ", " + amplitude),
        "at /axes/1/value: value = \"/signal/amplitudeVolts\": is varied twice");
    refused(
        sweep(
            amplitude
                + ", {\"value\": \"/signal/frequencyHz\", \"name\": \"amplitudeVolts\", \"list\": [1]}"),
        "the name \"amplitudeVolts\" is given to two values: each must have its own.");
  }

  @Test
  void refusesTooManyPoints() {
    String thousand = "\"from\": 1, \"to\": 2, \"count\": 1000}";
    refused(
        sweep(
            "{\"value\": \"/signal/amplitudeVolts\", "
                + thousand
                + ", {\"value\": \"/signal/frequencyHz\", "
                + thousand),
        "the sweep has 1000000 points or more: must have at most 100000.");
  }

  @Test
  void refusesReadings() {
    String axis = "{\"value\": \"/signal/amplitudeVolts\", \"list\": [1]}";
    refused(
        sweep(SCENARIO, axis, ", \"readings\": []"),
        "at /readings: readings has 0 entries: must have from 1 to 100.");
    refused(
        sweep(SCENARIO, axis, ", \"readings\": [{\"kind\": \"riseTime\"}]"),
        "is not asked for: must be one of the scenario's readings.");
    refused(
        sweep(SCENARIO, axis, ", \"readings\": [{\"kind\": \"rms\"}, {\"kind\": \"rms\"}]"),
        "at /readings/1: the reading \"RMS\" is asked for twice: must be asked for once.");
    refused(
        sweep(SCENARIO, axis, ", \"seedPerPoint\": 1"),
        "at /seedPerPoint: seedPerPoint = 1 is a number: must be true or false.");
  }

  /** The last value of a grid is looked at before the first point is computed. */
  @Test
  void refusesAnInvalidPointAtTheDoor() {
    refused(
        sweep(
            "{\"value\": \"/signal/amplitudeVolts\", \"list\": [1, 2]},\n"
                + "{\"value\": \"/setup/converter/bits\", \"list\": [8, 10, 12.5]}"),
        "sweep, line 9, column 52, at /axes/1/list/2: /signal/amplitudeVolts = 1 V, /setup/converter/bits = 12.5: "
            + "sweep, line 5, column 42, at /setup/converter/bits: bits = 12.5: must be a whole number.");
  }

  @Test
  void refusesScenarios() throws IOException {
    String axis = "{\"value\": \"/signal/amplitudeVolts\", \"list\": [1]}";
    refused(
        sweep("7", axis, ""),
        "at /scenario: scenario = 7 is a number: must be the name of a file, or a scenario.");
    refused(
        sweep("\" \"", axis, ""),
        "at /scenario: scenario = \" \": must have at least one character");
    refused(
        sweep("\"none.json\"", axis, ""),
        "at /scenario: scenario = none.json: there is no such file.");
    refused(sweep("\".\"", axis, ""), "at /scenario: scenario = .: is a folder: must be a file.");
    refused(sweep("\"a\\u0000b\"", axis, ""), "is no name of a file.");
    refused(sweep("{}", axis, ""), "key \"formatVersion\" is missing: scenario must have it.");
    Files.writeString(folder.resolve("bad.json"), SCENARIO.replace("sine", "sign"));
    refused(
        sweep("\"bad.json\"", axis, ""),
        "bad.json, line 2, column 21, at /signal/kind: kind = \"sign\": signal must be one of");
  }

  /** From a file: its name, and the name of the scenario's own file. */
  @Test
  void namesBothFiles() throws IOException {
    Files.createDirectory(folder.resolve("sweeps"));
    Files.writeString(folder.resolve("sine.json"), "\ufeff" + SCENARIO);
    Path file = folder.resolve("sweeps/grid.json");
    Files.writeString(
        file,
        sweep("\"../sine.json\"", "{\"value\": \"/signal/frequencyHz\", \"list\": [1, 0]}", ""));
    ScenarioException e = assertThrows(ScenarioException.class, () -> Sweeps.load(file));
    assertEquals(
        "grid.json, line 2, column 55, at /axes/0/list/1: /signal/frequencyHz = 0 Hz: sine.json, line 2, column 65,"
            + " at /signal/frequencyHz: frequencyHz = 0.0 Hz: must be from 1.0E-9 Hz to 1.0E15 Hz.",
        e.getMessage());
    assertThrows(ScenarioException.class, () -> Sweeps.load(folder.resolve("none.json")));
  }

  @Test
  void refusesInCode() {
    SweptValue volts =
        new SweptValue("/signal/amplitudeVolts", "amplitude", "V", List.of(1.0, 2.0));
    SweepAxis axis = new SweepAxis(List.of(volts), false);
    assertEquals(2, of("s", List.of(axis), List.of(0)).size());
    assertThrows(IllegalArgumentException.class, () -> of(" ", List.of(axis), List.of(0)));
    assertThrows(NullPointerException.class, () -> of(null, List.of(axis), List.of(0)));
    assertThrows(IllegalArgumentException.class, () -> of("s", List.of(), List.of(0)));
    assertThrows(IllegalArgumentException.class, () -> of("s", List.of(axis), List.of()));
    assertThrows(IllegalArgumentException.class, () -> of("s", List.of(axis), List.of(2)));
    assertThrows(IllegalArgumentException.class, () -> of("s", List.of(axis), List.of(-1)));
    assertThrows(IllegalArgumentException.class, () -> of("s", List.of(axis), List.of(0, 0)));
    assertThrows(ScenarioException.class, () -> of("s", List.of(axis, axis), List.of(0)));
    assertThrows(IllegalArgumentException.class, () -> new SweptValue("/a", " ", "", List.of(1.0)));
    assertThrows(IllegalArgumentException.class, () -> new SweptValue("/a", "a", "", List.of()));
    assertThrows(
        IllegalArgumentException.class, () -> new SweptValue("/a", "a", "", List.of(Double.NaN)));
    assertThrows(
        IllegalArgumentException.class,
        () -> new SweptValue("/a", "a", "", List.of(Double.POSITIVE_INFINITY)));
    assertThrows(IllegalArgumentException.class, () -> new SweepAxis(List.of(), false));
    SweptValue shorter = new SweptValue("/b", "b", "", List.of(1.0));
    assertThrows(
        IllegalArgumentException.class, () -> new SweepAxis(List.of(volts, shorter), false));
    SweptValue twice = new SweptValue("/b", "b", "", List.of(1.0, 1.0));
    assertThrows(IllegalArgumentException.class, () -> new SweepAxis(List.of(twice), false));
    SweptValue zero = new SweptValue("/b", "b", "", List.of(0.0, 1.0));
    assertThrows(IllegalArgumentException.class, () -> new SweepAxis(List.of(zero), true));
    Sweep good = of("s", List.of(axis), List.of(0));
    assertThrows(NullPointerException.class, () -> SweepResult.of(null, 1, (d, m) -> true));
    assertThrows(NullPointerException.class, () -> SweepResult.of(good, 1, null));
    assertThrows(IllegalArgumentException.class, () -> SweepResult.of(good, 0, (d, m) -> true));
    assertThrows(IllegalArgumentException.class, () -> SweepResult.of(good, 1025, (d, m) -> true));
  }

  private Sweep of(String title, List<SweepAxis> axes, List<Integer> readings) {
    return Sweep.of(title, List.of(), SCENARIO, folder, axes, readings, false);
  }
}
