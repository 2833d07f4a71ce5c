/**
 * Which samples are kept: from raw samples to stored points within one acquisition, and from
 * acquisitions to a record; and what is between the points.
 *
 * <p><b>The idea.</b> A recorder samples at one rate and stores at another. Between the two it does
 * one of three things with the raw samples of an interval: it keeps one of them, it keeps their
 * extremes, or it keeps their mean. These are the {@link org.asmeasured.acquisition.Decimation}s;
 * each is a value that says how many raw samples go into a point and at which instant the point
 * stands, and that makes a {@link org.asmeasured.acquisition.Reducer}, which does the work block by
 * block and remembers an interval that is not yet complete. What comes out does not depend on how
 * the raw samples were cut into blocks, bit for bit.
 *
 * <table>
 * <caption>What a stored point is, and when it is (M = factor or length, f<sub>s</sub> = raw rate)</caption>
 * <tr><th>decimation</th><th>stored point k</th><th>its instant, in raw intervals after the start</th></tr>
 * <tr><td>pick</td><td>raw sample k M</td><td>k M</td></tr>
 * <tr><td>peak detect</td><td>least and greatest of k M ... k M + M - 1</td><td>k M + (M - 1)/2: their middle</td></tr>
 * <tr><td>boxcar</td><td>mean of the same</td><td>k M + (M - 1)/2: their middle</td></tr>
 * <tr><td>rolling boxcar</td><td>mean of the M latest raw samples, one point a raw sample</td>
 *     <td>their middle: k for an odd M, k + 1/2 for an even one</td></tr>
 * </table>
 *
 * <p><b>What a mean does.</b> To a sine of frequency f it is a gain of sin(pi f M/f<sub>s</sub>)/(M
 * sin(pi f/f<sub>s</sub>)) without delay, because a point stands at the middle of its samples; half
 * power is at 0.5 f<sub>s</sub>/M for M = 2, and tends to 0.442946 f<sub>s</sub>/M. Means of codes
 * fall between codes, so a boxcar stores more bits than the converter has.
 *
 * <p><b>What the extremes do.</b> They find a pulse as narrow as one raw interval. They also make a
 * record of two values a point, an envelope, of which a mean or an RMS value has no meaning.
 *
 * <p><b>Trigger.</b> {@link org.asmeasured.acquisition.Trigger} says when an acquisition takes
 * place. It asks one thing at a time, and every answer goes with every other: what of the signal
 * does the trigger see ({@link org.asmeasured.acquisition.TriggerPath}), which level is crossed
 * which way, which pulses count ({@link org.asmeasured.acquisition.Qualifier}), where does the
 * record lie about the event, when is the recorder ready again, and what is done when no event
 * comes ({@link org.asmeasured.acquisition.NoEvent}). The trigger is a comparator with hysteresis:
 *
 * <pre>
 * level               ----------+---- event ------------
 *                              /    \
 * level - hysteresis  --------/------+-- end of pulse --
 * </pre>
 *
 * <p>How much of the time is recorded, and so how soon something rare is seen, is {@link
 * org.asmeasured.acquisition.LiveTime}.
 *
 * <p><b>Ensemble.</b> {@link org.asmeasured.acquisition.Ensemble} says what is done over
 * acquisitions: nothing, the mean of n of them, or their envelope. {@link
 * org.asmeasured.acquisition.MeanAccumulator} sums codes exactly in {@code long} and volts
 * pairwise; {@link org.asmeasured.acquisition.EnvelopeAccumulator} keeps the least and the
 * greatest.
 *
 * <p><b>Order.</b> A sample is converted first and reduced then; so a mean is one of codes.
 *
 * <p><b>Reconstruction.</b> What a record has between its points is a {@link
 * org.asmeasured.acquisition.Reconstruction}: nothing, straight lines, or sin(x)/x. A reading can
 * be taken of the reconstructed record. Nothing is extrapolated at its ends.
 *
 * <p><b>Not a number.</b> A NaN among the raw samples makes NaN of every point it goes into, and of
 * no other.
 */
package org.asmeasured.acquisition;
