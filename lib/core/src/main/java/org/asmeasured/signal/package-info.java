/**
 * What is there: functions of time that have a closed form, and recorded ones.
 *
 * <p>A {@link org.asmeasured.signal.Signal} is a sum of components. {@link
 * org.asmeasured.signal.Tones} fill all time; a {@link org.asmeasured.signal.Pattern} is a row of
 * segments, played once or repeated for ever, each segment a constant, a slope and (complex)
 * exponentials. Sums, scaling, delay, gating and repetition stay within the family, and so does
 * what a linear system with lumped elements makes of it, so nothing downstream needs a sampled copy
 * of the signal.
 *
 * <p>Time is never one large double: samples are placed by their whole number ({@link
 * org.asmeasured.signal.SampleClock}), segments by an origin and a start of two doubles each.
 */
package org.asmeasured.signal;
