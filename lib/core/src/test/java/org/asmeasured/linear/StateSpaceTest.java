package org.asmeasured.linear;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.SplittableRandom;
import org.apache.commons.math3.complex.Complex;
import org.apache.commons.math3.complex.ComplexField;
import org.apache.commons.math3.linear.Array2DRowFieldMatrix;
import org.apache.commons.math3.linear.ArrayFieldVector;
import org.apache.commons.math3.linear.FieldLUDecomposition;
import org.apache.commons.math3.linear.FieldVector;
import org.asmeasured.internal.Cases;
import org.junit.jupiter.api.Test;

/** State spaces against the solution of (s I - A) x = B by Commons Math's LU decomposition. */
class StateSpaceTest {
  private static Complex solved(double[][] a, double[] b, double[] c, double d, double hertz) {
    int n = b.length;
    Complex[][] m = new Complex[n][n];
    Complex[] right = new Complex[n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        m[i][j] = new Complex(-a[i][j], i == j ? 2 * Math.PI * hertz : 0);
      }
      right[i] = new Complex(b[i], 0);
    }
    FieldVector<Complex> x =
        new FieldLUDecomposition<>(new Array2DRowFieldMatrix<>(ComplexField.getInstance(), m))
            .getSolver()
            .solve(new ArrayFieldVector<>(right));
    Complex y = new Complex(d, 0);
    for (int i = 0; i < n; i++) {
      y = y.add(x.getEntry(i).multiply(c[i]));
    }
    return y;
  }

  private static double[] row(SplittableRandom random, int n, double size) {
    double[] row = new double[n];
    for (int i = 0; i < n; i++) {
      row[i] = size * random.nextDouble(-1, 1);
    }
    return row;
  }

  @Test
  void anyStableSystem() {
    Cases.check(
        1,
        8,
        random -> {
          int n = 1 + random.nextInt(4);
          double w = Cases.logUniform(random, 1e3, 1e9);
          double[][] a = new double[n][];
          for (int i = 0; i < n; i++) {
            a[i] = row(random, n, w);
            // Gershgorin: every circle is left of the axis
            a[i][i] = -w * (n + random.nextDouble());
          }
          double[] b = row(random, n, w);
          double[] c = row(random, n, 1);
          double d = random.nextBoolean() ? 0 : random.nextDouble(-1, 1);
          Response h = StateSpace.response(a, b, c, d);
          for (double f : new double[] {0, 0.01 * w, 0.3 * w, 5 * w}) {
            Complex expected = solved(a, b, c, d, f);
            assertEquals(0, h.at(f).subtract(expected).abs(), 1e-12, "f " + f);
          }
          assertEquals(d, h.directGain(), 1e-14);
        });
  }

  @Test
  void aChainOfEqualPoles() {
    // four stages x_k' = w (x_{k-1} - x_k): Erlang, and no root of it comes out apart
    int n = 4;
    double w = 1e9;
    double[][] a = new double[n][n];
    for (int i = 0; i < n; i++) {
      a[i][i] = -w;
      if (i > 0) {
        a[i][i - 1] = w;
      }
    }
    double[] b = new double[n];
    double[] c = new double[n];
    b[0] = w;
    c[n - 1] = 1;
    Response h = StateSpace.response(a, b, c, 0);
    for (Complex p : h.poles()) {
      assertEquals(0, p.add(w).abs(), 1e-9 * w);
    }
    double x = 4;
    double term = 1;
    double sum = 0;
    for (int k = 0; k < n; k++) {
      sum += term;
      term *= x / (k + 1);
    }
    assertEquals(1 - Math.exp(-x) * sum, h.stepResponse(x / w), 1e-10);
  }

  @Test
  void aLadderOfSixSections() {
    // an RC line; DC gain 1, and delay at DC = sum over capacitors of the resistance ahead (Elmore)
    Network line = Network.empty();
    for (int i = 0; i < 6; i++) {
      line = line.resistor("n" + i, "n" + (i + 1), 100);
      line = line.capacitor("n" + (i + 1), Network.GROUND, 1e-12);
    }
    Response h = line.response("n0", "n6");
    assertEquals(6, h.poles().size());
    assertEquals(1, h.dcGain(), 1e-12);
    double elmore = 100 * 1e-12 * 6 * 7 / 2;
    assertEquals(elmore, h.groupDelaySeconds(0), 1e-12 * elmore);
  }
}
