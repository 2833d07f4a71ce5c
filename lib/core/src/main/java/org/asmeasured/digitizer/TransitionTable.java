package org.asmeasured.digitizer;

import java.util.Arrays;

/**
 * From level to code by thresholds. The range from the first to the last threshold is cut into
 * equal cells, two a code; a cell knows how many thresholds lie below it, and the few within are
 * compared without branches.
 */
final class TransitionTable {
  /** Above this number of thresholds in one cell, a search by halves is quicker. */
  private static final int FEW = 4;

  /** Up to this number of thresholds there are two cells a code, so that two seldom share one. */
  private static final int SMALL = 1 << 16;

  private final int lowestCode;

  /**
   * Distinct thresholds: a level not below one belongs to the codes above it. Padded by NaN, which
   * no level reaches.
   */
  private final double[] thresholds;

  /** Code - lowest code after so many distinct thresholds; null if every code appears. */
  private final int[] codes;

  private final int distinct;

  /** Thresholds below each cell, and one entry more. */
  private final int[] below;

  private final int cells;
  private final double origin;
  private final double cellsPerStep;
  private final int most;

  TransitionTable(int lowestCode, double[] transitions) {
    this.lowestCode = lowestCode;
    int n = transitions.length;
    double[] levels = new double[n + FEW];
    int[] after = new int[n + 1];
    int found = 0;
    for (int i = 0; i < n; ) {
      int end = i + 1;
      while (end < n && transitions[end] == transitions[i]) {
        end++;
      }
      // the codes below and above this level
      int lower = lowestCode + i;
      int upper = lowestCode + end;
      boolean tieBelongsBelow = (lower & 1) == 0 && (upper & 1) != 0;
      levels[found] = tieBelongsBelow ? Math.nextUp(transitions[i]) : transitions[i];
      after[++found] = end;
      i = end;
    }
    distinct = found;
    Arrays.fill(levels, found, levels.length, Double.NaN);
    thresholds = levels;
    codes = found == n ? null : Arrays.copyOf(after, found + 1);
    double first = levels[0];
    double last = levels[found - 1];
    cells = (n < SMALL ? 2 : 1) * n + 1;
    origin = first;
    cellsPerStep = last > first ? Math.min((cells - 1) / (last - first), 1e300) : 1;
    below = new int[cells + 1];
    for (int i = 0; i < found; i++) {
      below[cell(levels[i]) + 1]++;
    }
    int greatest = 0;
    for (int c = 0; c < cells; c++) {
      greatest = Math.max(greatest, below[c + 1]);
      below[c + 1] += below[c];
    }
    most = greatest;
  }

  /** Monotone in the level, so that thresholds and levels fall into cells in the same order. */
  private int cell(double level) {
    return Math.max(0, Math.min(cells - 1, (int) ((level - origin) * cellsPerStep)));
  }

  void convert(double[] levels, int from, int to) {
    if (most <= 1) {
      one(levels, from, to);
    } else if (most == 2) {
      two(levels, from, to);
    } else {
      several(levels, from, to);
    }
    if (codes != null) {
      skipMissing(levels, from, to);
    }
  }

  private void one(double[] levels, int from, int to) {
    for (int i = from; i < to; i++) {
      double level = levels[i];
      int place = below[cell(level)];
      place += level >= thresholds[place] ? 1 : 0;
      levels[i] = Double.isNaN(level) ? level : place + lowestCode;
    }
  }

  private void two(double[] levels, int from, int to) {
    for (int i = from; i < to; i++) {
      double level = levels[i];
      int place = below[cell(level)];
      place += level >= thresholds[place] ? 1 : 0;
      place += level >= thresholds[place] ? 1 : 0;
      levels[i] = Double.isNaN(level) ? level : place + lowestCode;
    }
  }

  private void several(double[] levels, int from, int to) {
    for (int i = from; i < to; i++) {
      double level = levels[i];
      int cell = cell(level);
      int place = below[cell];
      int end = below[cell + 1];
      if (end - place <= FEW) {
        while (place < end && level >= thresholds[place]) {
          place++;
        }
      } else {
        while (place < end) {
          int middle = (place + end) >>> 1;
          if (level >= thresholds[middle]) {
            place = middle + 1;
          } else {
            end = middle;
          }
        }
      }
      levels[i] = Double.isNaN(level) ? level : place + lowestCode;
    }
  }

  private void skipMissing(double[] levels, int from, int to) {
    for (int i = from; i < to; i++) {
      double place = levels[i] - lowestCode;
      levels[i] = Double.isNaN(place) ? place : codes[(int) place] + lowestCode;
    }
  }
}
