package org.asmeasured.characterisation;

/** Phases in cycles, reduced before anything is lost. */
final class Cycles {
  private Cycles() {}

  /**
   * The part of {@code (cycles + more) x place} that is left of whole turns, in radians, -pi to pi.
   * At place 10^6 the last digit of a double is 10^-10 of a turn: so there are more.
   */
  static double radians(double cycles, double more, double place) {
    double product = cycles * place;
    double rest = Math.fma(more, place, Math.fma(cycles, place, -product));
    return 2 * Math.PI * ((product - Math.rint(product)) + rest);
  }

  /** An angle brought to -pi to pi. */
  static double wrapped(double radians) {
    return Math.IEEEremainder(radians, 2 * Math.PI);
  }
}
