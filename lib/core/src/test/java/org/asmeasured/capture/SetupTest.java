package org.asmeasured.capture;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.asmeasured.acquisition.Boxcar;
import org.asmeasured.acquisition.Decimation;
import org.asmeasured.acquisition.Ensemble;
import org.asmeasured.acquisition.Pick;
import org.asmeasured.acquisition.Reducer;
import org.asmeasured.acquisition.RollingBoxcar;
import org.asmeasured.digitizer.Converter;
import org.asmeasured.digitizer.IdealConverter;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.FrontEnd;
import org.asmeasured.frontend.InputRating;
import org.asmeasured.frontend.PassiveDivider;
import org.asmeasured.frontend.Probe;
import org.asmeasured.frontend.Refused;
import org.asmeasured.frontend.Source;
import org.asmeasured.frontend.Termination;
import org.asmeasured.frontend.VerticalScale;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;

class SetupTest {
  private static final Setup IDEAL = Setup.ideal(1e9, 1000);

  @Test
  void settingsAreValues() {
    Setup setup =
        IDEAL
            .source(50)
            .termination(Termination.fiftyOhm())
            .coupling(Coupling.ac())
            .stage(Bandwidth.singlePole(1e9))
            .bandwidth(Bandwidth.bessel(4, 200e6))
            .limit(Bandwidth.singlePole(20e6))
            .scale(0.2)
            .bits(8)
            .decimation(Boxcar.of(10))
            .averaging(16)
            .startingAt(-1e-6)
            .rateHz(2e9)
            .points(500);
    assertEquals(50, setup.frontEnd().source().ohms());
    assertEquals(1, setup.frontEnd().own().size());
    assertEquals(VerticalScale.of(0.2), setup.vertical());
    assertEquals(new IdealConverter(8), setup.converter());
    assertEquals(Ensemble.averageOf(16), setup.ensemble());
    assertEquals(2e8, setup.storedRateHz());
    assertEquals(2.5e-6, setup.spanSeconds(), 1e-20);
    assertEquals(setup, setup.points(501).points(500));
    assertNotEquals(setup, setup.points(501));
    assertEquals(0, IDEAL.frontEnd().source().ohms(), "the first setup stays as it was");
  }

  @Test
  void probeSourceAndRating() {
    Setup setup =
        IDEAL
            .probe(PassiveDivider.times10())
            .source(new Source(50, 1e-12))
            .rating(InputRating.ofPeak(300));
    assertEquals(PassiveDivider.times10(), setup.frontEnd().probe());
    assertEquals(new Source(50, 1e-12), setup.frontEnd().source());
    assertEquals(InputRating.ofPeak(300), setup.frontEnd().rating());
    assertEquals(IDEAL, setup.probe(Probe.direct()).source(0).rating(InputRating.unstated()));
    // a compensated divider on an ideal source records the signal itself
    Signal signal = Signals.sine(1, 1e6);
    Record record = IDEAL.probe(PassiveDivider.times10()).capture(signal);
    for (int i = 0; i < record.size(); i++) {
      assertEquals(signal.valueAt(record.timeSeconds(i)), record.volts(i), 1e-14);
    }
  }

  @Test
  void saysItselfAsAPersonWould() {
    assertEquals(
        "ideal front end; 1 Gsamples/s; no converter: infinite resolution; every sample stored; 1000 points",
        IDEAL.toString());
    assertEquals(
        "source of 50 ohm into 50 ohm; 500 mV per division, 8 divisions; 1 Gsamples/s from 1 us; "
            + "ideal converter of 8 bits; mean of 10 samples stored; mean of 16 acquisitions; 1 point",
        IDEAL
            .source(50)
            .termination(Termination.fiftyOhm())
            .scale(0.5)
            .bits(8)
            .startingAt(1e-6)
            .decimation(Boxcar.of(10))
            .averaging(16)
            .points(1)
            .toString());
  }

  @Test
  void refusesBadNumbers() {
    Refused.values("rateHz", v -> Setup.ideal(v, 10), 0, -1, 1e16, 1e-10);
    Refused.values("rateHz", IDEAL::rateHz, 0, -1, 1e16, 1e-10);
    Refused.wholes("points", n -> Setup.ideal(1, n), 0, -1, (1 << 28) + 1);
    Refused.wholes("points", IDEAL::points, 0, -1, (1 << 28) + 1);
    Refused.values("startSeconds", IDEAL::startingAt, 1e13, -1e13);
    Refused.values("sourceOhms", IDEAL::source, -1, 1e13);
    Refused.values("voltsPerDivision", IDEAL::scale, 0, -1);
    Refused.wholes("bits", IDEAL::bits, 0, -1, 25);
    Refused.wholes("count", IDEAL::averaging, 0, -1, 65537);
  }

  @Test
  void refusesMissingValues() {
    Refused.missing("frontEnd", () -> IDEAL.frontEnd(null));
    Refused.missing("termination", () -> IDEAL.termination(null));
    Refused.missing("source", () -> IDEAL.source(null));
    Refused.missing("probe", () -> IDEAL.probe(null));
    Refused.missing("rating", () -> IDEAL.rating(null));
    Refused.missing("coupling", () -> IDEAL.coupling(null));
    Refused.missing("stage", () -> IDEAL.stage(null));
    Refused.missing("bandwidth", () -> IDEAL.bandwidth(null));
    Refused.missing("limit", () -> IDEAL.limit(null));
    Refused.missing("vertical", () -> IDEAL.vertical(null));
    Refused.missing("converter", () -> IDEAL.converter(null));
    Refused.missing("decimation", () -> IDEAL.decimation(null));
    Refused.missing("ensemble", () -> IDEAL.ensemble(null));
    Refused.missing("signal", () -> IDEAL.capture(null));
    Refused.missing("signal", () -> IDEAL.analogOutput(null));
  }

  @Test
  void refusesWhatOwnStagesReport() {
    Refused.message("converter.bits", "25", () -> IDEAL.converter(bits(25)));
    Refused.message("converter.bits", "-1", () -> IDEAL.converter(bits(-1)));
    Refused.message("decimation.factor", "0", () -> IDEAL.decimation(geometry(0, 0, 8)));
    Refused.message("decimation.lead", "-1", () -> IDEAL.decimation(geometry(1, -1, 8)));
    Refused.message(
        "decimation.storedBits", "30", () -> IDEAL.bits(8).decimation(geometry(1, 0, 30)));
    assertEquals(
        1, IDEAL.decimation(geometry(1, 0, 30)).decimation().factor(), "bits only matter to codes");
  }

  private static Converter bits(int bits) {
    return new Converter() {
      @Override
      public int bits() {
        return bits;
      }

      @Override
      public void convert(double[] levels, int offset, int count) {
        throw new AssertionError("not reached");
      }
    };
  }

  private static Decimation geometry(int factor, int lead, int storedBits) {
    return new Decimation() {
      @Override
      public int factor() {
        return factor;
      }

      @Override
      public int lead() {
        return lead;
      }

      @Override
      public double centre() {
        return 0;
      }

      @Override
      public int storedBits(int converterBits) {
        return storedBits;
      }

      @Override
      public Reducer reducer() {
        throw new AssertionError("not reached");
      }
    };
  }

  @Test
  void recordsFromElsewhereAreChecked() {
    double[] volts = {1, 2, 3};
    Record record = Record.of(5, 2, volts);
    volts[0] = 9;
    assertEquals(1, record.volts(0));
    record.volts()[0] = 7;
    assertEquals(1, record.volts(0));
    assertEquals(5.5, record.timeSeconds(1));
    assertEquals(1.5, record.spanSeconds());
    assertEquals(0, record.stepVolts());
    assertTrue(record.flags().isEmpty());
    assertThrows(IllegalStateException.class, () -> record.code(0));
    assertThrows(IndexOutOfBoundsException.class, () -> record.volts(3));
    assertThrows(IndexOutOfBoundsException.class, () -> record.timeSeconds(-1));
    assertThrows(IndexOutOfBoundsException.class, () -> record.timeSeconds(3));
    Refused.values("startSeconds", v -> Record.of(v, 1, volts), 1e13);
    Refused.values("rateHz", v -> Record.of(0, v, volts), 0, -1);
    Refused.values("volts[1]", v -> Record.of(0, 1, new double[] {0, v}), 1e10, -1e10);
    Refused.message("volts.length", "0", () -> Record.of(0, 1, new double[0]));
    Refused.missing("volts", () -> Record.of(0, 1, null));
  }

  @Test
  void recordsSayThemselves() {
    assertEquals("3 points over 1.5 s from 5 s", Record.of(5, 2, new double[3]).toString());
    assertEquals(
        "4 points over 4 us, step 7.813 mV, clipped high: 4",
        Setup.ideal(1e6, 4).scale(0.25).bits(8).capture(Signals.constant(3)).toString());
    assertEquals("clipped low", Flag.CLIPPED_LOW.toString());
  }

  @Test
  void theShortestAndTheWidestDecimationsFit() {
    assertEquals(1, IDEAL.points(1).decimation(new Pick(1)).capture(Signals.constant(1)).size());
    assertEquals(
        1, IDEAL.points(1).decimation(Boxcar.of(1 << 20)).capture(Signals.constant(1)).volts(0));
    assertEquals(
        1,
        IDEAL
            .points(1)
            .decimation(RollingBoxcar.of(1 << 16))
            .capture(Signals.constant(1))
            .volts(0));
    assertEquals(FrontEnd.ideal(), IDEAL.frontEnd());
  }
}
