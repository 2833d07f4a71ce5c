package org.asmeasured.examples;

import java.util.ArrayList;
import java.util.List;

/** A table in letters of one width: cells are broken between words. */
final class TextTable {
  private static final int BETWEEN = 2;

  private final int[] widths;
  private final StringBuilder text = new StringBuilder();

  /** A table with columns of so many letters, two apart. */
  TextTable(int... widths) {
    this.widths = widths.clone();
  }

  /** A row; fewer cells than columns: the last one reaches to the end. */
  TextTable row(String... cells) {
    List<List<String>> broken = new ArrayList<>();
    int most = 0;
    for (int c = 0; c < cells.length; c++) {
      int width = widths[c];
      for (int k = c + 1; c == cells.length - 1 && k < widths.length; k++) {
        width += BETWEEN + widths[k];
      }
      broken.add(broken(cells[c], width));
      most = Math.max(most, broken.get(c).size());
    }
    for (int i = 0; i < most; i++) {
      StringBuilder line = new StringBuilder();
      int at = 0;
      for (int c = 0; c < cells.length; c++) {
        line.append(" ".repeat(at - line.length()));
        line.append(i < broken.get(c).size() ? broken.get(c).get(i) : "");
        at += widths[c] + BETWEEN;
      }
      text.append(line.toString().stripTrailing()).append('\n');
    }
    return this;
  }

  TextTable rule() {
    int width = -BETWEEN;
    for (int one : widths) {
      width += one + BETWEEN;
    }
    text.append("-".repeat(width)).append('\n');
    return this;
  }

  @Override
  public String toString() {
    return text.toString().replace('\u00a0', ' ');
  }

  private static List<String> broken(String cell, int width) {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : Page.withUnits(cell).split(" ")) {
      String rest = word;
      if (line.length() > 0 && line.length() + 1 + rest.length() > width) {
        lines.add(line.toString());
        line.setLength(0);
      }
      line.append(line.length() == 0 ? "" : " ");
      while (rest.length() > width) {
        lines.add(rest.substring(0, width));
        rest = rest.substring(width);
      }
      line.append(rest);
    }
    lines.add(line.toString());
    return lines;
  }
}
