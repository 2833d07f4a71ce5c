package org.asmeasured.examples;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Stream;
import org.asmeasured.accuracy.StageBias;
import org.asmeasured.measure.Measured;

/**
 * The two tables of a reading, by stage, in the numbers of a page: each column in one scale.
 *
 * @param inOrder each stage switched in after those before it
 * @param aloneIdeal each stage ideal, all others as they are; empty where it was not asked for
 * @param scatters whether any row has a random part
 */
record StageTables(List<Row> inOrder, List<Row> aloneIdeal, boolean scatters) {
  static final StageTables NONE = new StageTables(List.of(), List.of(), false);
  private static final int DIGITS = 4;
  private static final int MOST_DECIMALS = 9;
  private static final double ROUNDING = 1e-13;

  /**
   * A stage.
   *
   * @param reading with its unit, or why there is none
   * @param taken whether there is one
   * @param adds the change, or "not taken"
   * @param sure the standard error of that; empty where it does not scatter
   * @param randomPart of the reading
   * @param missing of how many captures the reading was not taken, and why; may be empty
   */
  record Row(
      String stage,
      String reading,
      boolean taken,
      String adds,
      String sure,
      String randomPart,
      List<String> missing) {}

  static StageTables of(String unit, List<StageBias> inOrder, List<StageBias> aloneIdeal) {
    List<StageBias> all = Stream.concat(inOrder.stream(), aloneIdeal.stream()).toList();
    Columns columns =
        new Columns(
            unit,
            largest(all, StageBias::reading),
            largest(all, StageBias::bias),
            all.stream().mapToDouble(StageTables::randomPart).max().orElse(0));
    return new StageTables(
        inOrder.stream().map(columns::row).toList(),
        aloneIdeal.stream().map(columns::row).toList(),
        columns.random > 0);
  }

  private static double largest(List<StageBias> rows, Function<StageBias, Measured> column) {
    return rows.stream().mapToDouble(row -> Math.abs(value(column.apply(row)))).max().orElse(0);
  }

  /** Of the reading of a row; 0 where it does not scatter, or nothing is known of it. */
  static double randomPart(StageBias row) {
    return scatter(value(row.scatter().randomPart()), value(row.reading()));
  }

  /** A standard deviation; what is only the rounding of the readings is none. */
  static double scatter(double deviation, double mean) {
    return deviation < ROUNDING * Math.abs(mean) ? 0 : deviation;
  }

  /** The value; of what could not be taken, 0. */
  static double value(Measured measured) {
    return measured instanceof Measured.Value taken ? taken.value() : 0;
  }

  /** The largest magnitude of each column. */
  private record Columns(String unit, double reading, double bias, double random) {

    Row row(StageBias row) {
      Scale readings = Scale.of(reading, unit);
      int decimals = readings.decimals(reading, DIGITS);
      if (bias > 0) {
        decimals = Math.max(decimals, Math.min(MOST_DECIMALS, readings.decimals(bias, 2)));
      }
      Scale changes = Scale.of(bias, unit);
      int places = changes.decimals(bias, DIGITS);
      double sure = scatter(value(row.scatter().standardError()), value(row.reading()));
      String text =
          row.reading() instanceof Measured.NotTaken missing
              ? "not taken: " + missing.reason()
              : readings.withUnit(readings.number(row.reading().orThrow(), decimals));
      return new Row(
          row.stage(),
          text,
          row.reading().isTaken(),
          row.bias() instanceof Measured.Value value
              ? changes.withUnit(changes.signed(value.value(), places))
              : "not taken",
          sure > 0 ? "± " + Scale.text(sure, unit) : "",
          row.scatter().randomPart().isTaken() ? random(randomPart(row)) : "–",
          row.reading().isTaken() ? missing(row) : List.of());
    }

    private String random(double part) {
      Scale scale = Scale.of(random, unit);
      return scale.withUnit(scale.number(part, scale.decimals(random, DIGITS)));
    }

    private static List<String> missing(StageBias row) {
      List<String> sentences = new ArrayList<>();
      for (Map.Entry<String, Integer> reason : row.scatter().notTaken().entrySet()) {
        sentences.add(reason.getValue() + " not taken: " + reason.getKey());
      }
      return sentences;
    }
  }
}
