/**
 * The analog stages between the tip and the sampler: each is a value that yields a linear response.
 *
 * <p><b>The idea.</b> Everything that happens to a voltage before it is sampled is, in this model,
 * linear and rational: the source is loaded by the input, the coupling takes the direct part away,
 * the amplifier and the bandwidth limit round the edges. So each stage is described by one thing,
 * its {@link org.asmeasured.linear.Response}, and the chain by their product. What stands ahead of
 * the amplifier is an exception: source, probe, ground lead, coupling capacitor and termination act
 * on one another, so {@link org.asmeasured.frontend.Loading} solves them as one network. A stage
 * holds parameters, never state; what the chain makes of a signal is worked out in closed form by
 * the package {@code linear}, at the instants that matter and at no others.
 *
 * <p><b>The order.</b> Source, probe, ground lead, termination, coupling, the user's own stages,
 * the errors of the vertical scale, bandwidth, bandwidth limit. Linear stages commute, so the order
 * does not change the final output; it decides to which stage an error is booked when stages are
 * switched in one after another, and what an offset error passes through. Within the network that
 * acts together, {@link org.asmeasured.frontend.Loading#steps} switches the elements in one at a
 * time.
 *
 * <p><b>Volts are referred to the tip.</b> The truth is the source's open-circuit voltage; what a
 * probe divides by is multiplied back by its nominal attenuation, so a perfect probe on an ideal
 * source changes nothing.
 *
 * <p><b>Ideal stages</b> cost nothing and change nothing, bit for bit: an ideal stage yields {@link
 * org.asmeasured.linear.Response#identity()}, and a chain of identities is not evaluated at all.
 *
 * <p><b>Vertical scale.</b> {@link org.asmeasured.frontend.VerticalScale} says which span of volts
 * the converter covers. Full scale is that span, referred to the tip: volts per division times
 * divisions. The offset is the voltage at the middle of the span. Gain and offset errors are the
 * instrument's, as fractions.
 *
 * <p><b>Saturation.</b> The one thing here that is not linear: {@link
 * org.asmeasured.frontend.Saturation} holds the voltage ahead of the roll-off between two levels.
 * It is solved by events, the crossings of its levels, and what it cuts away is put back into the
 * family that a linear system maps to itself, so that no time step enters.
 *
 * <p><b>Limits of validity.</b> A termination is a resistance with a capacitance across it, and a
 * cable is its capacitance, so reflections are not modelled, nor is the skin effect. A ground lead
 * is a lumped inductance. A probe's own bandwidth stands behind its network and does not load it. A
 * rating changes no reading; it raises a caution in the package {@code accuracy}.
 *
 * <p>To add a stage, implement {@link org.asmeasured.frontend.AnalogStage}: a name and a response.
 * To add a probe, implement {@link org.asmeasured.frontend.Probe}: a name, an attenuation and a
 * network.
 */
package org.asmeasured.frontend;
