package org.asmeasured.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class WindowTest {
  private final Comparison comparison =
      Sample.points(new Sample.Sine(0, 1, 10), 0, 1000, 5000, 0.01);

  @Test
  void holdsThreeCyclesAroundAPoint() {
    Window window = Window.cycles(comparison, 2000);
    assertEquals(301, window.points());
    assertTrue(window.first() < 2000 && window.last() > 2000);
  }

  @Test
  void staysWithinTheRecord() {
    assertEquals(0, Window.cycles(comparison, 3).first());
    assertEquals(4999, Window.cycles(comparison, 4998).last());
  }

  @Test
  void comesNearEnoughToSeePoints() {
    assertEquals(160, Window.closeUp(comparison, 2000).points());
  }

  @Test
  void isTheWholeRecordWhereThatIsShort() {
    Comparison shortRecord = Sample.points(new Sample.Sine(0, 1, 10), 0, 1000, 20, 0.01);
    assertTrue(Window.closeUp(shortRecord, 7).isWhole(shortRecord));
  }
}
