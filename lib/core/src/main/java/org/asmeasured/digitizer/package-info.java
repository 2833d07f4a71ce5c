/**
 * When a sample is taken and which code it gets.
 *
 * <p><b>When.</b> A {@link org.asmeasured.digitizer.Sampler} says how much earlier or later than
 * its place on the clock a raw sample is taken: an {@link
 * org.asmeasured.digitizer.InterleavedSampler} has a clock error, aperture jitter, and cores that
 * take turns, each {@link org.asmeasured.digitizer.Core} with its own gain, offset, skew and
 * bandwidth. {@link org.asmeasured.digitizer.SampledOutput} reads a chain at those very instants,
 * in closed form. {@link org.asmeasured.digitizer.ConverterNoise} is added to the samples after
 * that. All randomness is a pure function of a key and the number of the raw sample.
 *
 * <p><b>Which code.</b> A converter sees a voltage as a <em>level</em>: its distance from the
 * middle of the range, in steps q = (full scale)/2<sup>bits</sup>. It answers with a whole number,
 * the code. Code k stands for the voltage offset + k q, and runs from -2<sup>bits-1</sup> to
 * 2<sup>bits-1</sup> - 1. Everything that makes a converter what it is happens between the two
 * numbers, so a {@link org.asmeasured.digitizer.Converter} needs to know neither volts nor offset,
 * and the same converter serves every vertical scale.
 *
 * <p><b>Mid-tread.</b> The {@link org.asmeasured.digitizer.IdealConverter} changes code at (k -
 * 1/2) q, so that level 0 lies in the middle of a tread. A level exactly on a transition gets the
 * even code of its two neighbours (the rounding of IEEE Std 754); with any other rule for ties a
 * signal on the lattice would be biased. Outside the range the end codes answer. Beyond their outer
 * half step, a sample is counted as clipped: a fact about the record, not an error of the caller.
 *
 * <p><b>Errors to expect.</b> For a busy signal the error has a mean square near q<sup>2</sup>/12
 * (W. R. Bennett, 1948; B. Widrow and I. Kollar, <i>Quantization Noise</i>, 2008); for a sine the
 * exact value is a series of Bessel functions, and for a still signal it is simply the distance to
 * the nearest code.
 *
 * <p><b>Codes as doubles.</b> Between converter and storage a code travels as a {@code double} that
 * holds a whole number. Sums of codes are then exact (24 bits, 2<sup>20</sup> of them:
 * 2<sup>44</sup> is far below 2<sup>53</sup>), whatever their order, and the loops run on vectors.
 *
 * <p><b>Nonlinearity.</b> A {@link org.asmeasured.digitizer.TransitionConverter} is told where it
 * changes code: by a bow, a random walk, a table, with missing codes, gain and offset errors.
 * {@link org.asmeasured.digitizer.Linearity} reads INL and DNL of any converter back from its
 * transition levels, exactly.
 *
 * <p><b>Limits of validity.</b> Transition levels are still: a converter has no memory, no
 * hysteresis, and no dependence on how fast the level moves. Jitter is white: each sample's is
 * independent of its neighbours', as of a sampling switch, not of a clock that wanders.
 */
package org.asmeasured.digitizer;
