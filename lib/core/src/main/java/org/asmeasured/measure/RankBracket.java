package org.asmeasured.measure;

import java.util.Arrays;
import java.util.Optional;
import org.asmeasured.capture.Record;
import org.asmeasured.internal.CounterRandom;

/**
 * The values of a record near a rank, by one pass: a sample says between which two values it lies
 * most likely; all values there are kept and those below counted, which proves it or not (R. W.
 * Floyd, R. L. Rivest, Comm. ACM 18 (1975) 165, from memory). What the sample holds decides how
 * long it takes, never what comes out.
 *
 * @param values some values of the record; all of them that lie between two bounds
 * @param rank among them
 */
record RankBracket(double[] values, int rank) {
  /** Of fewer points a sample spares nothing. */
  private static final int LEAST_POINTS = 1 << 14;

  private static final int SAMPLE = 4096;
  private static final int BLOCK = 960;

  /** Half width of the bracket, in standard deviations of a sample's rank at its most. */
  private static final double DEVIATIONS = 3;

  private static final long KEY = 0x51ed270b7f3c9d25L;

  /**
   * The values near a rank.
   *
   * @param record without codes
   * @param rank 0 to size - 1
   * @param next whether the next rank must be among them too
   * @return empty where the record is short, or holds so many values near the rank that another way
   *     is as good
   */
  static Optional<RankBracket> of(Record record, int rank, boolean next) {
    int size = record.size();
    if (size < LEAST_POINTS) {
      return Optional.empty();
    }
    double[] sample = new double[SAMPLE];
    double stride = (double) size / SAMPLE;
    for (int i = 0; i < SAMPLE; i++) {
      // within each stride at random: a waveform that repeats must not fall in step
      sample[i] =
          record.volts((int) Math.min(size - 1, (i + CounterRandom.uniform(KEY, i)) * stride));
    }
    Arrays.sort(sample);
    double place = (double) rank / size * SAMPLE;
    double margin = 1 + DEVIATIONS * Math.sqrt(SAMPLE) / 2;
    int from = (int) Math.floor(place - margin);
    int to = (int) Math.ceil(place + margin);
    double low = from < 0 ? Double.NEGATIVE_INFINITY : sample[from];
    double high = to >= SAMPLE ? Double.POSITIVE_INFINITY : sample[to];
    Pass pass = new Pass(size / 8);
    double[] block = new double[BLOCK];
    for (int at = 0; at < size; at += BLOCK) {
      int n = Math.min(BLOCK, size - at);
      record.volts(at, block, 0, n);
      if (!pass.add(block, n, low, high)) {
        return Optional.empty();
      }
    }
    int within = rank - pass.below;
    return within < 0 || within + (next ? 1 : 0) >= pass.kept
        ? Optional.empty()
        : Optional.of(new RankBracket(Arrays.copyOf(pass.values, pass.kept), within));
  }

  private static final class Pass {
    private final double[] values;
    private int kept;
    private int below;

    Pass(int room) {
      values = new double[room + BLOCK];
    }

    /** False once there is no room for another block. */
    boolean add(double[] block, int count, double low, double high) {
      below += keep(block, count, low, Double.doubleToRawLongBits(high - low));
      return kept + BLOCK <= values.length;
    }

    /**
     * Keeps those from the lower bound on, no more than a width away; returns how many are below.
     * One comparison for both bounds, because two would be guessed wrong half of the time: as whole
     * numbers without sign, the bits of a negative distance exceed those of any width.
     */
    private int keep(double[] v, int count, double low, long width) {
      double[] out = values;
      int n = kept;
      int negative = 0;
      long most = width + Long.MIN_VALUE;
      for (int i = 0; i < count; i++) {
        long distance = Double.doubleToRawLongBits(v[i] - low);
        negative += (int) (distance >>> 63);
        if (distance + Long.MIN_VALUE <= most) {
          out[n++] = v[i];
        }
      }
      kept = n;
      return negative;
    }
  }
}
