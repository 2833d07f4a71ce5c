package org.asmeasured.scenario;

import java.util.function.Function;
import org.asmeasured.measure.Reading;
import org.asmeasured.spectrum.HarmonicMethod;
import org.asmeasured.spectrum.SpectrumMethod;
import org.asmeasured.spectrum.SpectrumReadings;
import org.asmeasured.spectrum.Window;

/** The readings of spectra that a scenario can ask for. */
final class SpectrumReadingKinds {
  static final Kinds<Window> WINDOWS =
      new Kinds<Window>("window")
          .add("rectangular", "", f -> Window.rectangular())
          .add("hann", "", f -> Window.hann())
          .add("hamming", "", f -> Window.hamming())
          .add("blackman", "", f -> Window.blackman())
          .add("blackmanHarris", "", f -> Window.blackmanHarris())
          .add("flatTop", "", f -> Window.flatTop())
          .add(
              "cosineSum",
              "name coefficients",
              f -> Window.cosineSum(f.text("name"), f.numbers("coefficients")));

  private static final String SPECTRUM = "window? segmentPoints? overlap?";
  private static final String HARMONICS = SPECTRUM + " highestOrder? fundamentalHz?";
  private static final int MAX_POINTS = 1 << 28;

  private SpectrumReadingKinds() {}

  static void addTo(Kinds<Reading> kinds) {
    harmonic(kinds, "thd", SpectrumReadings::thd);
    harmonic(kinds, "noiseAndDistortion", SpectrumReadings::noiseAndDistortion);
    harmonic(kinds, "sinad", SpectrumReadings::sinad);
    harmonic(kinds, "snr", SpectrumReadings::snr);
    harmonic(kinds, "sfdr", SpectrumReadings::sfdr);
    harmonic(kinds, "noiseFloor", SpectrumReadings::noiseFloor);
    harmonic(kinds, "fundamentalFrequency", SpectrumReadings::fundamentalFrequency);
    harmonic(kinds, "fundamentalAmplitude", SpectrumReadings::fundamentalAmplitude);
    kinds
        .add(
            "effectiveBits",
            HARMONICS + " fullScaleVolts?",
            f ->
                f.has("fullScaleVolts")
                    ? SpectrumReadings.effectiveBits(harmonics(f), f.number("fullScaleVolts"))
                    : SpectrumReadings.effectiveBits(harmonics(f)))
        .add(
            "amplitudeAt",
            "frequencyHz " + SPECTRUM + " meanRemoved?",
            f ->
                SpectrumReadings.amplitudeAt(
                    spectrum(f, f.flagOr("meanRemoved", true)), f.number("frequencyHz")));
  }

  private static void harmonic(
      Kinds<Reading> kinds, String kind, Function<HarmonicMethod, Reading> reading) {
    kinds.add(kind, HARMONICS, f -> reading.apply(harmonics(f)));
  }

  private static HarmonicMethod harmonics(Fields fields) {
    HarmonicMethod method =
        HarmonicMethod.standard()
            .withSpectrum(spectrum(fields, true))
            .withHighestOrder(
                fields.wholeOr("highestOrder", HarmonicMethod.standard().highestOrder()));
    return fields.has("fundamentalHz")
        ? method.withFundamentalHz(fields.number("fundamentalHz"))
        : method;
  }

  private static SpectrumMethod spectrum(Fields fields, boolean meanRemoved) {
    Window window =
        fields.has("window")
            ? WINDOWS.read(fields.child("window"))
            : HarmonicMethod.standard().spectrum().window();
    if (!fields.has("segmentPoints")) {
      if (fields.has("overlap")) {
        throw fields
            .child("overlap")
            .refused("key \"segmentPoints\" is missing: only segments can overlap");
      }
      return new SpectrumMethod(window, 0, 0, meanRemoved);
    }
    int points = fields.whole("segmentPoints");
    if (points < window.leastPoints() || points > MAX_POINTS) {
      // 0 is the whole record in the library; a file leaves the key out
      throw fields
          .child("segmentPoints")
          .refused(
              "segmentPoints = "
                  + points
                  + ": with a window \""
                  + window
                  + "\" must be from "
                  + window.leastPoints()
                  + " to "
                  + MAX_POINTS);
    }
    return new SpectrumMethod(window, points, fields.numberOr("overlap", 0), meanRemoved);
  }
}
