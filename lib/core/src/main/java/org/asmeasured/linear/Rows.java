package org.asmeasured.linear;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import org.asmeasured.internal.ExtendedTime;

/** Exponentials tabulated over one block of samples, made once for a rate. */
final class Rows {
  static final int BLOCK = 512;

  /**
   * Rows are made a little longer than a block, so that rows made one after another do not begin at
   * the same place of a page: loads and stores a page apart wait for one another. With its header
   * such an array is a whole number of cache lines.
   */
  static final int LENGTH = BLOCK + 38;

  final double rateHz;

  /** 0, 1, 2, ... */
  static final double[] RAMP = new double[LENGTH];

  static {
    for (int j = 0; j < BLOCK; j++) {
      RAMP[j] = j;
    }
  }

  private final Map<Chain, double[][]> byChain = new HashMap<>();
  private final Map<Chain, ChainExponential> exponentials = new HashMap<>();
  private int count;
  private double[] growths = {};
  private double[] frequenciesHz = {};
  private double[][][] pairs = {};

  Rows(double rateHz) {
    this.rateHz = rateHz;
  }

  /** Row pair of e^{growth t} cos and - e^{growth t} sin of 2 pi f t, at t = j / rate. */
  double[][] term(double growth, double frequencyHz) {
    for (int i = 0; i < count; i++) {
      if (frequenciesHz[i] == frequencyHz && growths[i] == growth) {
        return pairs[i];
      }
    }
    double[][] pair = new double[2][LENGTH];
    pair[0][0] = 1;
    ExtendedTime t = new ExtendedTime();
    // as LoneRows says, with the angle of each power of two to the last digit
    for (int power = 1; power < BLOCK; power *= 2) {
      t.setQuotient(power, rateHz);
      double angle = 2 * Math.PI * t.fractionOfCycles(frequencyHz);
      double e = Math.exp(growth * t.hi());
      int end = Math.min(2 * power, LoneRows.last(growth, rateHz, BLOCK));
      LoneRows.turning(pair[0], pair[1], e * Math.cos(angle), -e * Math.sin(angle), power, end);
    }
    if (count == growths.length) {
      int room = Math.max(4, 2 * count);
      growths = Arrays.copyOf(growths, room);
      frequenciesHz = Arrays.copyOf(frequenciesHz, room);
      pairs = Arrays.copyOf(pairs, room);
    }
    growths[count] = growth;
    frequenciesHz[count] = frequencyHz;
    pairs[count++] = pair;
    return pair;
  }

  /** The exponential of a chain, kept with its tables. */
  ChainExponential exponential(Chain chain) {
    return exponentials.computeIfAbsent(chain, Chain::exponential);
  }

  /** Row pairs of a chain's first row, one for each point. */
  double[][] chain(Chain chain) {
    return byChain.computeIfAbsent(
        chain,
        c -> {
          double[][] rows = new double[2 * c.size()][LENGTH];
          ChainExponential e = c.exponential();
          for (int j = 0; j < BLOCK; j++) {
            e.at(j / rateHz);
            for (int k = 0; k < c.size(); k++) {
              rows[2 * k][j] = e.re[k];
              rows[2 * k + 1][j] = -e.im[k];
            }
          }
          return rows;
        });
  }
}
