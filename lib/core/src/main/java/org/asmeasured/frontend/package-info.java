/**
 * The analog stages between the tip and the sampler: each is a value that yields a linear response.
 *
 * <p><b>The idea.</b> Everything that happens to a voltage before it is sampled is, in this model,
 * linear and rational: the source is loaded by the input, the coupling takes the direct part away,
 * the amplifier and the bandwidth limit round the edges. So each stage is described by one thing,
 * its {@link org.asmeasured.linear.Response}, and the chain by their product. A stage holds
 * parameters, never state; what the chain makes of a signal is worked out in closed form by the
 * package {@code linear}, at the instants that matter and at no others.
 *
 * <p><b>The order.</b> Source and termination, coupling, the user's own stages, the errors of the
 * vertical scale, bandwidth, bandwidth limit. Linear stages commute, so the order does not change
 * the final output; it decides to which stage an error is booked when stages are switched in one
 * after another, and what an offset error passes through.
 *
 * <p><b>Ideal stages</b> cost nothing and change nothing, bit for bit: an ideal stage yields {@link
 * org.asmeasured.linear.Response#identity()}, and a chain of identities is not evaluated at all.
 *
 * <p><b>Vertical scale.</b> {@link org.asmeasured.frontend.VerticalScale} says which span of volts
 * the converter covers. Full scale is that span, referred to the tip: volts per division times
 * divisions. The offset is the voltage at the middle of the span. Gain and offset errors are the
 * instrument's, as fractions.
 *
 * <p><b>Limits of validity.</b> No stage here saturates, and no stage adds noise. A termination is
 * a resistance with a capacitance across it, so reflections on the cable are not modelled. AC
 * coupling is an ideal first-order high-pass: it does not depend on the source resistance, as a
 * physical series capacitor would.
 *
 * <p>To add a stage, implement {@link org.asmeasured.frontend.AnalogStage}: a name and a response.
 */
package org.asmeasured.frontend;
