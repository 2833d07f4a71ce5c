package org.asmeasured.linear;

import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.internal.Quantity;

/**
 * What of a {@link NoiseProcess} does not depend on its density: the filter that makes noise of
 * unit variance, and how near it comes. Immutable.
 */
final class NoiseShape {
  /**
   * Captures of one setup share its shape, which takes as long to find as many samples; so do those
   * of setups in a search that differ in their density alone.
   */
  private static final Kept<Key, NoiseShape> KEPT = new Kept<>(256);

  private static final double FLOOR = 1e-8;
  private static final double FLOOR_SHARE = 0.01;
  private static final double SHARE_OF_SPECTRUM = 0.01;
  private static final double SHARE_OF_TOLERANCE = 0.1;
  private static final int MOST_OCTAVES = 60;

  /** The integral of the squared impulse response. */
  final double energy;

  /** The covariance of the samples, of unit variance. */
  final NoiseCovariance exact;

  /** What makes it to the tolerance. */
  final NoiseSections unit;

  /** The states at the first sample are this times independent deviates. */
  final double[][] stateRoot;

  /** The largest deviation of the covariance that was found. */
  final double covarianceError;

  private final Response response;
  private final double rateHz;
  private final double tolerance;

  /**
   * The shape of noise behind a response.
   *
   * @throws IllegalArgumentException if its slowest pole is too slow for the rate
   */
  static NoiseShape of(Response response, double rateHz, double tolerance) {
    return KEPT.of(
        new Key(
            response.zeros(),
            response.poles(),
            response.mantissa(),
            response.exponent(),
            rateHz,
            tolerance),
        () -> new NoiseShape(response, rateHz, tolerance));
  }

  private NoiseShape(Response response, double rateHz, double tolerance) {
    this.response = response;
    this.rateHz = rateHz;
    this.tolerance = tolerance;
    Modes modes = response.modes();
    energy = modes.impulseEnergy();
    exact = NoiseCovariance.of(response, 1 / rateHz);
    Fitted fitted = fitted(modes);
    covarianceError = fitted.covarianceError;
    stateRoot =
        fitted.sections.states() == 0
            ? new double[0][]
            : NoiseModel.squareRoot(fitted.sections.stateCovariance()).getData();
    unit = fitted.sections;
  }

  /** The fewest states that hold what is promised. */
  private Fitted fitted(Modes modes) {
    double slowest = Double.POSITIVE_INFINITY;
    double fastest = 0;
    for (Cluster c : modes.clusters) {
      slowest = Math.min(slowest, c.slowest / rateHz);
      fastest = Math.max(fastest, c.fastest / rateHz);
    }
    int octaves =
        (int)
            Math.max(2, Math.min(MOST_OCTAVES, 6 + Math.ceil(Math.log(1 / slowest) / Math.log(2))));
    double[] covariances = exact.atSpreadLags(octaves);
    double[] angles = angles(slowest);
    double[] densities = new double[angles.length];
    for (int i = 0; i < angles.length; i++) {
      densities[i] = exact.spectrum(angles[i]);
    }
    NoiseModel model = NoiseModel.of(exact.withFloor(Math.min(FLOOR, FLOOR_SHARE * tolerance)));
    Fitted best = judged(model.truncated(0, true), covariances, angles, densities);
    if (best != null) {
      return best;
    }
    int low = 1;
    int high = model.states() + 1;
    while (low < high) {
      int middle = (low + high) >>> 1;
      Fitted fitted =
          middle > model.states()
              ? null
              : judged(model.truncated(middle, true), covariances, angles, densities);
      if (fitted != null) {
        best = fitted;
        high = middle;
      } else {
        low = middle + 1;
      }
    }
    // where modes coincide, splitting spoils them
    for (int states = 1; best == null && states <= model.states(); states++) {
      best = judged(model.truncated(states, false), covariances, angles, densities);
    }
    if (best != null) {
      return best;
    }
    throw new IllegalArgumentException(
        "response ("
            + response
            + "): cannot be sampled at rateHz = "
            + rateHz
            + " Hz to tolerance = "
            + tolerance
            + ": its slowest pole, of "
            + Quantity.of(slowest * rateHz / (2 * Math.PI), "Hz")
            + ", is too slow for that rate");
  }

  /** Scaled to unit variance, or null if it does not hold what is promised. */
  private Fitted judged(
      NoiseSections sections, double[] covariances, double[] angles, double[] densities) {
    if (!sections.isStable()) {
      return null;
    }
    double present = sections.covariance().present();
    double worst = covarianceError(sections, covariances);
    if (!(present > 0 && worst <= tolerance)) {
      return null;
    }
    NoiseSections scaled = sections.scaledBy(1 / Math.sqrt(present));
    return holds(scaled, angles, densities) ? new Fitted(scaled, worst) : null;
  }

  /** The largest deviation when scaled to unit variance. */
  private static double covarianceError(NoiseSections sections, double[] covariances) {
    double[] attained = sections.covariance().atSpreadLags(covariances.length / 2 - 1);
    double worst = 0;
    for (int i = 0; i < attained.length; i++) {
      worst = Math.max(worst, Math.abs(attained[i] / attained[0] - covariances[i]));
    }
    return worst;
  }

  private boolean holds(NoiseSections sections, double[] angles, double[] densities) {
    DoubleUnaryOperator spectrum = sections.spectrum();
    for (int i = 0; i < angles.length; i++) {
      double off = Math.abs(spectrum.applyAsDouble(angles[i]) - densities[i]);
      if (!(off <= SHARE_OF_SPECTRUM * densities[i] + SHARE_OF_TOLERANCE * tolerance)) {
        return false;
      }
    }
    return true;
  }

  /** From a tenth of the slowest pole to half the rate, twenty to the decade; radians a sample. */
  private static double[] angles(double slowest) {
    double from = Math.min(slowest / 10, Math.PI / 100);
    int n = (int) Math.ceil(20 * Math.log10(Math.PI / from)) + 1;
    double[] angles = new double[n];
    for (int i = 0; i < n; i++) {
      angles[i] = Math.PI * Math.pow(Math.PI / from, (i - n + 1.0) / (n - 1));
    }
    return angles;
  }

  /** All that a shape depends on. */
  private record Key(
      List<Complex> zeros,
      List<Complex> poles,
      double mantissa,
      long exponent,
      double rateHz,
      double tolerance) {}

  private record Fitted(NoiseSections sections, double covarianceError) {}
}
