package org.asmeasured.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.frontend.Refused;
import org.asmeasured.internal.Cases;
import org.asmeasured.signal.Signals;
import org.junit.jupiter.api.Test;

/** Percentiles of records long enough for a sample to say where to look, by sorting. */
class RanksOfLongRecordsTest {

  private static double[] drawn(SplittableRandom random) {
    int n = (1 << 14) + random.nextInt(30_000) - 100;
    double[] values = new double[n];
    int kind = random.nextInt(8);
    for (int i = 0; i < n; i++) {
      double u = random.nextDouble() * 2 - 1;
      values[i] =
          switch (kind) {
            case 0 -> u;
            case 1 -> Math.rint(4 * u);
            case 2 -> u * Math.exp(-600 * random.nextDouble());
            case 3 -> i % 8 < 4 ? 1 : -1;
            case 4 -> (i % 1000 < 500 ? 1 : -1) + 0.01 * u;
            case 5 -> 0.7;
            case 6 -> i;
            // one value far out, and a crowd in a place of its own
            default -> i == 77 ? 1e9 : i < n / 2 ? 1e-9 * u : 5 + u;
          };
    }
    return values;
  }

  @Test
  void percentilesAreThoseOfSorting() {
    Cases.check(
        1,
        250,
        random -> {
          double[] values = drawn(random);
          double[] sorted = values.clone();
          Arrays.sort(sorted);
          Record record = Record.of(0, 1, values);
          for (double percent :
              new double[] {
                0, 50, 100, 100 * random.nextDouble(), 0.01 * random.nextDouble(), 99.999
              }) {
            double place = percent / 100 * (sorted.length - 1);
            int below = (int) place;
            double above = sorted[Math.min(below + 1, sorted.length - 1)];
            double expected = sorted[below] + (place - below) * (above - sorted[below]);
            double found = Readings.percentile(percent).of(record).orThrow();
            assertEquals(expected + 0.0, found + 0.0, Math.ulp(expected), percent + " %");
          }
        });
  }

  /** The bracket is used for what it is meant for, and left where it would keep too many. */
  @Test
  void theBracketHoldsAFewPercent() {
    SplittableRandom random = new SplittableRandom(1);
    double[] noise = random.doubles(1 << 17).toArray();
    RankBracket bracket = RankBracket.of(Record.of(0, 1, noise), 1 << 16, true).orElseThrow();
    assertTrue(bracket.values().length < noise.length / 10, "" + bracket.values().length);
    assertTrue(RankBracket.of(Record.of(0, 1, new double[1 << 17]), 5, false).isEmpty());
    assertTrue(RankBracket.of(Record.of(0, 1, new double[100]), 5, false).isEmpty());
  }

  @Test
  void codesAreCounted() {
    Record record =
        Setup.ideal(1e6, 5003).scale(0.25).bits(6).capture(Signals.sine(0.7, 1234.5).plus(0.1));
    CodeCounts counts = CodeCounts.of(record, 64).orElseThrow();
    int[] expected = new int[64];
    for (int i = 0; i < record.size(); i++) {
      expected[record.code(i) + 32]++;
    }
    int seen = 0;
    for (int c = 0; c < counts.size(); c++) {
      assertEquals(expected[counts.least() + c + 32], counts.count(c));
      seen += counts.count(c);
    }
    assertEquals(record.size(), seen);
    assertTrue(counts.count(0) > 0 && counts.count(counts.size() - 1) > 0);
    assertTrue(CodeCounts.of(record, counts.size() - 1).isEmpty());
    assertTrue(CodeCounts.of(record, counts.size()).isPresent());
    Refused.missing("record", () -> CodeCounts.of(null, 2));
    Refused.wholes("most", n -> CodeCounts.of(record, n), 0, (1 << 24) + 1);
  }
}
