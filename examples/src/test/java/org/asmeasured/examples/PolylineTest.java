package org.asmeasured.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class PolylineTest {

  @Test
  void keepsEveryPointWhereThereIsRoom() {
    double[] volts = {0, 3, 1};
    Polyline line = Polyline.ofPoints(0, 2, 10, i -> i, i -> volts[i]);
    assertEquals(3, line.size());
    assertEquals(3, line.value(1));
  }

  @Test
  void losesNoSpikeWhereThereIsNone() {
    double[] volts = new double[100_000];
    volts[61_803] = 1;
    volts[17] = -1;
    Polyline line = Polyline.ofPoints(0, volts.length - 1, 300, i -> i, i -> volts[i]);
    assertTrue(line.size() <= 600, () -> line.size() + " points for 300 columns");
    assertEquals(1, line.greatest());
    assertEquals(-1, line.least());
  }

  @Test
  void aBandLosesNoSpikeEither() {
    double[] volts = new double[100_000];
    volts[61_803] = 1;
    volts[17] = -1;
    Band band = Band.ofPoints(0, volts.length - 1, 300, i -> i, volts, volts);
    assertEquals(300, band.lower().size());
    assertEquals(1, band.upper().greatest());
    assertEquals(-1, band.lower().least());
    assertEquals(0, band.upper().least());
  }

  /** A spike within one column, in the middle of a line that is otherwise straight. */
  @Test
  void simplifyingLosesNoSpike() {
    for (int at : new int[] {1, 2, 50, 99}) {
      for (double volts : new double[] {-1, 1}) {
        Polyline line = new Polyline();
        for (int i = 0; i < 100; i++) {
          line.addColumn(i, Math.min(0, i == at ? volts : 0), Math.max(0, i == at ? volts : 0));
        }
        Polyline kept = line.simplified(0.1, 0.01);
        assertEquals(Math.min(0, volts), kept.least());
        assertEquals(Math.max(0, volts), kept.greatest());
        assertTrue(kept.size() < 10, () -> kept.size() + " points are left");
      }
    }
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
  void staysWithinTheToleranceWhenSimplified(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    Polyline line = new Polyline();
    double value = 0;
    for (int i = 0; i < 2000; i++) {
      value += random.nextDouble(-1, 1) * (random.nextInt(50) == 0 ? 10 : 0.02);
      line.add(i, value);
    }
    double tolerance = 0.3;
    Polyline kept = line.simplified(1e-9, tolerance);
    assertTrue(kept.size() < line.size(), () -> "seed " + seed + ": nothing was left out");
    int piece = 0;
    for (int i = 0; i < line.size(); i++) {
      while (piece < kept.size() - 2 && kept.time(piece + 1) < line.time(i)) {
        piece++;
      }
      double share = (line.time(i) - kept.time(piece)) / (kept.time(piece + 1) - kept.time(piece));
      double drawn = kept.value(piece) + share * (kept.value(piece + 1) - kept.value(piece));
      double off = Math.abs(drawn - line.value(i));
      int at = i;
      assertTrue(off <= 2 * tolerance, () -> "seed " + seed + ", point " + at + ": off by " + off);
    }
  }
}
