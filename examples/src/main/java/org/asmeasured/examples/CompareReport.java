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
import org.asmeasured.scenario.BenchQuestion;

/** The report of a comparison: its page, a picture for each limit, its figures. */
final class CompareReport {
  static final String PAGE = "compare.html";
  static final String RESULT = "compare.json";
  private static final String OWN_PROBE =
      "An instrument named without a probe has that of the scenario.";
  private static final String U = "U is twice the standard uncertainty.";

  private final BenchAnswer answer;
  private final List<CompareWords> limits;

  CompareReport(BenchAnswer answer) {
    this.answer = answer;
    limits = answer.comparisons().stream().map(CompareWords::of).toList();
  }

  /** A table for each limit, no wider than 100 columns. */
  String terminal(Path report) {
    StringBuilder text = new StringBuilder(TerminalPage.plain(title())).append("\n\n");
    for (CompareWords limit : limits) {
      TextTable table = new TextTable(3, 37, 24, 14, 14);
      table.row("", "Instrument", "Reading +/- U", "Decision", "Verifies").rule();
      int rank = 0;
      for (CompareWords.Row row : limit.rows()) {
        String number = row.isTaken() ? String.valueOf(++rank) : "-";
        if (row.isTaken()) {
          table.row(number, row.instrument(), row.reading(), row.decision(), row.verifies());
        } else {
          table.row(number, row.instrument(), row.decision());
        }
        if (!row.settings().isEmpty()) {
          table.row("", row.settings());
        }
      }
      text.append(TerminalPage.plain(limit.heading())).append('\n');
      text.append("True value ").append(TerminalPage.plain(limit.truth())).append("\n\n");
      text.append(TerminalPage.plain(table.toString())).append('\n');
    }
    text.append(U).append(' ').append(OWN_PROBE).append('\n');
    return text.append("Report             ").append(report).append('\n').toString();
  }

  private String title() {
    return answer.question().scenario().title() + ": which instrument";
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
    files.put(PAGE, utf8(html(rendered, perLimit)));
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

  private String html(List<Picture.Rendered> pictures, List<Integer> perLimit) {
    BenchQuestion question = answer.question();
    StringBuilder html = new StringBuilder(1 << 18);
    html.append(
        "<!DOCTYPE html>\n<html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n");
    html.append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n");
    element(html, "title", title());
    html.append("<style>\n").append(ReportPage.style());
    html.append("</style>\n</head>\n<body>\n<main>\n");
    element(html, "h1", title());
    question.scenario().notes().forEach(note -> element(html, "p", note));
    int next = 0;
    for (int i = 0; i < limits.size(); i++) {
      html.append("<h2>").append(ReportPage.typeset(limits.get(i).heading())).append("</h2>\n");
      html.append("<p>True value ").append(ReportPage.typeset(limits.get(i).truth()));
      html.append(".</p>\n");
      table(html, limits.get(i));
      for (int k = 0; k < perLimit.get(i); k++) {
        ReportPage.figure(html, pictures.get(next++));
      }
    }
    bench(html, question);
    html.append("<footer>\n");
    element(
        html,
        "p",
        U
            + " "
            + OWN_PROBE
            + (question.asSet()
                ? " Scale, coupling and averaging are those of the scenario."
                : " Settings are those of least U and bias among those that an instrument offers.")
            + " What the scenario knows of its signal, source, probe, start and trigger counts for every instrument;"
            + " its own instrument and what that offers do not. Verifies: the nearest limit that the instrument would"
            + " pass a quantity against at the risk.");
    element(
        html,
        "p",
        "Every figure is a prediction of a model. It does not replace a calibration, a rated probe or licensed practice"
            + " where a voltage can hurt.");
    html.append("</footer>\n</main>\n</body>\n</html>\n");
    return html.toString();
  }

  private static void table(StringBuilder html, CompareWords limit) {
    html.append("<table class=\"answers compared\">\n<thead><tr>");
    for (String head : List.of("Instrument", "Reading +/- U", "Decision", "Verifies")) {
      html.append("<th scope=\"col\">").append(head).append("</th>");
    }
    html.append("</tr></thead>\n<tbody>\n");
    for (CompareWords.Row row : limit.rows()) {
      html.append("<tr><th scope=\"row\">").append(ReportPage.typeset(row.instrument()));
      if (!row.settings().isEmpty()) {
        html.append("<br/><small>").append(ReportPage.typeset(row.settings())).append("</small>");
      }
      html.append("</th>");
      if (row.isTaken()) {
        html.append("<td class=\"number\">").append(ReportPage.unbroken(row.reading()));
        html.append("</td><td>").append(ReportPage.typeset(row.decision()));
        html.append("</td><td>").append(ReportPage.typeset(row.verifies())).append("</td>");
      } else {
        html.append("<td colspan=\"3\" class=\"reason\">");
        html.append(ReportPage.typeset(row.decision())).append("</td>");
      }
      html.append("</tr>\n");
    }
    html.append("</tbody>\n</table>\n");
  }

  private static void bench(StringBuilder html, BenchQuestion question) {
    element(html, "h2", "The bench");
    html.append("<table class=\"setup\">\n<tbody>\n");
    question
        .instruments()
        .forEach(
            i ->
                fact(
                    html,
                    i.instrument().name(),
                    String.join(" ", i.notes()) + " Tolerances: " + i.instrument().tolerances()));
    question
        .probes()
        .forEach(
            p ->
                fact(
                    html,
                    p.name(),
                    String.join(" ", p.notes()) + " " + p.probe() + "; " + p.tolerances()));
    fact(html, "Signal", question.scenario().signal().toString());
    fact(html, "Setup of the scenario", question.scenario().setup().toString());
    fact(
        html,
        "Tolerances of the scenario",
        question.scenario().assessment().orElseThrow().tolerances().toString());
    html.append("</tbody>\n</table>\n");
  }

  private static void fact(StringBuilder html, String what, String words) {
    html.append("<tr><th scope=\"row\">").append(Xml.escaped(what)).append("</th><td>");
    html.append(ReportPage.typeset(words)).append("</td></tr>\n");
  }

  private static void element(StringBuilder html, String name, String text) {
    html.append('<').append(name).append('>').append(Xml.escaped(text));
    html.append("</").append(name).append(">\n");
  }
}
