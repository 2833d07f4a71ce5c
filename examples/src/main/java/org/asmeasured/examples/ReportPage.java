package org.asmeasured.examples;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;

/** The page of one scenario. */
final class ReportPage extends Page {
  private final Account account;
  private final List<Picture.Rendered> ofRecord;
  private final List<Picture.Rendered> details;
  private final List<Picture.Rendered> spreads;
  private final List<Picture.Rendered> ofReadings;

  ReportPage(
      Account account,
      List<Picture.Rendered> ofRecord,
      List<Picture.Rendered> details,
      List<Picture.Rendered> spreads,
      List<Picture.Rendered> ofReadings) {
    this.account = account;
    this.ofRecord = ofRecord;
    this.details = details;
    this.spreads = spreads;
    this.ofReadings = ofReadings;
  }

  String html() {
    begin(account.title());
    element("h1", account.title());
    for (String note : account.notes()) {
      element("p", note);
    }
    answers();
    if (!account.betweenChannels().isEmpty()) {
      element("p", account.betweenChannels());
    }
    sureness();
    helping();
    spreads();
    list("found", "Test of the converter", account.converterTest());
    list("flags", "What the record shows", account.flags());
    list("chances", "Rare events", account.chances());
    list("cautions", "Cautions", account.cautions());
    element("h2", account.further().isEmpty() ? "The record" : "The records");
    if (ofRecord.isEmpty()) {
      element("p", "Nothing was recorded.");
    }
    ofRecord.forEach(this::figure);
    if (!details.isEmpty()) {
      element("h2", "What the readings rest on");
      details.forEach(this::figure);
    }
    reckonings();
    budgets();
    setup();
    html.append("<footer>\n");
    element(
        "p",
        (account.sureness().isEmpty()
                ? ""
                : "How sure: each trial is another instrument within the stated tolerances and another capture."
                    + " Decision: only where a reading taken as it stands and one corrected for the bias come to the same. ")
            + "True value: the same reading of the signal at the tip, before anything is connected to it, from its closed form."
            + " Off by: as measured less true value. Where it went: each stage of the chain switched in after those before"
            + " it; the parts sum to the whole. Random part: standard deviation from capture to capture; squared, it sums"
            + " over the stages too.");
    element(
        "p",
        "Every figure is a prediction of a model. It does not replace a calibration, a rated probe or licensed practice"
            + " where a voltage can hurt.");
    html.append("</footer>\n");
    return end();
  }

  private void answers() {
    html.append(
        "<table class=\"answers\">\n<thead><tr><th scope=\"col\">Reading</th><th scope=\"col\">True value</th>");
    html.append(
        "<th scope=\"col\">As measured</th><th scope=\"col\">Off by</th></tr></thead>\n<tbody>\n");
    for (Account.Outcome outcome : account.outcomes()) {
      html.append("<tr><th scope=\"row\">").append(Xml.escaped(outcome.name())).append("</th>");
      if (outcome.isTaken()) {
        Reckoning reckoning = outcome.reckoning();
        number(reckoning.truthText(), "");
        number(
            reckoning.measuredText(),
            reckoning.random().isNone() ? "" : "random part " + reckoning.randomText());
        number(reckoning.bias() == 0 ? "0" : reckoning.biasText(), reckoning.relativeText());
      } else {
        html.append("<td colspan=\"3\" class=\"reason\">true value: ");
        html.append(typeset(outcome.truthText())).append("<br/>as measured: ");
        html.append(typeset(outcome.measuredText())).append("</td>");
      }
      html.append("</tr>\n");
    }
    html.append("</tbody>\n</table>\n");
  }

  private void sureness() {
    if (account.sureness().isEmpty()) {
      return;
    }
    element("h2", "How sure");
    head(
        "answers",
        "Reading",
        "Mean reading",
        "Standard uncertainty",
        "Capture to capture",
        "Instrument to instrument");
    for (Sureness one : account.sureness()) {
      html.append("<tr><th scope=\"row\">").append(Xml.escaped(one.name())).append("</th>");
      if (one.isTaken()) {
        number(one.readingText(), one.shortestText());
        number(one.deviationText(), "");
        number(one.repeatabilityText(), "");
        number(one.reproducibilityText(), "");
      } else {
        html.append("<td colspan=\"4\" class=\"reason\">").append(typeset(one.reason()));
        html.append("</td>");
      }
      html.append("</tr>\n");
    }
    html.append("</tbody>\n</table>\n");
    list(
        "decisions",
        "Decision",
        account.sureness().stream()
            .filter(one -> !one.limit().isEmpty())
            .flatMap(
                one ->
                    Stream.concat(
                        Stream.of(one.name() + " " + one.limit() + ": " + one.decision() + "."),
                        one.deciding().sentences().stream()
                            .map(words -> one.name() + ": " + words + ".")))
            .toList());
    list(
        "follows",
        "What the reading shows of a change",
        account.sureness().stream()
            .filter(one -> !one.followsText().isEmpty())
            .map(one -> one.name() + ": " + one.followsText() + ".")
            .toList());
    spreads.forEach(this::figure);
  }

  private void helping() {
    if (account.helping().isEmpty()) {
      return;
    }
    element("h2", "What would help");
    for (Helping one : account.helping()) {
      element("h3", one.name().substring(0, 1).toUpperCase(Locale.ROOT) + one.name().substring(1));
      html.append("<p>").append(typeset(one.best()));
      html.append(one.decision().isEmpty() ? "" : typeset("; " + one.decision()));
      html.append(".</p>\n");
      if (!one.rows().isEmpty()) {
        head("answers advice", "Settings", "Reading", "Bias", "Time to acquire", "Bandwidth");
        for (Helping.Row row : one.rows()) {
          html.append("<tr class=\"choice\"><th scope=\"row\">");
          html.append(typeset(row.settings())).append("</th>");
          number(row.reading(), "");
          number(row.bias(), "");
          number(row.time(), "");
          number(row.bandwidth(), "");
          html.append("</tr>\n<tr><td colspan=\"5\" class=\"reason\">");
          rules("Rules of practice broken", row.broken());
          rules("Rules of practice kept", row.kept());
          html.append("</td></tr>\n");
        }
        html.append("</tbody>\n</table>\n");
      }
      if (!one.search().isEmpty()) {
        html.append("<p>").append(typeset(one.search())).append("</p>\n");
      }
    }
  }

  private void rules(String what, List<String> rules) {
    html.append("<div>").append(what).append(rules.isEmpty() ? ": none" : "").append("</div>\n");
    if (!rules.isEmpty()) {
      html.append("<ul>");
      rules.forEach(rule -> html.append("<li>").append(typeset(rule)).append("</li>\n"));
      html.append("</ul>\n");
    }
  }

  private void budgets() {
    List<Sureness> budgets =
        account.sureness().stream()
            .filter(one -> one.isTaken() && !one.budget().isEmpty())
            .toList();
    if (budgets.isEmpty()) {
      return;
    }
    element("h2", "Uncertainty budgets");
    for (Sureness one : budgets) {
      element("h3", one.name().substring(0, 1).toUpperCase(Locale.ROOT) + one.name().substring(1));
      head(
          "answers budget",
          "Source",
          "Standard uncertainty",
          "Sensitivity",
          "Contribution",
          "Share of variance");
      for (Sureness.Row row : one.budget()) {
        html.append("<tr><th scope=\"row\">").append(Xml.escaped(row.name()));
        html.append("<br/><small>").append(typeset(row.distribution())).append("</small></th>");
        number(row.deviation(), "");
        number(row.sensitivity(), "");
        number(row.contribution(), "");
        number(row.share(), "");
        html.append("</tr>\n");
      }
      html.append("</tbody>\n</table>\n<p>").append(typeset(one.below())).append("</p>\n");
    }
  }

  private void spreads() {
    if (account.spreads().isEmpty()) {
      return;
    }
    element("h2", "Over " + account.captures() + " captures");
    html.append(
        "<table class=\"answers\">\n<thead><tr><th scope=\"col\">Reading</th><th scope=\"col\">Mean</th>");
    html.append("<th scope=\"col\">Standard deviation</th>");
    html.append("<th scope=\"col\">Least to greatest</th></tr></thead>\n<tbody>\n");
    for (Account.Spread spread : account.spreads()) {
      html.append("<tr><th scope=\"row\">").append(Xml.escaped(spread.name()));
      spread
          .reasons()
          .forEach(r -> html.append("<br/><small>").append(typeset(r)).append("</small>"));
      html.append("</th>");
      number(spread.mean(), "");
      number(spread.deviation(), "");
      number(spread.least(), spread.greatest());
      html.append("</tr>\n");
    }
    html.append("</tbody>\n</table>\n");
  }

  private void reckonings() {
    element("h2", "Where it went");
    int pictures = 0;
    for (Account.Outcome outcome : account.outcomes()) {
      StageTables tables = outcome.tables();
      if (outcome.isTaken()) {
        figure(ofReadings.get(pictures++));
        if (outcome.reckoning().scattersByStage()) {
          figure(ofReadings.get(pictures++));
        }
      } else if (tables.inOrder().stream().anyMatch(StageTables.Row::taken)) {
        element("h3", outcome.name());
      } else {
        continue;
      }
      html.append("<div class=\"stages\">\n");
      stages(
          "In order: each stage switched in after those before it. The parts sum to the whole.",
          "With",
          "Reading",
          "Stage adds",
          tables.inOrder(),
          tables.scatters());
      stages(
          "Each alone ideal, all others as they are. These do not sum.",
          "Ideal",
          "Would be",
          "Less by",
          tables.aloneIdeal(),
          tables.scatters());
      html.append("</div>\n");
    }
  }

  private void stages(
      String caption,
      String what,
      String reading,
      String adds,
      List<StageTables.Row> rows,
      boolean scatters) {
    if (rows.isEmpty()) {
      return;
    }
    html.append("<table>\n");
    element("caption", caption);
    html.append("<thead><tr>");
    List<String> heads = new ArrayList<>(List.of(what, reading, adds));
    if (scatters) {
      heads.add("Random part");
    }
    heads.forEach(h -> html.append("<th scope=\"col\">").append(h).append("</th>"));
    html.append("</tr></thead>\n<tbody>\n");
    for (StageTables.Row row : rows) {
      html.append("<tr><th scope=\"row\">").append(Xml.escaped(row.stage()));
      row.missing().forEach(m -> html.append("<br/><small>").append(typeset(m)).append("</small>"));
      html.append("</th>");
      if (row.taken()) {
        number(row.reading(), "");
        number(row.adds(), row.sure());
        if (scatters) {
          number(row.randomPart(), "");
        }
      } else {
        html.append("<td colspan=\"").append(scatters ? 3 : 2).append("\" class=\"reason\">");
        html.append(typeset(row.reading())).append("</td>");
      }
      html.append("</tr>\n");
    }
    html.append("</tbody>\n</table>\n");
  }

  private void setup() {
    element("h2", "Signal and setup");
    html.append("<table class=\"setup\">\n<tbody>\n");
    for (Account.Fact fact : account.setup()) {
      html.append("<tr><th scope=\"row\">").append(Xml.escaped(fact.what())).append("</th><td>");
      html.append(typeset(fact.words())).append("</td></tr>\n");
    }
    html.append("</tbody>\n</table>\n");
  }
}
