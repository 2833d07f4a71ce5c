package org.asmeasured.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.asmeasured.acquisition.Ensemble;
import org.asmeasured.acquisition.NoEvent;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.capture.Setup;
import org.asmeasured.characterisation.CharacterisationReadings;
import org.asmeasured.digitizer.Linearity;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Readings;
import org.asmeasured.pulse.PulseMethod;
import org.asmeasured.pulse.PulseQuantity;
import org.asmeasured.pulse.PulseReadings;
import org.asmeasured.scenario.LinearityTest;
import org.asmeasured.scenario.Scenario;
import org.asmeasured.scenario.ScenarioResult;
import org.asmeasured.scenario.Scenarios;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.asmeasured.spectrum.HarmonicMethod;
import org.asmeasured.spectrum.SpectrumMethod;
import org.asmeasured.spectrum.SpectrumReadings;
import org.asmeasured.spectrum.Window;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** A picture appears when a reading of its kind is asked for, and names what it marks. */
class ReadingPicturesTest {
  private static final Signal SINE = Signals.sine(1, 1e4);
  private static final Setup SETUP = Setup.ideal(1e6, 1000);

  @BeforeAll
  static void withoutAScreen() {
    System.setProperty("java.awt.headless", "true");
  }

  private static Map<String, Picture> bundled(String name) {
    return byName(
        ReadingPictures.of(ScenarioResult.of(Scenarios.load(Path.of("scenarios", name)))));
  }

  private static Map<String, Picture> of(Signal signal, Setup setup, Reading... readings) {
    return byName(
        ReadingPictures.of(
            ScenarioResult.of(new Scenario("t", List.of(), signal, setup, List.of(readings)))));
  }

  private static Map<String, Picture> byName(List<Picture> pictures) {
    Map<String, Picture> named = new LinkedHashMap<>();
    for (Picture picture : pictures) {
      assertTrue(Report.isOurs(picture.file() + ".png"), picture.file());
      assertTrue(named.put(picture.file(), picture) == null, picture.file());
    }
    return named;
  }

  private static void says(Picture picture, String... words) {
    for (Picture.Size size : List.of(picture.wide(), picture.narrow())) {
      String svg = picture.svg(size);
      for (String word : words) {
        assertTrue(svg.contains(">" + word + "<"), () -> picture.file() + ": " + word);
      }
    }
  }

  @Test
  void statesAndCrossingsOfARingingEdge() {
    Map<String, Picture> pictures = bundled("ringing-edge.json");
    assertEquals(List.of("levels", "transition", "histogram"), List.copyOf(pictures.keySet()));
    for (String file : List.of("levels", "transition")) {
      says(
          pictures.get(file),
          "high state",
          "low state",
          "10 %",
          "50 %",
          "90 %",
          "Reference levels",
          "Where the record crosses them",
          "Voltage (V)");
    }
    says(pictures.get("histogram"), "Share of the points (%)", "Voltage (V)");
    String caption = pictures.get("levels").caption();
    assertTrue(caption.contains("The record has 5 transitions."), caption);
  }

  @Test
  void spectrumAndResidualsOfADistortedSine() {
    Map<String, Picture> pictures = bundled("distorted-sine.json");
    assertEquals(
        List.of("spectrum", "residuals", "residuals-by-phase"), List.copyOf(pictures.keySet()));
    says(
        pictures.get("spectrum"),
        "1",
        "2",
        "3",
        "Frequency (MHz)",
        "Relative to the fundamental (dB)",
        "Noise floor, in a bin");
    says(pictures.get("residuals-by-phase"), "Phase, from the crest (°)", "180", "270");
    says(pictures.get("residuals"), "Record less sine (mV)", "RMS of what is left");
  }

  @Test
  void nonlinearityOfAConverter() {
    Map<String, Picture> pictures = bundled("converter-by-histogram.json");
    assertEquals(List.of("histogram", "inl", "dnl"), List.copyOf(pictures.keySet()));
    says(pictures.get("inl"), "INL (steps)", "Found", "Truth", "Code");
    says(pictures.get("dnl"), "DNL (steps)", "Found", "Truth", "Code");
  }

  @Test
  void noneWhereNoReadingOfTheKindIsAskedFor() {
    assertEquals(Map.of(), of(SINE, SETUP, Readings.mean(), Readings.peakToPeak()));
  }

  /** Methods that a picture cannot tell apart share one. */
  @Test
  void oneForEachMethod() {
    PulseMethod extremes =
        PulseMethod.standard().levels(org.asmeasured.pulse.StateLevels.peakMagnitude());
    assertEquals(
        List.of("levels", "levels-2", "histogram"),
        List.copyOf(
            of(
                    SINE,
                    SETUP,
                    PulseReadings.riseTime(),
                    PulseReadings.of(
                        PulseQuantity.SETTLING_RISING, PulseMethod.standard().settling(5, 3)),
                    PulseReadings.of(PulseQuantity.RISE_TIME, extremes))
                .keySet()));
    assertEquals(
        List.of("spectrum", "spectrum-2"),
        List.copyOf(
            of(
                    SINE,
                    SETUP,
                    SpectrumReadings.thd(HarmonicMethod.standard()),
                    SpectrumReadings.sinad(HarmonicMethod.standard()),
                    SpectrumReadings.amplitudeAt(SpectrumMethod.wholeRecord(Window.hann()), 1e4))
                .keySet()));
  }

  @Test
  void drawsWhateverItIsGiven() {
    Reading[] all = {
      PulseReadings.riseTime(),
      Readings.percentile(90),
      SpectrumReadings.thd(HarmonicMethod.standard()),
      CharacterisationReadings.residualNoise()
    };
    for (Signal signal :
        List.of(Signals.constant(0), Signals.constant(1), Signals.step(1, 5e-4), SINE)) {
      for (Setup setup :
          List.of(
              SETUP,
              Setup.ideal(1e6, 1),
              Setup.ideal(1e6, 8),
              SETUP.bits(8),
              SETUP.trigger(Trigger.at(0.5).noEvent(NoEvent.waitFor(1e-3))),
              Setup.ideal(1e6, 50_000))) {
        of(signal, setup, all).values().forEach(Picture::rendered);
      }
    }
    Setup envelope = SETUP.trigger(Trigger.at(0)).ensemble(Ensemble.envelopeOf(4));
    assertEquals(Map.of(), of(SINE, envelope, all));
  }

  @Test
  void noneOfATestThatCannotBeDone() {
    ScenarioResult result =
        ScenarioResult.of(
            new Scenario("t", List.of(), SINE, SETUP.bits(8), List.of(Readings.mean()))
                .withLinearityTest(
                    new LinearityTest(LinearityTest.Stimulus.SINE, Linearity.Line.END_POINTS)));
    assertEquals(List.of(), ReadingPictures.of(result));
    Account account = Accounts.of(result);
    assertTrue(
        account.converterTest().get(0).contains("not taken: "), account.converterTest()::toString);
    assertTrue(TerminalPage.of(account, Path.of("p")).contains("Converter "));
  }

  @Test
  void scatterWithItsDigits() {
    Account account =
        Accounts.of(ScenarioResult.of(Scenarios.load(Path.of("scenarios", "ringing-edge.json"))));
    assertEquals(50, account.captures());
    assertEquals(account.outcomes().size(), account.spreads().size());
    Account.Spread period = account.spreads().get(7);
    assertEquals("period", period.name());
    assertTrue(period.mean().matches("(1\\.00000|0\\.99999)\\d* µs"), period.mean());
    assertTrue(!period.least().equals(period.greatest()), period.least());
    assertTrue(period.deviation().endsWith(" ps"), period.deviation());
    assertTrue(TerminalPage.of(account, Path.of("p")).contains("Over 50 "));
  }
}
