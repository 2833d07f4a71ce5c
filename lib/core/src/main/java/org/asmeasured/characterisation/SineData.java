package org.asmeasured.characterisation;

/** What a sine is fitted to, about the middle of its points or of its span. */
interface SineData {

  /** Half of the length of what is fitted, in the unit of the places: x = place/half. */
  double half();

  /**
   * The sums at a trial a cos(2 pi f u) + b sin(2 pi f u) + level, with u from the middle.
   *
   * @param trial f in cycles a unit of u
   */
  SineMoments at(SineSolver.Trial trial);
}
