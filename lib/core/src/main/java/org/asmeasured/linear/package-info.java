/**
 * What a linear system makes of a signal, exactly.
 *
 * <p>A {@link org.asmeasured.linear.Response} is a rational function by its zeros, poles and gain:
 * a shape of a given order and bandwidth, a product of such, or what a small network of resistors,
 * inductors and capacitors comes to. Its {@link org.asmeasured.linear.Output} for a {@link
 * org.asmeasured.signal.Signal} has a closed form between the signal's breakpoints, and is
 * evaluated at the sample instants alone, wherever they fall.
 *
 * <p>How it stays exact. The response is split into partial fractions, one part for each pole;
 * poles closer than five per cent stay together as a chain in Newton's form. The state at each
 * segment's start is worked out once: from rest for a pattern that begins, from the solution of
 * {@code (I - E) x = x_T} for one that repeats. Any instant is then reached from its own segment's
 * start, so errors do not add up however long the record, and a sample does not depend on how it
 * was asked for. Terms that would cancel are kept together: see the comments of the (internal)
 * pieces.
 */
package org.asmeasured.linear;
