package org.asmeasured.fitting;

import java.util.Arrays;
import org.asmeasured.capture.Setup;
import org.asmeasured.internal.Require;

/**
 * The noise on the points of a record: a stationary process, by its autocovariance. Open: a noise
 * of your own implements {@link #autocovariance}. An implementation is immutable and used by
 * several threads at once.
 */
@FunctionalInterface
public interface RecordNoise {

  /**
   * The autocovariance at lags of 0, 1, 2, ... points.
   *
   * @param setup the setup of the record, with its number of points, start and rate; the fitted
   *     values stand in it once there are any
   * @param points of the record
   * @return V^2, the variance first, which is above 0 and not less than any other; at most as many
   *     as there are points, and 0 at every lag beyond
   * @throws IllegalArgumentException if the setup does not tell
   */
  double[] autocovariance(Setup setup, int points);

  /**
   * The noise that the setup states: amplifier, source and converter through bandwidth, decimation
   * and averaging, exactly as a capture has them; and quantisation as white noise of q^2/12, which
   * needs noise of half a step or a signal that crosses many (B. Widrow and I. Kollar,
   * <i>Quantization Noise</i>, 2008).
   *
   * <p>Refused are setups whose noise is not stationary, or not known: jitter of aperture or edges,
   * averages over acquisitions whose instants scatter, decimations other than picking and means,
   * and setups without any noise.
   *
   * @return the noise
   */
  static RecordNoise asStated() {
    return new StatedNoise();
  }

  /**
   * White noise.
   *
   * @param rmsVolts standard deviation of a point, above 0 and at most 1e9 V
   * @return the noise
   * @throws IllegalArgumentException if it is out of range
   */
  static RecordNoise white(double rmsVolts) {
    Require.positiveVolts("rmsVolts", rmsVolts);
    double[] variance = {rmsVolts * rmsVolts};
    return (setup, points) -> variance.clone();
  }

  /**
   * Noise known from elsewhere, such as the mean over records of a still input.
   *
   * @param autocovariance V^2 at lags of 0, 1, ... points: the variance above 0 and at most 1e18
   *     V^2, no other greater in magnitude; 0 at every lag beyond
   * @return the noise
   * @throws IllegalArgumentException if a value is out of range or there is none
   * @throws NullPointerException if it is missing
   */
  static RecordNoise ofAutocovariance(double... autocovariance) {
    double[] copy = Stationary.requireCovariance(autocovariance).clone();
    return (setup, points) -> Arrays.copyOf(copy, Math.min(copy.length, points));
  }
}
