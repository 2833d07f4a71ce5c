/**
 * The whole setup as one value, and the record that it makes of a signal.
 *
 * <p><b>The idea.</b> A {@link org.asmeasured.capture.Setup} says everything that stands between a
 * signal and its stored points: front end, vertical scale, clock, converter, decimation, ensemble.
 * It is immutable, so settings can be compared, and stages switched in and out one by one. {@link
 * org.asmeasured.capture.Setup#capture} carries a signal through:
 *
 * <ol>
 *   <li>The trigger, if there is one, finds its event on its own path, and with it the instant at
 *       which the record starts; without one, the record starts at the instant it is told.
 *   <li>The analog output is evaluated in closed form at the instants of the sampler, start +
 *       k/rate but for clock error, jitter and skew, block by block. There is no oversampling, and
 *       no error of its own to hide among the errors being predicted.
 *   <li>Gain and offset errors of the vertical scale are applied, then the noise of source and
 *       amplifier, the mismatch of interleaved cores, and the noise of the converter are added.
 *   <li>Volts become levels, (v - offset)/q with q = full scale/2<sup>bits</sup>, and the converter
 *       makes codes of them. Samples beyond the outer half step of the end codes are counted as
 *       clipped.
 *   <li>The decimation reduces codes to stored points, which are rounded to the stored bits.
 *   <li>Acquisitions are averaged, if the ensemble says so.
 * </ol>
 *
 * <p><b>Ideal = identity.</b> With every stage ideal, the record holds the signal's own values at
 * the instants, bit for bit.
 *
 * <p><b>Time.</b> A record covers the span from its start to its start plus size/(stored rate):
 * each point owns one interval. Within its interval a point stands where its decimation puts it
 * ({@link org.asmeasured.capture.Record#timeSeconds}). The truth of a reading is taken over that
 * same span.
 *
 * <p><b>Several channels.</b> A {@link org.asmeasured.capture.ChannelSet} captures several signals
 * at once: one trigger, one clock, and a setup for each channel, with its skew. What is common and
 * what is independent stands there.
 *
 * <p><b>Edges that jitter.</b> Where the source has a {@link org.asmeasured.frontend.SourceJitter},
 * the record is that of the signal with every transition displaced: the settled output of the
 * undisturbed signal, and from rest that of displaced less undisturbed, a finite pulse for each.
 * Counted are the transitions that start in the record, and those before it within forty time
 * constants of the chain's slowest pole, 4096 of them at most; the limit leaves out g h sigma
 * sqrt(lambda alpha/2) rms of a pole of share g and rate alpha, where lambda transitions a second
 * have a height h: 6e-8 V of 1 V at 10 Hz, 10 ps and 10<sup>6</sup> transitions a second. The
 * trigger sees the same displaced edges.
 *
 * <p><b>Streams.</b> {@link org.asmeasured.capture.Setup#stream()} sets the same setup to work on
 * recorded samples that arrive in blocks of any size, in constant memory and without allocation: a
 * {@link org.asmeasured.capture.CaptureStream}.
 *
 * <p><b>Flags, not exceptions.</b> What a real record would show, a clipped top for one, is a
 * {@link org.asmeasured.capture.Flag} on the record with a count beside it.
 *
 * <p><b>Limits of validity.</b> Noise is added as if the amplifier were linear, and neither gain
 * error nor saturation changes it. A stream has no trigger, no saturation and no jitter. All raw
 * samples are evaluated, those that no stored point keeps too, because they may clip.
 */
package org.asmeasured.capture;
