package org.asmeasured.measure;

import java.util.List;
import org.asmeasured.acquisition.Reconstruction;

/** The readings that are there. Their definitions stand together at the head of this package. */
public final class Readings {
  private static final Reading MEAN = new MeanReading();
  private static final Reading RMS = new RmsReading();
  private static final Reading AC_RMS = new AcRmsReading();
  private static final Reading MINIMUM = new ExtremeReading(ExtremeReading.Which.MINIMUM);
  private static final Reading MAXIMUM = new ExtremeReading(ExtremeReading.Which.MAXIMUM);
  private static final Reading PEAK_TO_PEAK = new ExtremeReading(ExtremeReading.Which.PEAK_TO_PEAK);
  private static final Reading PERIOD = new PeriodReading();
  private static final Reading RISE_TIME = new RiseTimeReading();

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
   * The mean period over the whole cycles in the span, in seconds.
   *
   * @return the reading
   */
  public static Reading period() {
    return PERIOD;
  }

  /**
   * The 10-90 % rise time of the first whole rising transition in the span, in seconds; 0 % and 100
   * % are the least and the greatest value over the span.
   *
   * @return the reading
   */
  public static Reading riseTime() {
    return RISE_TIME;
  }

  /**
   * The 10-90 % rise time between given levels.
   *
   * @param lowVolts the 0 % level, -1e9 to 1e9 V
   * @param highVolts the 100 % level, above the other, -1e9 to 1e9 V
   * @return the reading
   * @throws IllegalArgumentException if a level is out of range or the second is not above the
   *     first
   */
  public static Reading riseTime(double lowVolts, double highVolts) {
    return new RiseTimeReading(lowVolts, highVolts);
  }

  /**
   * Every reading of this class, in the order in which they stand here; the rise time by its own
   * levels.
   *
   * @return unmodifiable
   */
  public static List<Reading> all() {
    return List.of(MEAN, RMS, AC_RMS, MINIMUM, MAXIMUM, PEAK_TO_PEAK, PERIOD, RISE_TIME);
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
    return new ReconstructedReading(reading, reconstruction, factor);
  }
}
