/**
 * The model of one bench: parameters fitted to what it recorded, and readings corrected with it.
 *
 * <p><b>The idea.</b> A signal that is known goes in, a record comes out, and the chain between
 * them predicts that record but for a few figures: a bandwidth, a gain, a trimmer. {@link
 * org.asmeasured.fitting.ChainFit} finds the figures that bring prediction and record nearest, and
 * says how sure they are and which of them hang together. As tolerances they make the chain that of
 * the bench it was recorded on; {@link org.asmeasured.fitting.Correction} then corrects a reading
 * taken there for the error that this chain predicts, with the uncertainty of that correction.
 *
 * <p><b>The prediction</b> is the exact noiseless output at the instants of the record, so a fit
 * has no numerical error of its own worth naming: slopes are differences of 1e-11, and without
 * noise parameters come back to rounding.
 *
 * <p><b>The noise</b> decides on the uncertainty. {@link org.asmeasured.fitting.RecordNoise} gives
 * it by its autocovariance at the stored points: as the setup states it, exactly, or as known from
 * elsewhere, or by its shape with the size taken from what is left over. Estimates are those of
 * least squares, which noise of any shape leaves unbiased to first order, and their covariance is
 * that of these estimates under that noise. A chi-squared whose mean and variance allow for the
 * shape of the noise says whether chain and noise describe the record.
 *
 * <p><b>What cannot be told is said.</b> Unknowns of which the records tell nothing or that they do
 * not tell apart, with the direction; unknowns at a bound; residuals that the noise does not
 * explain.
 *
 * <p><b>Limits of validity.</b> The covariance is of the first order. It holds what noise does and
 * not what is wrong with the model or with the signal that is taken for known: what the signal's
 * size is uncertain by, a gain is too.
 */
package org.asmeasured.fitting;
