package org.asmeasured.uncertainty;

/** Told how far long work has come; may end it. */
@FunctionalInterface
public interface Progress {

  /**
   * Called in the thread that started the work, after every block of trials.
   *
   * @param trialsDone how many trials are done
   * @param trialsAtMost how many there will be at most
   * @return true to go on, false to cancel
   */
  boolean goOn(long trialsDone, long trialsAtMost);
}
