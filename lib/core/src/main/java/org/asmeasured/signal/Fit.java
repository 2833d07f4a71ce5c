package org.asmeasured.signal;

/**
 * A function of time as a signal, and how well it was met.
 *
 * @param signal straight pieces between points of the function
 * @param largestErrorVolts greatest error seen, at fifteen places of each piece; at most the
 *     tolerance asked for
 * @param segments number of pieces
 */
public record Fit(Signal signal, double largestErrorVolts, int segments) {}
