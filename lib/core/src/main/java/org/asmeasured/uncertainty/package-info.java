/**
 * How sure a figure is, and what may be decided on it: uncertainty by the law of propagation (JCGM
 * 100) and by trials (JCGM 101), and conformity (JCGM 106).
 *
 * <p><b>The idea.</b> A figure y comes of inputs x_1 to x_N by a model, y = f(x_1, ..., x_N). What
 * is known about each input is a {@link org.asmeasured.uncertainty.Distribution}; an {@link
 * org.asmeasured.uncertainty.Input} gives it a name and a unit, {@link
 * org.asmeasured.uncertainty.Inputs} say what is correlated. The model is a function of the user's
 * own ({@link org.asmeasured.uncertainty.Model}, or {@link org.asmeasured.uncertainty.JointModel}
 * for several outputs and for noise that the model draws itself). Both methods take the same inputs
 * and the same model.
 *
 * <table>
 * <caption>Methods</caption>
 * <tr><th>by</th><th>what comes of it</th><th>evaluations</th></tr>
 * <tr><td>{@link org.asmeasured.uncertainty.LawOfPropagation}</td><td>{@link
 *     org.asmeasured.uncertainty.Propagated}: combined standard uncertainty, effective degrees of
 *     freedom, coverage factor, budget; terms of the second order where a sensitivity is
 *     zero</td><td>2 N + 1, or 2 N (N + 2) + 1</td></tr>
 * <tr><td>{@link org.asmeasured.uncertainty.MonteCarlo}</td><td>{@link
 *     org.asmeasured.uncertainty.Simulated}: mean, standard uncertainty, symmetric and shortest
 *     interval, sensitivities, how sure all of them are</td><td>1000 and more</td></tr>
 * <tr><td>both</td><td>{@link org.asmeasured.uncertainty.Agreement}: whether the first may be used
 *     (JCGM 101, clause 8)</td><td></td></tr>
 * <tr><td>{@link org.asmeasured.uncertainty.Decision}</td><td>conformance probability, specific
 *     risks, guard bands, the smallest limit that can be verified</td><td></td></tr>
 * <tr><td>{@link org.asmeasured.uncertainty.GlobalRisk}</td><td>risks over a
 *     production</td><td></td></tr>
 * <tr><td>{@link org.asmeasured.uncertainty.RuleOfThree}</td><td>the least risk that so many trials
 *     show</td><td></td></tr>
 * </table>
 *
 * <p><b>Fewer trials.</b> A trial of a capture is dear, so the trials are spread better than by
 * chance: each block is a Sobol sequence, scrambled anew. And since means and covariances of the
 * inputs are known, the straight part of the model need not be estimated from them: a regression on
 * the drawn inputs splits the output into that part, whose variance is exact, and a remainder.
 * Where the remainder is small, some hundred trials give the standard uncertainty to a percent. A
 * coverage interval is a matter of the whole distribution; it stays a plain count, with the numbers
 * of trials that JCGM 101 asks for.
 *
 * <p><b>Same figures everywhere.</b> Draws are pure functions of the seed, the block and the number
 * of the trial ({@link org.asmeasured.internal.CounterRandom}); sums are taken in chunks of a fixed
 * size, put together in their order; an adaptive run asks after each block in order whether it is
 * enough. So the figures do not depend on the number of threads.
 *
 * <p><b>Two meanings of a t distribution.</b> For n readings JCGM 100 takes the standard deviation
 * of their mean, s/sqrt(n), with n - 1 degrees of freedom; JCGM 101 takes the standard deviation of
 * the t distribution, which is larger by sqrt((n - 1)/(n - 3)), and does not exist for n of 3 and
 * fewer. Both are kept: {@link org.asmeasured.uncertainty.Distribution#standardUncertainty} and
 * {@link org.asmeasured.uncertainty.Distribution#standardDeviation}.
 *
 * <p><b>Nothing silent.</b> A model that refuses inputs which can be drawn is an error that names
 * their distributions; nothing is clamped. A model without an output at the estimates gives the
 * reason. Trials without an output are counted, and of more than half of them nothing is said.
 *
 * <p><b>Accuracy.</b> Inverse normal 1e-15, t within 1e-10 of itself (1e-7 for fewer than five
 * degrees of freedom or beyond six sigma), global risks 1e-12; examples of JCGM 100 to the digits
 * printed and beyond, those of JCGM 101 within 4.5 standard deviations of the trials.
 *
 * <p><b>Limits of validity.</b> Sensitivities over a step of one standard uncertainty are slopes of
 * chords. Correlated inputs hang together as normal values do, whatever their own distributions.
 * Welch and Satterthwaite's formula takes correlated inputs as one term. Clauses are cited from
 * memory.
 */
package org.asmeasured.uncertainty;
