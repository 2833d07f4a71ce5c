package org.asmeasured.acquisition;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.asmeasured.frontend.Refused;
import org.junit.jupiter.api.Test;

class EnvelopeAccumulatorTest {

  @Test
  void keepsTheLeastAndTheGreatest() {
    EnvelopeAccumulator volts = EnvelopeAccumulator.ofVolts(3);
    double[] low = new double[3];
    double[] high = new double[3];
    double[] first = {1, -2, 3};
    volts.add(first, first);
    volts.envelope(low, high);
    assertArrayEquals(first, low);
    assertArrayEquals(first, high);
    volts.add(new double[] {0, 0, 0}, new double[] {2, 1, Double.NaN});
    volts.add(new double[] {5, -7, 9}, new double[] {5, -7, 9});
    volts.envelope(low, high);
    assertArrayEquals(new double[] {0, -7, 0}, low);
    assertArrayEquals(new double[] {5, 1, Double.NaN}, high);
    assertEquals(3, volts.count());

    EnvelopeAccumulator codes = EnvelopeAccumulator.ofCodes(2);
    codes.add(new int[] {4, -8}, new int[] {5, -8});
    codes.add(new int[] {-4, 7}, new int[] {-4, 7});
    int[] least = new int[2];
    int[] most = new int[2];
    codes.envelope(least, most);
    assertArrayEquals(new int[] {-4, -8}, least);
    assertArrayEquals(new int[] {5, 7}, most);
  }

  @Test
  void refusesWhatDoesNotFit() {
    Refused.message("points", "0", () -> EnvelopeAccumulator.ofVolts(0));
    Refused.message("points", "-1", () -> EnvelopeAccumulator.ofCodes(-1));
    EnvelopeAccumulator codes = EnvelopeAccumulator.ofCodes(2);
    EnvelopeAccumulator volts = EnvelopeAccumulator.ofVolts(2);
    int[] two = new int[2];
    double[] both = new double[2];
    assertThrows(IllegalStateException.class, () -> codes.envelope(two, two));
    assertThrows(IllegalStateException.class, () -> volts.envelope(both, both));
    assertThrows(IllegalStateException.class, () -> codes.add(both, both));
    assertThrows(IllegalStateException.class, () -> volts.add(two, two));
    codes.add(two, two);
    volts.add(both, both);
    assertThrows(IllegalStateException.class, () -> codes.envelope(both, both));
    assertThrows(IllegalStateException.class, () -> volts.envelope(two, two));
    Refused.message("lower.length", "3", () -> codes.add(new int[3], two));
    Refused.message("upper.length", "1", () -> codes.add(two, new int[1]));
    Refused.message("lower.length", "3", () -> volts.add(new double[3], both));
    Refused.message("upper.length", "1", () -> volts.add(both, new double[1]));
    Refused.message("lower.length", "3", () -> codes.envelope(new int[3], two));
    Refused.message("upper.length", "1", () -> volts.envelope(both, new double[1]));
    Refused.missing("lower", () -> codes.add(null, two));
    Refused.missing("upper", () -> volts.add(both, null));
    Refused.missing("lower", () -> codes.envelope(null, two));
    Refused.missing("upper", () -> volts.envelope(both, null));
  }

  @Test
  void ensemblesOfEnvelopesAreNoMeans() {
    Ensemble envelope = Ensemble.envelopeOf(16);
    assertTrue(envelope.isEnvelope());
    assertFalse(envelope.isSingle());
    assertFalse(Ensemble.envelopeOf(1).isSingle());
    assertFalse(Ensemble.averageOf(16).isEnvelope());
    assertEquals(16, envelope.count());
    assertEquals(envelope, Ensemble.envelopeOf(16));
    assertEquals(envelope.hashCode(), Ensemble.envelopeOf(16).hashCode());
    assertNotEquals(envelope, Ensemble.averageOf(16));
    assertEquals("envelope of 16 acquisitions", envelope.toString());
    assertEquals("envelope of 1 acquisition", Ensemble.envelopeOf(1).toString());
    Refused.wholes("count", Ensemble::envelopeOf, 0, -1, 65537);
  }
}
