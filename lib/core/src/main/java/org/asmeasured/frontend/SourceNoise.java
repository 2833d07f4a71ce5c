package org.asmeasured.frontend;

import java.util.Optional;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.linear.NoiseProcess;

/**
 * Noise that the signal itself carries: the device's, not the instrument's. White at the source,
 * ahead of its resistance, and shaped by the whole chain.
 *
 * <p>It is part of what there is to measure, so it is kept apart from the instrument's {@link
 * Noise}.
 *
 * @param densityVoltsPerRootHz one-sided, 0 to 1e3 V/sqrt(Hz)
 */
public record SourceNoise(double densityVoltsPerRootHz) {
  /** J/K, exactly (SI 2019). */
  private static final double BOLTZMANN = 1.380649e-23;

  private static final SourceNoise NONE = new SourceNoise(0);

  /**
   * Checks the value.
   *
   * @param densityVoltsPerRootHz one-sided, 0 to 1e3 V/sqrt(Hz)
   * @throws IllegalArgumentException if it is out of range
   */
  public SourceNoise {
    Require.inRange("densityVoltsPerRootHz", densityVoltsPerRootHz, "V/sqrt(Hz)", 0, 1e3);
  }

  /**
   * A source without noise.
   *
   * @return the value
   */
  public static SourceNoise none() {
    return NONE;
  }

  /**
   * The thermal noise of a resistance, {@code sqrt(4 k T R)} (H. Nyquist, Physical Review 32 (1928)
   * 110), white up to about 10 GHz times T/290 K within 1e-3.
   *
   * @param ohms 0 to 1e12 ohm
   * @param kelvin its temperature, 0 to 1e4 K
   * @return the noise
   * @throws IllegalArgumentException if a value is out of range
   */
  public static SourceNoise thermal(double ohms, double kelvin) {
    Require.inRange("ohms", ohms, "ohm", 0, 1e12);
    Require.inRange("kelvin", kelvin, "K", 0, 1e4);
    return new SourceNoise(Math.sqrt(4 * BOLTZMANN * kelvin * ohms));
  }

  /**
   * Whether there is no noise.
   *
   * @return true if the density is 0
   */
  public boolean isNone() {
    return densityVoltsPerRootHz == 0;
  }

  /**
   * This noise at the sampler.
   *
   * @param frontEnd which shapes it, all of it
   * @param rateHz raw samples a second, 1e-9 to 1e15 Hz
   * @return the process to the usual tolerance, or nothing if there is no noise
   * @throws IllegalArgumentException if the rate is out of range, or nothing in the chain bounds
   *     the noise
   */
  public Optional<NoiseProcess> process(FrontEnd frontEnd, double rateHz) {
    Require.present("frontEnd", frontEnd);
    Require.hertz("rateHz", rateHz);
    return isNone()
        ? Optional.empty()
        : Optional.of(NoiseProcess.of(frontEnd.response(), densityVoltsPerRootHz, rateHz));
  }

  @Override
  public String toString() {
    return isNone()
        ? "no noise of the source"
        : Quantity.of(densityVoltsPerRootHz, "V") + "/sqrt(Hz) of the source";
  }
}
