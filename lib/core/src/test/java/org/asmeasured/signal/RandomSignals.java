package org.asmeasured.signal;

import java.util.SplittableRandom;
import org.asmeasured.internal.Cases;

/** Random members of the family, alive within some microseconds of the origin. */
public final class RandomSignals {
  private static final int KINDS = 14;

  private RandomSignals() {}

  private static double volts(SplittableRandom r) {
    return Cases.signed(r, Cases.logUniform(r, 1e-3, 10));
  }

  private static double instant(SplittableRandom r) {
    return r.nextDouble(-2e-6, 2e-6);
  }

  private static double hertz(SplittableRandom r) {
    return Cases.logUniform(r, 1e4, 3e7);
  }

  private static double seconds(SplittableRandom r) {
    return Cases.logUniform(r, 3e-9, 3e-6);
  }

  /** One that repeats or has always been there. */
  public static Signal settled(SplittableRandom r) {
    return kind(r, r.nextInt(6));
  }

  /** Any, sums apart. */
  public static Signal any(SplittableRandom r) {
    return kind(r, r.nextInt(KINDS));
  }

  private static Signal kind(SplittableRandom r, int kind) {
    double v = volts(r);
    double period = Cases.logUniform(r, 3e-8, 1e-5);
    switch (kind) {
      case 0:
        return Signals.constant(v);
      case 1:
        return Signals.sine(v, hertz(r), r.nextDouble(-7, 7));
      case 2:
        {
          double duty = r.nextDouble(0.2, 0.8);
          return Signals.trapezoid(
              v,
              volts(r),
              period,
              duty,
              r.nextDouble(0, 0.2) * period,
              r.nextBoolean() ? 0 : 0.1 * period);
        }
      case 3:
        return Signals.triangle(v, volts(r), period, r.nextInt(5) / 4.0);
      case 4:
        return Signals.dampedRinging(v, hertz(r), seconds(r), instant(r)).repeatedEvery(period);
      case 5:
        return Signals.multiTone(
            new double[] {v, volts(r)},
            new double[] {hertz(r), hertz(r)},
            new double[] {r.nextDouble(6), r.nextDouble(6)});
      case 6:
        return Signals.step(v, instant(r));
      case 7:
        {
          double from = instant(r);
          return Signals.ramp(v, from, from + seconds(r));
        }
      case 8:
        {
          double width = seconds(r);
          return Signals.pulse(v, instant(r), width, width * r.nextDouble(), 0.3 * width);
        }
      case 9:
        return Signals.burst(v, hertz(r), 1 + r.nextInt(20), instant(r));
      case 10:
        return Signals.exponentialEdge(v, instant(r), seconds(r));
      case 11:
        return Signals.dampedRinging(v, hertz(r), seconds(r), instant(r));
      case 12:
        {
          double[] points = new double[3 + r.nextInt(40)];
          for (int i = 0; i < points.length; i++) {
            points[i] = volts(r);
          }
          return Signals.recorded(instant(r), Cases.logUniform(r, 1e6, 1e8), points);
        }
      default:
        {
          double from = instant(r);
          return kind(r, r.nextInt(6)).gated(from, from + seconds(r));
        }
    }
  }
}
