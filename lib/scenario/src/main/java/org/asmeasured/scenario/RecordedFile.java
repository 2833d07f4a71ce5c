package org.asmeasured.scenario;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.List;
import org.asmeasured.capture.Record;
import org.asmeasured.internal.Require;
import org.asmeasured.scenario.CsvColumns.Column;
import org.asmeasured.scenario.Json.Type;
import org.asmeasured.signal.Signal;
import org.asmeasured.signal.Signals;

/** A recorded waveform from a CSV file beside the scenario. */
final class RecordedFile {
  /** Its keys, as {@link Kinds#add} takes them. */
  static final String KEYS =
      "file valueColumn voltsPerUnit timeColumn? secondsPerUnit? rateHz? startSeconds? header? delimiter?";

  /** By how much of an interval a time of a record may be off. */
  private static final double UNEVEN = 0.01;

  private RecordedFile() {}

  static Signal read(Fields fields, Path folder) {
    Table table = table(fields, folder);
    return table.seconds() != null
        ? Signals.recorded(table.seconds(), table.volts())
        : Signals.recorded(table.startSeconds(), table.rateHz(), table.volts());
  }

  /** The rows as points of a record, whose times must then be even. */
  static Record record(Fields fields, Path folder) {
    Table table = table(fields, folder);
    double[] seconds = table.seconds();
    if (seconds == null) {
      return Record.of(table.startSeconds(), table.rateHz(), table.volts());
    }
    int last = seconds.length - 1;
    double rate = last / (seconds[last] - seconds[0]);
    for (int i = 0; i <= last; i++) {
      double off = (seconds[i] - seconds[0]) * rate - i;
      if (Math.abs(off) > UNEVEN) {
        throw fields
            .child("timeColumn")
            .refused(
                "row "
                    + (i + 1)
                    + " is "
                    + off
                    + " intervals off: the times of a record must be even to "
                    + UNEVEN
                    + " of an interval");
      }
    }
    return Record.of(seconds[0], rate, table.volts());
  }

  /** Values with their times, or else with a start and a rate. */
  private record Table(double[] seconds, double startSeconds, double rateHz, double[] volts) {}

  private static Table table(Fields fields, Path folder) {
    String shown = fields.text("file");
    Column volts = column(fields, "valueColumn", "voltsPerUnit", "V", 1e9);
    if (fields.has("timeColumn")) {
      refuse(fields, "rateHz", "is given beside timeColumn: must be one or the other");
      refuse(
          fields,
          "startSeconds",
          "is given beside timeColumn, whose times say it: must be left out");
      if (!fields.has("secondsPerUnit")) {
        throw fields
            .node()
            .refused("key \"secondsPerUnit\", in s, is missing: timeColumn must have it beside it");
      }
      Column seconds = column(fields, "timeColumn", "secondsPerUnit", "s", 1e12);
      Require.above("secondsPerUnit", seconds.perUnit(), "s", 0, 1e9);
      double[][] rows = rows(fields, shown, folder, List.of(seconds, volts));
      return new Table(rows[0], 0, 0, rows[1]);
    }
    refuse(fields, "secondsPerUnit", "is given without timeColumn: must be beside it");
    if (!fields.has("rateHz")) {
      throw fields
          .node()
          .refused(
              "keys \"timeColumn\" and \"rateHz\" are missing: recordedFile must have one of them");
    }
    double rateHz = Require.hertz("rateHz", fields.number("rateHz"));
    double startSeconds = Require.instant("startSeconds", fields.numberOr("startSeconds", 0));
    return new Table(null, startSeconds, rateHz, rows(fields, shown, folder, List.of(volts))[0]);
  }

  private static double[][] rows(Fields fields, String shown, Path folder, List<Column> columns) {
    char delimiter = delimiter(fields);
    boolean header = header(fields, columns);
    return CsvColumns.read(
        shown, TextFile.read(locate(fields, folder), shown), delimiter, header, columns);
  }

  private static void refuse(Fields fields, String key, String rule) {
    if (fields.has(key)) {
      throw fields.child(key).refused(key + " " + rule);
    }
  }

  private static Column column(
      Fields fields, String key, String factorKey, String unit, double largest) {
    double factor = fields.number(factorKey);
    if (factor == 0 || Math.abs(factor) > 1e9) {
      throw fields
          .child(factorKey)
          .refused(
              factorKey
                  + " = "
                  + factor
                  + " "
                  + unit
                  + ": must be from -1.0E9 to 1.0E9 "
                  + unit
                  + " and not 0");
    }
    boolean ascending = unit.equals("s");
    if (fields.child(key).type == Type.STRING) {
      return new Column(fields.text(key), 0, factor, unit, largest, ascending);
    }
    if (fields.child(key).type != Type.NUMBER) {
      throw fields
          .child(key)
          .refused(
              key
                  + " = "
                  + fields.child(key).shown()
                  + ": must be the name of a column, or its number from 1");
    }
    int number = Require.inRange(key, fields.whole(key), 1, 16_384);
    return new Column(null, number, factor, unit, largest, ascending);
  }

  private static boolean header(Fields fields, List<Column> columns) {
    boolean named = columns.stream().anyMatch(column -> column.name() != null);
    boolean header = fields.flagOr("header", named);
    if (named && !header) {
      throw fields
          .child("header")
          .refused("header = false: must be true where a column is told by its name");
    }
    return header;
  }

  private static char delimiter(Fields fields) {
    if (!fields.has("delimiter")) {
      return ',';
    }
    String said = fields.child("delimiter").text;
    if (!List.of(",", ";", "\t").contains(said)) {
      throw fields
          .child("delimiter")
          .refused(
              "delimiter = "
                  + fields.child("delimiter").shown()
                  + ": must be \",\", \";\" or \"\\t\"");
    }
    return said.charAt(0);
  }

  // A scenario may come from a stranger: it reaches files beside it and below, no others.
  private static Path locate(Fields fields, Path folder) {
    String said = fields.text("file");
    String rule =
        "file = \"" + said + "\": must be a path beside the scenario or below it, without \"..\"";
    try {
      Path relative = Path.of(said);
      if (relative.isAbsolute() || said.contains("\\") || said.startsWith("/")) {
        throw fields.child("file").refused(rule);
      }
      for (Path step : relative) {
        if (step.toString().equals("..")) {
          throw fields.child("file").refused(rule);
        }
      }
      Path file = folder.resolve(relative);
      if (!Files.exists(file)) {
        throw fields
            .child("file")
            .refused("file = \"" + said + "\": there is no such file in " + folder);
      }
      if (!file.toRealPath().startsWith(folder.toRealPath())) {
        throw fields.child("file").refused(rule);
      }
      return file;
    } catch (InvalidPathException | IOException e) {
      throw fields.child("file").refused(rule, e);
    }
  }
}
