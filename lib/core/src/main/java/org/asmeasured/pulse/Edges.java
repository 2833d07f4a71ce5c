package org.asmeasured.pulse;

import java.util.Arrays;

/**
 * Where a trace passes from one state to the other: from below the middle level by the hysteresis
 * to above it by as much, or back.
 */
final class Edges {
  private int[] before = new int[16];
  private int[] after = new int[16];
  private int count;
  private boolean firstRises;

  Edges(Trace trace, double low, double high) {
    int n = trace.size();
    int i = 0;
    while (i < n && trace.volts(i) > low && trace.volts(i) < high) {
      i++;
    }
    if (i == n) {
      return;
    }
    boolean rises = trace.volts(i) <= low;
    firstRises = rises;
    while (true) {
      i = rises ? trace.firstAtOrAbove(i, high) : trace.firstAtOrBelow(i, low);
      if (i == n) {
        return;
      }
      int start = i - 1;
      if (rises) {
        while (trace.volts(start) > low) {
          start--;
        }
      } else {
        while (trace.volts(start) < high) {
          start--;
        }
      }
      add(start, i);
      rises = !rises;
    }
  }

  private void add(int start, int end) {
    if (count == before.length) {
      before = Arrays.copyOf(before, 2 * count);
      after = Arrays.copyOf(after, 2 * count);
    }
    before[count] = start;
    after[count] = end;
    count++;
  }

  int count() {
    return count;
  }

  /** Rising and falling edges take turns. */
  boolean rises(int edge) {
    return firstRises == ((edge & 1) == 0);
  }

  /** The last node on the side where the edge comes from. */
  int before(int edge) {
    return before[edge];
  }

  /** The first node on the side where it goes. */
  int after(int edge) {
    return after[edge];
  }
}
