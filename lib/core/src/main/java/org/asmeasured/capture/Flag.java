package org.asmeasured.capture;

/** What a record has to say about itself besides its values. */
public enum Flag {
  /** Raw samples lay below the lowest code by more than half a step. */
  CLIPPED_LOW("clipped low"),
  /** Raw samples lay above the highest code by more than half a step. */
  CLIPPED_HIGH("clipped high"),
  /** No event came, and nothing was recorded. */
  NO_TRIGGER("no trigger"),
  /** Acquisitions took place without an event. */
  RAN_FREE("ran free"),
  /** There were fewer events than acquisitions asked for. */
  TOO_FEW_EVENTS("too few events"),
  /** The trigger's noise moves events further than the slope of the path there reaches. */
  SLOW_EDGE("edge too slow for the trigger's noise");

  private final String words;

  Flag(String words) {
    this.words = words;
  }

  @Override
  public String toString() {
    return words;
  }
}
