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
        arguments(signal(SINE) + "\n x", "scenario, line 8, column 2: text follows the end: "),
        arguments(signal(SINE) + "\n {}", "scenario, line 8, column 2: text follows the end: "),
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

  private static final String OTHER = "{\"name\": \"b\", \"signal\": " + SINE + ", \"setup\": {}}";

  private static String channels(String more) {
    return signal(SINE).replace("\n}", ",\n" + more + "\n}");
  }

  private static String pair(String reading) {
    return channels(
        "\"channelName\": \"a\", \"furtherChannels\": ["
            + OTHER
            + "], \"pairReadings\": ["
            + reading
            + "]");
  }

  private static Stream<Arguments> severalChannels() {
    return Stream.of(
        arguments(
            channels("\"channelName\": \"a\""),
            "at /channelName: key \"furtherChannels\" is missing: channelName is of use where there are several"),
        arguments(
            channels("\"furtherChannels\": [" + OTHER + "]"),
            "key \"channelName\" is missing: where there are several channels"),
        arguments(
            channels("\"channelName\": \"a\", \"furtherChannels\": []"),
            "at /furtherChannels: furtherChannels has 0 entries: must have from 1 to 63."),
        arguments(
            channels("\"channelName\": \"b\", \"furtherChannels\": [" + OTHER + "]"),
            "at /furtherChannels/0/name: name = \"b\": another channel has that name."),
        arguments(
            channels(
                "\"channelName\": \"a\", \"furtherChannels\": ["
                    + OTHER.replace("{}", "{\"sampling\": {}}")
                    + "]"),
            "at /furtherChannels/0/setup: unknown key \"sampling\" in setup"),
        arguments(
            channels(
                "\"channelName\": \"a\", \"furtherChannels\": ["
                    + OTHER.replace("{}", "{}, \"skewSeconds\": 2")
                    + "]"),
            "at /furtherChannels/0/skewSeconds: skewSeconds = 2.0 s: must be from -1.0 s to 1.0 s."),
        arguments(
            channels(
                "\"channelName\": \"a\", \"furtherChannels\": ["
                    + OTHER.replace("{}", "{}, \"skewNanoseconds\": 2")
                    + "]"),
            "unknown key \"skewNanoseconds\" in a channel: it is given in s, as \"skewSeconds\"."),
        arguments(
            pair("{\"kind\": \"power\", \"first\": \"a\", \"second\": \"b\"}"),
            "at /pairReadings/0/kind: kind = \"power\": pair reading must be one of delay, skew,"),
        arguments(
            pair("{\"kind\": \"meanPower\", \"first\": \"a\", \"second\": \"c\"}"),
            "at /pairReadings/0/second: second = \"c\": must be the name of a channel: a, b."),
        arguments(
            pair("{\"kind\": \"meanPower\", \"first\": \"a\", \"second\": \"a\"}"),
            "at /pairReadings/0/second: second = \"a\": must be another channel than first."),
        arguments(
            pair("{\"kind\": \"delay\", \"first\": \"a\", \"second\": \"b\", \"firstVolts\": 1}"),
            "key \"secondVolts\", in V, is missing: the levels are given both or not at all."),
        arguments(
            pair(
                "{\"kind\": \"skew\", \"first\": \"a\", \"second\": \"b\"},"
                    + "{\"kind\": \"skew\", \"first\": \"a\", \"second\": \"b\"}"),
            "at /pairReadings/1: the reading \"skew\" is asked for twice"),
        arguments(
            channels("\"rareEvents\": [{\"eventsPerSecond\": 1, \"observedSeconds\": 1}]"),
            "at /rareEvents: key \"trigger\" is missing in setup"),
        arguments(
            channels("\"rareEvents\": [{\"eventsPerSecond\": 0, \"observedSeconds\": 1}]"),
            "at /rareEvents/0/eventsPerSecond: eventsPerSecond = 0.0 Hz: must be from 1.0E-15 Hz"),
        arguments(
            channels("\"rareEvents\": []"), "rareEvents has 0 entries: must have from 1 to 100."),
        arguments(
            with("\"sourceJitter\": {\"rmsSeconds\": -1}"),
            "at /setup/sourceJitter/rmsSeconds: rmsSeconds = -1.0 s: must be 0 s or from"),
        arguments(
            with("\"sourceJitter\": {\"rmsSeconds\": 1e-9, \"device\": -1}"),
            "at /setup/sourceJitter/device: device = -1: must be from 0 to 1000000."),
        arguments(
            with("\"sourceJitter\": {\"rmsSeconds\": 1e-9}, \"saturation\": {\"highVolts\": 1}"),
            "sourceJitter = edges of the source jitter by 1 ns rms, saturation = "),
        arguments(
            with("\"probe\": {\"kind\": \"current\", \"voltsPerAmpere\": 0}"),
            "at /setup/probe/voltsPerAmpere: voltsPerAmpere = 0.0 V/A: must be from 1.0E-6 V/A"));
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
            "at /setup/coupling/kind: kind = \"AC\": coupling must be one of dc, ac, capacitor."),
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
            with("\"sourceFarads\": 1e-12"),
            "at /setup/sourceFarads: sourceFarads = 1.0E-12 F: must be 0 F with sourceOhms = 0.0 ohm, where it has no"
                + " effect."),
        arguments(
            with("\"coupling\": {\"kind\": \"capacitor\", \"farads\": 2}"),
            "at /setup/coupling/farads: farads = 2.0 F: must be from 1.0E-15 F to 1.0 F."),
        arguments(
            with("\"inputRating\": {}"),
            "at /setup/inputRating: keys \"peakVolts\" and \"rmsVolts\" are missing: a rating must have at least one of"
                + " them."),
        arguments(
            with("\"inputRating\": {\"rmsVolts\": 0}"),
            "at /setup/inputRating/rmsVolts: rmsVolts = 0.0 V: must be from 0.001 V to 1.0E9 V."),
        arguments(
            with("\"speed\": 3"),
            "unknown key \"speed\" in setup: setup has sampling, sourceOhms, sourceFarads, sourceReferenceVolts, sourceNoise, sourceJitter, probe,"));
  }

  private static String divider(String more) {
    return with("\"probe\": {\"kind\": \"passiveDivider\", \"attenuation\": 10, " + more + "}");
  }

  private static String probeOf(String element) {
    return with(
        "\"probe\": {\"kind\": \"network\", \"words\": \"w\", \"attenuation\": 1, \"elements\": ["
            + element
            + "]}");
  }

  private static Stream<Arguments> probes() {
    return Stream.of(
        arguments(
            with("\"probe\": {\"kind\": \"passiveDivider\", \"attenuation\": 1}"),
            "at /setup/probe/attenuation: attenuation = 1.0: must be from 1.001 to 100000.0."),
        arguments(
            divider("\"madeForOhms\": 0"),
            "at /setup/probe/madeForOhms: madeForOhms = 0.0 ohm: must be from 1.0 ohm to 1.0E9 ohm."),
        arguments(
            divider("\"cableFarads\": 1"),
            "at /setup/probe/cableFarads: cableFarads = 1.0 F: must be from 1.0E-18 F to 1.0E-6 F."),
        arguments(
            divider("\"trimmerError\": -1"),
            "at /setup/probe/trimmerError: trimmerError = -1.0: must be from -0.99 to 10.0."),
        arguments(
            divider("\"trimmedAt\": {\"ohms\": 1e6, \"farads\": -1}"),
            "at /setup/probe/trimmedAt/farads: farads = -1.0 F: must be from "),
        arguments(
            divider("\"groundLead\": {\"henries\": 1}"),
            "at /setup/probe/groundLead/henries: henries = 1.0 H: must be from 1.0E-15 H to 0.001 H."),
        arguments(
            divider("\"groundLead\": {\"nanohenries\": 1}"),
            "unknown key \"nanohenries\" in a ground lead: it is given in H, as \"henries\"."),
        arguments(
            divider("\"groundLead\": {\"henries\": 0, \"ohms\": 5}"),
            "at /setup/probe/groundLead/ohms: ohms = 5.0 ohm, strayFarads = 0.0 F: must both be 0 with henries = 0.0"
                + " H."),
        arguments(
            divider("\"rating\": {\"peakVolts\": -5}"),
            "at /setup/probe/rating/peakVolts: peakVolts = -5.0 V: must be from 0.001 V to 1.0E9 V."),
        arguments(
            divider("\"bandwidth\": {\"kind\": \"singlePole\", \"bandwidthHz\": 0}"),
            "at /setup/probe/bandwidth/bandwidthHz: bandwidthHz = 0.0 Hz: must be from "),
        arguments(
            with("\"probe\": {\"kind\": \"timesOne\", \"seriesOhms\": 0, \"cableFarads\": 0}"),
            "at /setup/probe/seriesOhms: seriesOhms = 0.0 ohm: must be from 0.001 ohm to 1.0E9 ohm."),
        arguments(
            with("\"probe\": {\"kind\": \"active\", \"inputOhms\": 0, \"inputFarads\": 0}"),
            "at /setup/probe/inputOhms: inputOhms = 0.0 ohm: must be from 1.0 ohm to 1.0E15 ohm."),
        arguments(
            with(
                "\"probe\": {\"kind\": \"active\", \"inputOhms\": 1e6, \"inputFarads\": 0, \"outputOhms\": -1}"),
            "at /setup/probe/outputOhms: outputOhms = -1.0 ohm: must be from 0.0 ohm to 1000000.0 ohm."),
        arguments(
            with("\"probe\": {\"kind\": \"x100\"}"),
            "at /setup/probe/kind: kind = \"x100\": probe must be one of direct, passiveDivider, timesOne, active,"
                + " current, network."),
        arguments(
            probeOf(""),
            "at /setup/probe/elements: elements has 0 entries: must have from 1 to 24."),
        arguments(
            probeOf("{\"kind\": \"diode\"}"),
            "at /setup/probe/elements/0/kind: kind = \"diode\": element must be one of resistor, inductor,"
                + " capacitor."),
        arguments(
            probeOf("{\"kind\": \"resistor\", \"from\": \"tip\", \"to\": \"tip\", \"ohms\": 1}"),
            "at /setup/probe/elements/0/from: from and to are both \"tip\": an element needs two different nodes."),
        arguments(
            probeOf("{\"kind\": \"resistor\", \"from\": \"tip\", \"to\": \"b\", \"ohms\": 0}"),
            "at /setup/probe/elements/0/ohms: ohms = 0.0 ohm: must be from 1.0E-9 ohm to 1.0E18 ohm."),
        arguments(
            probeOf("{\"kind\": \"resistor\", \"from\": \"tip\", \"to\": \"b\", \"ohms\": 1}"),
            "must have the nodes \"tip\" and \"input\", has [tip, b]."));
  }

  private static String stage(String response) {
    return with("\"ownStages\": [{\"name\": \"s\", \"response\": " + response + "}]");
  }

  private static String transitions(String more) {
    return with(
        "\"vertical\": {\"voltsPerDivision\": 1}, \"converter\": {\"kind\": \"transitions\", \"bits\": 2"
            + more
            + "}");
  }

  private static Stream<Arguments> responsesAndConverters() {
    return Stream.of(
        arguments(
            stage("{\"kind\": \"stateSpace\", \"a\": [5], \"b\": [1], \"c\": [1], \"d\": 0}"),
            "at /setup/ownStages/0/response/a/0: a = 5 is a number: must be an array."),
        arguments(
            stage(
                "{\"kind\": \"stateSpace\", \"a\": [[-1, 2], [0, 1e40]], \"b\": [1, 1], \"c\": [1, 1], \"d\": 0}"),
            "at /setup/ownStages/0/response/a/1/1: a[1][1] = 1.0E40: must be from -1.0E30 to 1.0E30."),
        arguments(
            stage(
                "{\"kind\": \"stateSpace\", \"a\": [[-1], [0]], \"b\": [1, 1], \"c\": [1, 1], \"d\": 0}"),
            "at /setup/ownStages/0/response/a/0: a[0] has length 1: must be 2."),
        arguments(
            stage(
                "{\"kind\": \"network\", \"source\": \"a\", \"output\": \"c\", \"elements\": [{\"kind\":"
                    + " \"resistor\", \"from\": \"a\", \"to\": \"b\", \"ohms\": 1}]}"),
            "at /setup/ownStages/0/response: node \"c\": must be one of [a, b]."),
        arguments(
            with("\"converter\": {\"kind\": \"transitions\", \"bits\": 8}"),
            "at /setup: key \"vertical\" is missing: it says what the converter spans."),
        arguments(
            transitions(", \"transitionLevels\": [0, 1]"),
            "at /setup/converter/transitionLevels: transitionLevels.length = 2: must be 3 for 2 bits."),
        arguments(
            transitions(", \"transitionLevels\": [0, 1, 1e9]"),
            "at /setup/converter/transitionLevels/2: transitionLevels[2] = 1.0E9: must be from "),
        arguments(
            transitions(", \"bowSteps\": [1, 1e9]"),
            "at /setup/converter/bowSteps/1: coefficientsSteps[1] = 1.0E9: must be from "),
        arguments(
            transitions(", \"randomWalk\": {\"deviationSteps\": 1, \"seed\": 1}"),
            "at /setup/converter/randomWalk/deviationSteps: deviationSteps = 1.0: must be from 0.0 to 0.577."),
        arguments(
            transitions(", \"randomWalk\": {\"deviationSteps\": 0.1, \"seed\": -1}"),
            "at /setup/converter/randomWalk/seed: seed = -1: must be from 0 to 9007199254740991."),
        arguments(
            transitions(", \"missingCodes\": [1]"),
            "at /setup/converter/missingCodes/0: codes[0] = 1: must be from -1 to 0."),
        arguments(
            transitions(", \"missingCodes\": [0.5]"),
            "at /setup/converter/missingCodes/0: missingCodes = 0.5: must be a whole number."),
        arguments(
            transitions(", \"gainError\": 1"),
            "at /setup/converter/gainError: gainError = 1.0: must be from -0.5 to 0.5."),
        arguments(
            transitions(", \"offsetErrorSteps\": 5"),
            "at /setup/converter/offsetErrorSteps: offsetErrorSteps = 5.0: must be from -4.0 to 4.0."));
  }

  private static String scaled(String stage) {
    return with("\"vertical\": {\"voltsPerDivision\": 1}, " + stage);
  }

  private static Stream<Arguments> noiseAndSampler() {
    return Stream.of(
        arguments(
            signal(SINE).replace("\"title\"", "\"seed\": 1.5, \"title\""),
            "at /seed: seed = 1.5: must be a whole number."),
        arguments(
            signal(SINE).replace("\"title\"", "\"seed\": -1, \"title\""),
            "at /seed: seed = -1: must be from 0 to 9007199254740991."),
        arguments(
            with("\"noise\": {\"densityVoltsPerRootHz\": -1}"),
            "at /setup/noise/densityVoltsPerRootHz: densityVoltsPerRootHz = -1.0 V/sqrt(Hz): must be from 0.0"),
        arguments(
            with("\"noise\": {\"densityVoltsPerRootHz\": \"1\"}"),
            "densityVoltsPerRootHz = \"1\" is a text: must be a number, in V/sqrt(Hz)."),
        arguments(
            with("\"noise\": {\"cornerHz\": 10}"),
            "at /setup/noise/cornerHz: cornerHz = 10.0 Hz: needs a densityVoltsPerRootHz above 0 to be a corner of."),
        arguments(
            with("\"noise\": {\"densityVoltsPerRootHz\": 1e-9, \"lowestHz\": 10}"),
            "at /setup/noise/lowestHz: lowestHz = 10.0 Hz: must be from 1e-12 of cornerHz"),
        arguments(
            scaled("\"noise\": {\"shareOfFullScale\": 0.2}"),
            "at /setup/noise/shareOfFullScale: shareOfFullScale = 0.2: must be from 0.0 to 0.1."),
        arguments(
            with("\"noise\": {\"shareOfFullScale\": 0.01}"),
            "at /setup: key \"vertical\" is missing: a share of full scale needs to know full scale."),
        arguments(
            with("\"converterNoise\": {\"rmsOfFullScale\": 0.01}"),
            "at /setup: key \"vertical\" is missing: a share of full scale needs to know full scale."),
        arguments(
            scaled("\"converterNoise\": {\"rmsOfFullScale\": 2}"),
            "at /setup/converterNoise/rmsOfFullScale: rmsOfFullScale = 2.0: must be from 0.0 to 1.0."),
        arguments(
            with("\"sourceNoise\": {\"kind\": \"thermal\", \"ohms\": 50, \"kelvin\": -1}"),
            "at /setup/sourceNoise/kelvin: kelvin = -1.0 K: must be from 0.0 K to 10000.0 K."),
        arguments(
            with("\"sourceNoise\": {\"kind\": \"pink\"}"),
            "kind = \"pink\": source noise must be one of white, thermal."),
        arguments(
            with("\"saturation\": {}"),
            "at /setup/saturation: keys \"lowVolts\" and \"highVolts\" are missing: saturation must have at least one"
                + " of them."),
        arguments(
            with("\"saturation\": {\"lowVolts\": 1, \"highVolts\": 1}"),
            "at /setup/saturation/highVolts: highVolts = 1.0 V: must be above lowVolts = 1.0 V."),
        arguments(
            with("\"saturation\": {\"highVolts\": 1, \"recoveryFraction\": 0.1}"),
            "at /setup/saturation: key \"recoverySeconds\" is missing: fraction and time of a recovery are given both"
                + " or not at all."),
        arguments(
            with(
                "\"saturation\": {\"highVolts\": 1, \"recoveryFraction\": 2, \"recoverySeconds\": 1}"),
            "at /setup/saturation/recoveryFraction: recoveryFraction = 2.0: must be from 0.0 to 1.0."),
        arguments(
            with("\"sampler\": {\"clockError\": 0.5}"),
            "at /setup/sampler/clockError: clockError = 0.5: must be from -0.1 to 0.1."),
        arguments(
            with("\"sampler\": {\"jitterPicoseconds\": 1}"),
            "unknown key \"jitterPicoseconds\" in sampler: it is given in s, as \"jitterSeconds\"."),
        arguments(
            with("\"sampler\": {\"jitterSeconds\": -1}"),
            "at /setup/sampler/jitterSeconds: jitterSeconds = -1.0 s: must be"),
        arguments(
            with("\"sampler\": {\"cores\": []}"),
            "at /setup/sampler/cores: cores has 0 entries: must have from 1 to 64."),
        arguments(
            with("\"sampler\": {\"cores\": [{}, {\"skewSeconds\": 2}]}"),
            "at /setup/sampler/cores/1/skewSeconds: skewSeconds = 2.0 s: must be from -1.0 s to 1.0 s."),
        arguments(
            with("\"sampler\": {\"cores\": [{\"offsetError\": 0.01}]}"),
            "at /setup: key \"vertical\" is missing: a share of full scale needs to know full scale."));
  }

  private static String trigger(String more) {
    return with("\"trigger\": {\"levelVolts\": 1, " + more + "}");
  }

  private static Stream<Arguments> triggers() {
    return Stream.of(
        arguments(
            with("\"trigger\": {}"),
            "at /setup/trigger: key \"levelVolts\", in V, is missing: trigger must have it."),
        arguments(
            trigger("\"slope\": \"up\""),
            "at /setup/trigger/slope: slope = \"up\": must be one of falling, rising."),
        arguments(
            trigger("\"path\": {\"kind\": \"hf\"}"),
            "kind = \"hf\": path must be one of dc, ac, lowFrequencyReject, highFrequencyReject, filters."),
        arguments(
            trigger("\"path\": {\"kind\": \"filters\", \"lowPassHz\": -1}"),
            "at /setup/trigger/path/lowPassHz: lowPassHz = -1.0 Hz: must be from 1.0E-6 Hz to 1.0E12 Hz."),
        arguments(
            trigger("\"hysteresisVolts\": -1"),
            "at /setup/trigger/hysteresisVolts: hysteresisVolts = -1.0 V: must be from 0.0 V to 1.0E9 V."),
        arguments(
            trigger("\"qualifier\": {\"kind\": \"runt\", \"otherVolts\": 0.5}"),
            "otherVolts = 0.5 V, levelVolts = 1.0 V, slope = rising: the first must be above the second."),
        arguments(
            trigger(
                "\"qualifier\": {\"kind\": \"pulseWidth\", \"longerThanSeconds\": 2, \"shorterThanSeconds\": 1}"),
            "the second must be above the first."),
        arguments(
            trigger("\"preTriggerShare\": 2"),
            "at /setup/trigger/preTriggerShare: preTriggerShare = 2.0: must be from 0.0 to 1.0."),
        arguments(
            trigger("\"holdoffSeconds\": -1"),
            "at /setup/trigger/holdoffSeconds: holdoffSeconds = -1.0 s: must be 0 s or from "),
        arguments(
            trigger("\"rearmMilliseconds\": 1"),
            "unknown key \"rearmMilliseconds\" in trigger: it is given in s, as \"rearmSeconds\"."),
        arguments(
            trigger("\"resolution\": 2"),
            "at /setup/trigger/resolution: resolution = 2.0: must be from 0.0 to 1.0."),
        arguments(
            trigger("\"noEvent\": {\"kind\": \"waits\", \"afterSeconds\": 0}"),
            "at /setup/trigger/noEvent/afterSeconds: afterSeconds = 0.0 s: must be from "),
        arguments(
            with("\"ensemble\": {\"kind\": \"envelope\", \"count\": 0}"),
            "at /setup/ensemble/count: count = 0: must be from 1 to 65536."));
  }

  private static Arguments reading(String reading, String words) {
    return arguments(scenario(SINE, SETUP, "[" + reading.replace('\'', '"') + "]"), words);
  }

  private static Stream<Arguments> pulseAndSpectrumReadings() {
    return Stream.of(
        arguments(
            channels("\"captures\": 1"), "at /captures: captures = 1: must be from 2 to 10000000."),
        arguments(
            channels("\"captures\": 2e7"),
            "at /captures: captures = 20000000: must be from 2 to 10000000."),
        arguments(
            channels("\"captures\": 2.5"), "at /captures: captures = 2.5: must be a whole number."),
        arguments(
            channels("\"linearityTest\": {\"kind\": \"sine\"}"),
            "at /linearityTest/kind: kind = \"sine\": linearity test must be one of sineHistogram, rampHistogram."),
        arguments(
            channels("\"linearityTest\": {\"kind\": \"sineHistogram\", \"line\": \"best\"}"),
            "at /linearityTest/line: line = \"best\": must be one of endPoints, leastSquares."),
        reading(
            "{'kind': 'percentile', 'percent': 101}",
            "at /readings/0/percent: percent = 101.0 %: must be from 0.0 % to 100.0 %."),
        reading(
            "{'kind': 'percentile'}",
            "at /readings/0: key \"percent\", in %, is missing: percentile must have it."),
        reading(
            "{'kind': 'riseTime', 'stateLevels': {'kind': 'given', 'lowVolts': 1, 'highVolts': 1}}",
            "at /readings/0/stateLevels/lowVolts: lowVolts = 1.0 V, highVolts = 1.0 V: the second must be above the"
                + " first."),
        reading(
            "{'kind': 'riseTime', 'stateLevels': {'kind': 'histogramMode', 'bins': 1}}",
            "at /readings/0/stateLevels/bins: bins = 1: must be from 2 to 65536."),
        reading(
            "{'kind': 'riseTime', 'stateLevels': {'kind': 'modes'}}",
            "at /readings/0/stateLevels/kind: kind = \"modes\": state levels must be one of histogramMode,"),
        reading(
            "{'kind': 'riseTime', 'referenceLevels': {'kind': 'percent', 'lowPercent': 20, 'midPercent': 10,"
                + " 'highPercent': 90}}",
            "at /readings/0/referenceLevels/lowPercent: low = 20.0 %, mid = 10.0 %, high = 90.0 %: each must be above"
                + " the one before."),
        reading(
            "{'kind': 'riseTime', 'referenceLevels': {'kind': 'volts', 'lowVolts': 0, 'midVolts': 2e9,"
                + " 'highVolts': 3e9}}",
            "at /readings/0/referenceLevels/midVolts: mid = 2.0E9 V: must be from "),
        reading(
            "{'kind': 'riseTime', 'hysteresisPercent': 50}",
            "at /readings/0/hysteresisPercent: hysteresisPercent = 50.0 %: must be from 0.0 % to 49.0 %."),
        reading(
            "{'kind': 'overshootRising', 'regionDurations': -1}",
            "at /readings/0/regionDurations: regionDurations = -1.0: must be from "),
        reading(
            "{'kind': 'settlingRising', 'settlingPercent': 0}",
            "at /readings/0/settlingPercent: settlingPercent = 0.0 %: must be above "),
        reading(
            "{'kind': 'settlingErrorRising', 'settlingDelayDurations': -1}",
            "at /readings/0/settlingDelayDurations: settlingDelayDurations = -1.0: must be from "),
        reading(
            "{'kind': 'tiltHigh', 'flatPercent': 0}",
            "at /readings/0/flatPercent: flatPercent = 0.0 %: must be from 1.0 % to 100.0 %."),
        reading(
            "{'kind': 'period', 'summary': 'median'}",
            "at /readings/0/summary: summary = \"median\": must be one of first, mean, standardDeviation, minimum,"
                + " maximum."),
        reading(
            "{'kind': 'period', 'stateLevel': {'kind': 'peakMagnitude'}}",
            "at /readings/0: unknown key \"stateLevel\" in period: \"stateLevels\" may be meant."),
        reading(
            "{'kind': 'thd', 'highestOrder': 1}",
            "at /readings/0/highestOrder: highestOrder = 1: must be from 2 to 1000."),
        reading(
            "{'kind': 'thd', 'fundamentalHz': 0}",
            "at /readings/0/fundamentalHz: fundamentalHz = 0.0 Hz: must be from "),
        reading(
            "{'kind': 'thd', 'window': {'kind': 'kaiser'}}",
            "at /readings/0/window/kind: kind = \"kaiser\": window must be one of rectangular, hann,"),
        reading(
            "{'kind': 'thd', 'window': {'kind': 'cosineSum', 'name': 'own', 'coefficients': [0]}}",
            "at /readings/0/window/coefficients/0: coefficients[0] = 0.0: must be from "),
        reading(
            "{'kind': 'thd', 'segmentPoints': 7}",
            "at /readings/0/segmentPoints: segmentPoints = 7: with a window "),
        reading(
            "{'kind': 'thd', 'overlap': 0.5}",
            "at /readings/0/overlap: key \"segmentPoints\" is missing: only segments can overlap."),
        reading(
            "{'kind': 'thd', 'segmentPoints': 64, 'overlap': 1}",
            "at /readings/0/overlap: overlap = 1.0: must be from 0.0 to 0.95."),
        reading(
            "{'kind': 'effectiveBits', 'fullScaleVolts': 0}",
            "at /readings/0/fullScaleVolts: fullScaleVolts = 0.0 V: must be above "),
        reading(
            "{'kind': 'amplitudeAt', 'frequencyHz': -1}",
            "at /readings/0/frequencyHz: frequencyHz = -1.0 Hz: must be from "),
        reading(
            "{'kind': 'effectiveBitsBySineFit', 'fullScaleVolts': 2e9}",
            "at /readings/0/fullScaleVolts: fullScaleVolts = 2.0E9 V: must be "));
  }

  private static Stream<Arguments> readings() {
    return Stream.of(
        arguments(
            scenario(
                SINE,
                SETUP,
                "[{\"kind\": \"reconstructed\", \"reading\": {\"kind\": \"mean\"}, \"reconstruction\": \"cubic\","
                    + " \"factor\": 4}]"),
            "at /readings/0/reconstruction: reconstruction = \"cubic\": must be one of none, linear, sinc."),
        arguments(
            scenario(
                SINE,
                SETUP,
                "[{\"kind\": \"reconstructed\", \"reading\": {\"kind\": \"mean\"}, \"reconstruction\": \"sinc\","
                    + " \"factor\": 0}]"),
            "at /readings/0/factor: factor = 0: must be from 1 to 4096."),
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
  @MethodSource({
    "files",
    "signals",
    "setups",
    "probes",
    "responsesAndConverters",
    "readings",
    "pulseAndSpectrumReadings",
    "severalChannels"
  })
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
