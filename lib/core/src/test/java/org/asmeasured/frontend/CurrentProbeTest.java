package org.asmeasured.frontend;

import static org.asmeasured.internal.Refusals.absent;
import static org.asmeasured.internal.Refusals.bounded;
import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** Volts for amperes. */
class CurrentProbeTest {
  @Test
  void theRecordIsReferredToTheConductor() {
    CurrentProbe probe = CurrentProbe.of(0.1).withBandwidth(Bandwidth.singlePole(50e6));
    for (Termination input : new Termination[] {Termination.oneMegohm(), Termination.fiftyOhm()}) {
      FrontEnd chain = FrontEnd.ideal().withProbe(probe).withTermination(input);
      assertEquals(1, chain.response().dcGain(), 1e-14);
      assertEquals(Math.sqrt(0.5), chain.response().magnitude(50e6), 1e-12);
      assertEquals(0.1, chain.loading().atConnector().dcGain(), 1e-14);
    }
    assertEquals("current probe, 100 mV/A, single pole, -3 dB at 50 MHz", probe.toString());
  }

  @Test
  void badArguments() {
    bounded("voltsPerAmpere", "V/A", 1e-6, 1e6, CurrentProbe::of);
    absent("bandwidth", () -> CurrentProbe.of(1).withBandwidth(null));
    absent("rating", () -> new CurrentProbe(1, Bandwidth.unlimited(), null));
  }

  @Test
  void theEndsOfItsRangeMakeAChain() {
    FrontEnd.ideal().withProbe(CurrentProbe.of(1e-6));
    FrontEnd.ideal().withProbe(CurrentProbe.of(1e6));
    FrontEnd.ideal().withSource(50).withProbe(CurrentProbe.of(1));
  }
}
