package org.asmeasured.accuracy;

import java.util.Map;
import java.util.TreeMap;
import org.asmeasured.internal.CompensatedSum;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;

/**
 * Readings added one by one, of which only sums are kept. The squares are of distances from the
 * first value, so that a small scatter about a large mean does not cancel.
 */
final class Tally {
  private final Map<String, Integer> reasons = new TreeMap<>();
  private final CompensatedSum sum = new CompensatedSum();
  private final CompensatedSum distances = new CompensatedSum();
  private final CompensatedSum squares = new CompensatedSum();
  private double first;
  private double least = Double.POSITIVE_INFINITY;
  private double greatest = Double.NEGATIVE_INFINITY;
  private int taken;

  void add(Measured reading) {
    if (reading instanceof Value value) {
      add(value.value());
    } else {
      reasons.merge(((NotTaken) reading).reason(), 1, Integer::sum);
    }
  }

  private void add(double value) {
    if (taken == 0) {
      first = value;
    }
    taken++;
    least = Math.min(least, value);
    greatest = Math.max(greatest, value);
    sum.add(value);
    double distance = value - first;
    distances.add(distance);
    squares.add(distance * distance);
  }

  int taken() {
    return taken;
  }

  Map<String, Integer> reasons() {
    return reasons;
  }

  /** Of those taken; the reasons if there is none. */
  Measured mean() {
    if (taken == 0) {
      return new NotTaken(
          reasons.isEmpty() ? "there is no reading" : String.join("; ", reasons.keySet()));
    }
    return new Value(least == greatest ? first : sum.total() / taken);
  }

  /** With n - 1; at least two must have been taken. */
  double variance() {
    double total = distances.total();
    return Math.max(0, (squares.total() - total * total / taken) / (taken - 1));
  }
}
