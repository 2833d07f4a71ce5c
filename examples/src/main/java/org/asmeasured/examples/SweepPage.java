package org.asmeasured.examples;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.asmeasured.measure.Measured;
import org.asmeasured.measure.Measured.NotTaken;
import org.asmeasured.measure.Measured.Value;
import org.asmeasured.measure.Outcome;
import org.asmeasured.scenario.SweepResult;
import org.asmeasured.scenario.SweepRow;
import org.asmeasured.scenario.SweptReading;
import org.asmeasured.scenario.SweptValue;

/** The page of one sweep: for each reading its pictures and its table. */
final class SweepPage extends Page {
  /** More rows than a person reads; the rest are in the CSV. */
  private static final int MOST_ROWS = 300;

  private final SweepResult result;
  private final List<SweepPictures.Drawn> pictures;
  private final List<Picture.Rendered> rendered;
  private final SweepWords words;

  /** Reasons that the row has given: each is said once. */
  private final Set<String> said = new HashSet<>();

  SweepPage(
      SweepResult result, List<SweepPictures.Drawn> pictures, List<Picture.Rendered> rendered) {
    this.result = result;
    this.pictures = pictures;
    this.rendered = rendered;
    this.words = new SweepWords(result);
  }

  String html() {
    begin(result.sweep().title());
    element("h1", result.sweep().title());
    result.sweep().notes().forEach(note -> element("p", note));
    List<String> over = new ArrayList<>();
    words.axes().forEach(axis -> over.add(SweepWords.capitalised(axis) + "."));
    list("flags", "Varied, over " + result.rows().size() + " points", over);
    list("cautions", "Cautions", CautionWords.of(result));
    List<String> names = result.sweep().readingNames();
    for (int r = 0; r < names.size(); r++) {
      element("h2", SweepWords.capitalised(names.get(r)));
      html.append("<p>").append(typeset(SweepWords.capitalised(String.join("; ", words.worst(r)))));
      html.append(".</p>\n");
      for (int p = 0; p < pictures.size(); p++) {
        if (pictures.get(p).reading() == r) {
          figure(rendered.get(p));
        }
      }
      table(r);
    }
    html.append("<footer>\n");
    element(
        "p",
        "True value: the same reading of the signal at the tip, before anything is connected to it, from its closed form."
            + " Off by: as measured less true value."
            + (result.sweep().scenario().assessment().isEmpty()
                ? ""
                : " Mean reading, standard uncertainty and interval: over trials, each of another instrument within the"
                    + " stated tolerances and another capture."));
    element(
        "p",
        "Every figure is a prediction of a model. It does not replace a calibration, a rated probe or licensed practice"
            + " where a voltage can hurt.");
    html.append("</footer>\n");
    return end();
  }

  private void table(int reading) {
    boolean sure = result.rows().get(0).readings().get(reading).sureness().isPresent();
    boolean ruled =
        result
            .rows()
            .get(0)
            .readings()
            .get(reading)
            .sureness()
            .flatMap(s -> s.ruling())
            .isPresent();
    List<String> columns = new ArrayList<>();
    for (SweptValue value : result.sweep().values()) {
      columns.add(SweepWords.capitalised(value.name()));
    }
    columns.addAll(List.of("True value", "As measured", "Off by"));
    if (sure) {
      columns.addAll(List.of("Mean reading", "Standard uncertainty", "95 % of readings"));
    }
    if (ruled) {
      columns.add("Decision");
    }
    if (warned()) {
      columns.add("Cautions");
    }
    head("answers", columns.toArray(String[]::new));
    for (SweepRow row : result.rows().subList(0, Math.min(MOST_ROWS, result.rows().size()))) {
      row(row, row.readings().get(reading));
    }
    html.append("</tbody>\n</table>\n");
    if (result.rows().size() > MOST_ROWS) {
      element(
          "p",
          "The first "
              + MOST_ROWS
              + " of "
              + result.rows().size()
              + " points; the others are in "
              + SweepReport.TABLE
              + ".");
    }
  }

  private void row(SweepRow row, SweptReading reading) {
    html.append("<tr>");
    for (int c = 0; c < row.coordinates().size(); c++) {
      String text = SweepWords.text(result.sweep().values().get(c), row.coordinates().get(c));
      if (c == 0) {
        html.append("<th scope=\"row\">").append(unbroken(text)).append("</th>");
      } else {
        number(text, "");
      }
    }
    String unit = reading.unit();
    Function<Double, String> plain = value -> Scale.text(value, unit);
    said.clear();
    cell(reading.truth(), plain);
    cell(reading.measured(), plain);
    cell(reading.bias(), value -> Scale.signedText(value, unit));
    reading
        .sureness()
        .ifPresent(
            sure -> {
              cell(sure.mean(), plain);
              cell(sure.standardUncertainty(), plain);
              if (sure.lower() instanceof Value lower && sure.upper() instanceof Value upper) {
                number(plain.apply(lower.value()), "to " + plain.apply(upper.value()));
              } else {
                number("", "");
              }
              sure.ruling()
                  .ifPresent(
                      ruling ->
                          number(
                              ruling instanceof Outcome.Taken<?>
                                  ? SweepWords.ruling(ruling.orThrow())
                                  : "",
                              ""));
            });
    if (warned()) {
      html.append("<td>");
      html.append(
          Xml.escaped(
              row.cautions().stream()
                  .map(one -> one.subject().toString())
                  .distinct()
                  .collect(Collectors.joining("; "))));
      html.append("</td>");
    }
    html.append("</tr>\n");
  }

  private boolean warned() {
    return result.rows().stream().anyMatch(row -> !row.cautions().isEmpty());
  }

  private void cell(Measured measured, Function<Double, String> text) {
    if (measured instanceof Value taken) {
      number(text.apply(taken.value()), "");
    } else if (said.add(((NotTaken) measured).reason())) {
      html.append("<td class=\"reason\">").append(typeset(((NotTaken) measured).reason()));
      html.append("</td>");
    } else {
      number("–", "");
    }
  }
}
