/**
 * How far apart reading and truth are, which stage took the accuracy away, how sure that is, and
 * what may be decided.
 *
 * <p><b>The idea.</b> An error has no meaning without the two things it lies between. Here both are
 * computed: the reading of the record that a setup would store, and the same reading of the
 * signal's closed form over the same span of time. Their difference is the bias of the setup for
 * that reading.
 *
 * <p><b>By stage, in order.</b> A {@link org.asmeasured.accuracy.Prediction} switches the stages in
 * one after another, in the order of the chain, and takes the reading each time. What it changes by
 * is the bias of the stage that was switched in. These add up to the whole, because the last of the
 * chains is the setup itself. The bias of a stage depends on those that were switched in before it;
 * that is the nature of such a table, and the reason why it says "in order".
 *
 * <p>The analog stages are read off the continuous output, without sampling: <em>source and
 * termination</em> or, with a probe, <em>source loaded by the probe</em>, the probe by its name,
 * <em>ground lead</em> and <em>termination</em> (where it is not the one that the probe is made
 * for); <em>coupling</em>, stages of the user's own by their names, <em>vertical gain and
 * offset</em>, <em>bandwidth</em>, <em>bandwidth limit</em>. Then <em>sampling</em> (the raw
 * samples without quantisation: what the instants alone take away), <em>quantisation</em>,
 * <em>decimation</em>, <em>averaging</em>. A stage that is ideal has no row; sampling always has
 * one.
 *
 * <p>Source, probe, termination and a coupling capacitor have no responses of their own to
 * multiply. Their rows come from networks of which one more element is real each time: the first
 * takes the voltage at the tip while probe and input load the source, the next that behind the
 * probe on the input that it is made for, and so on to the whole.
 *
 * <p><b>Cautions.</b> {@link org.asmeasured.accuracy.Caution} says what whoever would do this at a
 * bench must be warned of: hazardous voltage, a rating exceeded, a capacitor that carries the whole
 * direct voltage. It is data beside the prediction and changes none of it.
 *
 * <p>Where a reading cannot be taken, the row has the reason, and the next reading that can be
 * taken counts from the last one that could. Effective bits are such a reading: of a pure sine they
 * have no bound, nor have they until a stage leaves something over; from there on the bias of a row
 * is the number of bits that the stage takes.
 *
 * <p><b>The random part.</b> A single capture is one draw of all that is random. Over n captures
 * every row has a mean, and a {@link org.asmeasured.accuracy.Scatter}: the standard deviation s of
 * the reading from capture to capture with this stage and all before it, and the variance s<sup>2
 * </sup> that the stage adds, below 0 where averaging takes some away. Variances added sum to that
 * of the whole, as biases sum to the bias. Every row sees the same seeds, so that what two rows
 * have in common does not scatter their difference: the standard error of a bias is s(d)/sqrt(n) of
 * the differences d (JCGM 100, 4.2.3, clause from memory). Rows in which nothing is random yet are
 * read once.
 *
 * <p><b>Each alone ideal.</b> {@link org.asmeasured.accuracy.IdealStages} turns the question round:
 * what the reading would be, were this one stage ideal and all others as they are. These rows do
 * not sum. An error of gain is worth the same in both tables; of two equal limits of the bandwidth
 * the second seems to cost little in order, and either little alone.
 *
 * <p><b>How sure.</b> An {@link org.asmeasured.accuracy.Assessment} takes a {@link
 * org.asmeasured.accuracy.Measurement}, what is there and how it is captured, and {@link
 * org.asmeasured.accuracy.Tolerances}: distributions of {@link org.asmeasured.accuracy.Parameter}s,
 * and contributions of which the model knows nothing. Each trial draws another instrument and
 * another capture, and its error is reading less truth; the truth is one for all trials, unless a
 * parameter is the signal's own. The law of propagation runs over the same model with the same
 * seeds at every place, the scatter of captures as one more input, and it is said where the two
 * disagree. What varies from capture to capture of one instrument, repeatability, is told apart
 * from what varies between instruments.
 *
 * <p><b>Does it follow.</b> An error small against a limit is worth nothing if the reading does not
 * follow the quantity: a divider on the wrong input reads the instrument's own noise, and little of
 * it. {@link org.asmeasured.accuracy.Sensitivity} moves the signal up and down and asks what share
 * of the change the reading shows; a correction divides by it, and so does its uncertainty.
 *
 * <p><b>What to decide.</b> A {@link org.asmeasured.accuracy.Verdict} about a limit counts a bias
 * that nobody corrects against the reading: there is a decision only where a reading taken as it
 * stands and one corrected for the bias come to the same, each with a risk that is allowed, and
 * only of a reading that follows. A risk below what the trials can show is not granted ({@link
 * org.asmeasured.uncertainty.RuleOfThree}). The nearest limits that would pass, the guard band that
 * keeps the risk, and the risks of a production come of the same trials.
 *
 * <p><b>Signs.</b> Bias = as measured - truth (JCGM 200, 2.18, estimate of a systematic error;
 * clause from memory).
 *
 * <p><b>Limits of validity.</b> For a quantised still signal the bias depends on where it lies
 * between codes. Of a reading that is not taken of every capture, the mean is that of the others,
 * which may be a choice among them; the row says how many they are. Rows ahead of averaging are
 * those of single acquisitions.
 */
package org.asmeasured.accuracy;
