package org.asmeasured.linear;

import java.math.BigDecimal;
import org.asmeasured.internal.Require;

/**
 * A linear system {@code x' = A x + B u, y = C x + D u} with one input and one output, as a
 * response.
 *
 * <p>Zeros and poles come from the exact determinants with some hundred digits. Modes that the
 * input does not reach or the output does not show are taken out.
 */
public final class StateSpace {
  private static final int MAX_STATES = 16;

  private StateSpace() {}

  /**
   * The response {@code C (s I - A)^-1 B + D}.
   *
   * @param a square matrix by rows, 1 to 16 states, 1/s
   * @param b input column, as long
   * @param c output row, as long
   * @param d direct gain
   * @return the response
   * @throws IllegalArgumentException if sizes do not fit, an entry is not finite, or a pole that
   *     can be seen is not stable
   */
  public static Response response(double[][] a, double[] b, double[] c, double d) {
    Require.present("a", a);
    Require.present("b", b);
    Require.present("c", c);
    int n = Require.inRange("a.length", a.length, 1, MAX_STATES);
    Require.that(
        b.length == n && c.length == n,
        "b and c have lengths "
            + b.length
            + " and "
            + c.length
            + ": must have one entry for each of "
            + n
            + " states");
    // unknowns x and y: (s I - A) x = B u, -C x + y = D u
    Pencil pencil = new Pencil(n + 1);
    BigDecimal[] input = new BigDecimal[n + 1];
    for (int i = 0; i < n; i++) {
      Require.that(
          Require.present("a[" + i + "]", a[i]).length == n,
          "a[" + i + "] has length " + a[i].length + ": must be " + n);
      for (int j = 0; j < n; j++) {
        pencil.addConstant(i, j, exact("a[" + i + "][" + j + "]", a[i][j]).negate());
      }
      pencil.addLinear(i, i, BigDecimal.ONE);
      input[i] = exact("b[" + i + "]", b[i]);
      pencil.addConstant(n, i, exact("c[" + i + "]", c[i]).negate());
    }
    pencil.addConstant(n, n, BigDecimal.ONE);
    input[n] = exact("d", d);
    return pencil.response(input, n);
  }

  private static BigDecimal exact(String name, double value) {
    return new BigDecimal(Require.inRange(name, value, "", -1e30, 1e30));
  }
}
