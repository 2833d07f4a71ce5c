package org.asmeasured.measure;

import java.util.List;
import org.asmeasured.acquisition.Reconstruction;
import org.asmeasured.internal.Require;

/** The readings that are there. Their definitions stand together at the head of this package. */
public final class Readings {
  private static final Reading MEAN = new MeanReading();
  private static final Reading RMS = new RmsReading();
  private static final Reading AC_RMS = new AcRmsReading();
  private static final Reading MINIMUM = new ExtremeReading(ExtremeReading.Which.MINIMUM);
  private static final Reading MAXIMUM = new ExtremeReading(ExtremeReading.Which.MAXIMUM);
  private static final Reading PEAK_TO_PEAK = new ExtremeReading(ExtremeReading.Which.PEAK_TO_PEAK);

  private Readings() {}

  /**
   * The mean over the span, in volts.
   *
   * @return the reading
   */
  public static Reading mean() {
    return MEAN;
  }

  /**
   * The root of the mean square over the span, in volts.
   *
   * @return the reading
   */
  public static Reading rms() {
    return RMS;
  }

  /**
   * The root of the mean square distance from the mean, over the span, in volts.
   *
   * @return the reading
   */
  public static Reading acRms() {
    return AC_RMS;
  }

  /**
   * The least value over the span, in volts.
   *
   * @return the reading
   */
  public static Reading minimum() {
    return MINIMUM;
  }

  /**
   * The greatest value over the span, in volts.
   *
   * @return the reading
   */
  public static Reading maximum() {
    return MAXIMUM;
  }

  /**
   * The greatest less the least value over the span, in volts.
   *
   * @return the reading
   */
  public static Reading peakToPeak() {
    return PEAK_TO_PEAK;
  }

  /**
   * The level that a share of the values lies below, in volts. Of a record of n points in order of
   * size, the value at place p/100 (n - 1), interpolated linearly between two; of a waveform, the
   * level below which it spends p/100 of the span.
   *
   * @param percent p, 0 to 100 %
   * @return the reading
   * @throws IllegalArgumentException if the share is out of range
   */
  public static Reading percentile(double percent) {
    return new PercentileReading(percent);
  }

  /**
   * Whether a reading is a percentile: for whoever wants to show where it lies among the values.
   *
   * @param reading any reading
   * @return true for those of this class
   * @throws NullPointerException if the reading is missing
   */
  public static boolean isPercentile(Reading reading) {
    return Require.present("reading", reading) instanceof PercentileReading;
  }

  /**
   * Every reading of this class, in the order in which they stand here; the median for the
   * percentiles.
   *
   * @return unmodifiable
   */
  public static List<Reading> all() {
    return List.of(MEAN, RMS, AC_RMS, MINIMUM, MAXIMUM, PEAK_TO_PEAK, percentile(50));
  }

  /**
   * A reading of the record with values between its points; of a waveform it is the reading itself.
   * Where the reconstruction has a {@link Reconstruction#margin}, the first and last points of the
   * record are left out.
   *
   * @param reading what is read
   * @param reconstruction what is between the points
   * @param factor values a point, 1 to 4096
   * @return the reading
   * @throws IllegalArgumentException if the factor is out of range
   * @throws NullPointerException if the reading or the reconstruction is missing
   */
  public static Reading reconstructed(Reading reading, Reconstruction reconstruction, int factor) {
    return ReconstructedReading.of(reading, reconstruction, factor);
  }
}
