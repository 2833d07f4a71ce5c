package org.asmeasured.measure;

import org.asmeasured.internal.Require;

/**
 * A reading between two channels, with their names.
 *
 * @param reading what is read
 * @param first the name of the first channel
 * @param second the name of the second, another
 */
public record ChannelPair(PairReading reading, String first, String second) {
  /**
   * Checks that all is there.
   *
   * @param reading what is read
   * @param first the name of the first channel
   * @param second the name of the second, another
   * @throws IllegalArgumentException if the two are one
   * @throws NullPointerException if one is missing
   */
  public ChannelPair {
    Require.present("reading", reading);
    Require.present("first", first);
    Require.present("second", second);
    Require.that(
        !first.equals(second), "second = \"" + second + "\": must be another channel than first");
  }
}
