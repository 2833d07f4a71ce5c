package org.asmeasured.internal;

import java.util.SplittableRandom;

/** A stream of cases, each from a seed of its own; a failure says which. */
public final class Cases {
  private Cases() {}

  /** One case. */
  @FunctionalInterface
  public interface Case {
    /** Draws what it needs and checks. */
    void check(SplittableRandom random);
  }

  /** Checks {@code count} cases; to repeat one that failed, pass its seed and a count of one. */
  public static void check(long firstSeed, int count, Case one) {
    for (long seed = firstSeed; seed < firstSeed + count; seed++) {
      try {
        one.check(new SplittableRandom(seed));
      } catch (AssertionError | RuntimeException e) {
        throw new AssertionError("seed " + seed + ": " + e.getMessage(), e);
      }
    }
  }

  /** A number whose logarithm is uniform. */
  public static double logUniform(SplittableRandom random, double from, double to) {
    return from * Math.exp(random.nextDouble() * Math.log(to / from));
  }

  /** Either sign. */
  public static double signed(SplittableRandom random, double magnitude) {
    return random.nextBoolean() ? magnitude : -magnitude;
  }
}
