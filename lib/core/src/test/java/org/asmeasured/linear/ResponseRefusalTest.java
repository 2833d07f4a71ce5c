package org.asmeasured.linear;

import static org.asmeasured.internal.Refusals.absent;
import static org.asmeasured.internal.Refusals.bounded;
import static org.asmeasured.internal.Refusals.hertz;
import static org.asmeasured.internal.Refusals.mismatch;
import static org.asmeasured.internal.Refusals.refused;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;

/** Every parameter of a response refuses what makes no stable rational function. */
class ResponseRefusalTest {
  private static final List<Complex> NONE = List.of();

  private static Response poles(Complex... poles) {
    return Response.of(NONE, List.of(poles), 1);
  }

  @Test
  void shapes() {
    bounded("factor", "", -1e9, 1e9, k -> Response.gain(k));
    hertz("bandwidthHz", f -> Response.singlePole(f));
    hertz("cornerHz", f -> Response.highPass(f));
    hertz("bandwidthHz", f -> Response.butterworth(3, f));
    hertz("bandwidthHz", f -> Response.bessel(3, f));
    hertz("bandwidthHz", f -> Response.gaussian(3, f));
    int[] orders = {Integer.MIN_VALUE, -1, 0, 11, Integer.MAX_VALUE};
    refused("order", n -> Response.butterworth(n, 1), orders);
    refused("order", n -> Response.bessel(n, 1), orders);
    refused("order", n -> Response.gaussian(n, 1), orders);
  }

  @Test
  void polesZerosAndGain() {
    double[] notFinite = {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY};
    for (double bad : notFinite) {
      refused("gain", bad, "", () -> Response.of(NONE, NONE, bad));
      Complex re = new Complex(bad, 0);
      Complex im = new Complex(-1, bad);
      refused("poles[0].modulus", Math.abs(bad), "rad/s", () -> poles(re));
      refused("poles[0].modulus", Math.abs(bad), "rad/s", () -> poles(im));
      refused(
          "zeros[0].modulus",
          Math.abs(bad),
          "rad/s",
          () -> Response.of(List.of(re), List.of(new Complex(-1, 0)), 1));
    }
    for (double modulus : new double[] {0, 0.999e-10, 1.001e17, 1e300}) {
      refused("poles[0].modulus", modulus, "rad/s", () -> poles(new Complex(-modulus, 0)));
    }
    assertEquals(1e-10, poles(new Complex(-1e-10, 0)).poles().get(0).abs());
    assertEquals(1e17, poles(new Complex(-1e17, 0)).poles().get(0).abs());
    refused(
        "zeros[0].modulus",
        1.001e17,
        "rad/s",
        () -> Response.of(List.of(new Complex(1.001e17, 0)), List.of(new Complex(-1, 0)), 1));
  }

  @Test
  void zerosAtTheOriginOrClearOfIt() {
    Complex tiny = new Complex(-0.999e-10, 0);
    List<Complex> pole = List.of(new Complex(-1, 0));
    refused("zeros[0].modulus", 0.999e-10, "rad/s", () -> Response.of(List.of(tiny), pole, 1));
    Complex tiniest = new Complex(-1e-322, 0);
    refused("zeros[0].modulus", 1e-322, "rad/s", () -> Response.of(List.of(tiniest), pole, 1));
    assertEquals(0, Response.of(List.of(Complex.ZERO), pole, 1).dcGain());
  }

  @Test
  void whatIsMissing() {
    List<Complex> one = List.of(new Complex(-1, 0));
    List<Complex> hole = Arrays.asList(new Complex(-1, 0), null);
    absent("zeros", () -> Response.of(null, one, 1));
    absent("poles", () -> Response.of(NONE, null, 1));
    absent("poles[1]", () -> Response.of(NONE, hole, 1));
    absent("zeros[1]", () -> Response.of(hole, List.of(one.get(0), one.get(0)), 1));
  }

  @Test
  void polesAreStable() {
    mismatch(() -> poles(new Complex(1, 0)), "poles[0] = 1.0 + 0.0j rad/s", "negative real part");
    mismatch(
        () -> poles(new Complex(0, 1), new Complex(0, -1)),
        "poles[0] = 0.0 + 1.0j rad/s",
        "negative real part");
    mismatch(
        () -> poles(new Complex(-1, 0), new Complex(3, 4), new Complex(3, -4)),
        "poles[1] = 3.0 + 4.0j rad/s",
        "negative real part");
    mismatch(
        () -> poles(new Complex(-1e-300, 2), new Complex(-1e-300, -2)),
        "poles[0] = -1.0E-300 + 2.0j rad/s",
        "negative real part");
  }

  @Test
  void complexRootsComeInPairs() {
    mismatch(() -> poles(new Complex(-1, 2)), "poles: -1.0 + 2.0j rad/s", "conjugate");
    mismatch(
        () -> poles(new Complex(-1, 2), new Complex(-1, 2)), "poles: -1.0 + 2.0j", "conjugate");
    mismatch(
        () -> poles(new Complex(-1, 2), new Complex(-1, -2.00001)),
        "poles: -1.0 + 2.0j",
        "conjugate");
    mismatch(
        () -> poles(new Complex(-1, 2), new Complex(-1, -2), new Complex(-5, 6)),
        "poles: -5.0 + 6.0j",
        "conjugate");
    mismatch(
        () -> Response.of(List.of(new Complex(0, 3)), List.of(new Complex(-1, 0)), 1),
        "zeros: 0.0 + 3.0j rad/s",
        "conjugate");
  }

  @Test
  void notTooMany() {
    Complex p = new Complex(-1, 0);
    mismatch(() -> Response.of(NONE, Collections.nCopies(41, p), 1), "poles has 41 entries", "40");
    mismatch(
        () -> Response.of(List.of(p, p), List.of(p), 1),
        "zeros has 2 entries",
        "poles 1",
        "more zeros than poles");
    Response forty = Response.of(NONE, Collections.nCopies(40, p), 1);
    assertEquals(40, forty.poles().size());
    mismatch(() -> forty.times(Response.singlePole(1)), "41 poles", "40");
  }

  @Test
  void laterChangesOfAListDoNotReachTheValue() {
    List<Complex> given = new ArrayList<>(List.of(new Complex(-1, 0)));
    Response response = Response.of(NONE, given, 1);
    given.set(0, new Complex(-2, 0));
    assertEquals(List.of(new Complex(-1, 0)), response.poles());
    assertThrows(UnsupportedOperationException.class, () -> response.poles().clear());
    assertThrows(UnsupportedOperationException.class, () -> response.zeros().add(Complex.ZERO));
  }

  @Test
  void algebra() {
    Response pole = Response.singlePole(1);
    absent("other", () -> pole.times(null));
    absent("other", () -> Response.identity().times(null));
    bounded("factor", "", -1e9, 1e9, k -> pole.scaledBy(k));
  }

  @Test
  void frequencies() {
    Response pole = Response.singlePole(1);
    refused("frequencyHz", "Hz", f -> pole.at(f), -1e-9, -1, 1.001e15);
    refused("frequencyHz", "Hz", f -> pole.magnitude(f), -1e-9, -1, 1.001e15);
    refused("frequencyHz", "Hz", f -> pole.phaseRadians(f), -1e-9, -1, 1.001e15);
    refused("frequencyHz", "Hz", f -> pole.groupDelaySeconds(f), -1e-9, -1, 1.001e15);
    assertEquals(1, pole.magnitude(0));
    assertEquals(1e-15, pole.magnitude(1e15), 1e-29);
  }

  private static void noAnswer(String question, String response, Executable call) {
    String message = assertThrows(IllegalStateException.class, call).getMessage();
    assertTrue(message.startsWith(question + ": "), message);
    assertTrue(message.contains(response), message);
  }

  @Test
  void questionsWithoutAnAnswer() {
    Response highPass = Response.highPass(10);
    noAnswer("halfPowerHz", "high-pass", highPass::halfPowerHz);
    noAnswer("halfPowerHz", "gain of 3", Response.gain(3)::halfPowerHz);
    noAnswer("equivalentNoiseBandwidthHz", "high-pass", highPass::equivalentNoiseBandwidthHz);
    noAnswer(
        "equivalentNoiseBandwidthHz", "ideal", Response.identity()::equivalentNoiseBandwidthHz);
    noAnswer("squaredGainIntegralHz", "high-pass", highPass::squaredGainIntegralHz);
    noAnswer("squaredGainIntegralHz", "ideal", Response.identity()::squaredGainIntegralHz);
    noAnswer("riseTimeSeconds", "high-pass", highPass::riseTimeSeconds);
    noAnswer(
        "riseTimeSeconds",
        "jumps",
        Response.of(List.of(new Complex(-2, 0)), List.of(new Complex(-1, 0)), 1)::riseTimeSeconds);
  }
}
