package org.asmeasured.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class TruthColumnsTest {

  @Test
  void drawsAJumpUpright() {
    Polyline line = new TruthColumns(new Sample.Jump(0.3), 0, 0, 1, 100).line();
    int upright = 0;
    for (int i = 1; i < line.size(); i++) {
      if (line.value(i) != line.value(i - 1)) {
        upright++;
        assertEquals(0.3, line.time(i - 1), 1e-12);
        assertEquals(0.3, line.time(i), 1e-12);
      }
    }
    assertEquals(1, upright);
  }

  @Test
  void fillsTheColumnsOfManyCycles() {
    // 100 000 cycles, a whole number of them in each column: evaluation on a grid would see a
    // straight line.
    TruthColumns truth = new TruthColumns(new Sample.Sine(0, 1, 100_000), 0, 0, 1, 500);
    assertTrue(truth.band().isDense());
    assertEquals(-1, truth.band().lower().greatest(), 0.01);
    assertEquals(1, truth.band().upper().least(), 0.01);
  }

  @Test
  void drawsAFewCyclesAsALine() {
    TruthColumns truth = new TruthColumns(new Sample.Sine(2, 1, 3), 2, 0, 1, 500);
    assertFalse(truth.band().isDense());
    assertEquals(1, truth.line().greatest(), 1e-3);
    assertEquals(-1, truth.line().least(), 1e-3);
  }
}
