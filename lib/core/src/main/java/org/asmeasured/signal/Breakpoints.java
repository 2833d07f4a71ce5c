package org.asmeasured.signal;

import org.asmeasured.internal.ExtendedTime;

/** Walks over the starts of a pattern's segments, in order of time, from an instant on. */
final class Breakpoints {
  private final Pattern pattern;
  private final ExtendedTime time = new ExtendedTime();
  private double period;
  private int segment;

  Breakpoints(Pattern pattern, double from) {
    this.pattern = pattern;
    time.set(from, 0).add(-pattern.originHi(), -pattern.originLo());
    if (pattern.isPeriodic()) {
      period = time.removeWhole(pattern.periodSeconds(), pattern.periodLo());
    }
    segment = time.hi() < 0 ? -1 : pattern.segmentAt(time.hi(), time.lo()) - 1;
  }

  /**
   * Moves to the next start before an instant; false if there is none. The first may lie just
   * before {@code from}.
   */
  boolean next(double to) {
    if (++segment == pattern.count()) {
      if (!pattern.isPeriodic()) {
        segment--;
        return false;
      }
      segment = 0;
      period++;
    }
    time.set(pattern.startHi(segment), pattern.startLo(segment));
    if (pattern.isPeriodic()) {
      time.addProduct(period, pattern.periodSeconds()).addProduct(period, pattern.periodLo());
    }
    time.add(pattern.originHi(), pattern.originLo());
    return time.hi() < to;
  }

  double hi() {
    return time.hi();
  }

  double lo() {
    return time.lo();
  }

  int segment() {
    return segment;
  }
}
