package org.asmeasured.acquisition;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.asmeasured.frontend.Refused;
import org.asmeasured.internal.Require;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What every reconstruction keeps, ours and anyone's. */
class ReconstructionContractTest {

  /** A reconstruction as a user would write it: cubics through four points (Lagrange). */
  private static final class Cubic implements Reconstruction {
    @Override
    public double between(double[] points, int n, double u) {
      Require.inRange("index", n, 1, Require.present("points", points).length - 2);
      Require.inRange("share", u, "", 0, n == points.length - 2 ? 0 : Math.nextDown(1.0));
      return u == 0
          ? points[n]
          : -points[n - 1] * u * (u - 1) * (u - 2) / 6
              + points[n] * (u + 1) * (u - 1) * (u - 2) / 2
              - points[n + 1] * (u + 1) * u * (u - 2) / 2
              + points[n + 2] * (u + 1) * u * (u - 1) / 6;
    }

    @Override
    public int margin() {
      return 1;
    }

    @Override
    public String toString() {
      return "cubics through four points";
    }
  }

  static Stream<Reconstruction> reconstructions() {
    return Stream.of(
        Reconstruction.none(),
        Reconstruction.linear(),
        Reconstruction.sinc(),
        new SincReconstruction(4),
        new SincReconstruction(7),
        new SincReconstruction(64),
        new Cubic());
  }

  private static double[] points(int size) {
    return new SplittableRandom(20250330).doubles(size, -1, 1).toArray();
  }

  private static double[] filled(Reconstruction r, double[] points, int factor) {
    double[] out = new double[r.size(points.length, factor)];
    r.fill(points, factor, out);
    return out;
  }

  @ParameterizedTest
  @MethodSource("reconstructions")
  void thePointsAreKeptBitForBit(Reconstruction r) {
    double[] points = points(200);
    points[100] = -0.0;
    for (int i = r.margin(); i < 200 - r.margin(); i++) {
      assertEquals(points[i], r.at(points, i));
    }
    for (int factor : new int[] {1, 2, 3, 10}) {
      double[] out = filled(r, points, factor);
      assertEquals((199 - 2 * r.margin()) * factor + 1, out.length);
      for (int i = 0; i < out.length; i += factor) {
        assertEquals(points[r.margin() + i / factor], out[i]);
      }
    }
    // a factor of one is the record, less its margins
    assertArrayEquals(
        Arrays.copyOfRange(points, r.margin(), 200 - r.margin()), filled(r, points, 1), 0);
  }

  @ParameterizedTest
  @MethodSource("reconstructions")
  void fillingIsValueByValue(Reconstruction r) {
    double[] points = points(180);
    for (int factor : new int[] {2, 5, 16}) {
      double[] out = filled(r, points, factor);
      for (int i = 0; i < out.length; i++) {
        double place = r.margin() + (double) i / factor;
        // a place of a hundred points and a fraction is rounded to 1e-14
        String where = "factor " + factor + ", value " + i;
        assertEquals(r.at(points, place), out[i], 1e-12, where);
        double share = (double) (i % factor) / factor;
        assertEquals(r.between(points, r.margin() + i / factor, share), out[i], 0, where);
      }
    }
  }

  @ParameterizedTest
  @MethodSource("reconstructions")
  void aConstantStaysAndValuesAddAndScale(Reconstruction r) {
    double[] constant = new double[150];
    Arrays.fill(constant, 0.7);
    for (double v : filled(r, constant, 7)) {
      assertEquals(0.7, v, 1e-14);
    }
    double[] a = points(150);
    double[] sum = new double[150];
    for (int i = 0; i < 150; i++) {
      sum[i] = 2 * a[i] - 3 * constant[i];
    }
    double[] of = filled(r, a, 4);
    double[] ofSum = filled(r, sum, 4);
    for (int i = 0; i < of.length; i++) {
      assertEquals(2 * of[i] - 2.1, ofSum[i], 1e-13);
    }
  }

  @ParameterizedTest
  @MethodSource("reconstructions")
  void movesWithThePoints(Reconstruction r) {
    double[] points = points(160);
    double[] later = Arrays.copyOfRange(points, 9, 160);
    double[] of = filled(r, points, 6);
    double[] ofLater = filled(r, later, 6);
    assertArrayEquals(Arrays.copyOfRange(of, 9 * 6, of.length), ofLater, 0);
  }

  @ParameterizedTest
  @MethodSource("reconstructions")
  void notANumberReachesNoFurtherThanTheKernel(Reconstruction r) {
    double[] points = points(300);
    double[] clean = filled(r, points, 3);
    points[150] = Double.NaN;
    double[] out = filled(r, points, 3);
    int reach = (r.margin() + 1) * 3;
    int at = (150 - r.margin()) * 3;
    assertTrue(Double.isNaN(out[at]));
    for (int i = 0; i < out.length; i++) {
      if (Math.abs(i - at) >= reach) {
        assertEquals(clean[i], out[i], "value " + i);
      }
    }
  }

  @ParameterizedTest
  @MethodSource("reconstructions")
  void threadsChangeNothing(Reconstruction r) {
    double[] points = points(200);
    double[] out = filled(r, points, 8);
    IntStream.range(0, 12).parallel().forEach(n -> assertArrayEquals(out, filled(r, points, 8), 0));
  }

  @ParameterizedTest
  @MethodSource("reconstructions")
  void nothingIsExtrapolated(Reconstruction r) {
    double[] points = points(200);
    double first = r.margin();
    double last = 199 - r.margin();
    assertEquals(points[(int) first], r.at(points, first));
    assertEquals(points[(int) last], r.at(points, last));
    Refused.values(
        "place", p -> r.at(points, p), Math.nextDown(first), Math.nextUp(last), first - 1, 200);
    int least = 1 + 2 * r.margin();
    assertEquals(1, filled(r, points(least), 5).length);
    Refused.wholes("points", n -> r.size(n, 2), 0, least - 1);
    Refused.message("points", "" + (least - 1), () -> r.fill(points(least - 1), 2, new double[9]));
  }

  @ParameterizedTest
  @MethodSource("reconstructions")
  void refusesBadValues(Reconstruction r) {
    Refused.wholes("factor", f -> r.size(1000, f), 0, 4097);
    Refused.message("points", "" + (1 << 28), () -> r.size(1 << 28, 2));
    double[] points = points(200);
    int last = 199 - r.margin();
    Refused.wholes("index", i -> r.between(points, i, 0), r.margin() - 1, last + 1);
    Refused.values("share", u -> r.between(points, 100, u), -1e-9, 1);
    Refused.values("share", u -> r.between(points, last, u), 1e-9, 0.5);
    Refused.missing("points", () -> r.between(null, 1, 0));
    Refused.missing("points", () -> r.at(null, 1));
    Refused.missing("points", () -> r.fill(null, 1, new double[3]));
    Refused.missing("out", () -> r.fill(points(200), 1, null));
    assertThrows(
        IndexOutOfBoundsException.class,
        () -> r.fill(points(200), 2, new double[r.size(200, 2) - 1]));
  }

  @ParameterizedTest
  @MethodSource("reconstructions")
  void saysItself(Reconstruction r) {
    assertFalse(r.toString().isBlank());
    assertFalse(r.toString().contains("@"));
  }
}
