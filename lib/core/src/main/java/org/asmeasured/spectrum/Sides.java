package org.asmeasured.spectrum;

/** Which frequencies a spectrum is given for. */
public enum Sides {
  /** From zero to half the rate, each line with all of its power. */
  ONE,

  /**
   * Both signs of the frequency in ascending order, from minus half the rate on, the power of each
   * line halved between its two signs. Half the rate itself stands at the negative end only.
   */
  TWO
}
