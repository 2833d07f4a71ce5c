package org.asmeasured.scenario;

import java.io.Serial;

/**
 * A scenario, a sweep or a recorded waveform that cannot be used, or a result that cannot be
 * written.
 *
 * <p>The message is one sentence for the person who wrote the file. It names the file, the line and
 * column or the JSON pointer, the parameter, the value with its unit, and what is allowed. Nothing
 * is half loaded or half written when it is thrown.
 */
public final class ScenarioException extends RuntimeException {
  @Serial private static final long serialVersionUID = 1L;

  /**
   * A refusal.
   *
   * @param message one sentence: place, parameter, value, unit, allowed range
   */
  public ScenarioException(String message) {
    super(message);
  }

  /**
   * A refusal that another exception led to.
   *
   * @param message one sentence: place, parameter, value, unit, allowed range
   * @param cause what was thrown below
   */
  public ScenarioException(String message, Throwable cause) {
    super(message, cause);
  }
}
