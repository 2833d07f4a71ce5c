package org.asmeasured.advice;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.asmeasured.accuracy.Measurement;
import org.asmeasured.acquisition.Boxcar;
import org.asmeasured.acquisition.RollingBoxcar;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.capture.Setup;
import org.asmeasured.frontend.Bandwidth;
import org.asmeasured.frontend.Coupling;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.Readings;
import org.asmeasured.pulse.PulseReadings;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;

/** Each rule at its edge; the rules are common practice, no source. */
class RuleTest {
  private static final Reading ANY = Readings.peakToPeak();

  private static void says(
      Rule rule, Rule.Status status, String part, Signal signal, Setup setup, Reading reading) {
    Rule.Finding finding = rule.of(new Measurement(signal, setup), reading);
    assertEquals(status, finding.status(), finding.toString());
    assertTrue(finding.sentence().contains(part), finding.toString());
    assertTrue(finding.toString().startsWith(rule.words()), finding.toString());
  }

  @Test
  void fillTheScreen() {
    Setup setup = Setup.ideal(1e6, 1000).bits(8);
    Rule r = Rule.FILL_THE_SCREEN;
    says(r, Rule.Status.KEPT, "fills 40 %", Signals.sine(1.6001, 1e3), setup, ANY);
    says(r, Rule.Status.BROKEN, "fills 39.9 %", Signals.sine(1.597, 1e3), setup, ANY);
    says(r, Rule.Status.KEPT, "fills 100 %", Signals.sine(3.9999, 1e3), setup, ANY);
    says(r, Rule.Status.BROKEN, "reaches 1 mV beyond", Signals.sine(4.001, 1e3), setup, ANY);
    says(r, Rule.Status.BROKEN, "reaches 500 mV", Signals.sine(2, 1e3).plus(-2.5), setup, ANY);
    Setup moved = setup.vertical(setup.vertical().withOffset(-2.5));
    says(r, Rule.Status.KEPT, "fills 50 %", Signals.sine(2, 1e3).plus(-2.5), moved, ANY);
    Setup ac = setup.coupling(Coupling.ac(1));
    says(r, Rule.Status.KEPT, "fills 50 %", Signals.sine(2, 1e3).plus(-2.5), ac, ANY);
    says(r, Rule.Status.DOES_NOT_APPLY, "constant", Signals.constant(1), setup, ANY);
    Setup volts = Setup.ideal(1e6, 1000);
    says(r, Rule.Status.DOES_NOT_APPLY, "quantised", Signals.sine(1, 1e3), volts, ANY);
  }

  @Test
  void edgeAcrossTheSpan() {
    Signal edge = Signals.trapezoid(0, 1, 1e-5, 0.5, 1e-6, 1e-6);
    Rule r = Rule.EDGE_ACROSS_THE_SPAN;
    Reading rise = PulseReadings.riseTime();
    // 10-90 %: 800 ns of 7.9 us, and of 8.1 us
    Setup start = Setup.ideal(1e9, 7900).startingAt(-3e-6);
    says(r, Rule.Status.KEPT, "800 ns take 10.1 % of the span, 800", edge, start, rise);
    says(r, Rule.Status.BROKEN, "9.88 %", edge, start.points(8100), rise);
    says(r, Rule.Status.DOES_NOT_APPLY, "no time is read", edge, start, ANY);
    says(r, Rule.Status.DOES_NOT_APPLY, "no such time", Signals.constant(1), start, rise);
  }

  @Test
  void acCoupling() {
    Setup ac = Setup.ideal(1e6, 1000).coupling(Coupling.ac());
    Setup dc = Setup.ideal(1e6, 1000);
    Rule sines = Rule.AC_COUPLING_OF_SINES;
    says(sines, Rule.Status.KEPT, "10 times", Signals.sine(1, 100).plus(3), ac, ANY);
    says(sines, Rule.Status.BROKEN, "9.99 times", Signals.sine(1, 99.9), ac, ANY);
    says(sines, Rule.Status.DOES_NOT_APPLY, "DC", Signals.sine(1, 10), dc, ANY);
    says(sines, Rule.Status.DOES_NOT_APPLY, "no sine", square(300), ac, ANY);
    Rule squares = Rule.AC_COUPLING_OF_SQUARES;
    says(squares, Rule.Status.KEPT, "20 times", square(200), ac, ANY);
    says(squares, Rule.Status.BROKEN, "19.9 times", square(199), ac, ANY);
    says(squares, Rule.Status.DOES_NOT_APPLY, "DC", square(10), dc, ANY);
    says(squares, Rule.Status.DOES_NOT_APPLY, "no repeated", Signals.sine(1, 10), ac, ANY);
    says(squares, Rule.Status.BROKEN, "once", Signals.step(1, 0), ac, ANY);
    // 15.9 nF into 1 Mohm is 10 Hz, less the share of 15 pF beside it
    Setup capacitor = dc.coupling(Coupling.capacitor());
    says(sines, Rule.Status.KEPT, "corner at 9.991 Hz", Signals.sine(1, 100.1), capacitor, ANY);
    says(sines, Rule.Status.BROKEN, "corner at 9.991 Hz", Signals.sine(1, 99.9), capacitor, ANY);
  }

  private static Signal square(double hertz) {
    return Signals.square(-1, 1, 1 / hertz, 0.5);
  }

  @Test
  void averaging() {
    Setup one = Setup.ideal(1e6, 1000);
    Setup many = one.averaging(16);
    Rule r = Rule.AVERAGING_OF_WHAT_REPEATS;
    says(r, Rule.Status.DOES_NOT_APPLY, "one acquisition", Signals.step(1, 0), one, ANY);
    says(r, Rule.Status.BROKEN, "16 acquisitions", Signals.step(1, 0), many, ANY);
    says(r, Rule.Status.KEPT, "every 1 ms", Signals.sine(1, 1e3), many, ANY);
    says(r, Rule.Status.KEPT, "constant", Signals.constant(1), many, ANY);
    Signal drifting = Signals.sine(1, 1e3).plus(Signals.sine(1, 1e3 * Math.sqrt(2)));
    says(r, Rule.Status.BROKEN, "does not repeat", drifting, many, ANY);
  }

  @Test
  void bandwidth() {
    Setup setup = Setup.ideal(1e9, 1000).bandwidth(Bandwidth.singlePole(30e6));
    Rule r = Rule.BANDWIDTH;
    says(r, Rule.Status.KEPT, "is 3 times", Signals.sine(1, 10e6), setup, ANY);
    says(r, Rule.Status.BROKEN, "is 2.99 times", Signals.sine(1, 10.03e6), setup, ANY);
    String beyond = "is 30 times the signal's 1 MHz; beyond five times there is more noise";
    says(r, Rule.Status.KEPT, beyond, Signals.sine(1, 1e6), setup, ANY);
    // 10 ns edges: 8 ns from 10 to 90 %, 43.75 MHz
    Signal edges = Signals.trapezoid(0, 1, 2e-6, 0.5, 10e-9, 10e-9);
    says(r, Rule.Status.BROKEN, "signal's 43.75 MHz", edges, setup, ANY);
    Setup fast = setup.bandwidth(Bandwidth.singlePole(131.25e6));
    says(r, Rule.Status.KEPT, "is 3 times", edges, fast, ANY);
    says(r, Rule.Status.DOES_NOT_APPLY, "no time", square(1e6), setup, ANY);
    says(r, Rule.Status.DOES_NOT_APPLY, "nothing", Signals.constant(1), setup, ANY);
    Setup unlimited = Setup.ideal(1e9, 1000);
    says(r, Rule.Status.DOES_NOT_APPLY, "unlimited", Signals.sine(1, 1e6), unlimited, ANY);
  }

  @Test
  void sampleRate() {
    Setup setup = Setup.ideal(1e9, 1000).bandwidth(Bandwidth.singlePole(200e6));
    Rule r = Rule.SAMPLE_RATE;
    says(r, Rule.Status.KEPT, "is 5 times", Signals.sine(1, 1e6), setup, ANY);
    Setup slow = setup.rateHz(0.999e9);
    says(r, Rule.Status.BROKEN, "is 5 times", Signals.sine(1, 1e6), slow, ANY);
    Setup ideal = Setup.ideal(1e9, 1000);
    says(r, Rule.Status.DOES_NOT_APPLY, "unlimited", Signals.sine(1, 1e6), ideal, ANY);
  }

  /** Where a trigger puts the record, rules look there. */
  @Test
  void theRecordIsWhereTheTriggerPutsIt() {
    Setup setup = Setup.ideal(1e6, 100).bits(8).trigger(Trigger.at(0.5));
    says(Rule.FILL_THE_SCREEN, Rule.Status.BROKEN, "12.5 %", Signals.step(1, 1e-3), setup, ANY);
  }

  /**
   * Half power of a mean of n samples at rate fs, n large: 0.44295 fs/n (sin x = x/sqrt(2) at x =
   * 1.39156); of a single pole alone its own; and together what the product says.
   */
  @Test
  void effectiveBandwidths() {
    Setup box = Setup.ideal(1e9, 100).decimation(Boxcar.of(1000));
    assertEquals(1.39155737825151 / Math.PI * 1e6, EffectiveBandwidth.hertz(box).orElseThrow(), 1);
    Setup pole = Setup.ideal(1e9, 100).bandwidth(Bandwidth.singlePole(1e6));
    assertEquals(1e6, EffectiveBandwidth.hertz(pole).orElseThrow(), 1e-3);
    double both =
        EffectiveBandwidth.hertz(pole.decimation(new RollingBoxcar(1000, 0))).orElseThrow();
    double mean = Math.sin(Math.PI * both * 1e-6) / (1000 * Math.sin(Math.PI * both * 1e-9));
    assertEquals(0.5, mean * mean / (1 + both * both * 1e-12), 1e-9);
    assertTrue(EffectiveBandwidth.hertz(Setup.ideal(1e9, 100)).isEmpty());
  }

  @Test
  void refusesBadInput() {
    Measurement m = new Measurement(Signals.constant(1), Setup.ideal(1, 1));
    assertThrows(NullPointerException.class, () -> Rule.BANDWIDTH.of(null, ANY));
    assertThrows(NullPointerException.class, () -> Rule.BANDWIDTH.of(m, null));
    assertEquals(Rule.values().length, Rule.all(m, ANY).size());
    assertThrows(NullPointerException.class, () -> new Rule.Finding(null, Rule.Status.KEPT, "x"));
    assertThrows(NullPointerException.class, () -> new Rule.Finding(Rule.BANDWIDTH, null, "x"));
    assertThrows(
        NullPointerException.class, () -> new Rule.Finding(Rule.BANDWIDTH, Rule.Status.KEPT, null));
  }
}
