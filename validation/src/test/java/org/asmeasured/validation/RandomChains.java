package org.asmeasured.validation;

import java.util.List;
import java.util.SplittableRandom;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;

/**
 * Random members of the signal family and random chains, all from one seed.
 *
 * <p>Times are whole multiples of 2^-48 s (3.6 fs) and frequencies whole multiples of 2^16 Hz, so
 * that sums of instants below a millisecond, and periods against each other, are exact in doubles:
 * what the properties compare is then the library's rounding and not the test's.
 */
final class RandomChains {
  private static final double TICK = 0x1p-48;

  private final SplittableRandom random;

  RandomChains(long seed) {
    random = new SplittableRandom(seed);
  }

  int below(int n) {
    return random.nextInt(n);
  }

  double uniform(double low, double high) {
    return low + (high - low) * random.nextDouble();
  }

  double logUniform(double low, double high) {
    return low * Math.pow(high / low, random.nextDouble());
  }

  /** A time on the grid, at least one tick. */
  double time(double low, double high) {
    return Math.max(1, Math.rint(logUniform(low, high) / TICK)) * TICK;
  }

  /** An instant on the grid, either sign. */
  double instant(double most) {
    return Math.rint(uniform(-most, most) / TICK) * TICK;
  }

  double volts() {
    return Math.rint(uniform(-4, 4) * 1024) / 1024;
  }

  private double level(double apart) {
    return volts() + apart;
  }

  /** A sine of which whole cycles, at most 4000, fit into 2^-16 s. */
  private double frequency() {
    return Math.max(1, Math.rint(logUniform(1, 4e3))) * 0x1p16;
  }

  /** Repeats after 2^-16 s (15 us), or after a quotient of it. */
  Signal periodic() {
    double period = Math.scalb(1.0, -16 - below(10));
    double rise = Math.rint(period / TICK * uniform(0, 0.2)) * TICK;
    double fall = Math.rint(period / TICK * uniform(0, 0.2)) * TICK;
    double width = Math.rint(period / TICK * uniform(0.25, 0.6)) * TICK;
    return switch (below(9)) {
      case 0 -> Signals.sine(volts(), frequency(), uniform(-3, 3));
      case 1 ->
          Signals.multiTone(
              new double[] {volts(), volts(), volts()},
              new double[] {frequency(), frequency(), frequency()},
              new double[] {uniform(-3, 3), 0, uniform(-3, 3)});
      case 2 -> Signals.square(volts(), volts(), period, uniform(0.05, 0.95));
      case 3 -> Signals.trapezoid(volts(), volts(), period, uniform(0.3, 0.7), rise, fall);
      case 4 ->
          Signals.triangle(volts(), volts(), period, below(4) == 0 ? below(2) : uniform(0.1, 0.9));
      case 5 -> Signals.pulseTrain(volts(), volts(), period, width, rise, fall);
      case 6 -> Signals.runt(volts(), volts(), period / 4, width / 4, Math.min(rise, fall) / 4, 4);
      case 7 ->
          Signals.dampedRinging(volts(), logUniform(1e5, 1e9), logUniform(1e-9, 1e-5), 0)
              .repeatedEvery(period);
      default -> Signals.pulse(volts(), instant(1e-6), width, rise, fall).repeatedEvery(period);
    };
  }

  /** Begins somewhere, from rest. */
  Signal starting() {
    double at = instant(2e-6);
    double rise = time(1e-12, 1e-7);
    double fall = time(1e-12, 1e-7);
    return switch (below(9)) {
      case 0 -> Signals.step(volts(), at);
      case 1 -> Signals.ramp(volts(), at, at + time(1e-12, 1e-6));
      case 2 -> Signals.pulse(volts(), at, rise + fall + time(1e-12, 1e-6), rise, fall);
      case 3 -> Signals.burst(volts(), frequency(), 1 + below(9), at);
      case 4 -> Signals.exponentialEdge(volts(), at, logUniform(1e-11, 1e-5));
      case 5 -> Signals.dampedRinging(volts(), logUniform(1e5, 1e9), logUniform(1e-9, 1e-5), at);
      case 6 -> periodic().gated(at, at + time(1e-9, 1e-5));
      case 7 -> Signals.sine(volts(), frequency(), uniform(-3, 3)).startingAt(at);
      default -> recorded(at);
    };
  }

  private Signal recorded(double start) {
    int n = 2 + below(30);
    double[] times = new double[n];
    double[] volts = new double[n];
    double t = start;
    for (int i = 0; i < n; i++) {
      times[i] = t;
      volts[i] = volts();
      t += time(1e-12, 1e-7);
    }
    return Signals.recorded(times, volts);
  }

  Signal any() {
    return switch (below(6)) {
      case 0, 1 -> periodic();
      case 2, 3 -> starting();
      case 4 -> periodic().plus(starting()).plus(volts());
      default -> starting().times(volts()).plus(periodic().delayedBy(instant(1e-6)));
    };
  }

  /**
   * Up to four factors, from 1 Hz to 3 GHz; now and then the same one twice, or two that are nearly
   * the same.
   */
  Response response() {
    Response product = Response.identity();
    int factors = 1 + below(4);
    for (int i = 0; i < factors; i++) {
      Response factor = factor();
      product = product.times(factor);
      if (below(6) == 0) {
        product = product.times(factor);
      }
    }
    return product;
  }

  private Response factor() {
    double hz = logUniform(1e4, 3e9);
    return switch (below(8)) {
      case 0 -> Response.singlePole(hz);
      case 1 -> Response.highPass(logUniform(1, 1e6));
      case 2 -> Response.butterworth(1 + below(6), hz);
      case 3 -> Response.bessel(1 + below(6), hz);
      case 4 -> Response.gaussian(1 + below(6), hz);
      case 5 ->
          Response.singlePole(hz).times(Response.singlePole(hz * (1 + logUniform(1e-15, 1e-1))));
      case 6 -> {
        double w = 2 * Math.PI * hz;
        double zero = -w * uniform(0.8, 1.25);
        yield Response.of(List.of(new Complex(zero, 0)), List.of(new Complex(-w, 0)), w / -zero);
      }
      default -> {
        double w = 2 * Math.PI * hz;
        double zeta = logUniform(0.01, 0.9);
        double re = -zeta * w;
        double im = w * Math.sqrt(1 - zeta * zeta);
        yield Response.of(List.of(), List.of(new Complex(re, im), new Complex(re, -im)), w * w);
      }
    };
  }
}
