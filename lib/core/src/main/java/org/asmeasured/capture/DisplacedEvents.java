package org.asmeasured.capture;

import org.apache.commons.math3.analysis.solvers.BrentSolver;
import org.asmeasured.acquisition.Trigger;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Waveform;

/**
 * By how much the events of a trigger are late where the edges of its signal jitter: it sees the
 * same displaced edges as the record.
 *
 * <p>An event on a jump is as late as the jump. Any other is where the path of the displaced signal
 * crosses the level that the undisturbed one crosses at the event, in the same direction, nearest
 * to it: bracketed, and found to 1e-13 of the bracket.
 */
final class DisplacedEvents {
  private static final double FIRST_BRACKET = 1.0 / 64;
  private static final double LAST_BRACKET = 16;
  private static final double WIDER = 1.25;
  private static final double SHARE_OF_BRACKET = 1e-13;
  private static final double LAST_PLACE = 0x1p-53;
  private static final int MAX_EVALUATIONS = 500;

  private final EdgeJitter jitter;
  private final Waveform path;
  private final Response response;

  private DisplacedEvents(EdgeJitter jitter, Waveform path, Response response) {
    this.jitter = jitter;
    this.path = path;
    this.response = response;
  }

  /** Null if nothing jitters. */
  static DisplacedEvents of(
      Setup setup, Trigger trigger, Signal signal, Response ahead, long seed) {
    return EdgeJitter.of(setup.frontEnd().sourceJitter(), signal, seed)
        .map(
            jitter ->
                new DisplacedEvents(
                    jitter,
                    trigger.pathOutput(signal, ahead),
                    ahead.times(trigger.path().response())))
        .orElse(null);
  }

  /**
   * By how much an event is late.
   *
   * @param acquisition the number of the acquisition that it makes
   * @param atSeconds where it is in the undisturbed signal
   * @param event with its slope
   */
  double lateSeconds(int acquisition, double atSeconds, TriggerEvents.Event event) {
    double sigma = jitter.rmsSeconds();
    if (Double.isInfinite(event.slope())) {
      return jitter.lateSeconds(acquisition, atSeconds);
    }
    double reach = LAST_BRACKET * sigma;
    Signal change = jitter.change(acquisition, atSeconds - reach, atSeconds + reach, response);
    Waveform changed = response.isIdentity() ? change : response.of(change);
    double level = path.valueAt(atSeconds, 0);
    double sign = event.slope() < 0 ? -1 : 1;
    for (double w = FIRST_BRACKET * sigma; w <= reach; w *= WIDER) {
      double low = sign * (disturbed(changed, atSeconds, -w) - level);
      double high = sign * (disturbed(changed, atSeconds, w) - level);
      if (low < 0 && high >= 0) {
        return new BrentSolver(LAST_PLACE, Math.max(Double.MIN_NORMAL, SHARE_OF_BRACKET * w), 0)
            .solve(MAX_EVALUATIONS, x -> sign * (disturbed(changed, atSeconds, x) - level), -w, w);
      }
    }
    // the path does not reach the level beside this event: take its edge's own displacement
    return jitter.lateSeconds(acquisition, atSeconds);
  }

  private double disturbed(Waveform changed, double atSeconds, double x) {
    return path.valueAt(atSeconds, x) + changed.valueAt(atSeconds, x);
  }
}
