package org.asmeasured.measure;

import java.util.Arrays;
import org.asmeasured.acquisition.Slope;
import org.asmeasured.capture.Record;
import org.asmeasured.signal.LevelWalk;
import org.asmeasured.signal.Waveform;

/**
 * The instants at which a level is crossed in one direction, after the start of a record or a span;
 * a crossing counts if the value has been beyond the level by the hysteresis since the one before.
 */
final class Crossings {
  private final double level;
  private final double armedAt;
  private double[] seconds = new double[16];
  private int count;
  private boolean armed;

  /** Levels of a mirror image where falling crossings are looked for. */
  private Crossings(double level, double hysteresis) {
    this.level = level;
    armedAt = level - hysteresis;
  }

  static double[] of(Record record, Slope slope, double level, double hysteresis) {
    double sign = slope == Slope.RISING ? 1 : -1;
    Crossings found = new Crossings(sign * level, hysteresis);
    double before = sign * record.volts(0);
    for (int i = 1; i < record.size(); i++) {
      double after = sign * record.volts(i);
      if (found.crosses(before, after)) {
        found.add((i - 1 + (found.level - before) / (after - before)) / record.rateHz());
      }
      before = after;
    }
    return Arrays.copyOf(found.seconds, found.count);
  }

  static double[] of(
      Waveform waveform, double from, double to, Slope slope, double level, double hysteresis) {
    double sign = slope == Slope.RISING ? 1 : -1;
    Crossings found = new Crossings(sign * level, hysteresis);
    LevelWalk walk = LevelWalk.over(waveform, from, to);
    for (LevelWalk.Piece p = walk.next(to); p != null; p = walk.next(to)) {
      if (found.crosses(sign * p.v0(), sign * p.v1())) {
        found.add((p.knot() - from) + walk.crossing(p, level));
      }
    }
    return Arrays.copyOf(found.seconds, found.count);
  }

  private boolean crosses(double before, double after) {
    armed |= before <= armedAt;
    boolean crossed = armed && before < level && after >= level;
    armed = !crossed && armed || after <= armedAt;
    return crossed;
  }

  private void add(double instant) {
    if (count == seconds.length) {
      seconds = Arrays.copyOf(seconds, 2 * count);
    }
    seconds[count++] = instant;
  }
}
