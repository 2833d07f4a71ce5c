package org.asmeasured.uncertainty;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class ProgressTest {
  private final List<Double> shares = new ArrayList<>();
  private final Progress whole =
      (done, most) -> {
        shares.add((double) done / most);
        return done < most;
      };

  /** (number + done/most)/count; more than the most counts as all. */
  @Test
  void aPartIsAShareOfTheWhole() {
    assertTrue(whole.part(0, 4).goOn(0, 10));
    assertTrue(whole.part(1, 4).goOn(5, 10));
    assertTrue(whole.part(1, 4).goOn(11, 10));
    assertTrue(whole.part(2, 4).part(1, 2).goOn(1, 2));
    assertFalse(whole.part(3, 4).goOn(7, 7));
    assertEquals(List.of(0.0, 0.375, 0.5, 0.6875, 1.0), shares);
  }

  @Test
  void refusesAPartThatIsNone() {
    assertThrows(IllegalArgumentException.class, () -> whole.part(0, 0));
    assertThrows(IllegalArgumentException.class, () -> whole.part(-1, 2));
    assertThrows(IllegalArgumentException.class, () -> whole.part(2, 2));
  }
}
