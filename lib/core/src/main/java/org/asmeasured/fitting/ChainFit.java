package org.asmeasured.fitting;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CancellationException;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import org.asmeasured.accuracy.Measurement;
import org.asmeasured.accuracy.Tolerances;
import org.asmeasured.capture.Record;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Outcome;
import org.asmeasured.uncertainty.Distribution;
import org.asmeasured.uncertainty.Input;

/**
 * Parameters of a measurement as records of known signals tell them, with their covariance: the
 * model becomes that of one bench. Immutable.
 *
 * <p><b>What is fitted.</b> The unknowns that make the sum of squares least, of records less the
 * noiseless points that their measurements predict, each record divided by the standard deviation
 * of its noise. Nothing is linearised but the covariance.
 *
 * <p><b>Covariance.</b> Of plain least squares under the noise as it is, correlated from point to
 * point or not: A (J'RJ) A with A = 1/(J'J) for one record of covariance matrix R. For white noise
 * that is the variance times A, and the bound of Cramer and Rao; for other noise it is right, but
 * another estimate could be better. What it takes for granted is that the noise is stationary and
 * of the stated shape, and so small that the prediction is straight over a few standard
 * uncertainties.
 *
 * <p><b>Whether the model fits.</b> Chi-squared is the sum of squares; its mean and variance under
 * the noise give {@link #reducedChiSquared}, {@link #degreesOfFreedom} (those of the chi-squared
 * distribution of the same mean and variance, F. Satterthwaite 1946; exactly points less unknowns
 * for white noise) and {@link #probability}. Where it is improbable the covariance is too small:
 * the model lacks something.
 *
 * <p><b>Limits of validity.</b> The least sum of squares found is the one that the start leads to.
 * Quantisation counts as white noise: without noise of half a step, a still level is off by up to
 * half a step whatever the covariance says, and a note says so. A jump that no bandwidth rounds
 * makes the prediction jump with it, and has no slope to follow.
 */
public final class ChainFit {
  /** The greatest number of recordings. */
  public static final int MAX_RECORDINGS = 1000;

  /** The greatest number of unknowns. */
  public static final int MAX_UNKNOWNS = 64;

  /** The greatest number of points of all recordings. */
  public static final int MAX_POINTS = 1 << 22;

  /** The greatest number of points times unknowns: a quarter of a gigabyte of slopes. */
  private static final long MOST_SLOPES = 1L << 25;

  /** Of a matrix of unit diagonal: below, two unknowns or more are one. */
  private static final double ONE_AND_THE_SAME = 1e-12;

  /** Share of the largest, for an unknown to belong to a direction. */
  private static final double SEEN = 0.03;

  private static final double STRONG = 0.99;
  private static final double IMPROBABLE = 1e-3;

  private final ChainCurve curve;
  private final FitMethod method;
  private final double[] values;
  private final double[] points;
  private final double[][] covariance;
  private final double[] expected;
  private final double chiSquared;
  private final double mean;
  private final double freedom;
  private final int steps;
  private final List<String> notes;

  private ChainFit(
      ChainCurve curve,
      FitMethod method,
      Search search,
      Spread spread,
      Spread test,
      double[] expected,
      List<String> notes) {
    this.curve = curve;
    this.method = method;
    values = search.values();
    points = search.points();
    this.expected = expected;
    chiSquared = search.cost();
    mean = test.mean();
    freedom = 2 * mean * mean / test.variance();
    steps = search.steps();
    covariance = spread.covariance();
    if (!method.sizeOfNoiseKnown()) {
      for (double[] row : covariance) {
        for (int j = 0; j < row.length; j++) {
          row[j] *= chiSquared / mean;
        }
      }
    }
    this.notes = withFindings(notes);
  }

  /**
   * Fits one record in the usual way, its noise as stated.
   *
   * @param record of at least one point, not an envelope
   * @param measurement the signal, and the setup
   * @param unknowns what is sought, with different names
   * @return the fit, or the reason why there is none
   * @throws IllegalArgumentException as the method for several recordings does
   * @throws NullPointerException if an argument is missing
   */
  public static Outcome<ChainFit> of(Record record, Measurement measurement, Unknown... unknowns) {
    return of(
        List.of(Recording.of(record, measurement)),
        Arrays.asList(Require.present("unknowns", unknowns)),
        FitMethod.usual());
  }

  /**
   * Fits several recordings at once.
   *
   * @param recordings 1 to 1000, of 4 194 304 points together at most
   * @param unknowns what is sought, 1 to 64, with different names; points times unknowns at most 33
   *     554 432
   * @param method how
   * @return the fit; or a reason: fewer points than unknowns, clipped points, unknowns of which the
   *     records tell nothing or that they do not tell apart (named, with the direction along which
   *     the prediction does not change), no convergence
   * @throws IllegalArgumentException if a number is out of range, a name comes twice, a measurement
   *     has no such parameter, cannot have its lowest or highest value or states one outside, or
   *     the noise of a recording is not known
   * @throws CancellationException if the method's progress says so, or the thread is interrupted,
   *     which stays marked
   * @throws NullPointerException if an argument is missing
   */
  public static Outcome<ChainFit> of(
      List<Recording> recordings, List<Unknown> unknowns, FitMethod method) {
    List<Recording> given = List.copyOf(Require.present("recordings", recordings));
    List<Unknown> sought = List.copyOf(Require.present("unknowns", unknowns));
    Require.present("method", method);
    Require.inRange("number of recordings", given.size(), 1, MAX_RECORDINGS);
    Require.inRange("number of unknowns", sought.size(), 1, MAX_UNKNOWNS);
    long points = given.stream().mapToLong(r -> r.record().size()).sum();
    Require.inRange("number of points", points, 1, MAX_POINTS);
    Require.inRange("points x unknowns", points * sought.size(), 1, MOST_SLOPES);
    Set<String> names = new HashSet<>();
    for (Unknown u : sought) {
      Require.that(names.add(u.name()), "name = " + u.name() + ": must not come twice");
      Require.that(
          u.recording().isEmpty() || u.recording().getAsInt() < given.size(),
          "recording of "
              + u.parameter().name()
              + " = "
              + u.recording().orElse(0)
              + ": must be one of the "
              + given.size());
    }
    ChainCurve curve = new ChainCurve(given, sought, method.threads());
    double[] start = start(curve);
    for (int i = 0; i < given.size(); i++) {
      Optional<String> reason = given.get(i).reasonAgainst();
      if (reason.isPresent()) {
        return new Outcome.NotTaken<>("recording " + (i + 1) + ": " + reason.get());
      }
    }
    if (curve.points() <= sought.size()) {
      return new Outcome.NotTaken<>(
          curve.points()
              + (curve.points() == 1 ? " point does" : " points do")
              + " not settle "
              + sought.size()
              + (sought.size() == 1 ? " unknown" : " unknowns")
              + " and leave a residual");
    }
    return fitted(curve, start, method);
  }

  /** Where the search begins; refuses bounds that a measurement cannot have. */
  private static double[] start(ChainCurve curve) {
    List<Unknown> unknowns = curve.unknowns();
    double[] start = new double[unknowns.size()];
    for (int j = 0; j < start.length; j++) {
      Unknown u = unknowns.get(j);
      boolean first = true;
      for (int i = 0; i < curve.recordings().size(); i++) {
        if (!u.concerns(i)) {
          continue;
        }
        Measurement m = curve.recordings().get(i).placed();
        double stated = u.parameter().of(m);
        if (first) {
          start[j] =
              u.start().isPresent()
                  ? u.start().getAsDouble()
                  : Require.inRange(
                      u.name() + " as stated",
                      stated,
                      u.parameter().unit(),
                      u.lowest(),
                      u.highest());
          first = false;
        }
        requireAccepted(u, m, "lowest", u.lowest());
        requireAccepted(u, m, "highest", u.highest());
      }
    }
    return start;
  }

  private static void requireAccepted(Unknown u, Measurement m, String which, double value) {
    try {
      u.parameter().with(m, value);
    } catch (IllegalArgumentException refused) {
      throw new IllegalArgumentException(
          which
              + " of "
              + u.name()
              + " = "
              + value
              + ": the measurement cannot have it: "
              + refused.getMessage(),
          refused);
    }
  }

  private static Outcome<ChainFit> fitted(ChainCurve curve, double[] start, FitMethod method) {
    int count = curve.recordings().size();
    double[] data = new double[curve.points()];
    double[] weights = new double[count];
    for (int i = 0; i < count; i++) {
      Record record = curve.recordings().get(i).record();
      record.volts(0, data, curve.first(i), record.size());
      weights[i] = 1 / Math.sqrt(noise(curve, i, start)[0]);
    }
    Search search = new Search(curve, data, weights);
    boolean ended = search.run(start, method.mostSteps(), method.progress());
    double[][] g = Normal.products(search.columns(), search.columns());
    Optional<String> vague = indistinct(curve.unknowns(), g);
    if (vague.isPresent()) {
      return new Outcome.NotTaken<>(vague.get());
    }
    if (!ended) {
      return new Outcome.NotTaken<>(
          "no least sum of squares was found in "
              + search.steps()
              + (search.steps() == 1 ? " step" : " steps")
              + ": "
              + words(curve.unknowns(), search.values()));
    }
    List<Stationary> noise = new ArrayList<>();
    double[] expected = new double[count];
    for (int i = 0; i < count; i++) {
      double[] r = noise(curve, i, search.values());
      noise.add(new Stationary(r, curve.recordings().get(i).record().size()));
      expected[i] = Math.sqrt(r[0]);
    }
    Spread spread = Spread.of(curve, search.columns(), weights, noise);
    // what is held by a bound takes nothing from the residuals
    double[][] free = free(curve.unknowns(), search);
    Spread test =
        free.length == search.columns().length ? spread : Spread.of(curve, free, weights, noise);
    return new Outcome.Taken<>(
        new ChainFit(
            curve, method, search, spread, test, expected, Notes.ofNoise(curve, search.values())));
  }

  private static double[] noise(ChainCurve curve, int recording, double[] values) {
    Recording r = curve.recordings().get(recording);
    try {
      return Stationary.requireCovariance(
          r.noise()
              .autocovariance(curve.measurement(recording, values).setup(), r.record().size()));
    } catch (IllegalArgumentException unknown) {
      throw new IllegalArgumentException(
          "recording " + (recording + 1) + ": " + unknown.getMessage(), unknown);
    }
  }

  private static double[][] free(List<Unknown> unknowns, Search search) {
    List<double[]> free = new ArrayList<>();
    for (int j = 0; j < unknowns.size(); j++) {
      if (!isAtBound(unknowns.get(j), search.values()[j])) {
        free.add(search.columns()[j]);
      }
    }
    return free.toArray(double[][]::new);
  }

  private static boolean isAtBound(Unknown u, double value) {
    return value <= u.lowest() || value >= u.highest();
  }

  /** What the records do not tell. */
  private static Optional<String> indistinct(List<Unknown> unknowns, double[][] g) {
    for (int j = 0; j < g.length; j++) {
      if (!(g[j][j] > 0)) {
        return Optional.of(
            "the records tell nothing of " + unknowns.get(j).name() + ": no point depends on it");
      }
    }
    Normal.Weakest weakest = Normal.weakest(g);
    if (weakest.eigenvalue() > ONE_AND_THE_SAME) {
      return Optional.empty();
    }
    double[] scale = Normal.scales(g);
    double largest = 0;
    for (double d : weakest.direction()) {
      largest = Math.max(largest, Math.abs(d));
    }
    List<String> names = new ArrayList<>();
    List<String> changes = new ArrayList<>();
    double unit = 0;
    for (int j = 0; j < g.length; j++) {
      if (Math.abs(weakest.direction()[j]) >= SEEN * largest) {
        double along = weakest.direction()[j] * scale[j];
        unit = unit == 0 ? along : unit;
        names.add(unknowns.get(j).name());
        double change = along / unit;
        changes.add(
            unknowns.get(j).name()
                + (change < 0 ? " falls by " : " rises by ")
                + Quantity.of(Math.abs(change), unknowns.get(j).parameter().unit()));
      }
    }
    return Optional.of(
        "the records do not tell "
            + String.join(" from ", names)
            + ": no point changes where "
            + String.join(" while ", changes));
  }

  private List<String> withFindings(List<String> others) {
    List<String> all = new ArrayList<>();
    for (int j = 0; j < values.length; j++) {
      if (isAtBound(unknowns().get(j), values[j])) {
        all.add(
            unknowns().get(j).name()
                + " ends at a bound, "
                + quantity(j, values[j])
                + ": the covariance does not know of it");
      }
    }
    if (probability() instanceof Measured.Value p
        && (p.value() < IMPROBABLE || p.value() > 1 - IMPROBABLE)) {
      all.add(
          "the residuals are "
              + (reducedChiSquared() > 1 ? "larger" : "smaller")
              + " than the stated noise makes them: reduced chi-squared "
              + Quantity.of(reducedChiSquared(), "")
              + " of "
              + Quantity.of(freedom, "")
              + " degrees of freedom");
    }
    for (int j = 0; j < values.length; j++) {
      for (int k = 0; k < j; k++) {
        double r = correlation(k, j);
        if (Math.abs(r) > STRONG) {
          all.add(
              String.format(
                  Locale.ROOT,
                  "%s and %s are hard to tell apart: correlation %.5f",
                  unknowns().get(k).name(),
                  unknowns().get(j).name(),
                  r));
        }
      }
    }
    all.addAll(others);
    return List.copyOf(all);
  }

  /**
   * What was sought.
   *
   * @return in the order of all that follows, unchangeable
   */
  public List<Unknown> unknowns() {
    return curve.unknowns();
  }

  /**
   * What was fitted.
   *
   * @return the recordings in order, unchangeable
   */
  public List<Recording> recordings() {
    return curve.recordings();
  }

  /**
   * The estimate of an unknown.
   *
   * @param index of the unknown
   * @return in its unit
   * @throws IndexOutOfBoundsException if there is none
   */
  public double estimate(int index) {
    return values[index];
  }

  /**
   * The standard uncertainty of an estimate, from the noise of the records alone.
   *
   * @param index of the unknown
   * @return in its unit
   * @throws IndexOutOfBoundsException if there is none
   */
  public double standardUncertainty(int index) {
    return Math.sqrt(covariance[index][index]);
  }

  /**
   * The covariance of two estimates.
   *
   * @param first index of one unknown
   * @param second index of another, or the same
   * @return in the product of their units
   * @throws IndexOutOfBoundsException if there is no such unknown
   */
  public double covariance(int first, int second) {
    return covariance[first][second];
  }

  /**
   * The correlation of two estimates.
   *
   * @param first index of one unknown
   * @param second index of another, or the same
   * @return -1 to 1
   * @throws IndexOutOfBoundsException if there is no such unknown
   */
  public double correlation(int first, int second) {
    if (first == second) {
      return covariance[first][first] > 0 ? 1 : Double.NaN;
    }
    double r =
        covariance[first][second] / (standardUncertainty(first) * standardUncertainty(second));
    return Math.max(-1, Math.min(1, r));
  }

  /**
   * Which unknowns ended at a bound.
   *
   * @return their names; empty if all lie within
   */
  public List<String> atBounds() {
    List<String> names = new ArrayList<>();
    for (int j = 0; j < values.length; j++) {
      if (isAtBound(unknowns().get(j), values[j])) {
        names.add(unknowns().get(j).name());
      }
    }
    return names;
  }

  /**
   * The sum of squares of what is left over, each point over the standard deviation of its
   * recording's noise as stated where the search began.
   *
   * @return chi-squared, 0 or more
   */
  public double chiSquared() {
    return chiSquared;
  }

  /**
   * Chi-squared over what the noise makes it in the mean.
   *
   * @return about 1 where model and noise are as stated; the square of the noise's true size over
   *     the stated one, where the model holds
   */
  public double reducedChiSquared() {
    return chiSquared / mean;
  }

  /**
   * The degrees of freedom of chi-squared.
   *
   * @return above 0; points less unknowns for white noise, fewer where noise is correlated from
   *     point to point
   */
  public double degreesOfFreedom() {
    return freedom;
  }

  /**
   * How probable it is that noise alone makes chi-squared as large as it is.
   *
   * @return 0 to 1; not taken where the size of the noise comes from chi-squared itself
   */
  public Measured probability() {
    return method.sizeOfNoiseKnown()
        ? new Measured.Value(
            ChiSquaredDistribution.of(freedom).survivalProbability(freedom * reducedChiSquared()))
        : new Measured.NotTaken("the size of the noise is taken from the residuals themselves");
  }

  /**
   * How many steps the search took.
   *
   * @return 1 or more
   */
  public int steps() {
    return steps;
  }

  /**
   * What else is to be said: unknowns at their bounds, residuals larger or smaller than the noise
   * makes them (each with odds of 1e-3 where all is well), unknowns that are hard to tell apart
   * (correlation beyond 0.99), noise that does not spread the quantisation.
   *
   * @return sentences, unchangeable
   */
  public List<String> notes() {
    return notes;
  }

  /**
   * The noiseless points at the estimates.
   *
   * @param recording index of it
   * @return a new array of volts
   * @throws IndexOutOfBoundsException if there is none
   */
  public double[] fittedVolts(int recording) {
    requireRecording(recording);
    return Arrays.copyOfRange(points, curve.first(recording), curve.first(recording + 1));
  }

  /**
   * What is left over: the record less the noiseless points.
   *
   * @param recording index of it
   * @return a new array of volts
   * @throws IndexOutOfBoundsException if there is none
   */
  public double[] residualVolts(int recording) {
    double[] left = fittedVolts(recording);
    Record record = recordings().get(recording).record();
    for (int k = 0; k < left.length; k++) {
      left[k] = record.volts(k) - left[k];
    }
    return left;
  }

  /**
   * The root mean square of what is left over.
   *
   * @param recording index of it
   * @return volts, by the number of points
   * @throws IndexOutOfBoundsException if there is none
   */
  public double residualRmsVolts(int recording) {
    double[] left = residualVolts(recording);
    return Math.sqrt(Normal.dot(left, left) / left.length);
  }

  /**
   * The standard deviation of the noise as stated.
   *
   * @param recording index of it
   * @return volts
   * @throws IndexOutOfBoundsException if there is none
   */
  public double expectedRmsVolts(int recording) {
    requireRecording(recording);
    return expected[recording];
  }

  private void requireRecording(int index) {
    if (index < 0 || index >= recordings().size()) {
      throw new IndexOutOfBoundsException(
          "recording = " + index + ": must be from 0 to " + (recordings().size() - 1));
    }
  }

  /**
   * A recording's measurement at the estimates, placed as its record is.
   *
   * @param recording index of it
   * @return the measurement, its own unknowns included
   * @throws IndexOutOfBoundsException if there is none
   */
  public Measurement measurement(int recording) {
    requireRecording(recording);
    return curve.measurement(recording, values);
  }

  /**
   * A measurement on the same bench: with the estimates of all unknowns that do not belong to one
   * recording.
   *
   * @param stated the signal and the setup, as they would be stated without the fit
   * @return the changed measurement
   * @throws IllegalArgumentException if it has no such parameter, or cannot have the estimate
   * @throws NullPointerException if it is missing
   */
  public Measurement asFitted(Measurement stated) {
    Measurement m = Require.present("stated", stated);
    for (int j = 0; j < values.length; j++) {
      if (unknowns().get(j).recording().isEmpty()) {
        m = unknowns().get(j).parameter().with(m, values[j]);
      }
    }
    return m;
  }

  /**
   * What is known of the bench afterwards: the unknowns that do not belong to one recording, with
   * their correlations. Normal where the size of the noise was known, else t distributed. Trials
   * drawn from it scatter beyond the bounds of the fit where the uncertainty reaches so far.
   *
   * @return tolerances for any measurement on the same bench
   * @throws IllegalStateException if one of these unknowns ended at a bound, where its covariance
   *     means nothing; or has no uncertainty, the record being exact
   */
  public Tolerances asTolerances() {
    List<Integer> common = new ArrayList<>();
    List<String> names = new ArrayList<>();
    Tolerances tolerances = Tolerances.none();
    for (int j = 0; j < values.length; j++) {
      Unknown u = unknowns().get(j);
      if (u.recording().isPresent()) {
        continue;
      }
      if (isAtBound(u, values[j])) {
        throw new IllegalStateException(
            u.name() + " ended at a bound, " + quantity(j, values[j]) + ": widen it");
      }
      if (!(standardUncertainty(j) > 0)) {
        throw new IllegalStateException(
            u.name() + " has no uncertainty: the residuals are all zero");
      }
      common.add(j);
      names.add(u.name());
      tolerances =
          tolerances.with(
              u.parameter(),
              Input.of(
                  u.name(), u.parameter().unit(), distribution(values[j], standardUncertainty(j))));
    }
    if (names.size() < 2) {
      return tolerances;
    }
    double[][] r = new double[names.size()][names.size()];
    for (int i = 0; i < r.length; i++) {
      for (int j = 0; j < r.length; j++) {
        r[i][j] = correlation(common.get(i), common.get(j));
      }
    }
    return tolerances.correlated(names, r);
  }

  private Distribution distribution(double estimate, double uncertainty) {
    return method.sizeOfNoiseKnown() || freedom > 1e6
        ? Distribution.normal(estimate, uncertainty)
        : Distribution.studentT(estimate, uncertainty, Math.max(1, freedom));
  }

  private String quantity(int j, double value) {
    return Quantity.of(value, unknowns().get(j).parameter().unit());
  }

  private static String words(List<Unknown> unknowns, double[] values) {
    List<String> words = new ArrayList<>();
    for (int j = 0; j < values.length; j++) {
      words.add(
          unknowns.get(j).name()
              + " "
              + Quantity.of(values[j], unknowns.get(j).parameter().unit()));
    }
    return String.join(", ", words);
  }

  @Override
  public String toString() {
    List<String> words = new ArrayList<>();
    for (int j = 0; j < values.length; j++) {
      words.add(
          unknowns().get(j).name()
              + " = "
              + quantity(j, values[j])
              + " (standard uncertainty "
              + quantity(j, standardUncertainty(j))
              + ")");
    }
    words.add(
        String.format(
            Locale.ROOT,
            "reduced chi-squared %.4g of %.4g degrees of freedom",
            reducedChiSquared(),
            freedom));
    return String.join("; ", words);
  }
}
