package org.asmeasured.capture;

/** What a record has to say about itself besides its values. */
public enum Flag {
  /** Raw samples lay below the lowest code by more than half a step. */
  CLIPPED_LOW("clipped low"),
  /** Raw samples lay above the highest code by more than half a step. */
  CLIPPED_HIGH("clipped high");

  private final String words;

  Flag(String words) {
    this.words = words;
  }

  @Override
  public String toString() {
    return words;
  }
}
