package org.asmeasured.frontend;

import java.util.List;
import org.apache.commons.math3.complex.Complex;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.linear.Response;

/**
 * The divider that a source's resistance R<sub>s</sub> makes with the input's R and C.
 *
 * <p>H(s) = k<sub>0</sub>/(1 + s tau) with k<sub>0</sub> = R/(R + R<sub>s</sub>) and tau =
 * (R<sub>s</sub>||R) C. The truth is the source's open-circuit voltage, so a 50 ohm source into 50
 * ohm reads half: a loading error of -50 %. The direct error is -R<sub>s</sub>/(R<sub>s</sub> + R),
 * and the half-power frequency 1/(2 pi tau).
 *
 * @param sourceOhms resistance of the source, 0 to 1e12 ohm; 0 is ideal
 * @param termination what the source drives
 */
public record Loading(double sourceOhms, Termination termination) implements AnalogStage {
  private static final double MIN_SECONDS = 1e-16;

  /**
   * Checks the two values.
   *
   * @param sourceOhms resistance of the source, 0 to 1e12 ohm; 0 is ideal
   * @param termination what the source drives
   * @throws IllegalArgumentException if the resistance is out of range, or the time constant is
   *     neither 0 nor at least 1e-16 s
   * @throws NullPointerException if the termination is missing
   */
  public Loading {
    Require.inRange("sourceOhms", sourceOhms, "ohm", 0, 1e12);
    Require.present("termination", termination);
    double seconds = timeConstantSeconds(sourceOhms, termination);
    Require.that(
        seconds == 0 || seconds >= MIN_SECONDS,
        "sourceOhms = "
            + sourceOhms
            + " ohm, farads = "
            + termination.farads()
            + " F: their time constant of "
            + seconds
            + " s must be at least "
            + MIN_SECONDS
            + " s, or one of them 0");
  }

  private static double timeConstantSeconds(double sourceOhms, Termination termination) {
    double parallelOhms = sourceOhms * (termination.ohms() / (termination.ohms() + sourceOhms));
    return parallelOhms * termination.farads();
  }

  @Override
  public String name() {
    return "source and termination";
  }

  @Override
  public Response response() {
    if (sourceOhms == 0) {
      return Response.identity();
    }
    double dcGain = termination.ohms() / (termination.ohms() + sourceOhms);
    double seconds = timeConstantSeconds(sourceOhms, termination);
    if (seconds == 0) {
      return Response.gain(dcGain);
    }
    return Response.of(List.of(), List.of(new Complex(-1 / seconds)), dcGain / seconds);
  }

  @Override
  public String toString() {
    return "source of " + Quantity.of(sourceOhms, "ohm") + " into " + termination;
  }
}
