package org.asmeasured.linear;

import org.asmeasured.internal.ExtendedTime;
import org.asmeasured.signal.Pattern;
import org.asmeasured.signal.SampleClock;

/**
 * Which samples fall on which segment of a pattern. Positions are counted in samples, in two
 * doubles each, from whole numbers of periods and samples, so the answer does not depend on the way
 * there.
 */
final class SegmentCursor {
  /** Beyond any sample number, and far from overflow. */
  private static final long FAR = 1L << 60;

  private static final long STROLL = 2048;

  private final Pattern pattern;
  private final double rateHz;
  private final ExtendedTime position = new ExtendedTime();
  private final double periodHi;
  private final double periodLo;
  private final double[] startHi;
  private final double[] startLo;

  /** The pattern's origin after the clock's start. */
  private double originHi;

  private double originLo;

  private double cycle;
  private boolean placed;
  private double nextDelay;

  /** Where the cycle at hand starts. */
  private double baseCycle = Double.NaN;

  private double baseHi;
  private double baseLo;
  private long boundarySample;
  private double boundaryDelay;

  /** The segment at hand, -1 before a pattern that is played once. */
  int segment;

  /** Its samples are first <= k < end. */
  long first;

  long end;

  /** How many samples the first of them lies after the segment's start, from 0 to 1. */
  double delay;

  SegmentCursor(Pattern pattern, SampleClock clock) {
    this.pattern = pattern;
    rateHz = clock.rateHz();
    if (pattern.isPeriodic()) {
      scale(position.set(pattern.periodSeconds(), pattern.periodLo()));
    } else {
      position.set(0, 0);
    }
    periodHi = position.hi();
    periodLo = position.lo();
    int n = pattern.count();
    startHi = new double[n];
    startLo = new double[n];
    for (int i = 0; i < n; i++) {
      scale(position.set(pattern.startHi(i), pattern.startLo(i)));
      startHi[i] = position.hi();
      startLo[i] = position.lo();
    }
    startAt(clock.startSeconds());
  }

  /** Moves sample 0 to another instant. */
  void startAt(double startSeconds) {
    scale(position.set(pattern.originHi(), pattern.originLo()).add(-startSeconds));
    originHi = position.hi();
    originLo = position.lo();
    placed = false;
    baseCycle = Double.NaN;
  }

  private void scale(ExtendedTime t) {
    double hi = t.hi();
    double lo = t.lo();
    t.set(0, 0).addProduct(hi, rateHz).addProduct(lo, rateHz);
  }

  boolean holds(long k) {
    return placed && k >= first && k < end;
  }

  /** Where the segment ends, in samples after sample {@code k}. */
  double untilEnd(long k) {
    return end == FAR ? Double.POSITIVE_INFINITY : (end - k) - nextDelay;
  }

  void locate(long k) {
    if (!placed || k < first || k - end > STROLL) {
      seek(k);
      placed = true;
    }
    while (k >= end) {
      next();
    }
  }

  private void seek(long k) {
    position.set(k, 0).add(-originHi, -originLo);
    cycle = pattern.isPeriodic() ? position.removeWhole(periodHi, periodLo) : 0;
    if (position.hi() < 0) {
      segment = -1;
      first = -FAR;
      boundary(0, 0);
      end = boundarySample;
      nextDelay = boundaryDelay;
      return;
    }
    int low = 0;
    int high = startHi.length - 1;
    while (low < high) {
      int middle = (low + high + 1) >>> 1;
      if ((startHi[middle] - position.hi()) + (startLo[middle] - position.lo()) <= 0) {
        low = middle;
      } else {
        high = middle - 1;
      }
    }
    segment = low;
    boundary(cycle, low);
    first = boundarySample;
    delay = boundaryDelay;
    findEnd();
  }

  private void next() {
    segment++;
    if (segment == startHi.length) {
      segment = 0;
      cycle++;
    }
    first = end;
    delay = nextDelay;
    findEnd();
  }

  private void findEnd() {
    if (segment + 1 < startHi.length) {
      boundary(cycle, segment + 1);
    } else if (pattern.isPeriodic()) {
      boundary(cycle + 1, 0);
    } else {
      end = FAR;
      return;
    }
    end = boundarySample;
    nextDelay = boundaryDelay;
  }

  /** The first sample at or after a segment's start, and by how much after. */
  private void boundary(double cycleNumber, int i) {
    if (cycleNumber != baseCycle) {
      position
          .set(originHi, originLo)
          .addProduct(cycleNumber, periodHi)
          .addProduct(cycleNumber, periodLo);
      baseHi = position.hi();
      baseLo = position.lo();
      baseCycle = cycleNumber;
    }
    // the sum in place: by way of an ExtendedTime's fields it cost three times as much
    double start = startHi[i];
    double hi = baseHi + start;
    double part = hi - baseHi;
    double lo = (baseHi - (hi - part)) + (start - part) + (baseLo + startLo[i]);
    double c = Math.ceil(hi);
    double after = (c - hi) - lo;
    if (after < 0) {
      c++;
      after += 1;
    } else if (after >= 1) {
      c--;
      after -= 1;
    }
    boundarySample = (long) c;
    boundaryDelay = after;
  }
}
