package org.asmeasured.acquisition;

/** Which way a level is crossed. */
public enum Slope {
  /** Upward. */
  RISING("rising"),
  /** Downward: all that is said of a rising slope holds of the mirror image. */
  FALLING("falling");

  private final String words;

  Slope(String words) {
    this.words = words;
  }

  @Override
  public String toString() {
    return words;
  }
}
