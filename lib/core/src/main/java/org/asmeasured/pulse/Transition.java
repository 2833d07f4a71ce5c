package org.asmeasured.pulse;

import org.asmeasured.measure.Measured;

/**
 * A transition from one state to the other. Instants are seconds after {@link
 * PulseAnalysis#originSeconds}.
 *
 * @param rising whether it goes from the low state to the high one
 * @param low when the low reference level is passed; not taken if it is not
 * @param midSeconds when the middle reference level is passed
 * @param high when the high reference level is passed; not taken if it is not
 * @param duration the time between the low and the high reference level, seconds
 */
public record Transition(
    boolean rising, Measured low, double midSeconds, Measured high, Measured duration) {}
