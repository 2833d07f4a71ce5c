package org.asmeasured.accuracy;

import java.util.ArrayList;
import java.util.List;
import org.asmeasured.capture.Setup;
import org.asmeasured.internal.Quantity;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.measure.Reading;
import org.asmeasured.signal.Signal;

/**
 * What a setup would make of a reading: the truth, the value as measured, and where the difference
 * comes from. Immutable.
 */
public final class Prediction {
  private static final double ROUNDING = 1e-12;

  private final Reading reading;
  private final Measured truth;
  private final Measured measured;
  private final Measured bias;
  private final List<StageBias> byStage;

  private Prediction(Reading reading, Measured truth, Measured measured, List<StageBias> byStage) {
    this.reading = reading;
    this.truth = truth;
    this.measured = measured;
    this.bias = difference(measured, truth);
    this.byStage = List.copyOf(byStage);
  }

  /**
   * Predicts a reading.
   *
   * @param reading what is read
   * @param signal what is there: the open-circuit voltage of the source
   * @param setup how it is captured
   * @return the prediction
   * @throws NullPointerException if one is missing
   * @throws IllegalArgumentException if the span of the record is below the last place of its start
   */
  public static Prediction of(Reading reading, Signal signal, Setup setup) {
    Require.present("reading", reading);
    Require.present("signal", signal);
    Require.present("setup", setup);
    double from = setup.startSeconds();
    double to = from + setup.spanSeconds();
    Require.that(
        to > from,
        "startSeconds = "
            + from
            + " s: a span of "
            + setup.spanSeconds()
            + " s cannot be told apart there");
    Measured truth = reading.of(signal, from, to);
    List<StageBias> rows = new ArrayList<>();
    Measured before = truth;
    ChainWalk walk = new ChainWalk(setup);
    for (ChainWalk.Step step : walk.analog()) {
      Measured now = reading.of(step.setup().analogOutput(signal), from, to);
      rows.add(new StageBias(step.stage(), now, difference(now, before)));
      before = now.isTaken() ? now : before;
    }
    Measured now = truth;
    for (ChainWalk.Step step : walk.digital()) {
      now =
          step.setup() == null
              ? new NotTaken("there are more raw samples than are held at a time")
              : reading.of(step.setup().capture(signal));
      rows.add(new StageBias(step.stage(), now, difference(now, before)));
      before = now.isTaken() ? now : before;
    }
    return new Prediction(reading, truth, now, rows);
  }

  private static Measured difference(Measured value, Measured reference) {
    if (value instanceof Value minuend && reference instanceof Value subtrahend) {
      return new Value(minuend.value() - subtrahend.value());
    }
    return value.isTaken() ? reference : value;
  }

  /**
   * What is read.
   *
   * @return the reading
   */
  public Reading reading() {
    return reading;
  }

  /**
   * The reading of the signal itself over the span of the record.
   *
   * @return in the reading's unit
   */
  public Measured truth() {
    return truth;
  }

  /**
   * The reading of the record.
   *
   * @return in the reading's unit
   */
  public Measured measured() {
    return measured;
  }

  /**
   * As measured less truth.
   *
   * @return in the reading's unit; the reason, if one of the two could not be taken
   */
  public Measured bias() {
    return bias;
  }

  /**
   * The bias of each stage that is not ideal, switched in after those before it. The biases add up
   * to the whole, to the rounding of the sums.
   *
   * @return in the order of the chain, unmodifiable
   */
  public List<StageBias> byStage() {
    return byStage;
  }

  @Override
  public String toString() {
    String unit = reading.unit();
    StringBuilder words = new StringBuilder(reading.name());
    words
        .append(": true value ")
        .append(truth.in(unit))
        .append(", as measured ")
        .append(measured.in(unit));
    if (bias instanceof Value whole) {
      words.append(", bias ").append(signed(whole.value()));
    }
    words.append(" (in order: ");
    String separator = "";
    for (StageBias row : byStage) {
      words.append(separator).append(row.stage()).append(' ');
      words.append(row.bias() instanceof Value part ? signed(part.value()) : row.bias());
      separator = ", ";
    }
    return words.append(')').toString();
  }

  /** What is below the rounding of the readings themselves is no bias. */
  private String signed(double value) {
    double size = Math.max(size(truth), size(measured));
    double shown = Math.abs(value) <= ROUNDING * size ? 0 : value;
    return (shown >= 0 ? "+" : "") + Quantity.of(shown, reading.unit());
  }

  private static double size(Measured reading) {
    return reading instanceof Value taken ? Math.abs(taken.value()) : 0;
  }
}
