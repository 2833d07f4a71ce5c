package org.asmeasured.fitting;

import java.util.ArrayList;
import java.util.List;
import org.asmeasured.capture.Setup;
import org.asmeasured.internal.Quantity;

/** What is to be said about the noise of recordings. */
final class Notes {
  private static final double SPREADS = 0.5;

  private Notes() {}

  /** Where noise as stated does not spread the quantisation over its steps. */
  static List<String> ofNoise(ChainCurve curve, double[] values) {
    List<String> notes = new ArrayList<>();
    for (int i = 0; i < curve.recordings().size(); i++) {
      if (!(curve.recordings().get(i).noise() instanceof StatedNoise)) {
        continue;
      }
      Setup setup = curve.measurement(i, values).setup();
      int bits = setup.converter().bits();
      if (bits == 0) {
        continue;
      }
      double step = Math.scalb(setup.vertical().fullScaleVolts(), -bits);
      double noise = StatedNoise.aheadOfConverter(setup);
      if (noise < SPREADS * step) {
        notes.add(
            "recording "
                + (i + 1)
                + ": noise of "
                + Quantity.of(noise, "V")
                + " is less than half a step of "
                + Quantity.of(step, "V")
                + ": levels that stand still are off by up to half a step, which the covariance"
                + " does not know");
      }
    }
    return notes;
  }
}
