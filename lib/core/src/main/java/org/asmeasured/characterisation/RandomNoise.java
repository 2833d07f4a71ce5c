package org.asmeasured.characterisation;

import java.util.Optional;
import org.asmeasured.capture.Record;
import org.asmeasured.internal.Require;
import org.asmeasured.measure.Measured;

/**
 * Random noise from two records of the same signal at the same place: what differs between them,
 *
 * <pre>noise = sqrt(sum of ((a_i - b_i) - mean of (a - b))^2 / (2 (M - 1)))</pre>
 *
 * <p>whatever the signal, its distortion and the recorder's fixed errors (IEEE Std 1057-2017,
 * random noise, from memory; there the mean difference stays in, here it is taken away as a drift
 * between the records). Where a converter of no noise of its own sees less than half a step of
 * noise, what it makes of it depends on the level: a constant between two transitions shows none at
 * all.
 */
public final class RandomNoise {
  private RandomNoise() {}

  /**
   * The noise of one record.
   *
   * @param first one record
   * @param second another of as many points, at least 2
   * @return volts RMS; or a reason: no points, an envelope, fewer than two points
   * @throws IllegalArgumentException if the numbers of points differ
   * @throws NullPointerException if a record is missing
   */
  public static Measured of(Record first, Record second) {
    Require.present("first", first);
    Require.present("second", second);
    Require.that(
        first.size() == second.size(),
        "first.size = "
            + first.size()
            + ", second.size = "
            + second.size()
            + ": both must have as many points");
    Optional<String> reason =
        Records.noValues("noise", first).or(() -> Records.noValues("noise", second));
    if (reason.isPresent()) {
      return new Measured.NotTaken(reason.get());
    }
    int n = first.size();
    if (n < 2) {
      return new Measured.NotTaken("a single point shows no noise");
    }
    double[] difference = first.volts();
    for (int i = 0; i < n; i++) {
      difference[i] -= second.volts(i);
    }
    double mean = SineKernels.sum(difference, 0, n) / n;
    double sum = 0;
    for (double d : difference) {
      sum += (d - mean) * (d - mean);
    }
    return new Measured.Value(Math.sqrt(sum / (2.0 * (n - 1))));
  }
}
