package org.asmeasured.accuracy;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CancellationException;
import org.asmeasured.internal.CounterRandom;
import org.asmeasured.internal.Parallel;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Statistics;

/**
 * The errors of several captures at one place of the parameters, with the same seeds at every
 * place, so that differences between places are of the parameters alone. A place is visited once.
 */
final class RepeatedErrors {
  private static final long CAPTURES = 0x726570656174L;

  private final ErrorModel model;
  private final int parameters;
  private final int captures;
  private final AssessmentMethod method;
  private final Map<List<Double>, List<Statistics>> known = new HashMap<>();

  RepeatedErrors(ErrorModel model, int parameters, int captures, AssessmentMethod method) {
    this.model = model;
    this.parameters = parameters;
    this.captures = captures;
    this.method = method;
  }

  /** The seed of a capture. */
  static long seed(long seed, int capture) {
    return CounterRandom.key(CounterRandom.key(seed, CAPTURES), capture);
  }

  /** Whether the law of propagation asks for places beside the estimates. */
  boolean serveTheLaw() {
    return method.lawOfPropagation();
  }

  /** By reading, of the errors without contributions. */
  List<Statistics> at(double[] inputs) {
    double[] place = Arrays.copyOf(inputs, parameters);
    List<Double> key = Arrays.stream(place).boxed().toList();
    List<Statistics> statistics = known.get(key);
    if (statistics == null) {
      statistics = compute(place);
      known.put(key, statistics);
    }
    return statistics;
  }

  private List<Statistics> compute(double[] place) {
    // the trials are done: who listens has heard of all of them
    long trials = method.trials().mostTrials();
    if (!method.progress().goOn(trials, trials)) {
      throw new CancellationException("assessment cancelled: as asked");
    }
    Measured[][] errors = new Measured[captures][model.outputs()];
    Parallel.each(
        captures, method.threads(), i -> model.capture(place, seed(method.seed(), i), errors[i]));
    List<Statistics> statistics = new ArrayList<>();
    for (int r = 0; r < model.outputs(); r++) {
      List<Measured> ofReading = new ArrayList<>();
      for (Measured[] capture : errors) {
        ofReading.add(capture[r]);
      }
      statistics.add(Statistics.of(ofReading));
    }
    return statistics;
  }
}
