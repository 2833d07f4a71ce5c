package org.asmeasured.uncertainty;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.asmeasured.measure.Measured;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;

class LawOfPropagationTest {
  private static final LawOfPropagation LAW = LawOfPropagation.standard();
  private static final Input A = Input.of("a", "V", Distribution.normal(2, 0.1));
  private static final Input B = Input.of("b", "V", Distribution.normal(3, 0.2));

  @Test
  void sumOfIndependentInputs() {
    Propagated y = LAW.of(Inputs.of(A, B), Model.of(x -> 3 * x[0] - x[1])).orThrow();
    assertEquals(3, y.estimate(), 1e-15);
    assertEquals(Math.hypot(0.3, 0.2), y.standardUncertainty(), 1e-14);
    assertEquals(3, y.budget().get(0).sensitivity(), 1e-13);
    assertEquals(0.09 / 0.13, y.budget().get(0).share(), 1e-13);
    assertEquals(Double.POSITIVE_INFINITY, y.effectiveDegreesOfFreedom());
    assertEquals(1.959963984540054, y.coverageFactor(0.95), 1e-12);
    assertEquals(y.expandedUncertainty(0.95) * 2, y.interval(0.95).length(), 1e-14);
    assertEquals(List.of(), y.insensitiveTo());
    assertFalse(y.secondOrderStandardUncertainty().isTaken());
  }

  /** JCGM 100, 5.2.2, note 1: with r = 1 the uncertainties add. */
  @Test
  void correlation() {
    Model sum = Model.of(x -> x[0] + x[1]);
    Inputs inputs = Inputs.of(A, B);
    assertEquals(0.3, u(inputs.correlated("a", "b", 1), sum), 1e-14);
    assertEquals(0.1, u(inputs.correlated("b", "a", -1), sum), 1e-14);
    assertEquals(Math.sqrt(0.05 + 0.02), u(inputs.correlated("a", "b", 0.5), sum), 1e-14);
  }

  private static double u(Inputs inputs, Model model) {
    return LAW.of(inputs, model).orThrow().standardUncertainty();
  }

  /** x^2 about 0: sensitivity zero; the second order gives sqrt(2) u^2, which is exact. */
  @Test
  void zeroSensitivityIsReported() {
    Inputs inputs = Inputs.of(Input.of("x", "", Distribution.normal(0, 0.1)), B);
    Propagated y = LAW.of(inputs, Model.of(x -> x[0] * x[0])).orThrow();
    assertEquals(0, y.standardUncertainty());
    assertEquals(List.of("x", "b"), y.insensitiveTo());
    assertEquals(Math.sqrt(2) * 0.01, y.secondOrderStandardUncertainty().orThrow(), 1e-15);
    assertEquals(0, y.budget().get(0).share());
  }

  /** Third derivatives: x^3 about 1, u^2 (9 + (36/2 + 3 x 6) u^2). */
  @Test
  void secondOrderOfACube() {
    Inputs inputs = Inputs.of(Input.of("x", "", Distribution.normal(1, 0.01)));
    Propagated y =
        LAW.withStep(0.1).withSecondOrder().of(inputs, Model.of(x -> x[0] * x[0] * x[0])).orThrow();
    assertEquals(0.01 * Math.sqrt(9 + 36e-4), y.secondOrderStandardUncertainty().orThrow(), 1e-7);
  }

  @Test
  void severalOutputs() {
    JointModel both =
        new JointModel() {
          @Override
          public int outputs() {
            return 3;
          }

          @Override
          public void evaluate(double[] x, long seed, Measured[] y) {
            y[0] = new Measured.Value(x[0] + x[1]);
            y[1] = new Measured.Value(x[0] - x[1]);
            y[2] = x[1] > 3 ? new Measured.NotTaken("too high") : new Measured.Value(x[1]);
          }
        };
    var results = LAW.ofEach(Inputs.of(A, B), both);
    Propagated sum = results.get(0).orThrow();
    Propagated difference = results.get(1).orThrow();
    assertEquals(0.01 - 0.04, sum.covariance(difference), 1e-14);
    assertEquals(-0.6, sum.correlation(difference), 1e-12);
    assertEquals("not taken: too high, with b off its estimate", results.get(2).toString());
  }

  private static void refused(String words, Executable call) {
    String message = assertThrows(IllegalArgumentException.class, call).getMessage();
    assertTrue(message.contains(words), message);
  }

  @Test
  void badInput() {
    Inputs inputs = Inputs.of(A, B);
    refused("step = 0.0", () -> LAW.withStep(0));
    refused("step = NaN", () -> LAW.withStep(Double.NaN));
    refused("name = c", () -> inputs.correlated("a", "c", 0.1));
    refused("must be another input", () -> inputs.correlated("a", "a", 0.1));
    refused("correlation of a and b = 1.5", () -> inputs.correlated("a", "b", 1.5));
    refused("comes twice", () -> Inputs.of(A, A));
    refused("degreesOfFreedom of a = 0.0", () -> A.withDegreesOfFreedom(0));
    refused("must not be blank", () -> Input.of("", "", Distribution.normal(0, 1)));
    Inputs three = Inputs.of(A, B, Input.of("c", "", Distribution.normal(0, 1)));
    refused(
        "least eigenvalue",
        () -> three.withCorrelations(new double[][] {{1, -.9, -.9}, {-.9, 1, -.9}, {-.9, -.9, 1}}));
    refused("one way", () -> inputs.withCorrelations(new double[][] {{1, .1}, {.2, 1}}));
    refused(
        "must be 1 with itself", () -> inputs.withCorrelations(new double[][] {{.5, 0}, {0, 1}}));
    refused("1 rows", () -> inputs.withCorrelations(new double[1][2]));
    refused("columns", () -> inputs.withCorrelations(new double[2][1]));
    refused(
        "a = 2.0 V (normal, mean 2.0, standard deviation 0.1)",
        () ->
            LAW.of(
                inputs,
                x -> {
                  throw new IllegalArgumentException("no");
                }));
    Propagated y = LAW.of(inputs, Model.of(x -> x[0])).orThrow();
    refused("probability = 1.0", () -> y.coverageFactor(1));
    Propagated other = LAW.of(Inputs.of(A, B), Model.of(x -> x[0])).orThrow();
    refused("same inputs", () -> y.covariance(other));
    refused(
        "rounding of its estimate",
        () ->
            LAW.of(
                Inputs.of(Input.of("far", "", Distribution.normal(1e20, 1))), Model.of(x -> x[0])));
    assertThrows(NullPointerException.class, () -> LAW.of(null, Model.of(x -> x[0])));
    assertThrows(NullPointerException.class, () -> LAW.of(inputs, null));
    assertEquals(
        "not taken: the formula gives NaN, with all inputs at their estimates",
        LAW.of(inputs, Model.of(x -> 0 / 0.0)).toString());
  }
}
