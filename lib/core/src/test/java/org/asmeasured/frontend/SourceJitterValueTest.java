package org.asmeasured.frontend;

import static org.asmeasured.internal.Refusals.mismatch;
import static org.asmeasured.internal.Refusals.refused;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** The value alone; what it does is tested with the capture. */
class SourceJitterValueTest {
  @Test
  void values() {
    assertTrue(SourceJitter.none().isNone());
    assertTrue(SourceJitter.of(0).isNone());
    assertFalse(SourceJitter.of(1e-12).isNone());
    assertEquals(new SourceJitter(1e-12, 3), SourceJitter.of(1e-12).ofDevice(3));
    assertEquals("no jitter of the source", SourceJitter.none().toString());
    assertEquals(
        "edges of the source jitter by 1 ps rms (device 3)", new SourceJitter(1e-12, 3).toString());
    FrontEnd jittered = FrontEnd.ideal().withSourceJitter(SourceJitter.of(1e-12));
    assertEquals("; edges of the source jitter by 1 ps rms", "; " + jittered);
    assertEquals(1e-12, jittered.withSource(50).sourceJitter().rmsSeconds());
  }

  @Test
  void badArguments() {
    refused("rmsSeconds", "s", SourceJitter::of, -1, 1e-19, 1.1);
    refused("device", d -> new SourceJitter(1e-12, d), -1, 1_000_001);
    mismatch(
        () ->
            FrontEnd.ideal()
                .withSaturation(Saturation.at(1))
                .withSourceJitter(SourceJitter.of(1e-12)),
        "not modelled");
  }
}
