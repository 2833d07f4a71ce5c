package org.asmeasured.scenario;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Every way to get a scenario wrong is answered by one sentence that names the place, the value,
 * the unit and the range.
 */
class BadScenarioTest {
  private static final String SINE =
      "{\"kind\": \"sine\", \"amplitudeVolts\": 1, \"frequencyHz\": 1e3}";
  private static final String SETUP = "{\"sampling\": {\"rateHz\": 1e6, \"points\": 100}}";

  @TempDir Path folder;

  private static String scenario(String signal, String setup, String readings) {
    return "{\n\"formatVersion\": 1,\n\"title\": \"t\",\n\"signal\": "
        + signal
        + ",\n\"setup\": "
        + setup
        + ",\n\"readings\": "
        + readings
        + "\n}";
  }

  private static String signal(String signal) {
    return scenario(signal, SETUP, "[{\"kind\": \"mean\"}]");
  }

  private static String setup(String setup) {
    return scenario(SINE, setup, "[{\"kind\": \"mean\"}]");
  }

  private static String with(String stage) {
    return setup("{\"sampling\": {\"rateHz\": 1e6, \"points\": 100}, " + stage + "}");
  }

  private static Stream<Arguments> files() {
    return Stream.of(
        arguments("", "scenario: is empty: must be one JSON object."),
        arguments(" \n ", "scenario: is empty: must be one JSON object."),
        arguments(
            "[]",
            "scenario, line 1, column 1, at the top: scenario = [...] is an array: must be an object."),
        arguments("hello", "scenario, line 1, column 1: is not JSON: Unrecognized token 'hello': "),
        arguments("{\"a\": 1,}", "scenario, line 1, column 9: is not JSON: "),
        arguments(
            "{\n\"a\": NaN}", "scenario, line 2, column 9: is not JSON: Non-standard token 'NaN'."),
        arguments("{\"a\": 1 // no\n}", "JSON has no comments"),
        arguments("{\"a\": ", "is not JSON: Unexpected end-of-input"),
        arguments(
            signal(SINE) + "\n x",
            "scenario, line 8, column 2: text follows the end of the scenario: "),
        arguments(
            signal(SINE) + "\n {}",
            "scenario, line 8, column 2: text follows the end of the scenario: "),
        arguments(
            "{\n\"title\": \"a\",\n  \"title\": \"b\"}",
            "scenario, line 3, column 3, at the top: key \"title\" is given twice, first in line 2: must be given"
                + " once."),
        arguments(
            "[".repeat(65) + "]".repeat(65),
            "scenario, line 1, column 65: is nested too deep: at most 64 objects and arrays within one another."),
        arguments(
            "{\"formatVersion\": 1}",
            "scenario, line 1, column 1, at the top: key \"title\" is missing: scenario must have it."),
        arguments(
            signal(SINE).replace("Version\": 1", "Version\": 2"),
            "scenario, line 2, column 18, at /formatVersion: formatVersion = 2: must be 1."),
        arguments(
            signal(SINE).replace("\"t\"", "\" \""),
            "at /title: title = \" \": must have at least one character"),
        arguments(
            signal(SINE).replace("\"t\"", "7"),
            "at /title: title = 7 is a number: must be a text."),
        arguments(
            signal(SINE).replace("\"title\"", "\"tittle\""),
            "at the top: unknown key \"tittle\" in scenario: \"title\" may be meant."),
        arguments(
            signal(SINE).replace("\"title\"", "\"notes\": [1], \"title\""),
            "at /notes/0: notes: 1 must be a text"));
  }

  private static Stream<Arguments> signals() {
    return Stream.of(
        arguments(
            signal("{\"kind\": \"sine\", \"amplitudeVolts\": 1, \"frequencyHz\": -5}"),
            "scenario, line 4, column 64, at /signal/frequencyHz: frequencyHz = -5.0 Hz: must be from 1.0E-9 Hz to"
                + " 1.0E15 Hz."),
        arguments(
            signal("{\"kind\": \"sine\", \"amplitudeVolts\": 1, \"frequencyKhz\": 5}"),
            "scenario, line 4, column 49, at /signal: unknown key \"frequencyKhz\" in sine: it is given in Hz, as"
                + " \"frequencyHz\"."),
        arguments(
            signal("{\"kind\": \"sine\", \"amplitudeMillivolts\": 1, \"frequencyHz\": 5}"),
            "unknown key \"amplitudeMillivolts\" in sine: it is given in V, as \"amplitudeVolts\"."),
        arguments(
            signal("{\"kind\": \"sine\", \"amplitude\": 1, \"frequencyHz\": 5}"),
            "unknown key \"amplitude\" in sine: it is given in V, as \"amplitudeVolts\"."),
        arguments(
            signal("{\"kind\": \"constant\", \"mV\": 1}"),
            "unknown key \"mV\" in constant: it is given in V, as \"volts\"."),
        arguments(
            signal(
                "{\"kind\": \"sine\", \"amplitudeVolts\": 1, \"frequencyHz\": 5, \"phaseDegrees\": 5}"),
            "unknown key \"phaseDegrees\" in sine: it is given in rad, as \"phaseRadians\"."),
        arguments(
            signal(
                "{\"kind\": \"sine\", \"amplitudeVolts\": 1, \"frequencyHz\": 5, \"colour\": 5}"),
            "unknown key \"colour\" in sine: sine has kind, amplitudeVolts, frequencyHz, phaseRadians."),
        arguments(
            signal("{\"kind\": \"sine\", \"amplitudeVolts\": 1}"),
            "scenario, line 4, column 11, at /signal: key \"frequencyHz\", in Hz, is missing: sine must have it."),
        arguments(
            signal("{\"kind\": \"sine\", \"amplitudeVolts\": \"5\", \"frequencyHz\": 5}"),
            "at /signal/amplitudeVolts: amplitudeVolts = \"5\" is a text: must be a number, in V."),
        arguments(
            signal("{\"kind\": \"sine\", \"amplitudeVolts\": null, \"frequencyHz\": 5}"),
            "at /signal/amplitudeVolts: amplitudeVolts = null is null: must be a number, in V."),
        arguments(
            signal("{\"kind\": \"sine\", \"amplitudeVolts\": true, \"frequencyHz\": 5}"),
            "amplitudeVolts = true is true or false: must be a number, in V."),
        arguments(
            signal("{\"kind\": \"sine\", \"amplitudeVolts\": [1], \"frequencyHz\": 5}"),
            "amplitudeVolts = [...] is an array: must be a number, in V."),
        arguments(
            signal("{\"kind\": \"sine\", \"amplitudeVolts\": 1e400, \"frequencyHz\": 5}"),
            "at /signal/amplitudeVolts: amplitudeVolts = 1e400 V: does not fit in a double, whose modulus is 0 or from"
                + " 4.9e-324 to 1.8e308."),
        arguments(
            signal("{\"kind\": \"sine\", \"amplitudeVolts\": -1e-400, \"frequencyHz\": 5}"),
            "amplitudeVolts = -1e-400 V: does not fit in a double"),
        arguments(
            signal("{\"kind\": \"sine\", \"amplitudeVolts\": 1e300, \"frequencyHz\": 5}"),
            "at /signal/amplitudeVolts: amplitudeVolts = 1.0E300 V: must be from -1.0E9 V to 1.0E9 V."),
        arguments(
            signal("{\"kind\": \"sin\", \"amplitudeVolts\": 1, \"frequencyHz\": 5}"),
            "scenario, line 4, column 20, at /signal/kind: kind = \"sin\": signal must be one of constant, step,"),
        arguments(
            signal("{\"kind\": 5}"),
            "at /signal/kind: kind = 5: signal must be one of constant, step,"),
        arguments(
            signal("{\"amplitudeVolts\": 1}"),
            "at /signal: key \"kind\" is missing: signal must be one of constant,"),
        arguments(
            signal("5"), "at /signal: signal = 5 is a number: must be an object with a \"kind\"."),
        arguments(
            signal(
                "{\"kind\": \"burst\", \"amplitudeVolts\": 1, \"frequencyHz\": 5, \"cycles\": 5.5, \"startSeconds\":"
                    + " 0}"),
            "at /signal/cycles: cycles = 5.5: must be a whole number."),
        arguments(
            signal(
                "{\"kind\": \"burst\", \"amplitudeVolts\": 1, \"frequencyHz\": 5, \"cycles\": 0, \"startSeconds\":"
                    + " 0}"),
            "at /signal/cycles: cycles = 0: must be from 1 to 1000000000."),
        arguments(
            signal(
                "{\"kind\": \"burst\", \"amplitudeVolts\": 1, \"frequencyHz\": 5, \"cycles\": 1e12, \"startSeconds\":"
                    + " 0}"),
            "at /signal/cycles: cycles = 1e12: must be from -2147483648 to 2147483647."),
        arguments(
            signal("{\"kind\": \"ramp\", \"volts\": 1, \"fromSeconds\": 2, \"toSeconds\": 1}"),
            "at /signal/toSeconds: toSeconds = 1.0 s"),
        arguments(
            signal(
                "{\"kind\": \"square\", \"lowVolts\": 0, \"highVolts\": 1, \"periodSeconds\": 0, \"dutyFactor\":"
                    + " 0.5}"),
            "at /signal/periodSeconds: periodSeconds = 0.0 s: must be from 1.0E-18 s to 1.0E12 s."),
        arguments(
            signal(
                "{\"kind\": \"square\", \"lowVolts\": 0, \"highVolts\": 1, \"periodSeconds\": 1, \"dutyFactor\":"
                    + " 1}"),
            "at /signal/dutyFactor: dutyFactor = 1.0"),
        arguments(
            signal("{\"kind\": \"sum\", \"signals\": []}"),
            "at /signal/signals: signals has 0 entries: must have from 1 to 10000."),
        arguments(
            signal(
                "{\"kind\": \"sum\", \"signals\": ["
                    + SINE
                    + ", {\"kind\": \"constant\", \"volts\": 1e10}]}"),
            "at /signal/signals/1/volts: volts = 1.0E10 V: must be from -1.0E9 V to 1.0E9 V."),
        arguments(
            signal(
                "{\"kind\": \"multiTone\", \"tones\": [{\"amplitudeVolts\": 1, \"frequencyHz\": 0}]}"),
            "at /signal/tones/0/frequencyHz: frequencyHz = 0.0 Hz: must be from 1.0E-9 Hz to 1.0E15 Hz."),
        arguments(
            signal(
                "{\"kind\": \"multiTone\", \"tones\": [{\"amplitudeVolts\": 1, \"frequencyMHz\": 1}]}"),
            "at /signal/tones/0: unknown key \"frequencyMHz\" in a tone: it is given in Hz, as \"frequencyHz\"."),
        arguments(
            signal("{\"kind\": \"recorded\", \"timesSeconds\": [0, 1, 1], \"volts\": [0, 1, 2]}"),
            "at /signal/timesSeconds/2: timesSeconds[2] = 1.0 s: must be after timesSeconds[1] = 1.0 s."),
        arguments(
            signal("{\"kind\": \"recorded\", \"timesSeconds\": [0, 1], \"volts\": [0, 1, 2]}"),
            "timesSeconds and volts have lengths 2 and 3: must be equal and at least 2."),
        arguments(
            signal("{\"kind\": \"recorded\", \"timesSeconds\": [0, 1], \"volts\": [0, \"x\"]}"),
            "at /signal/volts/1: volts = \"x\" is a text: must be a number, in V."),
        arguments(
            signal("{\"kind\": \"recorded\", \"rateHz\": 1, \"volts\": [0]}"),
            "at /signal/volts: volts has length 1: must be at least 2."),
        arguments(
            signal("{\"kind\": \"recorded\", \"volts\": [0, 1]}"),
            "at /signal: keys \"timesSeconds\" and \"rateHz\" are missing: recorded must have one of them."),
        arguments(
            signal(
                "{\"kind\": \"recorded\", \"timesSeconds\": [0, 1], \"rateHz\": 1, \"volts\": [0, 1]}"),
            "at /signal/rateHz: rateHz is given beside timesSeconds: must be left out."),
        arguments(
            signal("{\"kind\": \"repeated\", \"periodSeconds\": 1, \"signal\": " + SINE + "}"),
            "at /signal: repeatedEvery(1.0 s): the signal has a part without beginning: gate it first."),
        arguments(
            signal("{\"kind\": \"scaled\", \"factor\": 1e10, \"signal\": " + SINE + "}"),
            "at /signal/factor: factor = 1.0E10: must be from -1.0E9 to 1.0E9."));
  }

  private static Stream<Arguments> setups() {
    return Stream.of(
        arguments(setup("{}"), "at /setup: key \"sampling\" is missing: setup must have it."),
        arguments(
            setup("{\"sampling\": {\"rateHz\": 0, \"points\": 100}}"),
            "at /setup/sampling/rateHz: rateHz = 0.0 Hz: must be from 1.0E-9 Hz to 1.0E15 Hz."),
        arguments(
            setup("{\"sampling\": {\"rateMHz\": 1, \"points\": 100}}"),
            "at /setup/sampling: unknown key \"rateMHz\" in sampling: it is given in Hz, as \"rateHz\"."),
        arguments(
            setup("{\"sampling\": {\"rateHz\": 1, \"points\": 1.5}}"),
            "at /setup/sampling/points: points = 1.5: must be a whole number."),
        arguments(
            setup("{\"sampling\": {\"rateHz\": 1, \"points\": 0}}"),
            "at /setup/sampling/points: points = 0: must be from 1 to "),
        arguments(
            with("\"sourceOhms\": -1"),
            "at /setup/sourceOhms: sourceOhms = -1.0 ohm: must be from 0.0 ohm to 1.0E12 ohm."),
        arguments(
            with("\"sourceKilohms\": 1"),
            "at /setup: unknown key \"sourceKilohms\" in setup: it is given in ohm, as \"sourceOhms\"."),
        arguments(
            with("\"termination\": {\"ohms\": 0, \"farads\": 0}"),
            "at /setup/termination/ohms: ohms = 0.0 ohm: must be from 0.001 ohm to 1.0E12 ohm."),
        arguments(
            with("\"termination\": {\"ohms\": 50, \"picofarads\": 15}"),
            "unknown key \"picofarads\" in termination: it is given in F, as \"farads\"."),
        arguments(
            with("\"coupling\": {\"kind\": \"ac\", \"cornerHz\": 0}"),
            "at /setup/coupling/cornerHz: cornerHz = 0.0 Hz: must be from 1.0E-6 Hz to 1.0E12 Hz."),
        arguments(
            with("\"coupling\": {\"kind\": \"AC\"}"),
            "at /setup/coupling/kind: kind = \"AC\": coupling must be one of dc, ac."),
        arguments(
            with("\"bandwidth\": {\"kind\": \"bessel\", \"order\": 11, \"bandwidthHz\": 1e6}"),
            "at /setup/bandwidth/order: order = 11: must be from 1 to 10."),
        arguments(
            with("\"limit\": {\"kind\": \"singlePole\", \"bandwidthHz\": -1}"),
            "at /setup/limit/bandwidthHz: bandwidthHz = -1.0 Hz: must be from "),
        arguments(
            with("\"vertical\": {\"voltsPerDivision\": 0}"),
            "at /setup/vertical/voltsPerDivision: voltsPerDivision = 0.0 V: must be from 1.0E-9 V to 1000000.0 V."),
        arguments(
            with("\"vertical\": {\"millivoltsPerDivision\": 5}"),
            "at /setup/vertical: unknown key \"millivoltsPerDivision\" in vertical: "),
        arguments(
            with("\"vertical\": {\"voltsPerDivision\": 1, \"gainError\": 2}"),
            "at /setup/vertical/gainError: gainError = 2.0: must be from -0.5 to 0.5."),
        arguments(
            with("\"converter\": {\"kind\": \"ideal\", \"bits\": 25}"),
            "at /setup/converter/bits: bits = 25: must be from 1 to 24."),
        arguments(
            with("\"decimation\": {\"kind\": \"pick\", \"factor\": 0}"),
            "at /setup/decimation/factor: factor = 0: must be from 1 to 1048576."),
        arguments(
            with("\"decimation\": {\"kind\": \"boxcar\", \"factor\": 2, \"storedBits\": 0}"),
            "at /setup/decimation/storedBits: storedBits = 0: must be from 1 to 24."),
        arguments(
            with("\"ensemble\": {\"kind\": \"average\", \"count\": 0}"),
            "at /setup/ensemble/count: count = 0: must be from 1 to 65536."),
        arguments(
            with(
                "\"ownStages\": [{\"name\": \"x\", \"response\": {\"kind\": \"product\", \"responses\": []}}]"),
            "at /setup/ownStages/0/response/responses: responses has 0 entries: must have from 1 to 100."),
        arguments(
            with("\"ownStages\": [{\"name\": \"x\"}]"),
            "at /setup/ownStages/0: key \"response\" is missing: a stage must have it."),
        arguments(
            with("\"speed\": 3"),
            "unknown key \"speed\" in setup: setup has sampling, sourceOhms, termination,"));
  }

  private static Stream<Arguments> readings() {
    return Stream.of(
        arguments(
            scenario(SINE, SETUP, "[]"),
            "at /readings: readings has 0 entries: must have from 1 to 100."),
        arguments(
            scenario(SINE, SETUP, "5"),
            "at /readings: readings = 5 is a number: must be an array."),
        arguments(
            scenario(SINE, SETUP, "[{\"kind\": \"average\"}]"),
            "at /readings/0/kind: kind = \"average\": reading must be one of mean, rms,"),
        arguments(
            scenario(SINE, SETUP, "[{\"kind\": \"mean\"}, {\"kind\": \"mean\"}]"),
            "at /readings/1: the reading \"mean\" is asked for twice: must be asked for once."));
  }

  @ParameterizedTest
  @MethodSource({"files", "signals", "setups", "readings"})
  void refusedInOneSentence(String json, String words) {
    ScenarioException e =
        assertThrows(ScenarioException.class, () -> Scenarios.parse(json, folder));
    assertTrue(e.getMessage().contains(words), () -> e.getMessage() + "\n does not say \n" + words);
    assertOneSentence(e);
  }

  @Test
  void fileThatIsNotThere() {
    ScenarioException e =
        assertThrows(ScenarioException.class, () -> Scenarios.load(folder.resolve("nowhere.json")));
    assertEquals(folder.resolve("nowhere.json") + ": there is no such file.", e.getMessage());
  }

  @Test
  void folderInPlaceOfFile() {
    ScenarioException e = assertThrows(ScenarioException.class, () -> Scenarios.load(folder));
    assertEquals(folder + ": is a folder: must be a file.", e.getMessage());
    assertThrows(ScenarioException.class, () -> Scenarios.load(Path.of("/")));
    assertThrows(ScenarioException.class, () -> Scenarios.load(Path.of("")));
  }

  @Test
  void notUtf8() throws IOException {
    Path file = folder.resolve("latin.json");
    Files.write(
        file, signal(SINE).replace("\"t\"", "\"\u00e9\"").getBytes(StandardCharsets.ISO_8859_1));
    ScenarioException e = assertThrows(ScenarioException.class, () -> Scenarios.load(file));
    assertEquals(file + ": is not text in UTF-8.", e.getMessage());
  }

  @Test
  void namesItsFile() throws IOException {
    Path file = folder.resolve("mine.json");
    Files.writeString(file, "{");
    ScenarioException e = assertThrows(ScenarioException.class, () -> Scenarios.load(file));
    assertTrue(
        e.getMessage().startsWith("mine.json, line 1, column 2: is not JSON: "), e.getMessage());
  }

  static void assertOneSentence(ScenarioException e) {
    assertTrue(e.getMessage().endsWith("."), e.getMessage());
    assertEquals(1, e.getMessage().lines().count(), e.getMessage());
    assertTrue(e.getMessage().indexOf(". ") < 0, e.getMessage());
  }
}
