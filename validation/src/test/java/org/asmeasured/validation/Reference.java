package org.asmeasured.validation;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Tables of reference values under resources/reference; each names its source in its head. */
final class Reference {
  private Reference() {}

  /** One row: cells by column name, as printed, because the digits given are the claim. */
  record Row(String table, int line, Map<String, String> cells) {
    String text(String column) {
      String cell = cells.get(column);
      if (cell == null) {
        throw new IllegalArgumentException(table + " has no column " + column);
      }
      return cell;
    }

    double number(String column) {
      return Double.parseDouble(text(column));
    }

    int whole(String column) {
      return Integer.parseInt(text(column));
    }

    /**
     * Holds a figure against the print: within one unit of its last digit ("the last digit may be
     * off by one"), or within what double arithmetic leaves of the quantity, whichever is more.
     *
     * @param column the printed figure
     * @param actual what the library says
     * @param arithmetic absolute error that rounding may cause, in the unit of the figure
     */
    void check(String column, double actual, double arithmetic) {
      BigDecimal printed = new BigDecimal(text(column));
      // figures such as 2.0 or 0.5 are exact: fifteen digits are meant
      int digits = printed.precision() < 6 ? 15 : printed.precision();
      double unit =
          printed.signum() == 0
              ? 0
              : Math.pow(10, Math.floor(Math.log10(Math.abs(printed.doubleValue()))) + 1 - digits);
      double allowed = Math.max(unit, arithmetic);
      double error = Math.abs(actual - printed.doubleValue());
      Worst.note(table + "." + column, error, allowed);
      assertTrue(
          error <= allowed,
          () ->
              table
                  + ", line "
                  + line
                  + ", "
                  + column
                  + ": printed "
                  + text(column)
                  + ", computed "
                  + actual
                  + ", off by "
                  + error
                  + ", allowed "
                  + allowed);
    }
  }

  static List<Row> rows(String table) {
    String path = "/reference/" + table + ".csv";
    try (InputStream stream = Reference.class.getResourceAsStream(path)) {
      if (stream == null) {
        throw new IllegalArgumentException(path + ": not found");
      }
      String[] lines = new String(stream.readAllBytes(), StandardCharsets.UTF_8).split("\n");
      List<Row> rows = new ArrayList<>();
      String[] columns = null;
      for (int i = 0; i < lines.length; i++) {
        if (lines[i].startsWith("#")) {
          continue;
        }
        String[] cells = lines[i].split(",", -1);
        if (columns == null) {
          columns = cells;
          continue;
        }
        if (cells.length != columns.length) {
          throw new IllegalArgumentException(
              path + ", line " + (i + 1) + ": " + cells.length + " cells");
        }
        Map<String, String> row = new LinkedHashMap<>();
        for (int c = 0; c < columns.length; c++) {
          row.put(columns[c], cells[c]);
        }
        rows.add(new Row(table, i + 1, row));
      }
      return rows;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
