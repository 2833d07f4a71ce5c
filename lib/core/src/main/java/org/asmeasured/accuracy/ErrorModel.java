package org.asmeasured.accuracy;

import java.util.List;
import org.asmeasured.capture.Record;
import org.asmeasured.capture.Setup;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.measure.Reading;
import org.asmeasured.measure.ReadingGroup;
import org.asmeasured.signal.Signal;
import org.asmeasured.uncertainty.JointModel;

/**
 * The errors of readings, as a model of measurement: inputs are the parameters and contributions of
 * {@link Tolerances}, outputs are reading less truth.
 *
 * <p>The truth is that over the span of the record which the measurement has at the estimates of
 * its parameters. It is taken anew where a parameter is one of the signal's own, and stays where an
 * instrument moves its record.
 */
final class ErrorModel implements JointModel {
  private final List<Reading> readings;
  private final ReadingGroup group;
  private final Measurement stated;
  private final Tolerances tolerances;
  private final Signal signal;
  private final double from;
  private final double to;
  private final List<Measured> truths;

  /**
   * The errors of a measurement.
   *
   * @param asked over the span of whose record the truth is taken
   * @param stated what is captured
   */
  ErrorModel(
      List<Reading> readings,
      Measurement asked,
      Measurement stated,
      Tolerances tolerances,
      long seed) {
    this.readings = readings;
    this.stated = stated;
    this.tolerances = tolerances;
    Measurement nominal = tolerances.concerning(asked).atEstimates(asked);
    Setup setup = nominal.setup();
    signal = nominal.signal();
    from =
        setup.trigger().isEmpty()
            ? setup.startSeconds()
            : setup.capture(signal, seed).startSeconds();
    to = from + setup.spanSeconds();
    group = ReadingGroup.of(readings);
    truths = group.of(signal, from, to);
  }

  private ErrorModel(ErrorModel of, Measurement stated, Tolerances tolerances) {
    readings = of.readings;
    group = of.group;
    this.stated = stated;
    this.tolerances = tolerances;
    signal = of.signal;
    from = of.from;
    to = of.to;
    truths = of.truths;
  }

  /** The errors of the same readings by another setup, about the same truth. */
  ErrorModel by(Measurement other, Tolerances its) {
    return new ErrorModel(this, other, its);
  }

  /** The signal at the estimates of its parameters. */
  Signal signal() {
    return signal;
  }

  /** At the estimates, in the order of the readings. */
  List<Measured> truths() {
    return truths;
  }

  @Override
  public int outputs() {
    return readings.size();
  }

  @Override
  public void evaluate(double[] inputs, long seed, Measured[] outputs) {
    capture(inputs, seed, outputs);
    for (int r = 0; r < outputs.length; r++) {
      outputs[r] = withContributions(r, outputs[r], inputs);
    }
  }

  /** The errors of one capture at drawn parameters, without the contributions. */
  void capture(double[] inputs, long seed, Measured[] errors) {
    Measurement drawn = tolerances.drawn(stated, inputs);
    Record record = drawn.setup().capture(drawn.signal(), seed);
    List<Measured> truth = drawn.signal() == signal ? truths : group.of(drawn.signal(), from, to);
    List<Measured> read = group.of(record);
    for (int r = 0; r < errors.length; r++) {
      errors[r] = StageTable.difference(read.get(r), truth.get(r));
    }
  }

  /** Adds what is known to come on top; a fraction is one of the reading. */
  Measured withContributions(int r, Measured error, double[] inputs) {
    if (!(error instanceof Value e) || !(truths.get(r) instanceof Value truth)) {
      return error;
    }
    double sum = e.value();
    double fraction = 0;
    int i = tolerances.parameters().size();
    for (Tolerances.Contribution c : tolerances.contributions()) {
      if (c.relative()) {
        fraction += inputs[i];
      } else if (c.concerns(readings.get(r).unit())) {
        sum += inputs[i];
      }
      i++;
    }
    return new Value(sum + fraction * (truth.value() + e.value()));
  }
}
