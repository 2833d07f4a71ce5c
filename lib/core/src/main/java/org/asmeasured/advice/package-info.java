/**
 * Which settings of a bench, and which of several benches, read a quantity best.
 *
 * <p><b>The idea.</b> How good a reading is comes down to one number, its expanded uncertainty plus
 * the modulus of its bias, U + |b|, which is what a reader is off by who takes the reading as it
 * stands. {@link org.asmeasured.advice.Choices} says what a bench offers; {@link
 * org.asmeasured.advice.Advice} looks for the combination of least U + |b|, and says what it costs:
 * time, bandwidth, bias.
 *
 * <p><b>Common random numbers.</b> Every candidate meets the same instruments and the same noise:
 * trial t draws the same point of one scrambled Sobol sequence for all. The standard error of a
 * difference of scores is taken of the differences trial by trial, in first order: where e is the
 * error of a trial, m the mean and s the standard deviation, a trial moves the score k s + |m| by k
 * ((e - m)<sup>2</sup> - s<sup>2</sup>)/(2 s) + sign(m) (e - m), over n. What is straight in the
 * parameters is taken out before, by the same linear control variate as elsewhere ({@link
 * org.asmeasured.uncertainty.CommonDraws}).
 *
 * <p><b>Staged search.</b> All candidates get a few trials; those that are surely worse than the
 * best by more than the margin end there, and the others get twice as many, until no difference
 * that matters is in doubt or the budget is spent. If there are too many combinations, settings are
 * chosen group by group, those of the range first, and two by two where no group moves, until
 * nothing changes.
 *
 * <p><b>Rules of practice</b> decide nothing. {@link org.asmeasured.advice.Rule} says which are
 * kept and which are broken, beside the computed figure.
 *
 * <p><b>Several benches.</b> {@link org.asmeasured.advice.BenchComparison} puts one question to
 * several {@link org.asmeasured.advice.Instrument}s, each with its own tolerances and settings, and
 * says which of them verifies a limit, at what risk.
 *
 * <p><b>Limits of validity.</b> Figures of the ranking rest on as many trials as each candidate
 * got, and on a normal theory of their scatter; what no trial has met does not count. Acquisitions
 * without a trigger start at one instant of the signal, as if triggered without error: give the
 * setup a trigger where its errors matter. Tolerances do not change with a setting unless they are
 * relative to it.
 */
package org.asmeasured.advice;
