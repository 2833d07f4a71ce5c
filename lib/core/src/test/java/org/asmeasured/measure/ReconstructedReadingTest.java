package org.asmeasured.measure;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.asmeasured.acquisition.PeakDetect;
import org.asmeasured.acquisition.Reconstruction;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Refused;
import org.asmeasured.linear.Response;
import org.asmeasured.pulse.PulseReadings;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;

class ReconstructedReadingTest {
  private static final Reconstruction SINC = Reconstruction.sinc();

  /** A sine with its crest midway between points: the greatest point is cos(pi f/fs) of it. */
  @Test
  void theCrestBetweenPointsIsFound() {
    double f = 250e6 / 1.0;
    Signal sine = Signals.sine(1, f, Math.PI / 2 - Math.PI * f / 1e9);
    Record record = Setup.ideal(1e9, 400).capture(sine);
    assertEquals(1 - 0.2928932188134525, Readings.maximum().of(record).orThrow(), 1e-12);
    Reading lines = Readings.reconstructed(Readings.maximum(), Reconstruction.linear(), 8);
    assertEquals(1 - 0.2928932188134525, lines.of(record).orThrow(), 1e-12);
    Reading between = Readings.reconstructed(Readings.maximum(), SINC, 8);
    assertEquals(1, between.of(record).orThrow(), 2e-5);
    assertEquals(
        2, Readings.reconstructed(Readings.peakToPeak(), SINC, 8).of(record).orThrow(), 4e-5);
  }

  /** Three points a period at an odd ratio: lines between points misplace the crossings. */
  @Test
  void thePeriodGainsDigits() {
    double f = 317.77e6;
    Record record = Setup.ideal(1e9, 1200).capture(Signals.sine(0.5, f, 0.2));
    double plain = Math.abs(PulseReadings.period().of(record).orThrow() * f - 1);
    double better =
        Math.abs(
            Readings.reconstructed(PulseReadings.period(), SINC, 16).of(record).orThrow() * f - 1);
    assertTrue(better < 2e-7, "period off by " + better);
    assertTrue(better < plain / 10, "plain " + plain + ", reconstructed " + better);
  }

  /**
   * An edge of 2.9 ns (120 MHz, Gaussian of order 4) at 1 GS/s: three points lie on it. What is
   * above half the rate is folded back, and is what the reconstructed edge is still off by.
   */
  @Test
  void theRiseTimeGainsDigits() {
    Setup setup = Setup.ideal(1e9, 400).bandwidth(Bandwidth.gaussian(4, 120e6));
    Signal step = Signals.step(1, 200.3e-9);
    Record record = setup.capture(step);
    double truth = Response.gaussian(4, 120e6).riseTimeSeconds();
    Reading rise = PulseReadings.riseTime(0, 1);
    double plain = Math.abs(rise.of(record).orThrow() / truth - 1);
    double better =
        Math.abs(Readings.reconstructed(rise, SINC, 16).of(record).orThrow() / truth - 1);
    assertTrue(plain > 0.01, "plain " + plain);
    assertTrue(better < 5e-3 && better < plain / 4, "reconstructed " + better);
  }

  @Test
  void aReconstructedRecordKnowsItsInstants() {
    Record record =
        Setup.ideal(1e6, 100).startingAt(2e-3).scale(1).bits(8).capture(Signals.sine(3, 20e3));
    Record dense = record.reconstructed(SINC, 5);
    assertEquals((99 - 30) * 5 + 1, dense.size());
    assertEquals(5e6, dense.rateHz());
    assertFalse(dense.hasCodes());
    assertEquals(record.stepVolts(), dense.stepVolts());
    for (int i = 0; i < dense.size(); i += 5) {
      assertEquals(record.volts(15 + i / 5), dense.volts(i));
      assertEquals(record.timeSeconds(15 + i / 5), dense.timeSeconds(i), 1e-15);
    }
    assertArrayEquals(record.volts(), record.reconstructed(Reconstruction.none(), 1).volts(), 0);
  }

  @Test
  void clippingStaysAReasonNotToRead() {
    Record record = Setup.ideal(1e6, 100).bits(8).capture(Signals.sine(5, 20e3));
    Record dense = record.reconstructed(SINC, 4);
    assertEquals(record.flags(), dense.flags());
    assertEquals(record.clippedHigh(), dense.clippedHigh());
    assertFalse(Readings.reconstructed(Readings.maximum(), SINC, 4).of(record).isTaken());
  }

  @Test
  void aReadingThatCannotBeTakenSaysWhy() {
    Reading r = Readings.reconstructed(Readings.mean(), SINC, 4);
    Record few = Record.of(0, 1, new double[30]);
    assertEquals(
        "not taken: sin(x)/x over 16 points on each side needs 31 points, and the record has 30",
        r.of(few).toString());
    assertTrue(r.of(Record.of(0, 1, new double[31])).isTaken());
    Record envelope =
        Setup.ideal(1e6, 100).decimation(new PeakDetect(4)).capture(Signals.constant(1));
    assertFalse(r.of(envelope).isTaken());
    Record many = Record.of(0, 1, new double[70_000]);
    assertFalse(Readings.reconstructed(Readings.mean(), SINC, 4096).of(many).isTaken());
  }

  @Test
  void theTruthIsTheSame() {
    Signal sine = Signals.sine(1, 1e3);
    Reading r = Readings.reconstructed(Readings.rms(), SINC, 4);
    assertEquals(Readings.rms().of(sine, 0, 1e-3), r.of(sine, 0, 1e-3));
    assertEquals("RMS", r.name());
    assertEquals("V", r.unit());
    assertEquals("RMS (sin(x)/x over 16 points on each side, 4 values a point)", r.toString());
    assertEquals(r, Readings.reconstructed(Readings.rms(), SINC, 4));
  }

  @Test
  void refusesBadValues() {
    Reading mean = Readings.mean();
    Refused.missing("reading", () -> Readings.reconstructed(null, SINC, 2));
    Refused.missing("reconstruction", () -> Readings.reconstructed(mean, null, 2));
    Refused.wholes("factor", f -> Readings.reconstructed(mean, SINC, f), 0, 4097);
    Record record = Record.of(0, 1, new double[40]);
    Refused.missing("record", () -> Readings.reconstructed(mean, SINC, 2).of(null));
    Refused.missing("reconstruction", () -> record.reconstructed(null, 2));
    Refused.wholes("factor", f -> record.reconstructed(SINC, f), 0, 4097);
    Record envelope =
        Setup.ideal(1e6, 100).decimation(new PeakDetect(4)).capture(Signals.constant(1));
    assertThrows(IllegalStateException.class, () -> envelope.reconstructed(SINC, 2));
  }
}
