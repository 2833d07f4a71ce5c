package org.asmeasured.measure;

import java.util.Arrays;
import java.util.OptionalDouble;
import org.asmeasured.signal.PieceQuadrature;
import org.asmeasured.signal.Waveform;

/**
 * The product of two waveforms. Between the knots of both each factor goes through an eighth of a
 * cycle at most, so that twelve points of Gauss-Legendre leave an error below the last bit of the
 * integral of their moduli: 1e-12 of the product of their RMS values is safe.
 */
final class ProductWaveform implements Waveform {
  private static final double SAME_PERIOD = 1e-12;
  private static final int MOST_PERIODS = 4096;

  private final Waveform first;
  private final Waveform second;

  ProductWaveform(Waveform first, Waveform second) {
    this.first = first;
    this.second = second;
  }

  @Override
  public double valueAt(double timeSeconds) {
    return first.valueAt(timeSeconds) * second.valueAt(timeSeconds);
  }

  @Override
  public double valueAt(double hi, double lo) {
    return first.valueAt(hi, lo) * second.valueAt(hi, lo);
  }

  @Override
  public double valueBefore(double timeSeconds) {
    return first.valueBefore(timeSeconds) * second.valueBefore(timeSeconds);
  }

  @Override
  public double[] knots(double fromSeconds, double toSeconds) {
    double[] a = first.knots(fromSeconds, toSeconds);
    double[] b = second.knots(fromSeconds, toSeconds);
    double[] all = Arrays.copyOf(a, a.length + b.length);
    System.arraycopy(b, 0, all, a.length, b.length);
    Arrays.sort(all);
    int n = 1;
    for (int i = 1; i < all.length; i++) {
      if (all[i] > all[n - 1]) {
        all[n++] = all[i];
      }
    }
    return Arrays.copyOf(all, n);
  }

  /** A period of both: that of one which is a whole number of times as long as the other's. */
  @Override
  public OptionalDouble periodSeconds() {
    OptionalDouble a = first.periodSeconds();
    OptionalDouble b = second.periodSeconds();
    if (a.isEmpty() || b.isEmpty()) {
      return OptionalDouble.empty();
    }
    double longer = Math.max(a.getAsDouble(), b.getAsDouble());
    double ratio = longer / Math.min(a.getAsDouble(), b.getAsDouble());
    boolean whole = Math.abs(ratio - Math.rint(ratio)) <= SAME_PERIOD * ratio;
    return whole && ratio < MOST_PERIODS ? OptionalDouble.of(longer) : OptionalDouble.empty();
  }

  @Override
  public double mean(double fromSeconds, double toSeconds) {
    return PieceQuadrature.integral(this, fromSeconds, toSeconds) / (toSeconds - fromSeconds);
  }

  @Override
  public double rms(double fromSeconds, double toSeconds) {
    return Math.sqrt(
        PieceQuadrature.integralOfSquare(this, fromSeconds, toSeconds) / (toSeconds - fromSeconds));
  }

  @Override
  public String toString() {
    return "(" + first + ") x (" + second + ")";
  }
}
