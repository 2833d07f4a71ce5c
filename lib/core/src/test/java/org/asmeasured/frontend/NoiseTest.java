package org.asmeasured.frontend;

import static org.asmeasured.internal.Refusals.absent;
import static org.asmeasured.internal.Refusals.bounded;
import static org.asmeasured.internal.Refusals.duration;
import static org.asmeasured.internal.Refusals.hertz;
import static org.asmeasured.internal.Refusals.mismatch;
import static org.asmeasured.internal.Refusals.refused;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.asmeasured.linear.NoiseProcess;
import org.junit.jupiter.api.Test;

class NoiseTest {
  private static final FrontEnd PATH = FrontEnd.ideal().withBandwidth(Bandwidth.bessel(4, 200e6));
  private static final FrontEnd LIMITED = PATH.withLimit(Bandwidth.butterworth(2, 20e6));
  private static final double RATE = 1e9;

  private static NoiseProcess of(Noise noise, FrontEnd frontEnd) {
    return noise.process(frontEnd, 8, RATE, 1e-2).orElseThrow();
  }

  @Test
  void noneIsNothing() {
    assertTrue(Noise.none().isNone());
    assertTrue(Noise.none().process(FrontEnd.ideal(), 8, RATE, 1).isEmpty());
    assertFalse(Noise.white(1e-9).isNone());
    assertFalse(Noise.none().withShareOfFullScale(1e-3).isNone());
    assertTrue(SourceNoise.none().process(FrontEnd.ideal(), RATE).isEmpty());
  }

  @Test
  void bandwidthAndLimitShapeIt() {
    Noise noise = Noise.white(30e-9);
    double full = 30e-9 * Math.sqrt(PATH.response().equivalentNoiseBandwidthHz());
    double limited = 30e-9 * Math.sqrt(LIMITED.response().equivalentNoiseBandwidthHz());
    assertEquals(full, of(noise, PATH).rms(), 1e-10 * full);
    assertEquals(limited, of(noise, LIMITED).rms(), 1e-10 * limited);
    // what comes before the amplifier does not
    FrontEnd before = PATH.withSource(50).withCoupling(Coupling.ac());
    assertEquals(full, of(noise, before).rms(), 1e-10 * full);
  }

  @Test
  void shareOfFullScaleAddsInVariance() {
    Noise share = Noise.none().withShareOfFullScale(1e-3);
    assertEquals(8e-3, of(share, PATH).rms(), 1e-12);
    double white = of(Noise.white(30e-9), PATH).rms();
    Noise both = Noise.white(30e-9).withShareOfFullScale(1e-3);
    assertEquals(Math.hypot(white, 8e-3), of(both, PATH).rms(), 1e-12);
    // the limit takes from both alike
    double ratio = of(Noise.white(30e-9), LIMITED).rms() / white;
    assertEquals(ratio * Math.hypot(white, 8e-3), of(both, LIMITED).rms(), 1e-12);
    // where only the limit bounds the noise, it is what the share is stated for
    FrontEnd limit = FrontEnd.ideal().withLimit(Bandwidth.singlePole(20e6));
    assertEquals(8e-3, of(share, limit).rms(), 1e-12);
  }

  @Test
  void flickerBelongsToTheWhitePart() {
    double corner = 1e4;
    Noise white = Noise.white(30e-9);
    Noise flicker = white.withCorner(corner);
    double more = Math.pow(of(flicker, PATH).rms(), 2) - Math.pow(of(white, PATH).rms(), 2);
    // e^2 fc ln(fH/fL), fL = 100 Hz, fH = 10 MHz, within the path's 200 MHz but for the end
    double expected = 30e-9 * 30e-9 * corner * Math.log(1e5);
    assertEquals(expected, more, 0.01 * expected);
    double stated =
        Math.pow(of(white.withCorner(corner, 1), PATH).rms(), 2)
            - Math.pow(of(white, PATH).rms(), 2);
    assertEquals(expected * Math.log(1e7) / Math.log(1e5), stated, 0.01 * expected);
    // beside a part of full scale the 1/f part keeps its strength, and ends at a thousand times the
    // frequency at which it is as strong as all of the rest
    Noise both = flicker.withShareOfFullScale(1e-4);
    double moreOfBoth =
        Math.pow(of(both, PATH).rms(), 2)
            - Math.pow(of(white.withShareOfFullScale(1e-4), PATH).rms(), 2);
    double part =
        Math.pow(of(white, PATH).rms() / of(white.withShareOfFullScale(1e-4), PATH).rms(), 2);
    assertEquals(expected * Math.log(1e5 * part) / Math.log(1e5), moreOfBoth, 0.01 * expected);
    // at the corner the density has doubled
    NoiseProcess p = of(white.withCorner(corner, 1), PATH);
    assertEquals(2, p.spectrumAt(corner) / p.spectrumAt(1e7), 0.03);
    // a time far shorter than one over the corner sees none of it
    assertEquals(
        of(white, PATH).rms(), flicker.process(PATH, 8, RATE, 1e-6).orElseThrow().rms(), 1e-18);
  }

  /** sqrt(kT/C), whatever the resistance: reference value for 15 pF at 300 K. */
  @Test
  void thermalNoiseOfASourceIntoACapacitance() {
    for (double ohms : new double[] {50, 1e3, 1e6}) {
      FrontEnd input =
          FrontEnd.ideal().withSource(ohms).withTermination(new Termination(1e12, 15e-12));
      double rms = SourceNoise.thermal(ohms, 300).process(input, 1e12).orElseThrow().rms();
      assertEquals(1.66171537875775e-5, rms, 1e-5 * 1.66e-5);
    }
  }

  @Test
  void sourceNoiseGoesThroughTheWholeChain() {
    FrontEnd chain = LIMITED.withSource(50).withTermination(Termination.fiftyOhm());
    double gain = chain.response().peakGain();
    double expected = 1e-9 * gain * Math.sqrt(chain.response().equivalentNoiseBandwidthHz());
    double rms = new SourceNoise(1e-9).process(chain, RATE).orElseThrow().rms();
    assertEquals(expected, rms, 1e-10 * expected);
  }

  @Test
  void refusals() {
    refused("densityVoltsPerRootHz", "V/sqrt(Hz)", e -> Noise.white(e), -1e-30, 1001);
    refused("densityVoltsPerRootHz", "V/sqrt(Hz)", e -> new SourceNoise(e), -1e-30, 1001);
    Noise white = Noise.white(1e-9);
    refused("cornerHz", "Hz", f -> white.withCorner(f), -1, 0.99e-6, 1.01e12);
    refused("lowestHz", "Hz", f -> white.withCorner(1e6, f), -1, 0.99e-9, 1.01e12);
    mismatch(() -> white.withCorner(1e3, 50_001), "lowestHz = 50001.0 Hz", "cornerHz = 1000.0 Hz");
    mismatch(() -> white.withCorner(0, 10), "lowestHz = 10.0 Hz", "cornerHz = 0.0 Hz");
    mismatch(() -> Noise.none().withCorner(10), "cornerHz = 10.0 Hz", "densityVoltsPerRootHz");
    bounded("shareOfFullScale", "", 0, 0.1, s -> white.withShareOfFullScale(s));
    absent("frontEnd", () -> white.process(null, 8, 1, 1));
    absent("frontEnd", () -> new SourceNoise(1).process(null, 1));
    refused("fullScaleVolts", "V", v -> white.process(PATH, v, RATE, 1), 0, -1);
    FrontEnd slow = FrontEnd.ideal().withBandwidth(Bandwidth.singlePole(1e6));
    hertz("rateHz", f -> white.process(slow, 8, f, 1));
    hertz("rateHz", f -> new SourceNoise(1).process(slow, f));
    duration("observedSeconds", t -> white.process(PATH, 8, RATE, t));
    bounded("tolerance", "", 1e-7, 0.1, e -> white.process(PATH, 8, RATE, 1, e));
    mismatch(() -> white.process(FrontEnd.ideal(), 8, RATE, 1), "must have a bandwidth or a limit");
    mismatch(() -> new SourceNoise(1).process(FrontEnd.ideal(), RATE), "must fall to zero");
    bounded("ohms", "ohm", 0, 1e12, r -> SourceNoise.thermal(r, 300));
    bounded("kelvin", "K", 0, 1e4, t -> SourceNoise.thermal(50, t));
  }

  @Test
  void words() {
    assertEquals("no noise", Noise.none().toString());
    assertEquals("30 nV/sqrt(Hz)", Noise.white(30e-9).toString());
    assertEquals(
        "30 nV/sqrt(Hz), 1/f below 100 kHz down to one over the time observed, 0.1 % of full scale",
        Noise.white(30e-9).withCorner(1e5).withShareOfFullScale(1e-3).toString());
    assertEquals("0.02 % of full scale", Noise.none().withShareOfFullScale(2e-4).toString());
    assertEquals("1 nV/sqrt(Hz) of the source", new SourceNoise(1e-9).toString());
  }
}
