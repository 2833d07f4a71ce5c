package org.asmeasured.advice;

import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.analysis.solvers.BrentSolver;
import org.asmeasured.acquisition.Boxcar;
import org.asmeasured.acquisition.RollingBoxcar;
import org.asmeasured.capture.Setup;
import org.asmeasured.frontend.FrontEnd;
import org.asmeasured.linear.Response;

/** The half-power frequency of what a record keeps of a signal. */
final class EffectiveBandwidth {
  private EffectiveBandwidth() {}

  /** Of the analog chain alone; empty if it does not fall to half power. */
  static OptionalDouble analogHz(FrontEnd frontEnd) {
    Response response = frontEnd.response();
    if (response.poles().isEmpty()) {
      return OptionalDouble.empty();
    }
    try {
      return OptionalDouble.of(response.halfPowerHz());
    } catch (IllegalStateException none) {
      return OptionalDouble.empty();
    }
  }

  /**
   * With a mean of n raw samples, sin(pi f n/fs)/(n sin(pi f/fs)), where the decimation is one.
   * Averaging over acquisitions changes nothing here: its jitter is that of the trigger.
   */
  static OptionalDouble hertz(Setup setup) {
    OptionalDouble analog = analogHz(setup.frontEnd());
    int n = meanOf(setup);
    if (n == 1) {
      return analog;
    }
    Response response = setup.frontEnd().response();
    double rate = setup.rateHz();
    double passed = analog.isPresent() && response.dcGain() == 0 ? response.peakGain() : 1;
    double direct = response.dcGain() != 0 ? Math.abs(response.dcGain()) : passed;
    DoubleUnaryOperator magnitude =
        f ->
            (response.isIdentity() ? 1 : response.magnitude(f))
                / direct
                * Math.abs(Math.sin(Math.PI * f * n / rate))
                / (n * Math.sin(Math.PI * f / rate));
    double firstZero = rate / n;
    double half = Math.sqrt(0.5);
    // from the top of the coupling's high-pass down to the first zero of the mean
    double below = firstZero;
    while (below > firstZero * 1e-12 && magnitude.applyAsDouble(below * 0.5) < half) {
      below *= 0.5;
    }
    if (!(below > firstZero * 1e-12)) {
      return OptionalDouble.empty();
    }
    double low = below * 0.5;
    double high = below == firstZero ? firstZero * (1 - 1e-12) : below;
    return OptionalDouble.of(
        new BrentSolver(1e-12, 1e-300, 1e-15)
            .solve(200, f -> magnitude.applyAsDouble(f) - half, low, high));
  }

  private static int meanOf(Setup setup) {
    if (setup.decimation() instanceof Boxcar boxcar) {
      return boxcar.factor();
    }
    return setup.decimation() instanceof RollingBoxcar rolling ? rolling.length() : 1;
  }
}
