package org.asmeasured.spectrum;

import static org.asmeasured.internal.Refusals.absent;
import static org.asmeasured.internal.Refusals.bounded;
import static org.asmeasured.internal.Refusals.hertz;
import static org.asmeasured.internal.Refusals.mismatch;
import static org.asmeasured.internal.Refusals.refused;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.asmeasured.capture.Record;
import org.asmeasured.measure.Outcome;
import org.asmeasured.signal.Signals;
import org.asmeasured.signal.Waveform;
import org.junit.jupiter.api.Test;

class SpectrumRefusalTest {
  private static final SpectrumMethod HANN = SpectrumMethod.wholeRecord(Window.hann());
  private static final HarmonicMethod STANDARD = HarmonicMethod.standard();

  @Test
  void methods() {
    absent("window", () -> SpectrumMethod.wholeRecord(null));
    refused("segmentPoints", n -> new SpectrumMethod(Window.hann(), n, 0, false), -1, 1, 3);
    refused("points", n -> HANN.withSegments(n, 0), -1, 0, 3, (1 << 28) + 1);
    bounded("overlap", "", 0, 0.95, v -> HANN.withSegments(64, v));
    refused("points", n -> HANN.reader(n), 3, -1, (1 << 28) + 1);
    mismatch(() -> HANN.withSegments(64, 0).reader(65), "points = 65", "64");
    absent("record", () -> HANN.of((Record) null));
    absent("volts", () -> HANN.of(null, 1));
    hertz("rateHz", v -> HANN.of(new double[8], v));
    refused("volts[3]", "V", v -> HANN.of(new double[] {0, 0, 0, v}, 1), 1.0000001e9, -1.0000001e9);
  }

  @Test
  void harmonics() {
    absent("spectrum", () -> new HarmonicMethod(null, 10, 0));
    mismatch(() -> STANDARD.withSpectrum(HANN), "meanRemoved = false");
    refused("highestOrder", n -> STANDARD.withHighestOrder(n), -1, 0, 1, 1001);
    hertz("fundamentalHz", STANDARD::withFundamentalHz);
    absent("taken", () -> STANDARD.of((Spectrum) null));
    Spectrum other = HANN.of(new double[8], 1).orThrow();
    mismatch(() -> STANDARD.of(other), "taken", "Blackman-Harris");
    Harmonics h = STANDARD.of(SpectrumTest.tone(100, 0, 1, 20, 0), 1).orThrow();
    refused("fullScaleVolts", "V", h::effectiveBits, 0, -1, 1.1e9);
    refused("fullScaleVolts", "V", v -> SpectrumReadings.effectiveBits(STANDARD, v), 0, -1, 1.1e9);
  }

  @Test
  void readings() {
    absent("method", () -> SpectrumReadings.thd(null));
    absent("method", () -> SpectrumReadings.amplitudeAt(null, 1));
    hertz("frequencyHz", v -> SpectrumReadings.amplitudeAt(HANN, v));
    absent("record", () -> SpectrumReadings.thd(STANDARD).of(null));
    absent("truth", () -> SpectrumReadings.thd(STANDARD).of((Waveform) null, 0, 1));
    absent("truth", () -> SpectrumReadings.amplitudeAt(HANN, 1).of((Waveform) null, 0, 1));
    mismatch(
        () -> SpectrumReadings.thd(STANDARD).of(Signals.sine(1, 1), 1, 1),
        "must not be empty",
        "1.0");
  }

  @Test
  void spectrumAndReader() {
    Spectrum s = HANN.of(new double[10], 1).orThrow();
    refused("bin", n -> s.at(n, Scale.RMS), -1, 6);
    refused("bin", n -> s.frequencyHz(n), -1, 6);
    refused("bin", n -> s.phaseRadians(n), -1, 6);
    absent("scale", () -> s.at(0, null));
    absent("scale", () -> s.values(null, Sides.ONE));
    absent("sides", () -> s.values(Scale.RMS, null));
    absent("sides", () -> s.frequenciesHz(null));
    SpectrumReader reader = HANN.reader(10);
    absent("volts", () -> reader.read(null, 0, 10, new double[6]));
    absent("meanSquares", () -> reader.read(new double[10], 0, 10, null));
    refused("count", n -> reader.read(new double[10], 0, n, new double[6]), 9, 0);
    assertThrows(
        IndexOutOfBoundsException.class, () -> reader.read(new double[10], 1, 10, new double[6]));
    assertThrows(
        IndexOutOfBoundsException.class, () -> reader.read(new double[10], 0, 10, new double[5]));
    refused("count", n -> reader.segments(n), -1);
  }

  @Test
  void outcomesAndTones() {
    absent("result", () -> new Outcome.Taken<>(null));
    absent("reason", () -> new Outcome.NotTaken<>(null));
    mismatch(() -> new Outcome.NotTaken<>(" "), "reason");
    IllegalStateException e =
        assertThrows(
            IllegalStateException.class, () -> new Outcome.NotTaken<String>("why").orThrow());
    org.junit.jupiter.api.Assertions.assertEquals("not taken: why", e.getMessage());
    refused("order", n -> new Tone(n, 0, 0, 0, ""), -1);
    refused("frequencyHz", -1, "Hz", () -> new Tone(1, -1, 0, 0, ""));
    refused("foldedHz", -1, "Hz", () -> new Tone(1, 0, -1, 0, ""));
    refused("rmsVolts", -1, "V", () -> new Tone(1, 0, 0, -1, ""));
    absent("over", () -> new Tone(1, 0, 0, 0, null));
  }
}
