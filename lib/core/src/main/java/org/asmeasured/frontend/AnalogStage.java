package org.asmeasured.frontend;

import org.asmeasured.linear.Response;

/**
 * A linear stage between the tip and the sampler. Open: any stage with a rational response can be
 * put into the chain.
 *
 * <p>An implementation is immutable: {@link #name} and {@link #response} give the same answer at
 * every call. The response is referred to the tip, so a stage that divides and is corrected for by
 * the scale has a direct-current gain of 1.
 */
public interface AnalogStage {

  /**
   * The stage as a table of errors would name it, in a few words.
   *
   * @return not empty
   */
  String name();

  /**
   * What the stage does to a signal.
   *
   * @return a rational response with stable poles
   */
  Response response();

  /**
   * Whether the stage changes nothing at all.
   *
   * @return true if the response is the identity
   */
  default boolean isIdeal() {
    return response().isIdentity();
  }
}
