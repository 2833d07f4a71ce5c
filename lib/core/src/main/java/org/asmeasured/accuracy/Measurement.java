package org.asmeasured.accuracy;

import org.asmeasured.capture.Setup;
import org.asmeasured.internal.Require;
import org.asmeasured.signal.Signal;

/**
 * What is there, and how it is captured.
 *
 * @param signal the open-circuit voltage of the source
 * @param setup everything between it and the stored points
 */
public record Measurement(Signal signal, Setup setup) {

  /**
   * Checks the values.
   *
   * @param signal the open-circuit voltage of the source
   * @param setup everything between it and the stored points
   * @throws NullPointerException if one is missing
   */
  public Measurement {
    Require.present("signal", signal);
    Require.present("setup", setup);
  }

  /**
   * The same signal through another setup.
   *
   * @param value the setup
   * @return the measurement
   * @throws NullPointerException if it is missing
   */
  public Measurement withSetup(Setup value) {
    return new Measurement(signal, value);
  }

  /**
   * Another signal through the same setup.
   *
   * @param value the signal
   * @return the measurement
   * @throws NullPointerException if it is missing
   */
  public Measurement withSignal(Signal value) {
    return new Measurement(value, setup);
  }
}
