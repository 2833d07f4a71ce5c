package org.asmeasured.scenario;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import org.asmeasured.acquisition.NoEvent;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.digitizer.ConverterNoise;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Noise;
import org.asmeasured.frontend.Termination;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Readings;
import org.asmeasured.pulse.PulseReadings;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.asmeasured.signal.Waveform;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

class ScenarioResultTest {
  private static final Setup SETUP = Setup.ideal(1e5, 1000);

  private static ScenarioResult run(Signal signal, Setup setup, Reading... readings) {
    return ScenarioResult.of(new Scenario("t", List.of(), signal, setup, List.of(readings)));
  }

  private static JsonNode json(ScenarioResult result) {
    return JsonMapper.shared().readTree(Results.toJson(result));
  }

  private static double value(JsonNode result, String pointer) {
    JsonNode value = result.at(pointer + "/value");
    assertTrue(value.isNumber(), () -> pointer + " of " + result);
    return value.asDouble();
  }

  /** A 75 ohm source into 50 ohm: Ohm's law by hand, 2 V x 50/125 = 0.8 V. */
  @Test
  void dividerOfSourceAndTermination() {
    JsonNode json =
        json(
            run(
                Signals.constant(2),
                SETUP.source(75).termination(Termination.fiftyOhm()),
                Readings.mean()));
    assertEquals(2, value(json, "/readings/0/truth"), 0);
    assertEquals(0.8, value(json, "/readings/0/measured"), 1e-15);
    assertEquals(-1.2, value(json, "/readings/0/bias"), 1e-15);
    assertEquals(
        "source and termination", json.at("/readings/0/byStageInOrder/0/stage").asString());
    assertEquals(-1.2, value(json, "/readings/0/byStageInOrder/0/bias"), 1e-15);
    assertEquals("V", json.at("/readings/0/unit").asString());
  }

  /**
   * Mid-tread: a step of 4 V/2^2 = 1 V, so 0.6 V is read as 1 V, 3 V as the highest code, 1 V, with
   * a flag.
   */
  @Test
  void quantisationAndClipping() {
    Setup twoBits = SETUP.vertical(VerticalScale.of(0.5)).bits(2);
    JsonNode inside = json(run(Signals.constant(0.6), twoBits, Readings.mean()));
    assertEquals(0.4, value(inside, "/readings/0/bias"), 1e-15);
    assertEquals(1, inside.at("/record/stepVolts").asDouble(), 0);
    assertEquals(0, inside.at("/record/flags").size());
    JsonNode beyond = json(run(Signals.constant(3), twoBits, Readings.maximum(), Readings.mean()));
    assertTrue(
        beyond.at("/readings/0/measured/notTaken").asString().contains("clipped at the top"));
    assertEquals(1, value(beyond, "/readings/1/measured"), 0);
    assertEquals("clipped high", beyond.at("/record/flags/0/flag").asString());
    assertEquals(
        "1000 raw samples above the highest code", beyond.at("/record/flags/0/reason").asString());
    assertEquals(1000, beyond.at("/record/clippedHighSamples").asInt());
  }

  /** White noise through a single pole: e^2 pi/2 f3dB, and the mean of 2000 points is near zero. */
  @Test
  void noiseIsAsStrongAsItsBandwidthLets() {
    Setup noisy =
        Setup.ideal(1e5, 20_000).bandwidth(Bandwidth.singlePole(1e5)).noise(Noise.white(1e-5));
    double rms = 1e-5 * Math.sqrt(Math.PI / 2 * 1e5);
    JsonNode json = json(run(Signals.constant(0), noisy, Readings.rms()));
    // 20 000 nearly independent samples: six standard deviations of an rms are 3 %, a false alarm
    // in 10^9.
    assertEquals(rms, value(json, "/readings/0/measured"), 0.03 * rms);
    assertEquals("amplifier noise", json.at("/readings/0/byStageInOrder/2/stage").asString());
  }

  /**
   * A mean of 100 points of white noise of the converter, of sigma V each, scatters by sigma/10;
   * 400 captures know that to 1/sqrt(800), and five of these are 18 %.
   */
  @Test
  void capturesGiveRandomPartsAndTheSecondTable() {
    Setup setup =
        Setup.ideal(1e5, 100)
            .vertical(VerticalScale.of(1).withGainError(0.01))
            .converterNoise(ConverterNoise.ofSteps(1, 8));
    double sigma = 8.0 / 256;
    Scenario scenario =
        new Scenario("t", List.of(), Signals.constant(2), setup, List.of(Readings.mean()));
    JsonNode json = json(ScenarioResult.of(scenario.withCaptures(400)));
    assertEquals(List.of(), Schemas.complaints(Schemas.RESULT, json.toString()));
    assertEquals(
        value(json, "/readings/0/statistics/mean"), value(json, "/readings/0/measured"), 0);
    double whole = value(json, "/readings/0/scatter/randomPart");
    assertEquals(sigma / 10, whole, 0.18 * sigma / 10);
    assertEquals(400, json.at("/readings/0/scatter/captures").asInt());
    assertEquals(
        "vertical gain and offset", json.at("/readings/0/byStageInOrder/0/stage").asString());
    assertEquals(0, value(json, "/readings/0/byStageInOrder/0/scatter/randomPart"), 0);
    String noise = "/readings/0/byStageInOrder/2";
    assertEquals("converter noise", json.at(noise + "/stage").asString());
    assertEquals(whole, value(json, noise + "/scatter/randomPart"), 0);
    assertEquals(whole * whole, value(json, noise + "/scatter/addedVariance"), 1e-15);
    assertEquals(whole / 20, value(json, noise + "/scatter/standardErrorOfBias"), 1e-15);
    String gain = "/readings/0/eachStageAloneIdeal/0";
    assertEquals("vertical gain and offset", json.at(gain + "/stage").asString());
    assertEquals(0.02, value(json, gain + "/bias"), 1e-14);
    assertEquals(2, value(json, "/readings/0/truth"), 0);
    assertEquals(2.02, value(json, "/readings/0/eachStageAloneIdeal/1/reading"), 1e-14);
    assertEquals(0, value(json, "/readings/0/eachStageAloneIdeal/1/scatter/randomPart"), 0);
    // Without captures there is the second table too, and nothing of scatter.
    JsonNode single = json(ScenarioResult.of(scenario));
    assertEquals(2, single.at("/readings/0/eachStageAloneIdeal").size());
    assertTrue(single.at("/readings/0/eachStageAloneIdeal/0/scatter").isMissingNode());
  }

  @Test
  void seedDecidesAllThatIsRandom() {
    Setup noisy = SETUP.bandwidth(Bandwidth.singlePole(1e5)).noise(Noise.white(1e-5));
    Signal signal = Signals.constant(0);
    List<Reading> readings = List.of(Readings.rms());
    Scenario usual = new Scenario("t", List.of(), signal, noisy, readings);
    assertEquals(Scenario.USUAL_SEED, usual.seed());
    Scenario other = new Scenario("t", List.of(), signal, noisy, readings, 7);
    String once = Results.toJson(ScenarioResult.of(other));
    assertEquals(once, Results.toJson(ScenarioResult.of(other)));
    JsonNode json = JsonMapper.shared().readTree(once);
    assertEquals(7, json.at("/seed").asLong());
    assertNotEquals(
        value(json, "/readings/0/measured"),
        value(json(ScenarioResult.of(usual)), "/readings/0/measured"));
  }

  /** A trigger whose event does not come leaves no record, a flag and a reason for each reading. */
  @Test
  void noEventIsAFlagWithItsReason() {
    Setup never = SETUP.trigger(Trigger.at(5).noEvent(NoEvent.waitFor(1e-3)));
    JsonNode json = json(run(Signals.sine(1, 1e3), never, Readings.mean()));
    assertEquals(0, json.at("/record/points").asInt());
    assertEquals("no trigger", json.at("/record/flags/0/flag").asString());
    String reason = json.at("/record/flags/0/reason").asString();
    assertTrue(reason.startsWith("no event within 1 ms: "), reason);
    String why = json.at("/readings/0/measured/notTaken").asString();
    assertTrue(why.startsWith("nothing was recorded (no trigger: "), why);
    assertEquals(List.of(), Schemas.complaints(Schemas.RESULT, json.toString()));
  }

  /**
   * A sine of phase 0 at 0.3 of the rate has its points at whole tenths of a turn, 18 degrees
   * beside its lowest one: 1 - cos(18 degrees) is missed. sin(x)/x finds it to 2e-5, and 64 values
   * a point to another 1 - cos(0.3 pi/64) = 1.1e-4.
   */
  @Test
  void reconstructedReadingFindsTheCrest() {
    String text =
        """
        {"formatVersion": 1, "title": "t",
         "signal": {"kind": "sine", "amplitudeVolts": 1, "frequencyHz": 3e5},
         "setup": {"sampling": {"rateHz": 1e6, "points": 52}},
         "readings": [
           {"kind": "minimum"},
           {"kind": "reconstructed", "reading": {"kind": "minimum"}, "reconstruction": "sinc", "factor": 64},
           {"kind": "reconstructed", "reading": {"kind": "minimum"}, "reconstruction": "none", "factor": 64}]}
        """;
    JsonNode json = json(ScenarioResult.of(Scenarios.parse(text, Path.of("").toAbsolutePath())));
    double points = value(json, "/readings/0/bias");
    assertEquals(1 - Math.cos(Math.toRadians(18)), points, 1e-12);
    assertEquals(-1, value(json, "/readings/1/measured"), 1.4e-4);
    assertEquals(-1 + points, value(json, "/readings/2/measured"), 1e-12);
  }

  @Test
  void saysWhyAReadingWasNotTaken() {
    JsonNode json = json(run(Signals.constant(1), SETUP, PulseReadings.period()));
    assertTrue(json.at("/readings/0/measured/notTaken").isString(), json::toString);
    assertTrue(json.at("/readings/0/bias/notTaken").isString(), json::toString);
    assertEquals(List.of(), Schemas.complaints(Schemas.RESULT, json.toString()));
  }

  @Test
  void numbersReadBackToTheSameDouble() {
    for (double volts : new double[] {0.1 + 0.2, 1e-9 / 3, 2e-3, Math.PI * 1e7, Double.MIN_VALUE}) {
      JsonNode json = json(run(Signals.constant(volts), SETUP, Readings.minimum()));
      assertEquals(volts, value(json, "/readings/0/truth"), 0);
    }
  }

  @Test
  void harmlessHasNoCaution() {
    assertEquals(List.of(), run(Signals.sine(5, 1e3).plus(3.3), SETUP, Readings.mean()).cautions());
    assertEquals(List.of(), run(Signals.constant(48), SETUP, Readings.mean()).cautions());
    assertEquals(List.of(), run(Signals.sine(42, 1e3), SETUP, Readings.mean()).cautions());
  }

  /** The three limits, one at a time: 30 V RMS, 42.4 V peak, 60 V DC. */
  @Test
  void hazardousVoltageIsSaid() {
    hazardous(Signals.sine(42.5, 1e3), "30.05 V RMS, up to 42.5 V");
    hazardous(Signals.pulseTrain(0, 50, 1e-3, 1e-5, 0, 0), "5 V RMS, up to 50 V");
    hazardous(Signals.constant(-61), "61 V RMS, up to 61 V");
    hazardous(Signals.sine(325, 50), "229.8 V RMS, up to 325 V");
  }

  private static void hazardous(Signal signal, String words) {
    List<String> cautions = run(signal, SETUP, Readings.mean()).cautions();
    assertEquals(1, cautions.size(), cautions::toString);
    assertTrue(
        cautions.get(0).startsWith("Hazardous voltage at the tip: " + words + " ("),
        cautions::toString);
    for (String said :
        List.of(
            "common practice, no source", "rated", "earth", "Local codes and licensed practice")) {
      assertTrue(cautions.get(0).contains(said), cautions::toString);
    }
  }

  /** A record of a tenth of a microsecond near the crossing does not make the mains harmless. */
  @Test
  void wholePeriodIsLookedAt() {
    onlyCaution(
        run(Signals.sine(325, 50), Setup.ideal(1e9, 100), Readings.mean()).cautions(),
        "Hazardous voltage");
    onlyCaution(
        run(Signals.pulse(1000, 1, 1, 0, 0), SETUP, Readings.mean()).cautions(),
        "Outside the record this signal may reach more than it shows here (at most 1 kV)");
    onlyCaution(
        run(Signals.ramp(1, 1), SETUP, Readings.mean()).cautions(),
        "Outside the record this signal may reach more than it shows here (it grows without end)");
  }

  private static void onlyCaution(List<String> cautions, String words) {
    assertEquals(1, cautions.size(), cautions::toString);
    assertTrue(cautions.get(0).startsWith(words), cautions::toString);
  }

  /**
   * 10 V RMS at 50 ohm are 2 W; behind another 50 ohm, half of that voltage and a quarter of the
   * power: 0.5 W.
   */
  @Test
  void powerInTermination() {
    Signal signal = Signals.sine(10 * Math.sqrt(2), 1e3);
    Setup direct = SETUP.termination(Termination.fiftyOhm());
    onlyCaution(
        run(signal, direct, Readings.rms()).cautions(),
        "The termination of 50 ohm would turn 2 W into heat");
    assertEquals(List.of(), run(signal.times(0.99), direct.source(50), Readings.rms()).cautions());
    assertEquals(1, run(signal.times(1.01), direct.source(50), Readings.rms()).cautions().size());
  }

  /**
   * A divider off its trim, by hand: a step into C1 = (1 + e) C2/9 starts at 10 C1/(C1 + C2) = (1 +
   * e)/(1 + e/10) of the truth, 1.1/1.01 for e = 0.1. A charge that divides so settles with tau =
   * 0.9 Mohm (C1 + C2), C2 = 100 pF.
   */
  @Test
  void mistrimmedDividerStartsTooHigh() {
    String setup =
        """
        {"probe": {"kind": "passiveDivider", "attenuation": 10, "cableFarads": 85e-12, "trimmerError": 0.1},
         "termination": {"ohms": 1e6, "farads": 15e-12},
         "sampling": {"rateHz": 1e7, "points": 2000, "startSeconds": 1e-9}}
        """;
    JsonNode json =
        json(
            run(
                Signals.step(1, 0),
                SetupReader.read(Json.parse("setup", setup)),
                Readings.maximum(),
                Readings.minimum()));
    double start = 1.1 / 1.01;
    double farads = 100e-12 * (1 + 1.1 / 9);
    double tau = 0.9e6 * farads;
    assertEquals(
        1 + (start - 1) * Math.exp(-1e-9 / tau), value(json, "/readings/0/measured"), 1e-9);
    assertEquals(
        1 + (start - 1) * Math.exp(-(1e-9 + 1999e-7) / tau),
        value(json, "/readings/1/measured"),
        1e-9);
    assertEquals("probe", json.at("/readings/0/byStageInOrder/0/stage").asString());
  }

  /** Beyond the ratings of probe and input, and undivided direct voltage across a capacitor. */
  @Test
  void ratingsRaiseCautions() {
    String setup =
        """
        {"probe": {"kind": "passiveDivider", "attenuation": 10, "rating": {"peakVolts": 15}},
         "inputRating": {"peakVolts": 10},
         "coupling": {"kind": "capacitor", "farads": 16e-9},
         "sampling": {"rateHz": 1e6, "points": 1000}}
        """;
    List<String> cautions =
        run(Signals.constant(20), SetupReader.read(Json.parse("setup", setup)), Readings.mean())
            .cautions();
    assertEquals(3, cautions.size(), cautions::toString);
    assertTrue(cautions.get(0).contains("rating of the probe's tip"), cautions::toString);
    assertTrue(cautions.get(1).contains("rating of the instrument's input"), cautions::toString);
    assertTrue(cautions.get(2).contains("undivided"), cautions::toString);
  }

  /**
   * What a reading refuses of this signal and this setup comes out as the sentence of a scenario.
   */
  @Test
  void tooMuchWorkIsOneSentence() {
    Reading reading =
        new Reading() {
          @Override
          public String name() {
            return "number of turns";
          }

          @Override
          public String unit() {
            return "";
          }

          @Override
          public Measured of(Record record) {
            return new Measured.Value(0);
          }

          @Override
          public Measured of(Waveform truth, double fromSeconds, double toSeconds) {
            throw new IllegalArgumentException("turns = 2E10: must be from 0 to 1000");
          }

          @Override
          public String toString() {
            return name();
          }
        };
    ScenarioException e =
        assertThrows(
            ScenarioException.class, () -> run(Signals.sine(1, 1e9), Setup.ideal(1, 10), reading));
    assertEquals(
        "t: reading \"number of turns\": turns = 2E10: must be from 0 to 1000.", e.getMessage());
  }

  @Test
  void refusesWhatIsNoScenario() {
    List<Reading> readings = List.of(Readings.mean());
    Signal signal = Signals.constant(1);
    assertThrows(
        IllegalArgumentException.class,
        () -> new Scenario(" ", List.of(), signal, SETUP, readings));
    assertThrows(
        IllegalArgumentException.class,
        () -> new Scenario("t", List.of(), signal, SETUP, List.of()));
    assertThrows(
        NullPointerException.class, () -> new Scenario(null, List.of(), signal, SETUP, readings));
    assertThrows(
        NullPointerException.class, () -> new Scenario("t", null, signal, SETUP, readings));
    assertThrows(
        NullPointerException.class, () -> new Scenario("t", List.of(), null, SETUP, readings));
    assertThrows(
        NullPointerException.class, () -> new Scenario("t", List.of(), signal, null, readings));
    assertThrows(
        NullPointerException.class, () -> new Scenario("t", List.of(), signal, SETUP, null));
    assertThrows(NullPointerException.class, () -> ScenarioResult.of(null));
    ScenarioResult good = run(signal, SETUP, Readings.mean());
    assertThrows(
        IllegalArgumentException.class,
        () -> new ScenarioResult(good.scenario(), good.record(), List.of(), List.of()));
  }
}
