/**
 * The pulses of a record, and of the truth, as IEEE Std 181 words them (clauses from memory).
 *
 * <p><b>The idea.</b> A record and a waveform in closed form are both seen as nodes between two of
 * which no level is crossed twice: the points of a record, joined by straight lines; the turning
 * points and jumps of a waveform, joined by itself. One search then finds the transitions of
 * either, so the reading of a record and its truth cannot come to differ in what they mean. {@link
 * org.asmeasured.pulse.PulseAnalysis} holds what was found; each {@link
 * org.asmeasured.pulse.PulseQuantity} of it is a {@link org.asmeasured.measure.Reading} by {@link
 * org.asmeasured.pulse.PulseReadings}. Everything that a figure depends on is in its {@link
 * org.asmeasured.pulse.PulseMethod}.
 *
 * <p><b>States.</b> {@link org.asmeasured.pulse.StateLevels} says how the levels of the low and the
 * high state are found. The usual way are the modes of the two halves of a histogram; of a waveform
 * a bin holds the time spent in it, which follows from the crossings of its edges. The level is the
 * median of the values in the fullest bin, which is a flat state itself where there is one, and far
 * closer than the width of a bin where there is none. 0 % and 100 % are the two states, the
 * amplitude lies between them.
 *
 * <p><b>Transitions.</b> A transition leads from below the middle reference level, by the
 * hysteresis, to above it by as much, or back. Its instants are those at which it passes the three
 * {@link org.asmeasured.pulse.ReferenceLevels}, nearest to the middle one; between the points of a
 * record they are interpolated linearly. Where noise crosses a level to and fro within the
 * hysteresis, the instant is the sum of the crossings one way less those the other way: the time
 * spent below the level is then what it was. A monotone edge has one crossing, and it is that.
 *
 * <p><b>Figures of a transition,</b> for a rising one; a falling one is the mirror image:
 *
 * <table>
 * <caption>t<sub>low</sub>, t<sub>mid</sub>, t<sub>high</sub>: instants; d = t<sub>high</sub> - t<sub>low</sub>: duration; A: amplitude</caption>
 * <tr><th>quantity</th><th>definition</th></tr>
 * <tr><td>overshoot</td><td>(greatest value in the region after - high state)/A, 0 if below it</td></tr>
 * <tr><td>undershoot</td><td>(high state - least value in the region after, once the state was reached)/A</td></tr>
 * <tr><td>preshoot</td><td>(low state - least value in the region before)/A</td></tr>
 * <tr><td>region after, before</td><td>three d from t<sub>high</sub> on, up to t<sub>low</sub>; not beyond the neighbouring transition</td></tr>
 * <tr><td>settling duration</td><td>from t<sub>mid</sub> to the last entry into the band of 2 % of A about the high state</td></tr>
 * <tr><td>settling error</td><td>(greatest distance from the high state, from t<sub>mid</sub> + 3 d on)/A</td></tr>
 * </table>
 *
 * <p>The state that was entered is watched up to one duration of the next transition ahead of where
 * that passes its first reference level, or to the end.
 *
 * <p><b>Pulses and cycles.</b> A pulse lasts from one middle instant to the next, a cycle from one
 * to the next but one, and the duty factor is the share of the positive pulse. What lies between
 * two pulses, their separation, is a pulse of the other polarity. Tilt is the fall of a straight
 * line in least squares through the middle 80 % of the state, taken over the pulse duration. Mean
 * and RMS over whole cycles are taken from the first to the last middle instant of a cycle, of a
 * record by the trapezoidal rule.
 *
 * <p><b>What cannot be read says why:</b> no transition, one that is not whole, an edge without a
 * point between its reference levels, no whole cycle, a clipped side, an envelope. Clipping spoils
 * what rests on the levels unless these were given; period and frequency are not spoilt.
 *
 * <p><b>Accuracy.</b> Of a waveform: crossings to 1e-13 of their piece, levels to 1e-15 of the
 * range. Of a record with interval h: a crossing errs by up to h<sup>2</sup>/8 of the curvature
 * over the slope, by nothing on a straight edge. White noise of standard deviation s on an edge of
 * slope g moves an instant by nothing in the mean and scatters it by about s/g; the mean duration
 * stays within 0.1 % while s is below 2 % of the amplitude and the levels are given.
 *
 * <p><b>Limits of validity.</b> Modes are for waveforms that rest in two states. A sine rests
 * nowhere: the modes lie a third of a bin inside its peaks, and of a triangle none stands out, so
 * that its extremes are taken. Where it matters ask for the {@linkplain
 * org.asmeasured.pulse.StateLevels#peakMagnitude extremes}. Noise beyond the hysteresis makes
 * transitions of its own.
 */
package org.asmeasured.pulse;
