package org.asmeasured.advice;

import org.asmeasured.capture.Setup;
import org.asmeasured.signal.Signal;

/** Where a record lies, and how long it takes to get. */
final class RecordSpan {
  private RecordSpan() {}

  /** The start of the record, if the trigger is free of errors. */
  static double startSeconds(Signal signal, Setup setup) {
    return setup
        .averaging(1)
        .schedule(signal, 0)
        .map(s -> s.startSeconds())
        .orElse(setup.startSeconds());
  }

  /**
   * The mean time that all acquisitions take: spans, and between triggered ones rearming and
   * waiting. NaN if the event does not come.
   */
  static double secondsToAcquire(Signal signal, Setup setup) {
    int count = setup.ensemble().count();
    double span = setup.spanSeconds();
    if (setup.trigger().isEmpty()) {
      return count * span;
    }
    var first = setup.averaging(1).schedule(signal, 0).orElseThrow();
    if (first.liveTime().isPresent()) {
      return count / first.liveTime().get().rateHz();
    }
    var all = setup.schedule(signal, 0).orElseThrow();
    if (all.size() < count) {
      return Double.NaN;
    }
    double armed = setup.trigger().get().armedSeconds().orElse(setup.startSeconds());
    double lastStart =
        all.eventSeconds(count - 1) + setup.trigger().get().startAfterEventSeconds(span);
    return Math.max(span, lastStart + span - armed);
  }
}
