package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.DynamicContainer.dynamicContainer;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;
import org.asmeasured.linear.Output;
import org.asmeasured.linear.OutputSampler;
import org.asmeasured.signal.SampleClock;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.DynamicNode;
import org.junit.jupiter.api.TestFactory;

/**
 * The noiseless chain against vectors made elsewhere: 1e-9 of full scale, everywhere.
 *
 * <p>Sources, in this order: a high-precision oracle (mpmath, validation/scripts/make_vectors.py),
 * whose formulas are the textbook partial fractions and superposition; SciPy and ngspice,
 * independent programs, each to its own tolerance. The heads of the files say more.
 */
class ChainVectorsTest {
  private static final List<String> FILES =
      List.of(
          "builders",
          "orders",
          "stiff",
          "edges",
          "idle",
          "repeated-poles",
          "slow-filters",
          "drawn",
          "crowded",
          "resonance",
          "undersampled",
          "far",
          "ac-coupling",
          "recorded",
          "jumps",
          "starts",
          "algebra",
          "scipy",
          "ngspice");

  private static final Map<String, List<Result>> RESULTS = new LinkedHashMap<>();

  private record Result(String name, int values, double worst) {}

  @TestFactory
  Stream<DynamicNode> chain() {
    return FILES.stream()
        .map(
            file ->
                dynamicContainer(
                    file,
                    Vectors.read(file + ".csv").stream()
                        .map(c -> dynamicTest(c.name(), () -> check(file, c)))));
  }

  private static void check(String file, Vectors.Case c) {
    Output output =
        ResponseExpressions.response(c.response()).of(SignalExpressions.signal(c.signal()));
    OutputSampler sampler = output.sampler(c.clock());
    double worst = 0;
    String where = "";
    int n = c.rows().size();
    for (int i = 0; i < n; i++) {
      Vectors.Row row = c.rows().get(i);
      if (row.kind() != Vectors.Kind.SAMPLE) {
        double got =
            row.kind() == Vectors.Kind.VALUE
                ? output.valueAt(row.instant())
                : output.valueBefore(row.instant());
        double error = Math.abs(got - row.volts()) / c.fullScale();
        if (!(error <= worst)) {
          worst = error;
          where = line(row.kind() + " " + row.instant() + " s", row.volts(), got);
        }
        continue;
      }
      int end = i + 1;
      while (end < n
          && c.rows().get(end).kind() == Vectors.Kind.SAMPLE
          && c.rows().get(end).index() == row.index() + (end - i)) {
        end++;
      }
      double[] run = run(output, sampler, c.clock(), row.index(), end - i);
      for (int j = i; j < end; j++) {
        double got = run[j - i];
        double error = Math.abs(got - c.rows().get(j).volts()) / c.fullScale();
        if (!(error <= worst)) {
          worst = error;
          where = line("sample " + c.rows().get(j).index(), c.rows().get(j).volts(), got);
        }
      }
      i = end - 1;
    }
    synchronized (RESULTS) {
      RESULTS.computeIfAbsent(file, f -> new ArrayList<>()).add(new Result(c.name(), n, worst));
    }
    double error = worst;
    String at = where;
    assertTrue(
        worst <= c.tolerance(),
        () ->
            "worst error "
                + error
                + " of full scale ("
                + c.fullScale()
                + " V) at "
                + at
                + "\n  signal   "
                + c.signal()
                + "\n  response "
                + c.response()
                + "\n  clock    "
                + c.clock());
  }

  /** A run of samples by both ways of asking for them, which must agree to the last bit. */
  private static double[] run(
      Output output, OutputSampler sampler, SampleClock clock, long first, int count) {
    double[] run = new double[count];
    output.sample(clock, first, run, 0, count);
    double[] again = new double[count];
    sampler.read(first, again, 0, count);
    for (int i = 0; i < count; i++) {
      int at = i;
      assertTrue(
          Double.doubleToRawLongBits(run[i]) == Double.doubleToRawLongBits(again[i]),
          () -> "sample " + (first + at) + ": sample() gives " + run[at] + ", read() " + again[at]);
    }
    return run;
  }

  private static String line(String where, double expected, double got) {
    return where + ": expected " + expected + " V, got " + got + " V";
  }

  @AfterAll
  static void table() {
    StringBuilder body = new StringBuilder();
    body.append("| group | cases | values | worst error, of full scale | in case |\n");
    body.append("| --- | ---: | ---: | ---: | --- |\n");
    StringBuilder all = new StringBuilder();
    int cases = 0;
    int values = 0;
    for (Map.Entry<String, List<Result>> e : RESULTS.entrySet()) {
      Result worst = null;
      int count = 0;
      all.append("\n## ")
          .append(e.getKey())
          .append("\n\n| case | values | worst error |\n| --- | ---: | ---: |\n");
      for (Result r : e.getValue()) {
        worst = worst == null || r.worst > worst.worst ? r : worst;
        count += r.values;
        all.append(
            String.format(
                Locale.ROOT, "| %s | %d | %s |%n", r.name, r.values, Evidence.error(r.worst)));
      }
      cases += e.getValue().size();
      values += count;
      body.append(
          String.format(
              Locale.ROOT,
              "| %s | %d | %d | %s | %s |%n",
              e.getKey(),
              e.getValue().size(),
              count,
              Evidence.error(worst.worst),
              worst.name));
    }
    body.append(String.format(Locale.ROOT, "| all | %d | %d | | |%n", cases, values));
    System.out.println(body);
    if (Evidence.wanted()) {
      Evidence.write(
          "chain-vectors.md",
          "The noiseless chain against high-precision vectors",
          "Tolerance 1e-9 of full scale. Vectors and what made them: src/test/resources/vectors.\n\n"
              + body
              + all);
    }
  }
}
