package org.asmeasured.scenario;

import java.io.IOException;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.util.Arrays;
import java.util.Iterator;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;

/**
 * Columns of numbers in a CSV text (RFC 4180, with comment lines that start with {@code #} and
 * blank lines left out). Each refusal names the line.
 */
final class CsvColumns {
  /**
   * A column, by its name in the header, or by its number from 1 where the name is null.
   *
   * @param perUnit what the column's numbers are multiplied by
   * @param unit of the product
   * @param largest modulus of the product
   * @param ascending whether each value must be greater than the one before
   */
  record Column(
      String name, int number, double perUnit, String unit, double largest, boolean ascending) {
    String words() {
      return name == null ? "column " + number : "column \"" + name + "\"";
    }
  }

  private CsvColumns() {}

  /**
   * Reads columns.
   *
   * @param source what messages call the text
   * @param header whether the first row names the columns
   * @return one array for each column asked for, scaled, all of the same length, at least 2
   */
  static double[][] read(
      String source, String text, char delimiter, boolean header, List<Column> columns) {
    CSVFormat format =
        CSVFormat.RFC4180
            .builder()
            .setDelimiter(delimiter)
            .setCommentMarker('#')
            .setIgnoreEmptyLines(true)
            .setIgnoreSurroundingSpaces(true)
            .get();
    String body = text.startsWith("\ufeff") ? text.substring(1) : text;
    // The parser counts ends of lines: with one at the very end, its count is the number of the row
    // just read.
    String closed = body.endsWith("\n") ? body : body + "\n";
    try (CSVParser parser = CSVParser.parse(new StringReader(closed), format)) {
      return read(source, parser, header, columns);
    } catch (IOException e) {
      throw new ScenarioException(source + ": is not CSV: " + e.getMessage() + ".", e);
    }
  }

  private static double[][] read(
      String source, CSVParser parser, boolean header, List<Column> columns) {
    Iterator<CSVRecord> rows = parser.iterator();
    int[] positions = columns.stream().mapToInt(column -> column.number() - 1).toArray();
    if (header && advances(source, parser, rows)) {
      List<String> names = Arrays.asList(rows.next().values());
      for (int i = 0; i < positions.length; i++) {
        if (columns.get(i).name() != null) {
          positions[i] = position(source, parser.getCurrentLineNumber(), names, columns.get(i));
        }
      }
    }
    double[][] values = new double[columns.size()][1024];
    int count = 0;
    while (advances(source, parser, rows)) {
      CSVRecord row = rows.next();
      if (count == values[0].length) {
        for (int i = 0; i < values.length; i++) {
          values[i] = Arrays.copyOf(values[i], 2 * count);
        }
      }
      for (int i = 0; i < positions.length; i++) {
        long line = parser.getCurrentLineNumber();
        double value = number(source, line, row, positions[i], columns.get(i));
        if (columns.get(i).ascending() && count > 0 && !(value > values[i][count - 1])) {
          throw new ScenarioException(
              source
                  + ", line "
                  + line
                  + ": "
                  + columns.get(i).words()
                  + " = "
                  + value
                  + " "
                  + columns.get(i).unit()
                  + (value == values[i][count - 1]
                      ? " is there twice"
                      : " comes after " + values[i][count - 1] + " " + columns.get(i).unit())
                  + ": times must ascend.");
        }
        values[i][count] = value;
      }
      count++;
    }
    if (count < 2) {
      throw new ScenarioException(
          source
              + ": has "
              + (count == 0 ? "no rows" : "1 row")
              + " of values: must have at least 2.");
    }
    for (int i = 0; i < values.length; i++) {
      values[i] = Arrays.copyOf(values[i], count);
    }
    return values;
  }

  // The parser reports a row with a broken quotation when it looks for it.
  private static boolean advances(String source, CSVParser parser, Iterator<CSVRecord> rows) {
    try {
      return rows.hasNext();
    } catch (UncheckedIOException | IllegalStateException e) {
      throw new ScenarioException(
          source
              + ", line "
              + Math.max(1, parser.getCurrentLineNumber())
              + ": a quotation mark is out of place or never closed.",
          e);
    }
  }

  private static int position(String source, long line, List<String> names, Column column) {
    int first = names.indexOf(column.name());
    if (first < 0) {
      throw new ScenarioException(
          source
              + ", line "
              + line
              + ": has no "
              + column.words()
              + ": the header names "
              + String.join(", ", names)
              + ".");
    }
    if (names.lastIndexOf(column.name()) != first) {
      throw new ScenarioException(
          source
              + ", line "
              + line
              + ": "
              + column.words()
              + " is there twice: the column asked for must have a name of its own.");
    }
    return first;
  }

  private static double number(
      String source, long line, CSVRecord row, int position, Column column) {
    if (position >= row.size()) {
      throw new ScenarioException(
          source
              + ", line "
              + line
              + ": has "
              + row.size()
              + (row.size() == 1 ? " value" : " values")
              + ": "
              + column.words()
              + " is missing.");
    }
    String text = row.get(position);
    double value;
    try {
      value = text.matches("[-+0-9.eE]+") ? Double.parseDouble(text) : Double.NaN;
    } catch (NumberFormatException e) {
      value = Double.NaN;
    }
    if (!Double.isFinite(value)) {
      throw new ScenarioException(
          source
              + ", line "
              + line
              + ": "
              + column.words()
              + " = \""
              + text
              + "\": must be a finite number, with a point where it has decimals.");
    }
    double scaled = value * column.perUnit();
    if (!(Math.abs(scaled) <= column.largest())) {
      throw new ScenarioException(
          source
              + ", line "
              + line
              + ": "
              + column.words()
              + " = "
              + scaled
              + " "
              + column.unit()
              + ": must be from "
              + -column.largest()
              + " to "
              + column.largest()
              + " "
              + column.unit()
              + ".");
    }
    return scaled;
  }
}
