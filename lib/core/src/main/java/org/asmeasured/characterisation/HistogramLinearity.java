package org.asmeasured.characterisation;

import org.apache.commons.statistics.distribution.NormalDistribution;
import org.asmeasured.digitizer.Linearity;
import org.asmeasured.digitizer.Linearity.Line;
import org.asmeasured.digitizer.TransitionConverter;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Outcome;

/**
 * The transition levels of a converter from how often each code appears under a signal of known
 * distribution, with their confidence. Immutable.
 *
 * <p>With H<sub>k</sub> the number of samples below code k, of S samples in all, p = H/S and
 *
 * <pre>
 * sine:  T_k = offset - amplitude cos(pi p_k)        ramp:  T_k = lowest + p_k (highest - lowest)
 * </pre>
 *
 * <p>(IEEE Std 1241-2010 and 1057-2017, histogram tests, from memory; J. Doernberg, H.-S. Lee, D.
 * Hodges, IEEE JSSC 19 (1984) 820, from memory). INL and DNL follow by {@link Linearity} and do not
 * depend on amplitude and offset. Where these are not given, they are chosen so that the first and
 * the last transition stand where they belong, and gain and offset error are zero by definition.
 *
 * <p><b>Confidence.</b> p is a share of a count, so a level scatters by |dT/dp| times the deviation
 * of p: A pi sin(pi p) for the sine. What p scatters by depends on how the samples were taken:
 *
 * <ul>
 *   <li><em>independent</em> (phases at random): counts are binomial, cov(p<sub>i</sub>,
 *       p<sub>k</sub>) = p<sub>i</sub> (1 - p<sub>k</sub>)/S for i &le; k;
 *   <li><em>coherent</em> (R records of M samples each, whole cycles, their number without a common
 *       factor with M, each from a phase at random): the phases of a record are even, so the count
 *       below a level is off by less than one sample: var p = 1/(4 M<sup>2</sup> R) at most. Noise
 *       s ahead of the converter adds the scatter of the samples near the level, of the variance M
 *       s D/sqrt pi a record, D being the density dp/dT. Errors of different transitions are held
 *       to be independent. Cycles and points that share a factor g meet M/g phases g times each:
 *       var p = g<sup>2</sup>/(4 M<sup>2</sup> R) without noise.
 * </ul>
 *
 * <p><b>A broken cycle.</b> A record of c cycles that is e cycles longer or shorter than whole ones
 * counts some phases once too often or too seldom: a share p is off by at most e/c times the larger
 * of p and 1 - p. That is no scatter, and more samples of the same kind do not take it away; {@link
 * #brokenCycleSteps} says how far levels may be off.
 *
 * <p>The deviations of INL and DNL carry those of the line taken out, to the first order.
 *
 * <p><b>Limits of validity.</b> The signal must go beyond both ends: each end code must appear. A
 * sine should overdrive by several times the noise, which blurs its turning points: that error is
 * not among the deviations. A converter is held to have no hysteresis and rising codes; a missing
 * code shows as two levels in one place.
 */
public final class HistogramLinearity {

  /** How the samples were taken. Made by {@link #independent} and {@link #coherent}. */
  public static final class Sampling {
    private final long pointsPerRecord;
    private final long passes;
    private final double noiseSteps;

    private Sampling(long pointsPerRecord, long passes, double noiseSteps) {
      this.pointsPerRecord = pointsPerRecord;
      this.passes = passes;
      this.noiseSteps = noiseSteps;
    }

    /**
     * Each at a phase of its own, at random.
     *
     * @return the sampling
     */
    public static Sampling independent() {
      return new Sampling(0, 1, 0);
    }

    /**
     * Records of whole cycles, evenly spread over the phases of a cycle, each from a phase at
     * random.
     *
     * @param pointsPerRecord M, 1 to 2<sup>28</sup>
     * @param noiseSteps noise ahead of the converter, standard deviation in steps, 0 to 1e6
     * @return the sampling
     * @throws IllegalArgumentException if an argument is out of range
     */
    public static Sampling coherent(int pointsPerRecord, double noiseSteps) {
      Require.inRange("pointsPerRecord", pointsPerRecord, 1, 1 << 28);
      return coherent(pointsPerRecord, 1, noiseSteps);
    }

    /**
     * The same where each phase is met more than once: cycles and points share a factor, or records
     * begin at one phase and are taken together as one.
     *
     * @param pointsPerRecord M, 1 to 2<sup>52</sup>
     * @param passes how often each phase is met in a record, 1 to M
     * @param noiseSteps noise ahead of the converter, standard deviation in steps, 0 to 1e6
     * @return the sampling
     * @throws IllegalArgumentException if an argument is out of range
     */
    public static Sampling coherent(long pointsPerRecord, long passes, double noiseSteps) {
      Require.inRange("pointsPerRecord", pointsPerRecord, 1, 1L << 52);
      Require.inRange("passes", passes, 1, pointsPerRecord);
      Require.inRange("noiseSteps", noiseSteps, "", 0, 1e6);
      return new Sampling(pointsPerRecord, passes, noiseSteps);
    }

    private boolean isIndependent() {
      return pointsPerRecord == 0;
    }

    @Override
    public String toString() {
      return isIndependent()
          ? "independent samples"
          : "coherent records of "
              + pointsPerRecord
              + " points"
              + (passes == 1 ? "" : ", each phase met " + passes + " times")
              + (noiseSteps == 0 ? "" : ", noise of " + noiseSteps + " steps");
    }
  }

  private final TransitionConverter converter;
  private final Linearity linearity;

  /** Of each transition: p, |dT/dp| in steps. */
  private final double[] shares;

  private final double[] slopes;
  private final long total;
  private final boolean sine;

  /** Amplitude of the sine, or length of the ramp. */
  private final double gainSteps;

  private HistogramLinearity(
      TransitionConverter converter,
      double[] shares,
      double[] slopes,
      long total,
      boolean sine,
      double gainSteps) {
    this.converter = converter;
    linearity = Linearity.of(converter);
    this.shares = shares;
    this.slopes = slopes;
    this.total = total;
    this.sine = sine;
    this.gainSteps = gainSteps;
  }

  /**
   * Under a sine whose amplitude and offset are not known; gain and offset stay unknown too.
   *
   * @param histogram of samples evenly or independently spread over the phase
   * @return the test; or a reason: an end code did not appear, or nothing appeared between them
   * @throws NullPointerException if it is missing
   */
  public static Outcome<HistogramLinearity> sine(CodeHistogram histogram) {
    Require.present("histogram", histogram);
    return of(histogram, true, Double.NaN, Double.NaN);
  }

  /**
   * Under a sine of known amplitude and offset: so gain and offset are found too.
   *
   * @param histogram of samples evenly or independently spread over the phase
   * @param amplitudeSteps in ideal steps, above 0 to 2<sup>24</sup>
   * @param offsetSteps from the middle of the range, in ideal steps, 2<sup>24</sup> either way
   * @return the test, or a reason as above
   * @throws IllegalArgumentException if an argument is out of range
   * @throws NullPointerException if the histogram is missing
   */
  public static Outcome<HistogramLinearity> sine(
      CodeHistogram histogram, double amplitudeSteps, double offsetSteps) {
    Require.present("histogram", histogram);
    Require.above("amplitudeSteps", amplitudeSteps, "", 0, 1 << 24);
    Require.inRange("offsetSteps", offsetSteps, "", -(1 << 24), 1 << 24);
    return of(histogram, true, amplitudeSteps, offsetSteps);
  }

  /**
   * Under a ramp or a triangle that goes beyond both ends of the range.
   *
   * @param histogram of samples evenly or independently spread over time
   * @return the test, or a reason as above
   * @throws NullPointerException if it is missing
   */
  public static Outcome<HistogramLinearity> ramp(CodeHistogram histogram) {
    Require.present("histogram", histogram);
    return of(histogram, false, Double.NaN, Double.NaN);
  }

  private static Outcome<HistogramLinearity> of(
      CodeHistogram histogram, boolean sine, double amplitude, double offset) {
    long[] counts = histogram.counts();
    int n = counts.length - 1;
    if (counts[0] == 0 || counts[n] == 0) {
      String end =
          counts[0] != 0 ? "highest" : counts[n] != 0 ? "lowest" : "lowest nor the highest";
      return new Outcome.NotTaken<>(
          (counts[0] == 0 && counts[n] == 0 ? "neither the " : "the ")
              + end
              + " code "
              + (counts[0] == 0 && counts[n] == 0 ? "appeared" : "did not appear")
              + ": the signal must go beyond both ends of the range");
    }
    double[] p = new double[n];
    double[] level = new double[n];
    double[] slope = new double[n];
    long below = 0;
    for (int k = 0; k < n; k++) {
      below += counts[k];
      p[k] = (double) below / histogram.total();
      // from the middle, so that both halves keep their digits: -cos(pi p) = sin(pi (p - 1/2))
      double half = (2.0 * below - histogram.total()) / (2.0 * histogram.total());
      level[k] = sine ? Math.sin(Math.PI * half) : half;
      slope[k] = sine ? Math.PI * Math.sin(Math.PI * p[k]) : 1;
    }
    double first = histogram.lowestCode() + 0.5;
    double gain = amplitude;
    double shift = offset;
    if (Double.isNaN(amplitude)) {
      if (n > 1 && !(level[n - 1] > level[0])) {
        return new Outcome.NotTaken<>("no code between the end codes appeared");
      }
      gain = n == 1 ? 1 : (n - 1) / (level[n - 1] - level[0]);
      shift = first - gain * level[0];
    }
    for (int k = 0; k < n; k++) {
      level[k] = Math.fma(gain, level[k], shift);
      slope[k] *= gain;
    }
    return new Outcome.Taken<>(
        new HistogramLinearity(
            TransitionConverter.of(histogram.bits(), level),
            p,
            slope,
            histogram.total(),
            sine,
            gain));
  }

  /**
   * A converter with the transition levels found.
   *
   * @return it
   */
  public TransitionConverter converter() {
    return converter;
  }

  /**
   * Gain, offset, INL, DNL and missing codes of the levels found.
   *
   * @return the linearity
   */
  public Linearity linearity() {
    return linearity;
  }

  /**
   * By how much the INL found scatters: standard deviation of each.
   *
   * @param line how gain and offset are taken out
   * @param sampling how the samples were taken
   * @return a new array, as {@link Linearity#inl}, in steps
   * @throws NullPointerException if an argument is missing
   */
  public double[] inlDeviation(Line line, Sampling sampling) {
    Require.present("line", line);
    Require.present("sampling", sampling);
    int n = shares.length;
    if (n == 1) {
      return new double[1];
    }
    Weights weights = new Weights(line, n);
    double[] toLevel = covariances(weights.level, sampling);
    double[] toSlope = covariances(weights.slope, sampling);
    double ll = dot(weights.level, toLevel);
    double ls = dot(weights.level, toSlope);
    double ss = dot(weights.slope, toSlope);
    double gain = 1 + linearity.gainError(line);
    double[] out = new double[n];
    for (int k = 0; k < n; k++) {
      double x = weights.place(k);
      double variance =
          variance(k, sampling)
              + ll
              + x * x * ss
              - 2 * toLevel[k]
              - 2 * x * toSlope[k]
              + 2 * x * ls;
      out[k] = gain * Math.sqrt(Math.max(0, variance));
    }
    return out;
  }

  /**
   * By how much the DNL found scatters: standard deviation of each.
   *
   * @param line how the gain is taken out
   * @param sampling how the samples were taken
   * @return a new array, as {@link Linearity#dnl}, in steps
   * @throws NullPointerException if an argument is missing
   */
  public double[] dnlDeviation(Line line, Sampling sampling) {
    Require.present("line", line);
    Require.present("sampling", sampling);
    int n = shares.length;
    if (n == 1) {
      return new double[0];
    }
    Weights weights = new Weights(line, n);
    double[] toSlope = covariances(weights.slope, sampling);
    double ss = dot(weights.slope, toSlope);
    double gain = 1 + linearity.gainError(line);
    double[] levels = converter.transitionLevels();
    double[] out = new double[n - 1];
    for (int k = 0; k + 1 < n; k++) {
      double width = gain * (levels[k + 1] - levels[k]);
      double difference =
          variance(k, sampling) + variance(k + 1, sampling) - 2 * covariance(k, k + 1, sampling);
      double variance = difference + width * width * ss - 2 * width * (toSlope[k + 1] - toSlope[k]);
      out[k] = gain * Math.sqrt(Math.max(0, variance));
    }
    return out;
  }

  /**
   * How far a transition level may be off, before gain and offset are taken out, because the
   * records do not hold whole cycles.
   *
   * @param coherence of each record
   * @return steps, the bound for the level it is largest for; 0 for whole cycles
   * @throws NullPointerException if it is missing
   */
  public double brokenCycleSteps(Coherence coherence) {
    double share = Require.present("coherence", coherence).greatestShareError();
    double most = 0;
    for (double p : shares) {
      // the share that is true is not known better than that
      double off = share * Math.min(1, Math.max(p, 1 - p) + share);
      most = Math.max(most, Math.abs(level(Math.min(1, p + off)) - level(p)));
      most = Math.max(most, Math.abs(level(Math.max(0, p - off)) - level(p)));
    }
    return most;
  }

  private double level(double share) {
    return gainSteps * (sine ? Math.sin(Math.PI * (share - 0.5)) : share);
  }

  /**
   * How many independent samples hold every INL within a tolerance, with a confidence, for each
   * transition by itself: the middle one, where the sine is fastest, scatters by pi A/(2 sqrt S).
   *
   * @param amplitudeSteps amplitude of the sine in steps, above 0 to 2<sup>24</sup>
   * @param toleranceSteps half of the interval, 1e-6 to 1e3 steps
   * @param confidence 0.5 to 0.999999, chance that the figure lies within
   * @return the number, rounded up
   * @throws IllegalArgumentException if an argument is out of range
   */
  public static long independentSamplesNeeded(
      double amplitudeSteps, double toleranceSteps, double confidence) {
    double ratio = factor(amplitudeSteps, toleranceSteps, confidence) * amplitudeSteps;
    return (long) Math.ceil(square(Math.PI / 2 * ratio));
  }

  /**
   * How many coherent records do the same.
   *
   * @param amplitudeSteps amplitude of the sine in steps, above 0 to 2<sup>24</sup>
   * @param sampling points a record, and noise
   * @param toleranceSteps half of the interval, 1e-6 to 1e3 steps
   * @param confidence 0.5 to 0.999999, chance that the figure lies within
   * @return the number of records, 1 or more
   * @throws IllegalArgumentException if an argument is out of range or the sampling is not coherent
   * @throws NullPointerException if the sampling is missing
   */
  public static long coherentRecordsNeeded(
      double amplitudeSteps, Sampling sampling, double toleranceSteps, double confidence) {
    Require.present("sampling", sampling);
    Require.that(
        !sampling.isIndependent(), "sampling = " + sampling + ": must be of coherent records");
    double ratio = factor(amplitudeSteps, toleranceSteps, confidence);
    double slope = Math.PI * amplitudeSteps;
    double one = countVariance(sampling, slope) * square(slope / sampling.pointsPerRecord);
    return Math.max(1, (long) Math.ceil(one * ratio * ratio));
  }

  /** Quantile over tolerance. */
  private static double factor(double amplitude, double tolerance, double confidence) {
    Require.above("amplitudeSteps", amplitude, "", 0, 1 << 24);
    Require.inRange("toleranceSteps", tolerance, "", 1e-6, 1e3);
    Require.inRange("confidence", confidence, "", 0.5, 0.999999);
    double quantile =
        NormalDistribution.of(0, 1).inverseCumulativeProbability(0.5 + confidence / 2);
    return quantile / tolerance;
  }

  private static double square(double x) {
    return x * x;
  }

  /** Of the number of samples of one coherent record below a level; {@code slope} is dT/dp. */
  private static double countVariance(Sampling sampling, double slope) {
    double noisy =
        slope == 0
            ? 0
            : sampling.pointsPerRecord * sampling.noiseSteps / (Math.sqrt(Math.PI) * slope);
    return 0.25 * square(sampling.passes) + noisy;
  }

  private double variance(int k, Sampling sampling) {
    return covariance(k, k, sampling);
  }

  /** Of two levels found, first &le; second. */
  private double covariance(int first, int second, Sampling sampling) {
    if (sampling.isIndependent()) {
      return slopes[first] * slopes[second] * shares[first] * (1 - shares[second]) / total;
    }
    return first == second
        ? square(slopes[first])
            * countVariance(sampling, slopes[first])
            / ((double) sampling.pointsPerRecord * total)
        : 0;
  }

  /** Of each level with a weighted sum of all. */
  private double[] covariances(double[] weights, Sampling sampling) {
    int n = shares.length;
    double[] out = new double[n];
    if (!sampling.isIndependent()) {
      for (int k = 0; k < n; k++) {
        out[k] = weights[k] * variance(k, sampling);
      }
      return out;
    }
    double below = 0;
    for (int k = 0; k < n; k++) {
      below += weights[k] * slopes[k] * shares[k];
      out[k] = below * (1 - shares[k]);
    }
    double above = 0;
    for (int k = n - 1; k >= 0; k--) {
      out[k] = (out[k] + above * shares[k]) * slopes[k] / total;
      above += weights[k] * slopes[k] * (1 - shares[k]);
    }
    return out;
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      sum += a[i] * b[i];
    }
    return sum;
  }

  /**
   * The line taken out, as weights of the levels: its level in the middle of all transitions and
   * its slope a transition.
   */
  private static final class Weights {
    final double[] level;
    final double[] slope;

    Weights(Line line, int n) {
      level = new double[n];
      slope = new double[n];
      if (line == Line.END_POINTS) {
        level[0] = 0.5;
        level[n - 1] = 0.5;
        slope[0] = -1.0 / (n - 1);
        slope[n - 1] = 1.0 / (n - 1);
        return;
      }
      double squares = n * (square(n) - 1) / 12;
      for (int k = 0; k < n; k++) {
        level[k] = 1.0 / n;
        slope[k] = place(k) / squares;
      }
    }

    double place(int k) {
      return k - (level.length - 1) / 2.0;
    }
  }

  @Override
  public String toString() {
    return "histogram test of " + total + " samples: " + linearity;
  }
}
