package org.asmeasured.uncertainty;

import java.io.Serial;
import org.asmeasured.internal.Require;

/**
 * A value of one input that a model cannot accept, such as a negative bandwidth, said with the
 * distribution that it comes from. A model that knows which of its inputs it refuses throws it
 * itself; it then stands for all of them.
 */
public final class RefusedInput extends IllegalArgumentException {
  @Serial private static final long serialVersionUID = 1;

  /**
   * A refusal.
   *
   * @param input whose value is refused
   * @param value the value, in the input's unit
   * @param cause why
   * @throws NullPointerException if the input or the cause is missing
   */
  public RefusedInput(Input input, double value, IllegalArgumentException cause) {
    super(words(input, value, cause), cause);
  }

  private static String words(Input input, double value, IllegalArgumentException cause) {
    Require.present("input", input);
    Require.present("cause", cause);
    return input.name()
        + " ("
        + input.distribution().name()
        + "): reaches "
        + value
        + (input.unit().isEmpty() ? "" : " " + input.unit())
        + ", where "
        + cause.getMessage();
  }
}
