package org.asmeasured.examples;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.asmeasured.advice.BenchComparison;
import org.asmeasured.scenario.BenchAnswer;
import org.asmeasured.scenario.BenchAnswers;

/** The report of a comparison: its page, a picture for each limit, its figures. */
final class CompareReport {
  static final String PAGE = "compare.html";
  static final String RESULT = "compare.json";

  private final BenchAnswer answer;
  private final List<CompareWords> limits;

  CompareReport(BenchAnswer answer) {
    this.answer = answer;
    limits = answer.comparisons().stream().map(CompareWords::of).toList();
  }

  /** A table for each limit, no wider than 100 columns. */
  String terminal(Path report) {
    StringBuilder text = new StringBuilder(TerminalPage.plain(title())).append("\n\n");
    List<String> cautions = CautionWords.of(answer);
    if (!cautions.isEmpty()) {
      text.append(TerminalPage.cautions(cautions)).append('\n');
    }
    for (CompareWords limit : limits) {
      TextTable table = new TextTable(3, 32, 10, 11, 16, 18);
      table.row("", "Instrument", "Reading", "U of the quantity", "Decision", "Verifies").rule();
      int rank = 0;
      for (CompareWords.Row row : limit.rows()) {
        String number = "-";
        if (row.isTaken()) {
          number = row.beyond().isEmpty() ? String.valueOf(++rank) : "!";
        }
        if (row.isTaken()) {
          table.row(
              number,
              row.instrument(),
              row.reading(),
              row.uncertainty(),
              row.decision(),
              row.verifies());
        } else {
          table.row(number, row.instrument(), row.decision());
        }
        if (!row.beyond().isEmpty()) {
          table.row("", row.beyond());
        }
        if (!row.settings().isEmpty()) {
          table.row("", row.settings());
        }
        if (!row.follows().isEmpty()) {
          table.row("", row.follows());
        }
      }
      text.append(TerminalPage.plain(limit.heading())).append('\n');
      text.append("True value ").append(TerminalPage.plain(limit.truth())).append("\n\n");
      text.append(TerminalPage.plain(table.toString())).append('\n');
    }
    text.append(ComparePage.U).append('\n').append(ComparePage.OWN_PROBE).append('\n');
    return text.append("Report             ").append(report).append('\n').toString();
  }

  private String title() {
    return answer.question().scenario().title() + ": instruments compared";
  }

  Map<String, byte[]> files() {
    List<Picture> pictures = new ArrayList<>();
    List<Integer> perLimit = new ArrayList<>();
    for (BenchComparison comparison : answer.comparisons()) {
      List<Picture> one = ComparePicture.of("compare-" + (perLimit.size() + 1), comparison);
      pictures.addAll(one);
      perLimit.add(one.size());
    }
    List<Picture.Rendered> rendered = pictures.parallelStream().map(Picture::rendered).toList();
    Map<String, byte[]> files = new LinkedHashMap<>();
    files.put(PAGE, utf8(new ComparePage(title(), answer, limits).html(rendered, perLimit)));
    files.put(RESULT, utf8(BenchAnswers.toJson(answer)));
    for (Picture.Rendered one : rendered) {
      files.put(one.picture().file() + ".png", one.png());
      files.put(one.picture().file() + ".svg", utf8(one.wideSvg()));
    }
    return files;
  }

  private static byte[] utf8(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }
}
