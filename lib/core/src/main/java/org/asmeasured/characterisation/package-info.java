/**
 * Tests of a recorder and of its converter, as IEEE Std 1057 and 1241 define them.
 *
 * <p><b>The idea.</b> A known signal goes in, a record comes out, and what the record has beside
 * the signal is the recorder's. Each test takes records, whether captured by a {@link
 * org.asmeasured.capture.Setup} or read from a file, and gives back the errors that it finds; tests
 * of this project put known errors in and ask whether they come back.
 *
 * <table>
 * <caption>Tests</caption>
 * <tr><th>what goes in</th><th>what comes back</th><th>by</th></tr>
 * <tr><td>a sine</td><td>amplitude, phase, offset, frequency with their covariance; noise and distortion, SINAD,
 *     effective bits</td><td>{@link org.asmeasured.characterisation.SineFit}</td></tr>
 * <tr><td>two sines of different slope</td><td>aperture uncertainty</td><td>{@link
 *     org.asmeasured.characterisation.ApertureUncertainty}</td></tr>
 * <tr><td>the same signal twice</td><td>random noise</td><td>{@link
 *     org.asmeasured.characterisation.RandomNoise}</td></tr>
 * <tr><td>a step</td><td>levels, transition, overshoot, settling; frequency response</td><td>{@link
 *     org.asmeasured.characterisation.StepResponse}, {@link
 *     org.asmeasured.characterisation.FrequencyResponse}</td></tr>
 * <tr><td>a sine or a ramp beyond both ends</td><td>transition levels, INL, DNL, gain and offset with their
 *     confidence</td><td>{@link org.asmeasured.characterisation.CodeHistogram}, {@link
 *     org.asmeasured.characterisation.HistogramLinearity}, {@link
 *     org.asmeasured.characterisation.Coherence}</td></tr>
 * <tr><td>a sine, to cores that take turns</td><td>gain, offset and skew of each</td><td>{@link
 *     org.asmeasured.characterisation.InterleavingErrors}</td></tr>
 * </table>
 *
 * <p>Single figures of the sine fit are readings too ({@link
 * org.asmeasured.characterisation.CharacterisationReadings}), with their truth from the closed form
 * of the waveform.
 *
 * <p><b>The sine fit.</b> The parameters are those of a sine about the middle of the record, where
 * frequency and phase do not lean on one another. Each step of Gauss and Newton passes the points
 * once, block by block: rows of cosine and sine serve every block, turned by the phase at its
 * start, which is reduced in cycles with a frequency of two doubles. The remainder itself is
 * summed, so a step is exact to the rounding of what is left. The normal matrix does not depend on
 * the points and is summed from the rows, a block at a time. A start comes from spectra of 4096
 * places at several decimations; it is carried on from a short segment to eight times as many
 * points, again and again, while the frequency is sure enough, and from the spectrum of all points
 * where it is not.
 *
 * <p><b>A test that cannot be done says why.</b> It is an {@link org.asmeasured.measure.Outcome}
 * without a result but with a reason, or {@link org.asmeasured.measure.Measured.NotTaken}: fewer
 * points than parameters, less than one period, no convergence, no step, a code at the end that
 * never appeared.
 *
 * <p><b>Accuracy.</b> Without noise a sine's parameters come back to 1e-12 from records of any
 * length; with white noise they scatter as the bound of Cramer and Rao says. Levels by histogram
 * have the deviations stated with them. Each class says its own.
 *
 * <p><b>Limits of validity.</b> The signal that goes in is held to be pure: its own noise and
 * distortion are booked to the recorder. One sine is fitted at a time. Clauses of the standards are
 * cited from memory.
 */
package org.asmeasured.characterisation;
