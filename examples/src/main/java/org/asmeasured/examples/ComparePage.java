package org.asmeasured.examples;

import java.util.List;
import org.asmeasured.scenario.BenchAnswer;
import org.asmeasured.scenario.BenchQuestion;

/** The page of one comparison. */
final class ComparePage extends Page {
  static final String OWN_PROBE = "An instrument named without a probe has that of the scenario.";
  static final String U =
      "U of the quantity: twice the standard uncertainty of the corrected reading, as decisions count it.";

  private final String title;
  private final BenchAnswer answer;
  private final BenchQuestion question;
  private final List<CompareWords> limits;

  ComparePage(String title, BenchAnswer answer, List<CompareWords> limits) {
    this.title = title;
    this.answer = answer;
    this.question = answer.question();
    this.limits = limits;
  }

  String html(List<Picture.Rendered> pictures, List<Integer> perLimit) {
    begin(title);
    element("h1", title);
    question.scenario().notes().forEach(note -> element("p", note));
    list("cautions", "Cautions", CautionWords.of(answer));
    int next = 0;
    for (int i = 0; i < limits.size(); i++) {
      html.append("<h2>").append(typeset(limits.get(i).heading())).append("</h2>\n");
      html.append("<p>True value ").append(typeset(limits.get(i).truth()));
      html.append(".</p>\n");
      table(limits.get(i));
      for (int k = 0; k < perLimit.get(i); k++) {
        figure(pictures.get(next++));
      }
    }
    bench();
    html.append("<footer>\n");
    element(
        "p",
        U
            + " Where a change of the quantity shows by half in the reading, that is twice the reading's own; where it"
            + " does not show, nothing bounds it. "
            + OWN_PROBE
            + (question.asSet()
                ? " Scale, coupling and averaging are those of the scenario."
                : " Settings are those of least uncertainty and bias of the reading among those that an instrument offers.")
            + " What the scenario knows of its signal, source, probe, start and trigger counts for every instrument;"
            + " its own instrument and what that offers do not. Verifies: the nearest limit that the instrument would"
            + " pass a quantity against at the risk.");
    element(
        "p",
        "Every figure is a prediction of a model. It does not replace a calibration, a rated probe or licensed practice"
            + " where a voltage can hurt.");
    html.append("</footer>\n");
    return end();
  }

  private void table(CompareWords limit) {
    head("answers compared", "Instrument", "Reading", "U of the quantity", "Decision", "Verifies");
    for (CompareWords.Row row : limit.rows()) {
      html.append("<tr><th scope=\"row\">").append(typeset(row.instrument()));
      if (!row.settings().isEmpty()) {
        html.append("<br/><small>").append(typeset(row.settings())).append("</small>");
      }
      if (!row.beyond().isEmpty()) {
        html.append("<br/><strong>").append(typeset(row.beyond())).append("</strong>");
      }
      if (!row.follows().isEmpty()) {
        html.append("<br/><small>").append(typeset(row.follows())).append("</small>");
      }
      html.append("</th>");
      if (row.isTaken()) {
        number(row.reading(), "");
        number(row.uncertainty(), "");
        html.append("<td>").append(typeset(row.decision()));
        html.append("</td><td>").append(typeset(row.verifies())).append("</td>");
      } else {
        html.append("<td colspan=\"4\" class=\"reason\">");
        html.append(typeset(row.decision())).append("</td>");
      }
      html.append("</tr>\n");
    }
    html.append("</tbody>\n</table>\n");
  }

  private void bench() {
    element("h2", "The bench");
    html.append("<table class=\"setup\">\n<tbody>\n");
    question
        .instruments()
        .forEach(
            i ->
                fact(
                    i.instrument().name(),
                    String.join(" ", i.notes()) + " Tolerances: " + i.instrument().tolerances()));
    question
        .probes()
        .forEach(
            p ->
                fact(
                    p.name(),
                    String.join(" ", p.notes()) + " " + p.probe() + "; " + p.tolerances()));
    fact("Signal", question.scenario().signal().toString());
    fact("Setup of the scenario", question.scenario().setup().toString());
    fact(
        "Tolerances of the scenario",
        question.scenario().assessment().orElseThrow().tolerances().toString());
    html.append("</tbody>\n</table>\n");
  }

  private void fact(String what, String words) {
    html.append("<tr><th scope=\"row\">").append(Xml.escaped(what)).append("</th><td>");
    html.append(typeset(words)).append("</td></tr>\n");
  }
}
