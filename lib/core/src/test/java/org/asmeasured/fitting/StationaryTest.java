package org.asmeasured.fitting;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.asmeasured.internal.Cases;
import org.junit.jupiter.api.Test;

class StationaryTest {

  /** Product and traces against the matrix written out, by short sums and by transform. */
  @Test
  void isTheMatrixWrittenOut() {
    Cases.check(
        1,
        40,
        random -> {
          int n = 1 + random.nextInt(200);
          double[] r = new double[1 + random.nextInt(n)];
          for (int k = 0; k < r.length; k++) {
            r[k] = random.nextDouble() * 2 - 1;
          }
          int offset = random.nextInt(5);
          double[] x = new double[n + offset + 3];
          for (int i = 0; i < x.length; i++) {
            x[i] = random.nextDouble();
          }
          Stationary matrix = new Stationary(r, n);
          double[] y = matrix.times(x, offset);
          double square = 0;
          for (int i = 0; i < n; i++) {
            double sum = 0;
            for (int k = 0; k < n; k++) {
              int lag = Math.abs(i - k);
              double entry = lag < r.length ? r[lag] : 0;
              sum += entry * x[offset + k];
              square += entry * entry;
            }
            assertEquals(sum, y[i], 1e-11 * n);
          }
          assertEquals(n * r[0], matrix.trace(), 1e-12 * n);
          assertEquals(square, matrix.traceOfSquare(), 1e-11 * n * n);
        });
  }
}
