package org.asmeasured.capture;

import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;

/**
 * One channel of several that are captured together.
 *
 * <p>Skew: where the record says t, the channel has sampled at t + skew. A signal that reaches all
 * channels at once appears earlier in the record of a channel with positive skew, by that much. It
 * stands between the split of the trigger's path and the sampler, so the trigger does not see it,
 * and nobody tells the record.
 *
 * @param name as a person calls it, not blank
 * @param setup what stands between this channel's signal and its record
 * @param skewSeconds by how much later than the other channels this one is sampled, -1 to 1 s
 */
public record Channel(String name, Setup setup, double skewSeconds) {

  /**
   * Checks the values.
   *
   * @param name as a person calls it, not blank
   * @param setup what stands between this channel's signal and its record
   * @param skewSeconds by how much later than the other channels this one is sampled, -1 to 1 s
   * @throws IllegalArgumentException if the name is blank or the skew out of range
   * @throws NullPointerException if a value is missing
   */
  public Channel {
    Require.present("name", name);
    Require.that(!name.isBlank(), "name = \"" + name + "\": must not be blank");
    Require.present("setup", setup);
    Require.inRange("skewSeconds", skewSeconds, "s", -1, 1);
  }

  /**
   * A channel without skew.
   *
   * @param name as a person calls it, not blank
   * @param setup what stands between this channel's signal and its record
   * @throws IllegalArgumentException if the name is blank
   * @throws NullPointerException if a value is missing
   */
  public Channel(String name, Setup setup) {
    this(name, setup, 0);
  }

  /**
   * The same channel with another skew.
   *
   * @param seconds -1 to 1 s
   * @return the channel
   * @throws IllegalArgumentException if it is out of range
   */
  public Channel withSkew(double seconds) {
    return new Channel(name, setup, seconds);
  }

  /**
   * The same channel with another setup.
   *
   * @param value the setup
   * @return the channel
   * @throws NullPointerException if it is missing
   */
  public Channel withSetup(Setup value) {
    return new Channel(name, value, skewSeconds);
  }

  @Override
  public String toString() {
    return name
        + ": "
        + setup
        + (skewSeconds == 0 ? "" : "; skew of " + Quantity.of(skewSeconds, "s"));
  }
}
