/**
 * Readings from a record, and the same readings of the truth.
 *
 * <p><b>The idea.</b> A {@link org.asmeasured.measure.Reading} is one definition applied twice: to
 * the points of a record, as an instrument would, and to a waveform in closed form, where sums
 * become integrals and crossings become roots. The difference of the two is the error of the
 * capture, and of nothing else.
 *
 * <p><b>Definitions.</b> Over the points v<sub>i</sub> of a record, i = 1 ... n, and over the span
 * of a waveform v(t):
 *
 * <table>
 * <caption>Readings</caption>
 * <tr><th>reading</th><th>of a record</th><th>of a waveform</th></tr>
 * <tr><td>mean</td><td>sum of v/n</td><td>integral of v/span</td></tr>
 * <tr><td>RMS</td><td>root of the sum of v<sup>2</sup>/n</td><td>root of the integral of v<sup>2</sup>/span</td></tr>
 * <tr><td>AC RMS</td><td>RMS of v - mean</td><td>the same</td></tr>
 * <tr><td>minimum, maximum</td><td>least, greatest value</td><td>least, greatest, both sides of a jump included</td></tr>
 * <tr><td>peak to peak</td><td>maximum - minimum</td><td>the same</td></tr>
 * <tr><td>percentile p</td><td>value at place p/100 (n - 1) in order of size, interpolated linearly</td>
 *     <td>the level below which p/100 of the span is spent</td></tr>
 * </table>
 *
 * <p>{@link org.asmeasured.measure.Readings#reconstructed} takes any reading of the record with
 * values between its points, by sin(x)/x for one. Readings of pulses are in the package {@code
 * pulse}. {@link org.asmeasured.measure.Statistics} says what a reading comes to over many
 * acquisitions, each with noise of its own.
 *
 * <p>Readings that rest on the same {@link org.asmeasured.measure.Analysis}, the pulses or the
 * spectrum of a record, are taken together by a {@link org.asmeasured.measure.ReadingGroup}, which
 * makes it once.
 *
 * <p><b>A reading that cannot be taken says why.</b> It is {@link
 * org.asmeasured.measure.Measured.NotTaken} with a reason: no transition, a clipped top, the mean
 * of an envelope. Never NaN, never a number that looks like one. Clipping spoils what rests on an
 * extreme that it cut off: the extreme itself, peak to peak, a percentile that is one. Mean and RMS
 * are those of the record as it is, with its flag beside them; what clipping does to them is part
 * of the bias.
 *
 * <p><b>Between two channels</b> a {@link org.asmeasured.measure.PairReading} is the same idea once
 * more; those that are there stand, with their definitions, in {@link
 * org.asmeasured.measure.PairReadings}.
 *
 * <p><b>Accuracy.</b> Sums over a record are compensated: their error does not grow with its
 * length. Roots are bracketed between the knots of a waveform and found to 1e-13 of the bracket, or
 * to the last place of the instant.
 *
 * <p><b>Limits of validity.</b> Noise moves minimum and maximum outwards, and all levels that rest
 * on them. The span of a record is what it is: mean and RMS over a broken number of cycles differ
 * from those over whole ones, in the truth too.
 */
package org.asmeasured.measure;
