package org.asmeasured.validation;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.asmeasured.signal.SampleClock;

/** Reads the vector files; their own headers say what made them. */
final class Vectors {
  private Vectors() {}

  enum Kind {
    SAMPLE,
    VALUE,
    BEFORE
  }

  /**
   * One expected value: at a sample number, at an instant, or the limit from the left of an
   * instant.
   */
  record Row(Kind kind, long index, double instant, double volts) {}

  /** One case with all its rows. */
  record Case(
      String name,
      String signal,
      String response,
      double fullScale,
      double tolerance,
      SampleClock clock,
      List<Row> rows) {}

  static List<Case> read(String file) {
    String path = "/vectors/" + file;
    List<Case> cases = new ArrayList<>();
    try (InputStream stream = Vectors.class.getResourceAsStream(path)) {
      if (stream == null) {
        throw new IllegalArgumentException(path + ": not found");
      }
      BufferedReader lines =
          new BufferedReader(new InputStreamReader(stream, StandardCharsets.UTF_8));
      Block block = null;
      int number = 0;
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        number++;
        if (line.isBlank() || line.startsWith("#") || line.equals("kind,where,volts")) {
          continue;
        }
        try {
          if (line.startsWith("case: ")) {
            if (block != null) {
              cases.add(block.done());
            }
            block = new Block();
          }
          block.take(line);
        } catch (RuntimeException e) {
          throw new IllegalArgumentException(path + ", line " + number + ": " + line, e);
        }
      }
      cases.add(block.done());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return cases;
  }

  private static final class Block {
    private String name;
    private String signal;
    private String response;
    private double fullScale = Double.NaN;
    private double start = Double.NaN;
    private double rate = Double.NaN;
    private double tolerance = Double.NaN;
    private final List<Row> rows = new ArrayList<>();

    void take(String line) {
      int colon = line.indexOf(": ");
      if (colon > 0) {
        String value = line.substring(colon + 2);
        switch (line.substring(0, colon)) {
          case "case" -> name = value;
          case "signal" -> signal = value;
          case "response" -> response = value;
          case "full scale" -> fullScale = Double.parseDouble(value);
          case "start" -> start = Double.parseDouble(value);
          case "tolerance" -> tolerance = Double.parseDouble(value);
          case "rate" -> rate = Double.parseDouble(value);
          default -> throw new IllegalArgumentException("unknown key");
        }
        return;
      }
      String[] cells = line.split(",", -1);
      if (cells.length != 3) {
        throw new IllegalArgumentException(cells.length + " cells instead of 3");
      }
      double volts = Double.parseDouble(cells[2]);
      rows.add(
          switch (cells[0]) {
            case "sample" -> new Row(Kind.SAMPLE, Long.parseLong(cells[1]), Double.NaN, volts);
            case "value" -> new Row(Kind.VALUE, 0, Double.parseDouble(cells[1]), volts);
            case "before" -> new Row(Kind.BEFORE, 0, Double.parseDouble(cells[1]), volts);
            default -> throw new IllegalArgumentException("unknown kind");
          });
    }

    Case done() {
      if (signal == null
          || response == null
          || !(fullScale > 0)
          || !(tolerance > 0)
          || rows.isEmpty()) {
        throw new IllegalArgumentException("case " + name + " is not complete");
      }
      return new Case(
          name,
          signal,
          response,
          fullScale,
          tolerance,
          new SampleClock(start, rate),
          List.copyOf(rows));
    }
  }
}
