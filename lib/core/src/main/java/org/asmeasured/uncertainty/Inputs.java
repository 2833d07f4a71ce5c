package org.asmeasured.uncertainty;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.asmeasured.internal.Require;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.factory.DecompositionFactory_DDRM;
import org.ejml.interfaces.decomposition.EigenDecomposition_F64;

/**
 * The input quantities of a model, in the order in which the model takes them, and how they are
 * correlated: not at all, unless said.
 *
 * <p>Correlated trials are drawn as correlated normal values taken to the distribution of each
 * input. The correlation of the normal values is chosen so that the inputs have the one that was
 * stated (for t distributions of up to two degrees of freedom, which have none, the normal values
 * have it). Correlations of three and more that the inputs can have may be such that no normal
 * values have theirs: the law of propagation takes them, trials refuse them.
 */
public final class Inputs {
  private static final double ROUNDING = 1e-9;

  private final List<Input> list;
  private final double[][] correlation;

  /**
   * Lower triangle L, L L' = correlation of the normal values; null where nothing is correlated or
   * no normal values can be correlated so.
   */
  private final double[][] factor;

  /** The least eigenvalue of the correlations of the normal values. */
  private final double leastOfNormal;

  private Inputs(List<Input> list, double[][] correlation) {
    this.list = list;
    this.correlation = correlation;
    if (independent()) {
      leastOfNormal = 1;
      factor = null;
    } else {
      double[][] normal = ofNormalValues();
      leastOfNormal = leastEigenvalue(normal);
      factor = isPossible(leastOfNormal, normal.length) ? cholesky(normal) : null;
    }
  }

  /**
   * Inputs that are not correlated.
   *
   * @param inputs up to 1000, with different names; none for trials of a model that draws all by
   *     itself
   * @return the inputs
   * @throws IllegalArgumentException if there are too many, or a name comes twice
   * @throws NullPointerException if one is missing
   */
  public static Inputs of(Input... inputs) {
    return of(Arrays.asList(Require.present("inputs", inputs)));
  }

  /**
   * Inputs that are not correlated.
   *
   * @param inputs up to 1000, with different names; none for trials of a model that draws all by
   *     itself
   * @return the inputs
   * @throws IllegalArgumentException if there are too many, or a name comes twice
   * @throws NullPointerException if one is missing
   */
  public static Inputs of(List<Input> inputs) {
    Require.present("inputs", inputs);
    Require.inRange("number of inputs", inputs.size(), 0, SobolPoints.MAX_DIMENSIONS);
    Set<String> names = new HashSet<>();
    for (int i = 0; i < inputs.size(); i++) {
      String name = Require.present("inputs[" + i + "]", inputs.get(i)).name();
      Require.that(names.add(name), "inputs[" + i + "] = " + name + ": the name comes twice");
    }
    double[][] none = new double[inputs.size()][inputs.size()];
    for (int i = 0; i < none.length; i++) {
      none[i][i] = 1;
    }
    return new Inputs(List.copyOf(inputs), none);
  }

  /**
   * Inputs from simultaneous readings of all of them (JCGM 100, 5.2.3): means, standard deviations
   * of the means and correlations, each with n - 1 degrees of freedom.
   *
   * @param names one for each input
   * @param units one for each input
   * @param readings readings[i] those of input i, equally many of each, 2 or more
   * @return the inputs
   * @throws IllegalArgumentException if the lengths differ, or readings of one input are all alike
   * @throws NullPointerException if an argument is missing
   */
  public static Inputs ofSimultaneousReadings(
      List<String> names, List<String> units, double[]... readings) {
    Require.present("names", names);
    Require.present("units", units);
    Require.present("readings", readings);
    int n = readings.length;
    Require.that(
        names.size() == n && units.size() == n,
        "names = "
            + names.size()
            + ", units = "
            + units.size()
            + ", readings = "
            + n
            + ": must be equally many");
    List<Input> inputs = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      Require.present("readings[" + i + "]", readings[i]);
      Require.that(
          readings[i].length == readings[0].length,
          "readings[" + i + "] = " + readings[i].length + " values: must be as many as the first");
      inputs.add(Input.of(names.get(i), units.get(i), Distribution.ofReadings(readings[i])));
    }
    double[][] r = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        r[i][j] = i == j ? 1 : correlationOf(readings[i], readings[j]);
      }
    }
    return of(inputs).withCorrelations(r);
  }

  private static double correlationOf(double[] a, double[] b) {
    double meanA = Arrays.stream(a).sum() / a.length;
    double meanB = Arrays.stream(b).sum() / b.length;
    double ab = 0;
    double aa = 0;
    double bb = 0;
    for (int k = 0; k < a.length; k++) {
      ab += (a[k] - meanA) * (b[k] - meanB);
      aa += (a[k] - meanA) * (a[k] - meanA);
      bb += (b[k] - meanB) * (b[k] - meanB);
    }
    return Math.max(-1, Math.min(1, ab / Math.sqrt(aa * bb)));
  }

  /**
   * The same inputs, two of them correlated.
   *
   * @param first name of one
   * @param second name of another
   * @param coefficient r, -1 to 1
   * @return the changed inputs
   * @throws IllegalArgumentException if there is no such input, or with the correlations stated
   *     before no quantities can be correlated so
   */
  public Inputs correlated(String first, String second, double coefficient) {
    int i = index(first);
    int j = index(second);
    Require.that(i != j, "second = " + second + ": must be another input than the first");
    double[][] changed = copy(correlation);
    changed[i][j] = coefficient;
    changed[j][i] = coefficient;
    return withCorrelations(changed);
  }

  /**
   * The same inputs with all correlations stated.
   *
   * @param coefficients r, symmetric, 1 on the diagonal, of no negative eigenvalue
   * @return the changed inputs
   * @throws IllegalArgumentException if it is no correlation matrix, or the inputs' distributions
   *     do not allow it
   * @throws NullPointerException if it is missing
   */
  public Inputs withCorrelations(double[][] coefficients) {
    Require.present("coefficients", coefficients);
    int n = list.size();
    Require.that(
        coefficients.length == n, "coefficients = " + coefficients.length + " rows: must be " + n);
    for (int i = 0; i < n; i++) {
      int length = Require.present("coefficients[" + i + "]", coefficients[i]).length;
      Require.that(length == n, "coefficients[" + i + "] = " + length + " columns: must be " + n);
    }
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        String what = "correlation of " + list.get(i).name() + " and " + list.get(j).name();
        double r = Require.inRange(what, coefficients[i][j], "", -1, 1);
        Require.that(i != j || r == 1, what + " = " + r + ": must be 1 with itself");
        Require.that(
            r == coefficients[j][i],
            what + " = " + r + " one way and " + coefficients[j][i] + " the other: must be equal");
      }
    }
    requirePossible(coefficients, "the stated correlations");
    return new Inputs(list, copy(coefficients));
  }

  private static void requirePossible(double[][] r, String what) {
    requirePossible(leastEigenvalue(r), r.length, what);
  }

  private static void requirePossible(double least, int n, String what) {
    Require.that(
        isPossible(least, n),
        "least eigenvalue of "
            + what
            + " = "
            + least
            + ": must not be negative, no quantities can be correlated so");
  }

  private static boolean isPossible(double least, int n) {
    return least >= -ROUNDING * n;
  }

  private static double leastEigenvalue(double[][] r) {
    EigenDecomposition_F64<DMatrixRMaj> eigen =
        DecompositionFactory_DDRM.eig(r.length, false, true);
    Require.that(eigen.decompose(new DMatrixRMaj(r)), "correlations: no eigenvalues found");
    double least = 1;
    for (int i = 0; i < r.length; i++) {
      least = Math.min(least, eigen.getEigenvalue(i).getReal());
    }
    return least;
  }

  /** Whoever draws asks once, before the first trial. */
  void requireDrawable() {
    requirePossible(
        leastOfNormal,
        list.size(),
        "the correlations of the normal values behind the inputs in trials");
  }

  /**
   * How many inputs there are.
   *
   * @return 0 or more
   */
  public int size() {
    return list.size();
  }

  /**
   * One input.
   *
   * @param index 0 to size - 1
   * @return the input
   * @throws IndexOutOfBoundsException if there is none
   */
  public Input get(int index) {
    return list.get(index);
  }

  /**
   * All inputs in order.
   *
   * @return an unchangeable list
   */
  public List<Input> list() {
    return list;
  }

  /**
   * Where an input stands.
   *
   * @param name of the input
   * @return its index
   * @throws IllegalArgumentException if there is none of this name
   */
  public int index(String name) {
    for (int i = 0; i < list.size(); i++) {
      if (list.get(i).name().equals(name)) {
        return i;
      }
    }
    throw new IllegalArgumentException("name = " + name + ": must be that of an input");
  }

  /**
   * The correlation coefficient of two inputs.
   *
   * @param i index of one
   * @param j index of the other
   * @return r, -1 to 1
   * @throws IndexOutOfBoundsException if there is no such input
   */
  public double correlation(int i, int j) {
    return correlation[i][j];
  }

  /**
   * Whether no two inputs are correlated.
   *
   * @return true if so
   */
  public boolean independent() {
    for (int i = 0; i < correlation.length; i++) {
      for (int j = 0; j < i; j++) {
        if (correlation[i][j] != 0) {
          return false;
        }
      }
    }
    return true;
  }

  /**
   * The estimates of all inputs, in order.
   *
   * @return a new array
   */
  public double[] estimates() {
    return list.stream().mapToDouble(input -> input.distribution().estimate()).toArray();
  }

  /** Whether input i hangs together with another. */
  boolean isCorrelated(int i) {
    for (int j = 0; j < correlation.length; j++) {
      if (j != i && correlation[i][j] != 0) {
        return true;
      }
    }
    return false;
  }

  /**
   * Inputs from uniform values.
   *
   * @param uniform one of (0, 1) for each input
   * @param normal scratch of the same length
   * @param values receives the inputs
   */
  void draw(double[] uniform, double[] normal, double[] values) {
    int n = list.size();
    if (factor == null) {
      for (int i = 0; i < n; i++) {
        values[i] = list.get(i).distribution().quantile(uniform[i]);
      }
      return;
    }
    for (int i = 0; i < n; i++) {
      Distribution distribution = list.get(i).distribution();
      if (!isCorrelated(i)) {
        values[i] = distribution.quantile(uniform[i]);
        continue;
      }
      normal[i] = Normal.inverse(uniform[i]);
      double z = 0;
      for (int j = 0; j <= i; j++) {
        // an input that stands alone has no normal value
        z += factor[i][j] == 0 ? 0 : factor[i][j] * normal[j];
      }
      values[i] = distribution.atNormal(z);
    }
  }

  private double[][] ofNormalValues() {
    int n = list.size();
    double[][] normal = copy(correlation);
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < i; j++) {
        if (correlation[i][j] != 0) {
          normal[i][j] = NormalCorrelation.of(list.get(i), list.get(j), correlation[i][j]);
          normal[j][i] = normal[i][j];
        }
      }
    }
    return normal;
  }

  /** Of a matrix that may be singular; a pivot that is rounding alone ends its column. */
  private static double[][] cholesky(double[][] a) {
    int n = a.length;
    double[][] l = new double[n][n];
    for (int j = 0; j < n; j++) {
      double pivot = a[j][j];
      for (int k = 0; k < j; k++) {
        pivot -= l[j][k] * l[j][k];
      }
      if (pivot <= ROUNDING) {
        continue;
      }
      l[j][j] = Math.sqrt(pivot);
      for (int i = j + 1; i < n; i++) {
        double sum = a[i][j];
        for (int k = 0; k < j; k++) {
          sum -= l[i][k] * l[j][k];
        }
        l[i][j] = sum / l[j][j];
      }
    }
    return l;
  }

  private static double[][] copy(double[][] matrix) {
    return Arrays.stream(matrix).map(double[]::clone).toArray(double[][]::new);
  }
}
