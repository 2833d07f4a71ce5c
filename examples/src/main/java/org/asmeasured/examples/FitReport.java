package org.asmeasured.examples;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.asmeasured.fitting.ChainFit;
import org.asmeasured.measure.Outcome;
import org.asmeasured.scenario.BenchFitResult;
import org.asmeasured.scenario.BenchFitResults;

/** The report of one fit: its page, its pictures, its figures. */
final class FitReport {
  private final BenchFitResult result;

  FitReport(BenchFitResult result) {
    this.result = result;
  }

  String terminal(Path report) {
    return TerminalPage.of(result.asked().title(), FitWords.lines(result), report);
  }

  Map<String, byte[]> files() {
    List<Picture> pictures =
        result.fit() instanceof Outcome.Taken<ChainFit> taken
            ? FitPictures.of(taken.result())
            : List.of();
    List<Picture.Rendered> rendered = pictures.parallelStream().map(Picture::rendered).toList();
    Map<String, byte[]> files = new LinkedHashMap<>();
    files.put(Report.PAGE, utf8(html(rendered)));
    files.put(Report.RESULT, utf8(BenchFitResults.toJson(result)));
    for (Picture.Rendered one : rendered) {
      files.put(one.picture().file() + ".png", one.png());
      files.put(one.picture().file() + ".svg", utf8(one.wideSvg()));
    }
    return files;
  }

  private static byte[] utf8(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  private String html(List<Picture.Rendered> pictures) {
    StringBuilder html = new StringBuilder(1 << 20);
    html.append(
        "<!DOCTYPE html>\n<html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n");
    html.append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n");
    element(html, "title", result.asked().title() + ": as measured");
    html.append("<style>\n").append(ReportPage.style());
    html.append("</style>\n</head>\n<body>\n<main>\n");
    element(html, "h1", result.asked().title());
    result.asked().notes().forEach(note -> element(html, "p", note));
    if (result.fit() instanceof Outcome.Taken<ChainFit> taken) {
      estimates(html, taken.result());
    } else {
      element(html, "p", "No fit: " + ((Outcome.NotTaken<ChainFit>) result.fit()).reason() + ".");
    }
    for (int i = 0; i < result.corrections().size(); i++) {
      element(html, "h2", "A reading corrected");
      facts(
          html, FitWords.correction(result.asked().readings().get(i), result.corrections().get(i)));
      facts(
          html,
          List.of(
              new Account.Fact(
                  "Signal assumed",
                  result.asked().readings().get(i).measurement().signal().toString()),
              new Account.Fact(
                  "Setup as stated",
                  result.asked().readings().get(i).measurement().setup().toString())));
    }
    if (!pictures.isEmpty()) {
      element(html, "h2", "Record and chain");
      pictures.forEach(p -> ReportPage.figure(html, p));
    }
    element(html, "h2", "Signal and setup");
    facts(
        html,
        List.of(
            new Account.Fact(
                "Signal recorded",
                result.asked().recordings().get(0).measurement().signal().toString()),
            new Account.Fact(
                "Setup as stated",
                result.asked().recordings().get(0).measurement().setup().toString())));
    html.append("<footer>\n");
    element(
        html,
        "p",
        "Uncertainties are those that the noise of the records leaves. What the signal that was taken for known is"
            + " uncertain by comes on top, and so does what the model of the chain lacks.");
    element(
        html,
        "p",
        "Every figure is a prediction of a model. It does not replace a calibration, a rated probe or licensed practice"
            + " where a voltage can hurt.");
    html.append("</footer>\n</main>\n</body>\n</html>\n");
    return html.toString();
  }

  private static void estimates(StringBuilder html, ChainFit fit) {
    html.append("<table class=\"answers\">\n<thead><tr><th scope=\"col\">Parameter</th>");
    html.append("<th scope=\"col\">Estimate</th><th scope=\"col\">Standard uncertainty</th>");
    html.append("</tr></thead>\n<tbody>\n");
    for (int j = 0; j < fit.unknowns().size(); j++) {
      FitWords.Pair pair = FitWords.estimate(fit, j);
      html.append("<tr><th scope=\"row\">").append(Xml.escaped(fit.unknowns().get(j).name()));
      html.append("</th><td class=\"number\">").append(ReportPage.unbroken(pair.value()));
      html.append("</td><td class=\"number\">").append(ReportPage.unbroken(pair.uncertainty()));
      html.append("</td></tr>\n");
    }
    html.append("</tbody>\n</table>\n");
    String agreement = FitWords.agreement(fit);
    html.append("<p>").append(ReportPage.typeset(capitalised(agreement))).append(".</p>\n");
    list(html, "found", "How the estimates hang together", FitWords.correlations(fit));
    list(html, "flags", "What else is to be said", fit.notes());
  }

  private static String capitalised(String sentence) {
    return Character.toUpperCase(sentence.charAt(0)) + sentence.substring(1);
  }

  private static void list(
      StringBuilder html, String kind, String heading, List<String> sentences) {
    if (sentences.isEmpty()) {
      return;
    }
    html.append("<section class=\"").append(kind).append("\">\n");
    element(html, "h2", heading);
    html.append("<ul>\n");
    sentences.forEach(
        s -> html.append("<li>").append(ReportPage.typeset(capitalised(s))).append("</li>\n"));
    html.append("</ul>\n</section>\n");
  }

  private static void facts(StringBuilder html, List<Account.Fact> facts) {
    html.append("<table class=\"setup\">\n<tbody>\n");
    for (Account.Fact fact : facts) {
      html.append("<tr><th scope=\"row\">").append(Xml.escaped(fact.what()));
      html.append("</th><td>").append(ReportPage.typeset(fact.words())).append("</td></tr>\n");
    }
    html.append("</tbody>\n</table>\n");
  }

  private static void element(StringBuilder html, String name, String text) {
    html.append('<').append(name).append('>').append(Xml.escaped(text));
    html.append("</").append(name).append(">\n");
  }
}
