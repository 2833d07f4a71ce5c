package org.asmeasured.capture;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.asmeasured.digitizer.IdealConverter;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Rounding in one pass is what the definition says, code = rint(level) within the range. */
class KernelsTest {

  private static CodeRange range(IdealConverter converter, double[] levels, int[] codes) {
    return Kernels.roundWithin(
        levels, levels.length, codes, 0, converter.lowestCode(), converter.bits());
  }

  private static boolean within(IdealConverter converter, double[] levels, int[] codes) {
    return range(converter, levels, codes) != null;
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 8, 12, 24})
  void roundsWithinTheRange(int bits) {
    IdealConverter converter = new IdealConverter(bits);
    SplittableRandom random = new SplittableRandom(bits);
    int n = 10_001;
    double[] levels = new double[n];
    int[] expected = new int[n];
    for (int i = 0; i < n; i++) {
      double level =
          converter.lowestLevel()
              + random.nextDouble() * (converter.highestLevel() - converter.lowestLevel());
      // half of them on a transition or next to it
      double tie =
          Math.min(
              Math.max(Math.floor(level) + 0.5, converter.lowestLevel() + 1),
              converter.highestLevel() - 1);
      levels[i] =
          switch (i % 8) {
            case 0 -> tie;
            case 2 -> Math.nextDown(tie);
            case 4 -> Math.nextUp(tie);
            case 6 -> -0.0;
            default -> level;
          };
      expected[i] = (int) Math.rint(levels[i]);
    }
    int[] codes = new int[n];
    CodeRange range = range(converter, levels, codes);
    assertArrayEquals(expected, codes);
    assertEquals(Arrays.stream(expected).min().orElseThrow(), range.least());
    assertEquals(Arrays.stream(expected).max().orElseThrow(), range.greatest());
    assertEquals(range, CodeRange.of(codes));
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 8, 12, 24})
  void tellsWhatLiesOutside(int bits) {
    IdealConverter converter = new IdealConverter(bits);
    double low = converter.lowestLevel();
    double high = converter.highestLevel();
    int[] codes = new int[5];
    // a tie at an end belongs to the even neighbour: of one bit that is the code at the other end
    assertEquals(bits > 1, within(converter, new double[] {0, 0, low, 0, 0}, codes));
    assertEquals(bits == 1, within(converter, new double[] {0, 0, high, 0, 0}, codes));
    for (double level :
        new double[] {
          Math.nextDown(low),
          low - 1,
          Math.nextUp(high),
          high + 1,
          -0x1p31,
          0x1p31,
          -0x1p32,
          0x1p32,
          -0x1p51,
          0x1p51,
          -0x1p52,
          0x1p52,
          -0x1.8p52,
          0x1.8p52,
          -0x1p53,
          0x1p53,
          -0x1.8p53,
          -1e300,
          1e300,
          -Double.MAX_VALUE,
          Double.MAX_VALUE,
          Double.NEGATIVE_INFINITY,
          Double.POSITIVE_INFINITY,
          Double.NaN,
          Double.longBitsToDouble(-1L)
        }) {
      double[] levels = {0, 0, 0, 0, 0};
      for (int i = 0; i < levels.length; i++) {
        levels[i] = level;
        assertFalse(within(converter, levels, codes), "level " + level);
        levels[i] = 0;
      }
      assertTrue(within(converter, levels, codes));
    }
  }
}
