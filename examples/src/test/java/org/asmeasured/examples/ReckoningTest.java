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

  /** 16.2 % read as 14.3 %: that is 1.9 points less, and 11.7 % of it; only one can be said. */
  @Test
  void sharesDifferByPercentagePoints() {
    Reckoning overshoot =
        new Reckoning(
            "overshoot", "%", 16.2, 14.3, List.of(new Reckoning.Part("bandwidth", -1.9, true)));
    assertEquals("16.20 %", overshoot.truthText());
    assertEquals("-1.900 percentage points", overshoot.biasText());
    assertEquals("", overshoot.relativeText());
    assertEquals("-1.900", overshoot.partText(overshoot.parts().get(0)));
    Reckoning sinad = new Reckoning("SINAD", "dB", 60, 50, List.of());
    assertEquals("-10.00 dB", sinad.biasText());
    assertEquals("", sinad.relativeText());
  }
}
