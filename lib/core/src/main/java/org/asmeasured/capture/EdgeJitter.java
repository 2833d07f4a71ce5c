package org.asmeasured.capture;

import java.util.Optional;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.frontend.SourceJitter;
import org.asmeasured.internal.CounterRandom;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.linear.Response;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Transitions;

/**
 * The displaced edges of a source, acquisition by acquisition: a pure function of seed, device,
 * acquisition and the number of the transition.
 *
 * <p>A linear chain makes of the disturbed signal what it makes of the undisturbed one, settled,
 * plus what it makes of displaced less undisturbed, from rest: exact but for the edges from which
 * it starts. Counted are those within forty time constants of the chain's slowest pole ahead of a
 * span, after which less than e<sup>-40</sup> of a pulse is left; but no more than 4096 of them.
 * The limit is met by a coupling or a trimmer far slower than the edges only, whose slow part
 * answers a pulse of area h d by h d alpha g exp(-alpha t), 1/alpha its time constant and g its
 * share, up to 1. Of edges with a rate lambda and a height h that leaves out no more than g h sigma
 * sqrt(lambda alpha/2) rms: 6e-8 V of 1 V at 10 Hz, 10 ps and 10<sup>6</sup> edges a second.
 */
final class EdgeJitter {
  private static final long EDGES = 0x6e6f69736505L;

  /** Neighbours one sigma each apart by less would overtake one another in 1 of 1e8 cases. */
  private static final double LEAST_GAP_SIGMAS = 8;

  /** No deviate is as large. */
  private static final double MOST_SIGMAS = 12;

  private static final double TIME_CONSTANTS = 40;
  private static final int EARLIER = 4096;

  private final SourceJitter jitter;
  private final Transitions transitions;
  private final long seed;
  private final int earlier;

  private EdgeJitter(SourceJitter jitter, Signal signal, long seed, int earlier) {
    this.jitter = jitter;
    this.earlier = earlier;
    transitions = Transitions.of(signal);
    this.seed = CounterRandom.key(CounterRandom.key(seed, EDGES), jitter.device());
    double gap = transitions.shortestGapSeconds();
    Require.that(
        gap >= LEAST_GAP_SIGMAS * jitter.rmsSeconds(),
        "sourceJitter = "
            + jitter
            + ": edges as little as "
            + Quantity.of(gap, "s")
            + " apart would overtake one another; the jitter must be at most an eighth of that");
  }

  /**
   * The jitter of a signal, if it has any.
   *
   * @throws IllegalArgumentException if the signal has no transitions, or none far enough apart
   */
  static Optional<EdgeJitter> of(SourceJitter jitter, Signal signal, long seed) {
    return of(jitter, signal, seed, EARLIER);
  }

  /** With another limit of edges ahead of a span. */
  static Optional<EdgeJitter> of(SourceJitter jitter, Signal signal, long seed, int earlier) {
    return jitter.isNone()
        ? Optional.empty()
        : Optional.of(new EdgeJitter(jitter, signal, seed, earlier));
  }

  double rmsSeconds() {
    return jitter.rmsSeconds();
  }

  /**
   * What the signal changes by in an acquisition, as far as it is felt within a span behind a
   * response.
   */
  Signal change(int acquisition, double fromSeconds, double toSeconds, Response response) {
    double slowest = Double.POSITIVE_INFINITY;
    for (Complex pole : response.poles()) {
      slowest = Math.min(slowest, Math.abs(pole.getReal()));
    }
    double most = MOST_SIGMAS * jitter.rmsSeconds();
    double felt = Math.min(TIME_CONSTANTS / slowest, earlier / transitions.perSecond());
    double before = transitions.longestSeconds() + most + felt;
    return transitions.change(
        Math.max(-1e12, fromSeconds - before),
        Math.min(1e12, toSeconds + most),
        displacement(acquisition));
  }

  /** By how much the edge nearest to an instant is late. */
  double lateSeconds(int acquisition, double atSeconds) {
    return transitions.nearest(atSeconds, displacement(acquisition));
  }

  private Transitions.Displacement displacement(int acquisition) {
    long key = CounterRandom.key(seed, acquisition);
    return (part, number) ->
        jitter.rmsSeconds() * CounterRandom.gaussian(CounterRandom.key(key, part), number);
  }
}
