package org.asmeasured.pulse;

/** Which one figure stands for all transitions, pulses or cycles of a record. */
public enum Summary {
  /** The first that can be taken. */
  FIRST("first"),
  /** The mean of all that can be taken. */
  MEAN("mean"),
  /** The standard deviation about it, with n - 1. */
  STANDARD_DEVIATION("standard deviation"),
  /** The least. */
  MINIMUM("least"),
  /** The greatest. */
  MAXIMUM("greatest");

  private final String words;

  Summary(String words) {
    this.words = words;
  }

  /**
   * The summary in a word.
   *
   * @return its name
   */
  public String words() {
    return words;
  }
}
