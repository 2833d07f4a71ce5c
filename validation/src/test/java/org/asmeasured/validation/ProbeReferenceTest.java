package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.asmeasured.capture.Setup;
import org.asmeasured.frontend.ActiveProbe;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.frontend.GroundLead;
import org.asmeasured.frontend.Loading;
import org.asmeasured.frontend.PassiveDivider;
import org.asmeasured.frontend.Probe;
import org.asmeasured.frontend.Source;
import org.asmeasured.frontend.Termination;
import org.asmeasured.linear.Output;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Probes, loading and the coupling capacitor as a setup has them, against the reference tables;
 * each table names its source in its head.
 */
class ProbeReferenceTest {

  @Test
  void trimmerError() {
    for (Reference.Row row : Reference.rows("divider")) {
      double e = row.number("trimmerError");
      PassiveDivider probe = PassiveDivider.times10().withCable(0).withTrimmerError(e);
      Response h =
          Setup.ideal(1e9, 1)
              .termination(new Termination(1e6, 20e-12))
              .probe(probe)
              .frontEnd()
              .response();
      Output step = h.of(Signals.step(1, 0));
      row.check("stepError", step.valueAt(0) - 1, 1e-14);
      assertEquals((1 + e) / (1 + e / 10) - 1, step.valueAt(0) - 1, 1e-14);
      // trimmed without error, the pole lies on the zero and there is none
      assertEquals(e == 0 ? 0 : 1, h.poles().size());
      if (e != 0) {
        row.check("tauMicroseconds", -1e6 / h.poles().get(0).getReal(), 1e-14);
      }
      row.check("at100Hz", h.magnitude(100), 1e-14);
      row.check("at1kHz", h.magnitude(1e3), 1e-14);
      row.check("at10kHz", h.magnitude(1e4), 1e-14);
      row.check("at100kHz", h.magnitude(1e5), 1e-14);
      row.check("at1MHz", h.magnitude(1e6), 1e-14);
    }
  }

  /**
   * "A 1 kHz square (T/2 = 500 us) is settled to k0 before its next edge: exp(-500/20.2) =
   * 1.78e-11."
   */
  @Test
  void squareSettlesBeforeItsNextEdge() {
    Response h =
        new Loading(
                Source.ideal(),
                PassiveDivider.times10().withCable(0).withTrimmerError(0.1),
                new Termination(1e6, 20e-12),
                Coupling.dc())
            .response();
    Output square = h.of(Signals.square(0, 1, 1e-3, 0.5));
    double rest = Math.exp(-500 / 20.2);
    assertEquals(1.78e-11, rest, 5e-14);
    // settled square of a step of 1: what is left of an overshoot of 0.0891
    assertEquals(0.08910891089 * rest, square.valueBefore(0.5e-3) - 1, 2e-15);
  }

  /** A source into R || C: directly, and as the tip of a compensated divider shows it. */
  @Test
  void loading() {
    for (Reference.Row row : Reference.rows("loading")) {
      double c = row.number("inputPicofarads") * 1e-12;
      Source source = Source.ofOhms(row.number("sourceOhms"));
      double ohms = row.number("inputOhms");
      check(row, new Loading(source, Probe.direct(), new Termination(ohms, c), Coupling.dc()));
      if (ohms == 1e7) {
        // C1 C2/(C1 + C2) = c and C2 = 9 C1, so C2 = 10 c
        PassiveDivider divider = PassiveDivider.times10().withCable(10 * c - 20e-12);
        check(row, new Loading(source, divider, new Termination(1e6, 20e-12), Coupling.dc()));
      }
      ActiveProbe active = ActiveProbe.of(ohms, c, Bandwidth.unlimited());
      check(row, new Loading(source, active, Termination.oneMegohm(), Coupling.dc()));
    }
  }

  private static void check(Reference.Row row, Loading loading) {
    Response h = loading.response();
    row.check("dcError", h.dcGain() - 1, 1e-15);
    row.check("f3dB", h.halfPowerHz(), 1e-12 * h.halfPowerHz());
    row.check("rise1090", h.riseTimeSeconds(), 1e-12 * h.riseTimeSeconds());
  }

  /** "Tip capacitance of that divider C1C2/(C1+C2) = 2 pF, input resistance 10 Mohm." */
  @Test
  void whatTheTipShows() {
    Loading loading =
        new Loading(
            Source.ofOhms(1e6),
            PassiveDivider.times10().withCable(0),
            new Termination(1e6, 20e-12),
            Coupling.dc());
    Response tip = loading.atTip();
    assertEquals(10.0 / 11, tip.dcGain(), 1e-15);
    assertEquals(1, tip.poles().size());
    assertEquals(2e-12, -1 / tip.poles().get(0).getReal() / (1e13 / 1.1e7), 1e-26);
  }

  /** Series R-L into C: a lead ahead of an input that is a capacitance and next to nothing else. */
  @Test
  void groundLead() {
    for (Reference.Row row : Reference.rows("ground-lead")) {
      double c = row.number("picofarads") * 1e-12;
      double l = row.number("nanohenries");
      ActiveProbe probe =
          ActiveProbe.of(1e15, c, Bandwidth.unlimited()).withGroundLead(GroundLead.ofLength(l));
      Response h =
          new Loading(Source.ofOhms(50), probe, Termination.oneMegohm(), Coupling.dc()).response();
      double w0 = h.poles().get(0).abs();
      double zeta = -h.poles().get(0).getReal() / w0;
      row.check("f0", w0 / (2 * Math.PI), 0);
      row.check("zeta", zeta, 1e-12);
      row.check("peak", h.peakGain(), 1e-11);
      row.check("peak", h.magnitude(w0 / (2 * Math.PI) * Math.sqrt(1 - 2 * zeta * zeta)), 1e-11);
      row.check(
          "overshootPercent",
          100 * (h.of(Signals.step(1, 0)).maximum(0, 20 / (zeta * w0)) - 1),
          1e-9);
      row.check("f3dB", h.halfPowerHz(), 0);
    }
  }

  /**
   * The divider's tip is C1 in series with C2: 2 pF, 150 nH. Its R = 10 Mohm in parallel: w0^2 = (1
   * + Rs/R)/(L C), zeta = (Rs sqrt(C/L) + sqrt(L/C)/R)/(2 sqrt(1 + Rs/R)).
   */
  @Test
  void groundLeadOfADivider() {
    PassiveDivider probe =
        PassiveDivider.times10().withCable(0).withGroundLead(GroundLead.ofLength(150));
    Response h =
        new Loading(Source.ofOhms(50), probe, new Termination(1e6, 20e-12), Coupling.dc())
            .response();
    double w0 = h.poles().get(0).abs();
    double both = Math.sqrt(1 + 50 / 1e7);
    assertEquals(290575841.566, w0 / (2 * Math.PI) / both, 1e-3);
    double own = Math.sqrt(150e-9 / 2e-12) / 2e7;
    assertEquals((0.0912870929175 + own) / both, -h.poles().get(0).getReal() / w0, 1e-13);
  }

  /**
   * Section "first-order AC coupling", the physical capacitor: 10 Hz needs 1.591549430918953e-8 F;
   * with 9 Mohm in series the corner is 1 Hz; with Rs = 50 ohm 9.999500025 Hz; ahead of 50 ohm
   * 200000 Hz. fc = 1/(2 pi C (Rahead + Rin)): elementary.
   */
  @ParameterizedTest
  @CsvSource({
    "0, false, 1e6, 10",
    "0, true, 1e6, 1",
    "50, false, 1e6, 9.999500025",
    "0, false, 50, 200000"
  })
  void couplingCapacitor(double rs, boolean times10, double rin, double corner) {
    Setup setup =
        Setup.ideal(1e6, 1)
            .source(rs)
            .termination(new Termination(rin, 0))
            .coupling(Coupling.capacitor(1.591549430918953e-8));
    if (times10) {
      setup = setup.probe(PassiveDivider.times10().withCable(0));
    }
    Response h = setup.frontEnd().response();
    double top = h.magnitude(1e9 * corner);
    assertEquals(corner, -h.poles().get(0).getReal() / (2 * Math.PI), 1e-10 * corner);
    assertEquals(top * Math.sqrt(0.5), h.magnitude(corner), 1e-10);
    assertEquals(0, h.dcGain());
    assertEquals(Coupling.capacitor().farads(), 1.591549430918953e-8, 1e-23);
  }

  /** The settled square of the table, through the capacitor instead of the filter. */
  @Test
  void settledSquareBehindTheCapacitor() {
    Setup setup =
        Setup.ideal(1e6, 1).termination(new Termination(1e6, 0)).coupling(Coupling.capacitor());
    Setup tenfold = setup.probe(PassiveDivider.times10().withCable(0));
    for (Reference.Row row : Reference.rows("ac-coupling-square")) {
      double f = row.number("hertz");
      Output square = setup.frontEnd().response().of(Signals.square(-1, 1, 1 / f, 0.5));
      row.check("start", square.valueAt(0), 1e-13);
      row.check("end", square.valueBefore(0.5 / f), 1e-13);
      row.check("rms", square.rms(0, 1 / f), 1e-13);
      // a tenth of the corner: the same picture at a tenth of the frequency
      Output slow = tenfold.frontEnd().response().of(Signals.square(-1, 1, 10 / f, 0.5));
      row.check("start", slow.valueAt(0), 1e-13);
      row.check("end", slow.valueBefore(5 / f), 1e-13);
    }
  }

  /**
   * "At DC ... that capacitor carries the whole undivided source voltage even behind a x10 probe."
   */
  @Test
  void capacitorCarriesTheWholeDirectVoltage() {
    Loading loading =
        new Loading(
            Source.ofOhms(50),
            PassiveDivider.times10(),
            Termination.oneMegohm(),
            Coupling.capacitor());
    assertEquals(1, loading.atConnector().dcGain(), 1e-15);
    assertEquals(0, loading.response().dcGain());
  }
}
