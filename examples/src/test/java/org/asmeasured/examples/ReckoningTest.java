package org.asmeasured.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;

class ReckoningTest {

  @Test
  void sharesOneScaleBetweenTruthAndReading() {
    Reckoning ripple = Sample.ripple();
    assertEquals("20.00 mV", ripple.truthText());
    assertEquals("47.10 mV", ripple.measuredText());
    assertEquals("+27.10 mV", ripple.biasText());
    assertEquals("+136 %", ripple.relativeText());
    assertEquals("0", ripple.partText(ripple.parts().get(0)));
    assertEquals("-0.30", ripple.partText(ripple.parts().get(1)));
    assertEquals("+27.40", ripple.partText(ripple.parts().get(2)));
  }

  @Test
  void showsEnoughDigitsToSeeASmallDifference() {
    Reckoning mean =
        new Reckoning(
            "mean",
            "V",
            3.3,
            3.300042,
            List.of(new Reckoning.Part("quantisation", 0.000042, true)));
    assertEquals("3.300000 V", mean.truthText());
    assertEquals("3.300042 V", mean.measuredText());
    assertEquals("+42.00 µV", mean.biasText());
  }

  @Test
  void givesNoShareOfNothing() {
    assertEquals("", new Reckoning("mean", "V", 0, 1, List.of()).relativeText());
    assertEquals("", new Reckoning("mean", "V", 1, 1, List.of()).relativeText());
  }
}
