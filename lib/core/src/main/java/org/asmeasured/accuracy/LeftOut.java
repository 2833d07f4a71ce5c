package org.asmeasured.accuracy;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.frontend.AnalogStage;
import org.asmeasured.internal.Require;
import org.asmeasured.linear.Response;

/**
 * A network of source, probe and input with one of its elements left out of the product: with
 * H<sub>k</sub> the response up to element k, the factor of that element is H<sub>k</sub>/H<sub>k -
 * 1</sub>, and what is left of n elements is H<sub>n</sub> H<sub>k - 1</sub>/H<sub>k</sub>.
 */
final class LeftOut {
  /** Roots that two networks have in common come out equal to their last digits. */
  private static final double SAME = 1e-12;

  private LeftOut() {}

  /**
   * The network without one element.
   *
   * @param steps the network with one more element each time
   * @param k which of them is left out
   * @throws IllegalArgumentException if what is left has no response: more zeros than poles, or a
   *     pole that is not stable
   */
  static Response of(List<AnalogStage> steps, int k) {
    Response before = k == 0 ? Response.identity() : steps.get(k - 1).response();
    if (k == steps.size() - 1) {
      return before;
    }
    Response whole = steps.get(steps.size() - 1).response();
    Response with = steps.get(k).response();
    List<Complex> zeros = new ArrayList<>(whole.zeros());
    zeros.addAll(before.zeros());
    zeros.addAll(with.poles());
    List<Complex> poles = new ArrayList<>(whole.poles());
    poles.addAll(before.poles());
    poles.addAll(with.zeros());
    cancel(zeros, poles);
    Require.that(
        zeros.size() <= poles.size(),
        "what is left of the network without it would rise without end with frequency");
    Require.that(
        poles.stream().allMatch(p -> p.getReal() < 0),
        "what is left of the network without it would not be stable");
    return Response.of(zeros, poles, whole.gain() * (before.gain() / with.gain()));
  }

  private static void cancel(List<Complex> zeros, List<Complex> poles) {
    for (int z = zeros.size() - 1; z >= 0; z--) {
      Complex zero = zeros.get(z);
      for (int p = 0; p < poles.size(); p++) {
        if (zero.subtract(poles.get(p)).abs() <= SAME * zero.abs()) {
          zeros.remove(z);
          poles.remove(p);
          break;
        }
      }
    }
  }
}
