package org.asmeasured.pulse;

/**
 * A record or a waveform as nodes, between two of which no level is crossed twice. So one search
 * for crossings serves both, and they cannot come to differ. Instants count from the first node of
 * a record, from the start of the span of a waveform.
 */
abstract class Trace {
  /** The number of nodes. */
  abstract int size();

  /** The value at a node. */
  abstract double volts(int node);

  /** The first node from one on at or above a level; the number of nodes if there is none. */
  int firstAtOrAbove(int from, double level) {
    int i = from;
    int n = size();
    while (i < n && volts(i) < level) {
      i++;
    }
    return i;
  }

  /** The first node from one on at or below a level; the number of nodes if there is none. */
  int firstAtOrBelow(int from, double level) {
    int i = from;
    int n = size();
    while (i < n && volts(i) > level) {
      i++;
    }
    return i;
  }

  /** The instant of a node. */
  abstract double seconds(int node);

  /** The instant between a node and the next at which a level between their values is reached. */
  abstract double crossing(int node, double level);

  /** The value at an instant from the first node to the last. */
  abstract double valueAt(double seconds);

  /** The last node at or before an instant. */
  abstract int nodeAt(double seconds);

  /** Fits a straight line in least squares; its slope in V/s, NaN if there is too little to fit. */
  abstract double slope(double fromSeconds, double toSeconds);

  /** The mean of the values, or of their squared distances from a level. */
  abstract double mean(double fromSeconds, double toSeconds);

  /** The root of the mean square. */
  abstract double rms(double fromSeconds, double toSeconds);

  /** The root of the mean square distance from the mean. */
  abstract double acRms(double fromSeconds, double toSeconds);

  /** Whether an edge without a node between its reference levels has no duration that is known. */
  abstract boolean isSampled();

  final double endSeconds() {
    return seconds(size() - 1);
  }

  /** The greatest value over a closed span, times a sign. */
  final double extreme(double fromSeconds, double toSeconds, int sign) {
    double best = Math.max(sign * valueAt(fromSeconds), sign * valueAt(toSeconds));
    int last = nodeAt(toSeconds);
    for (int i = nodeAt(fromSeconds) + 1; i <= last; i++) {
      best = Math.max(best, sign * volts(i));
    }
    return best;
  }
}
