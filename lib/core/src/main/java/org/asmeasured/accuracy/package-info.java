/**
 * How far apart reading and truth are, and which stage took the accuracy away.
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
 * taken counts from the last one that could.
 *
 * <p><b>Signs.</b> Bias = as measured - truth (JCGM 200, 2.18, estimate of a systematic error;
 * clause from memory).
 *
 * <p><b>Limits of validity.</b> Where a stage is random, its row is one draw, that of the seed, and
 * not its mean. For a quantised still signal the bias depends on where it lies between codes.
 */
package org.asmeasured.accuracy;
