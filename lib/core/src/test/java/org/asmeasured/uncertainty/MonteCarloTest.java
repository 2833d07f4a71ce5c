package org.asmeasured.uncertainty;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.CancellationException;
import java.util.concurrent.atomic.AtomicLong;
import org.asmeasured.internal.CounterRandom;
import org.asmeasured.measure.Measured;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;

class MonteCarloTest {
  private static final Input A = Input.of("a", "V", Distribution.normal(2, 0.1));
  private static final Input B = Input.of("b", "V", Distribution.rectangular(2, 4));
  private static final Inputs TWO = Inputs.of(A, B);
  private static final Model BENT = Model.of(x -> x[0] * x[0] + Math.exp(0.3 * x[1]) * x[0]);

  /** Every elementary interval of a block holds its share, in one dimension and in pairs. */
  @Test
  void sobolPointsAreSpreadEvenly() {
    int n = 256;
    SobolPoints points = SobolPoints.scrambled(SobolPoints.directions(40), 77);
    double[][] p = new double[n][40];
    for (int i = 0; i < n; i++) {
      points.point(i, p[i]);
    }
    for (int d = 0; d < 40; d++) {
      int[] count = new int[n];
      for (double[] point : p) {
        count[(int) (point[d] * n)]++;
      }
      assertTrue(Arrays.stream(count).allMatch(c -> c == 1), "dimension " + d);
    }
    // the first two dimensions are a (0, 8, 2)-net
    for (int k = 0; k <= 8; k++) {
      int[] count = new int[n];
      for (double[] point : p) {
        int x = (int) (point[0] * (1 << k));
        int y = (int) (point[1] * (1 << (8 - k)));
        count[(x << (8 - k)) + y]++;
      }
      assertTrue(Arrays.stream(count).allMatch(c -> c == 1), "columns " + (1 << k));
    }
  }

  /** Scrambled points are uniform: the mean over many scrambles of one point is 1/2. */
  @Test
  void scrambledPointsAreUniform() {
    long[][] directions = SobolPoints.directions(3);
    int n = 4000;
    double sum = 0;
    double squares = 0;
    double[] point = new double[3];
    for (int s = 0; s < n; s++) {
      SobolPoints.scrambled(directions, s).point(5, point);
      sum += point[2];
      squares += point[2] * point[2];
    }
    assertEquals(0.5, sum / n, 4.5 * Math.sqrt(1 / 12.0 / n));
    assertEquals(1 / 3.0, squares / n, 4.5 * Math.sqrt(4 / 45.0 / n));
  }

  /** Linear models: both methods give the same, to rounding, from 100 trials. */
  @Test
  void linearModelsAgree() {
    SplittableRandom random = new SplittableRandom(31);
    for (int i = 0; i < 60; i++) {
      long seed = random.nextLong();
      SplittableRandom r = new SplittableRandom(seed);
      double c0 = r.nextDouble(-3, 3);
      double c1 = r.nextDouble(-3, 3);
      Inputs inputs = r.nextBoolean() ? TWO : TWO.correlated("a", "b", r.nextDouble(-0.9, 0.9));
      Model model = Model.of(x -> 7 + c0 * x[0] + c1 * x[1]);
      Propagated law = LawOfPropagation.standard().of(inputs, model).orThrow();
      Simulated y = MonteCarlo.ofTrials(0.9, 100).withSeed(seed).of(inputs, model).orThrow();
      String what = "seed " + seed;
      assertEquals(law.estimate(), y.mean().orThrow(), 1e-12, what);
      assertEquals(law.standardUncertainty(), y.standardUncertainty().orThrow(), 1e-12, what);
      for (int k = 0; k < 2; k++) {
        assertEquals(
            law.budget().get(k).sensitivity(), y.budget().get(k).sensitivity(), 1e-10, what);
        assertEquals(law.budget().get(k).share(), y.budget().get(k).share(), 1e-10, what);
      }
      assertEquals(0, y.remainingShare(), 1e-12, what);
    }
  }

  /** Another unit and another zero of the output change nothing else. */
  @Test
  void scaleAndShift() {
    SplittableRandom random = new SplittableRandom(32);
    for (int i = 0; i < 20; i++) {
      double scale = Math.pow(10, random.nextInt(-9, 10)) * random.nextDouble(1, 9);
      double shift = scale * random.nextDouble(-100, 100);
      Model moved = Model.of(x -> scale * BENT.of(x).orThrow() + shift);
      for (MonteCarlo way :
          List.of(MonteCarlo.ofTrials(0.95, 2000), MonteCarlo.ofTrials(0.95, 2000).plain())) {
        Simulated y = way.withSeed(i).of(TWO, BENT).orThrow();
        Simulated z = way.withSeed(i).of(TWO, moved).orThrow();
        double u = y.standardUncertainty().orThrow();
        assertEquals(u, z.standardUncertainty().orThrow() / scale, 1e-10 * u);
        assertEquals(y.mean().orThrow(), (z.mean().orThrow() - shift) / scale, 1e-10 * u);
        assertEquals(y.symmetric().lower(), (z.symmetric().lower() - shift) / scale, 1e-10);
        assertEquals(y.shortest().length(), z.shortest().length() / scale, 1e-10);
      }
    }
  }

  @Test
  void sameFiguresOnAnyNumberOfThreads() {
    JointModel noisy = new Noisy();
    for (MonteCarlo way :
        List.of(
            MonteCarlo.forInterval(0.95, 1),
            MonteCarlo.forStandardUncertainty(2),
            MonteCarlo.ofTrials(0.95, 20_000).plain(),
            MonteCarlo.ofTrials(0.95, 999))) {
      var one = way.withSeed(9).ofEach(TWO, noisy);
      for (int threads : new int[] {2, 4, 7}) {
        var many = way.withSeed(9).withThreads(threads).ofEach(TWO, noisy);
        for (int k = 0; k < 2; k++) {
          Simulated y = one.get(k).orThrow();
          Simulated z = many.get(k).orThrow();
          assertEquals(y.trials(), z.trials());
          assertEquals(y.mean(), z.mean());
          assertEquals(y.standardUncertainty(), z.standardUncertainty());
          assertEquals(y.symmetric(), z.symmetric());
          assertEquals(y.shortest(), z.shortest());
          assertEquals(y.meanError(), z.meanError());
          assertEquals(y.budget(), z.budget());
          assertEquals(y.trialsNotTaken(), z.trialsNotTaken());
        }
      }
    }
  }

  /** Two outputs, of which one has noise of its own and is missing at times. */
  private static final class Noisy implements JointModel {
    @Override
    public int outputs() {
      return 2;
    }

    @Override
    public void evaluate(double[] x, long seed, Measured[] y) {
      y[0] = BENT.of(x);
      y[1] =
          x[1] > 3.9
              ? new Measured.NotTaken("b is too high")
              : new Measured.Value(x[0] + 0.3 * CounterRandom.gaussian(seed, 0));
    }
  }

  @Test
  void noiseOfTheModelAndMissingOutputs() {
    var results = MonteCarlo.ofTrials(0.95, 100_000).ofEach(TWO, new Noisy());
    assertEquals(0, results.get(0).orThrow().trialsNotTaken());
    assertEquals("", results.get(0).orThrow().reasonNotTaken());
    Simulated y = results.get(1).orThrow();
    assertEquals(5000, y.trialsNotTaken(), 100);
    assertEquals("b is too high", y.reasonNotTaken());
    assertEquals(List.of(), y.budget());
    assertEquals(100_000, y.trials());
    // 95 000 trials: 4.5 standard deviations
    double u = Math.sqrt(0.1);
    assertEquals(u, y.standardUncertainty().orThrow(), 4.5 * u / Math.sqrt(2 * 95_000));
    assertEquals(2, y.mean().orThrow(), 4.5 * u / Math.sqrt(95_000));
    Model never = x -> new Measured.NotTaken("no event");
    String words = MonteCarlo.ofTrials(0.95, 1000).of(TWO, never).toString();
    assertEquals("not taken: only 0 of 1000 trials have an output: no event", words);
  }

  /** The budget's remainder is what the model draws itself. */
  @Test
  void remainderIsTheNoise() {
    JointModel noisy =
        new JointModel() {
          @Override
          public int outputs() {
            return 1;
          }

          @Override
          public void evaluate(double[] x, long seed, Measured[] y) {
            y[0] = new Measured.Value(x[0] + 0.1 * CounterRandom.gaussian(seed, 3));
          }
        };
    Simulated y = MonteCarlo.ofTrials(0.95, 1 << 16).ofEach(TWO, noisy).get(0).orThrow();
    assertEquals(0.5, y.remainingShare(), 0.01);
    assertEquals(0.5, y.budget().get(0).share(), 0.01);
  }

  /** Stated correlations are those of the drawn inputs, whatever their distributions. */
  @Test
  void correlationsAreAsStated() {
    List<Distribution> shapes =
        List.of(
            Distribution.normal(1, 2),
            Distribution.rectangular(-1, 1),
            Distribution.arcsine(0, 2),
            Distribution.studentT(0, 1, 9),
            Distribution.own("exponential", p -> -Math.log1p(-p)));
    for (Distribution first : shapes) {
      for (Distribution second : shapes) {
        for (double r : new double[] {-0.5, 0.2, 0.8}) {
          Inputs inputs =
              Inputs.of(Input.of("a", "", first), Input.of("b", "", second))
                  .correlated("a", "b", r);
          Model product =
              Model.of(
                  x ->
                      (x[0] - first.estimate())
                          * (x[1] - second.estimate())
                          / (first.standardDeviation() * second.standardDeviation()));
          Simulated y =
              MonteCarlo.ofTrials(0.95, 1 << 16).withBlock(1 << 13).of(inputs, product).orThrow();
          assertEquals(
              r,
              y.mean().orThrow(),
              6 * y.meanError().orThrow() + 1e-4,
              first.name() + " and " + second.name());
        }
      }
    }
  }

  @Test
  void fullyCorrelatedInputs() {
    Inputs same = Inputs.of(A, Input.of("c", "V", Distribution.normal(5, 0.2)));
    Model difference = Model.of(x -> 2 * x[0] - x[1]);
    assertEquals(0, u(same.correlated("a", "c", 1), difference), 1e-9);
    assertEquals(0.4, u(same.correlated("a", "c", -1), difference), 1e-9);
  }

  private static double u(Inputs inputs, Model model) {
    return MonteCarlo.ofTrials(0.95, 1000)
        .of(inputs, model)
        .orThrow()
        .standardUncertainty()
        .orThrow();
  }

  /** JCGM 101, 6.4.9: three readings give intervals only, and the result says so. */
  @Test
  void fewReadings() {
    Inputs inputs = Inputs.of(Input.of("x", "V", Distribution.ofReadings(4, 5, 6)));
    Model model = Model.of(x -> x[0]);
    Simulated y = MonteCarlo.forInterval(0.95, 1).of(inputs, model).orThrow();
    assertTrue(y.isStable());
    assertTrue(y.standardUncertainty().toString().contains("does not exist"));
    assertFalse(y.mean().isTaken());
    // t of two degrees of freedom: 4.3027 s/sqrt(3)
    assertEquals(5 + 4.302652729911 / Math.sqrt(3), y.symmetric().upper(), 0.03);
    refused(
        "standard deviation of x", () -> MonteCarlo.forStandardUncertainty(2).of(inputs, model));
  }

  @Test
  void adaptiveToTheStatedDigits() {
    Simulated y = MonteCarlo.forStandardUncertainty(2).withSeed(4).of(TWO, BENT).orThrow();
    double u = y.standardUncertainty().orThrow();
    double delta = 0.5 * Agreement.numericalUnit(u, 2);
    assertTrue(y.isStable());
    assertTrue(2 * y.standardUncertaintyError().orThrow() <= delta);
    assertTrue(2 * y.meanError().orThrow() <= delta);
    Simulated cut = MonteCarlo.forInterval(0.95, 4).withTrials(70_000).of(TWO, BENT).orThrow();
    assertFalse(cut.isStable());
    assertEquals(4 << 14, cut.trials());
    assertEquals(1e-3, Agreement.numericalUnit(0.0123, 2), 1e-18);
    assertEquals(1, Agreement.numericalUnit(35, 2));
  }

  @Test
  void distributionOfTrials() {
    Simulated y = MonteCarlo.ofTrials(0.95, 10_000).of(TWO, BENT).orThrow();
    Distribution d = y.distribution();
    assertEquals(0.3, d.cumulative(d.quantile(0.3)), 1e-3);
    assertEquals(y.quantile(0.5), d.quantile(0.5));
    assertEquals(0, y.cumulative(-1e9));
    assertEquals(1, y.cumulative(1e9));
    assertTrue(y.shortest().length() <= y.symmetric().length());
    assertEquals(0.975, Decision.conformance(Tolerance.atMost(y.symmetric().upper()), d), 1e-3);
  }

  @Test
  void progressAndCancelling() {
    AtomicLong last = new AtomicLong();
    MonteCarlo run = MonteCarlo.ofTrials(0.95, 100_000);
    run.withProgress(
            (done, most) -> {
              assertEquals(100_000, most);
              assertTrue(done > last.getAndSet(done));
              return true;
            })
        .of(TWO, BENT);
    assertEquals(100_000, last.get());
    for (int threads : new int[] {1, 3}) {
      AtomicLong evaluated = new AtomicLong();
      Model counted =
          x -> {
            evaluated.incrementAndGet();
            return BENT.of(x);
          };
      MonteCarlo stopped = run.withThreads(threads).withProgress((done, most) -> false);
      assertThrows(CancellationException.class, () -> stopped.of(TWO, counted));
      assertTrue(evaluated.get() < 50_000);
      Thread.currentThread().interrupt();
      assertThrows(CancellationException.class, () -> run.withThreads(threads).of(TWO, counted));
      assertTrue(Thread.interrupted());
    }
  }

  private static void refused(String words, Executable call) {
    String message = assertThrows(IllegalArgumentException.class, call).getMessage();
    assertTrue(message.contains(words), message);
  }

  /**
   * Rectangular values correlated by -1/2 each to each are possible, the normal values behind them
   * are not: these would need 2 sin(pi r/6) = -0.518, and three can have -1/2 at most.
   */
  @Test
  void correlationsThatOnlyTheLawCanTakeAreRefused() {
    Distribution d = Distribution.rectangular(-1, 1);
    Inputs three =
        Inputs.of(Input.of("a", "", d), Input.of("b", "", d), Input.of("c", "", d))
            .withCorrelations(new double[][] {{1, -.5, -.5}, {-.5, 1, -.5}, {-.5, -.5, 1}});
    Model sum = Model.of(x -> x[0] + x[1] + x[2]);
    LawOfPropagation law = LawOfPropagation.standard();
    assertEquals(0, law.of(three, sum).orThrow().standardUncertainty(), 1e-7);
    refused("least eigenvalue", () -> MonteCarlo.ofTrials(0.95, 1000).of(three, sum));
    refused("least eigenvalue", () -> CommonDraws.of(three, 1));
  }

  /** A distribution that the model cannot bear is refused before the first trial, and named. */
  @Test
  void invalidDraws() {
    Inputs wide = Inputs.of(Input.of("bandwidth", "Hz", Distribution.normal(1e6, 0.3e6)));
    AtomicLong evaluated = new AtomicLong();
    Model model =
        x -> {
          evaluated.incrementAndGet();
          if (x[0] <= 0) {
            throw new IllegalArgumentException("bandwidthHz = " + x[0] + " Hz: must be above 0 Hz");
          }
          return new Measured.Value(0.35 / x[0]);
        };
    refused(
        "(normal, mean 1000000.0, standard deviation 300000.0)",
        () -> MonteCarlo.ofTrials(0.95, 1000).of(wide, model));
    assertEquals(2, evaluated.get(), "at the estimate and at one end");
    // beyond what is tried ahead: refused in the run, on any number of threads
    Model rare =
        x -> {
          if (Math.abs(x[0] - 1e6) > 0.9e6
              && x[0] != wide.get(0).distribution().quantile(1e-6)
              && x[0] != wide.get(0).distribution().quantile(1 - 1e-6)) {
            throw new IllegalArgumentException("off");
          }
          return new Measured.Value(x[0]);
        };
    for (int threads : new int[] {1, 2}) {
      refused(
          "bandwidth = ",
          () -> MonteCarlo.ofTrials(0.95, 50_000).withThreads(threads).of(wide, rare));
    }
  }

  @Test
  void badInput() {
    refused("digits = 0", () -> MonteCarlo.forStandardUncertainty(0));
    refused("digits = 5", () -> MonteCarlo.forInterval(0.95, 5));
    refused("probability = 1.0", () -> MonteCarlo.forInterval(1, 2));
    refused("trials = 99", () -> MonteCarlo.ofTrials(0.95, 99));
    refused("threads = 0", () -> MonteCarlo.ofTrials(0.95, 100).withThreads(0));
    refused("trialsPerBlock = 1", () -> MonteCarlo.ofTrials(0.95, 100).withBlock(1));
    refused("trials of a block = 100", () -> MonteCarlo.ofTrials(0.95, 100).of(TWO, BENT));
    refused(
        "share = NaN",
        () -> MonteCarlo.ofTrials(0.9, 100).of(TWO, BENT).orThrow().quantile(0 / 0.0));
    assertThrows(
        NullPointerException.class, () -> MonteCarlo.ofTrials(0.9, 100).withProgress(null));
    assertThrows(NullPointerException.class, () -> MonteCarlo.ofTrials(0.9, 100).of(TWO, null));
    assertThrows(NullPointerException.class, () -> MonteCarlo.ofTrials(0.9, 100).of(null, BENT));
    assertThrows(
        NullPointerException.class, () -> MonteCarlo.ofTrials(0.9, 100).of(TWO, x -> null));
  }
}
