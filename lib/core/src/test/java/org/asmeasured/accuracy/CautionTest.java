package org.asmeasured.accuracy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.asmeasured.accuracy.Caution.Subject;
import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.capture.Channel;
import org.asmeasured.capture.Setup;
import org.asmeasured.frontend.ActiveProbe;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.CurrentProbe;
import org.asmeasured.frontend.GroundLead;
import org.asmeasured.frontend.InputRating;
import org.asmeasured.frontend.PassiveDivider;
import org.asmeasured.frontend.Probe;
import org.asmeasured.frontend.Refused;
import org.asmeasured.frontend.Source;
import org.asmeasured.frontend.Termination;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;

class CautionTest {
  private static final Setup SETUP = Setup.ideal(1e6, 1000);
  private static final Signal MAINS = Signals.sine(325, 50);

  private static List<Subject> subjects(Signal signal, Setup setup) {
    return Caution.of(signal, setup).stream().map(Caution::subject).toList();
  }

  private static String only(Signal signal, Setup setup) {
    List<Caution> all = Caution.of(signal, setup);
    assertEquals(1, all.size(), all::toString);
    return all.get(0).words();
  }

  @Test
  void nothingToSay() {
    Setup whole =
        SETUP
            .source(50)
            .probe(PassiveDivider.times10().withRating(InputRating.ofPeak(300)))
            .rating(InputRating.ofPeak(100))
            .coupling(Coupling.capacitor());
    assertEquals(List.of(), Caution.of(Signals.sine(5, 1e3), whole));
    assertEquals(List.of(), Caution.of(Signals.constant(3.3), SETUP));
  }

  /** Whatever the signal was taken for, 230 V RMS were recorded; 20 V were not. */
  @Test
  void aRecordTellsItsOwnLevel() {
    Setup whole = SETUP.rateHz(1e4).points(400);
    Caution said = Caution.of(whole.capture(MAINS, 1)).get(0);
    assertEquals(Subject.HAZARDOUS_VOLTAGE, said.subject());
    assertTrue(
        said.words().startsWith("Hazardous voltage as recorded: 229.8 V RMS, up to 325 V"),
        said.words());
    assertTrue(said.words().contains("Local codes and licensed practice decide"), said.words());
    assertEquals(List.of(), Caution.of(whole.capture(Signals.sine(20, 50), 1)));
    assertEquals(1, Caution.of(whole.capture(Signals.constant(-61), 1)).size());
    assertEquals(List.of(), Caution.of(whole.capture(Signals.constant(-59), 1)));
    assertThrows(NullPointerException.class, () -> Caution.of(null));
    Setup envelope = whole.decimation(new PeakDetect(20)).points(20);
    assertEquals(
        Subject.HAZARDOUS_VOLTAGE, Caution.of(envelope.capture(MAINS, 1)).get(0).subject());
    assertEquals(List.of(), Caution.of(envelope.capture(Signals.sine(20, 50), 1)));
  }

  /** The record ends after the last instant that a signal has: that is a caution too. */
  @Test
  void whatCannotBeLookedAtIsSaid() {
    Setup whole = SETUP.startingAt(1e12);
    assertThrows(IllegalArgumentException.class, () -> Caution.of(MAINS, whole));
    List<Caution> said = Caution.asFarAsKnown(MAINS, whole);
    assertEquals(1, said.size());
    assertEquals(Subject.NOT_CHECKED, said.get(0).subject());
    assertTrue(said.get(0).words().startsWith("Not checked for voltages"), said.toString());
    assertEquals(Caution.of(MAINS, SETUP), Caution.asFarAsKnown(MAINS, SETUP));
    assertThrows(NullPointerException.class, () -> Caution.asFarAsKnown(null, SETUP));
    assertEquals("input rating", Subject.INPUT_RATING.toString());
    assertTrue(Subject.INPUT_POWER.isBeyondRating());
    assertFalse(Subject.HAZARDOUS_VOLTAGE.isBeyondRating());
  }

  @Test
  void aClipOnALiveNodeAndInputsInSeries() {
    Setup live = SETUP.source(new Source(50, 0).withReference(120));
    Signal small = Signals.sine(1, 1e3);
    assertEquals(List.of(Subject.GROUND_CLIP), subjects(small, live));
    String words = only(small, live);
    for (String said :
        List.of(
            "120 V to earth",
            "short-circuit",
            "differential or an isolated probe",
            "Local codes")) {
      assertTrue(words.contains(said), words);
    }
    Probe current = new CurrentProbe(0.1, Bandwidth.unlimited(), InputRating.unstated());
    assertEquals(List.of(), subjects(small, live.probe(current)));
    Channel earthed = new Channel("low side", SETUP);
    Channel high = new Channel("high side", live);
    List<Caution> between = Caution.between(List.of(earthed, high, earthed));
    assertEquals(2, between.size());
    assertEquals(Subject.INPUTS_IN_SERIES, between.get(0).subject());
    assertTrue(
        between
            .get(0)
            .words()
            .startsWith("The references of low side and high side differ by 120 V"),
        between.get(0).words());
    assertEquals(List.of(), Caution.between(List.of(earthed, earthed)));
    assertEquals(
        List.of(), Caution.between(List.of(earthed, new Channel("current", live.probe(current)))));
  }

  /** A record far shorter than a period of the mains sees the whole of it. */
  @Test
  void hazardousVoltageWithTheUsualWords() {
    String words = only(MAINS, Setup.ideal(1e9, 100));
    for (String said :
        List.of(
            "229.8 V RMS, up to 325 V",
            "must be rated for this voltage and for the measurement category",
            "ground clip is earth",
            "Local codes and licensed practice decide")) {
      assertTrue(words.contains(said), words);
    }
    assertEquals(List.of(Subject.HAZARDOUS_VOLTAGE), subjects(MAINS, SETUP));
    assertEquals(
        List.of(Subject.OUTSIDE_THE_RECORD), subjects(Signals.pulse(1000, 1, 1, 0, 0), SETUP));
  }

  @Test
  void ratingsAreOfPeakAndRms() {
    Signal signal = Signals.sine(20, 1e3).plus(5);
    assertEquals(List.of(), subjects(signal, SETUP.rating(InputRating.ofPeak(25))));
    assertTrue(
        only(signal, SETUP.rating(InputRating.ofPeak(24.9)))
            .startsWith(
                "Beyond the rating of the instrument's input: up to 25 V and 15 V RMS where it is"
                    + " rated for 24.9 V peak. Probes and inputs must be rated"));
    double none = Double.POSITIVE_INFINITY;
    assertEquals(List.of(), subjects(signal, SETUP.rating(new InputRating(none, 15))));
    assertEquals(
        List.of(Subject.INPUT_RATING), subjects(signal, SETUP.rating(new InputRating(none, 14.9))));
    // direct and alternating part together, and a negative peak counts as one
    assertEquals(
        List.of(Subject.INPUT_RATING),
        subjects(signal.times(-1), SETUP.rating(InputRating.ofPeak(24.9))));
  }

  @Test
  void aDividerSparesTheInputButNotItself() {
    Setup direct = SETUP.rating(InputRating.ofPeak(10));
    Signal signal = Signals.sine(20, 1e3);
    assertEquals(List.of(Subject.INPUT_RATING), subjects(signal, direct));
    assertEquals(List.of(), subjects(signal, direct.probe(PassiveDivider.times10())));
    Setup weak = direct.probe(PassiveDivider.times10().withRating(InputRating.ofPeak(19)));
    assertEquals(List.of(Subject.PROBE_RATING), subjects(signal, weak));
    // the load takes half of it before it reaches the tip
    assertEquals(List.of(), subjects(signal, weak.source(1e7)));
    ActiveProbe active =
        ActiveProbe.of(1e6, 1e-12, Bandwidth.unlimited())
            .withAttenuation(10)
            .withRating(InputRating.ofPeak(19));
    assertEquals(List.of(Subject.PROBE_RATING), subjects(signal, direct.probe(active)));
  }

  /** Peak of a ringing step by its overshoot, exp(-pi zeta/sqrt(1 - zeta^2)): 44.434 %. */
  @Test
  void ringingCounts() {
    Signal step = Signals.step(10, 1e-6);
    ActiveProbe probe =
        ActiveProbe.of(1e15, 10e-12, Bandwidth.unlimited())
            .withGroundLead(GroundLead.ofLength(100));
    Setup setup = SETUP.source(50);
    assertEquals(
        List.of(Subject.PROBE_RATING),
        subjects(step, setup.probe(probe.withRating(InputRating.ofPeak(14.443)))));
    assertEquals(
        List.of(), subjects(step, setup.probe(probe.withRating(InputRating.ofPeak(14.444)))));
  }

  @Test
  void couplingCapacitorCarriesTheWholeDirectVoltage() {
    Signal rail = Signals.sine(0.1, 1e3).plus(48);
    Setup setup = SETUP.probe(PassiveDivider.times10()).rating(InputRating.ofPeak(10));
    assertEquals(List.of(), subjects(rail, setup));
    assertEquals(List.of(), subjects(rail, setup.coupling(Coupling.ac())));
    Setup capacitor = setup.coupling(Coupling.capacitor());
    assertEquals(
        List.of(Subject.INPUT_RATING, Subject.COUPLING_CAPACITOR), subjects(rail, capacitor));
    String words = Caution.of(rail, capacitor).get(1).words();
    assertTrue(words.contains("undivided, 48 V:"), words);
    // an amplifier ahead of it has divided already
    ActiveProbe active = ActiveProbe.of(1e6, 1e-12, Bandwidth.unlimited()).withAttenuation(10);
    assertEquals(List.of(), subjects(rail, capacitor.probe(active)));
  }

  @Test
  void powerAndProbeOfAnotherInput() {
    Setup fifty = SETUP.termination(Termination.fiftyOhm());
    assertEquals(List.of(), subjects(Signals.constant(5), fifty));
    assertTrue(only(Signals.constant(6), fifty).contains("50 ohm would turn 720 mW into heat"));
    assertTrue(
        only(Signals.constant(6), fifty.probe(PassiveDivider.times10()))
            .startsWith("The probe is made for an input of 1 Mohm, and this one has 50 ohm"));
    ActiveProbe matched = ActiveProbe.of(1e6, 0, Bandwidth.unlimited()).drivingFiftyOhm();
    assertEquals(List.of(), subjects(Signals.constant(1), fifty.probe(matched)));
    assertEquals(
        List.of(Subject.PROBE_AND_INPUT), subjects(Signals.constant(1), SETUP.probe(matched)));
  }

  @Test
  void refusals() {
    Refused.missing("signal", () -> Caution.of(null, SETUP));
    Refused.missing("setup", () -> Caution.of(MAINS, null));
    Refused.missing("subject", () -> new Caution(null, "words"));
    Refused.missing("words", () -> new Caution(Subject.INPUT_POWER, null));
    Refused.message("words", "\" \"", () -> new Caution(Subject.INPUT_POWER, " "));
    assertEquals("Mind it.", new Caution(Subject.INPUT_POWER, "Mind it.").toString());
  }
}
