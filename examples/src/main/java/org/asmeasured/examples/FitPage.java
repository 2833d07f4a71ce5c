package org.asmeasured.examples;

import java.util.List;
import org.asmeasured.fitting.ChainFit;
import org.asmeasured.measure.Outcome;
import org.asmeasured.scenario.BenchFitResult;

/** The page of one fit. */
final class FitPage extends Page {
  private final BenchFitResult result;
  private final List<Picture.Rendered> pictures;

  FitPage(BenchFitResult result, List<Picture.Rendered> pictures) {
    this.result = result;
    this.pictures = pictures;
  }

  String html() {
    begin(result.asked().title());
    element("h1", result.asked().title());
    result.asked().notes().forEach(note -> element("p", note));
    list("cautions", "Cautions", CautionWords.of(result));
    if (result.fit() instanceof Outcome.Taken<ChainFit> taken) {
      estimates(taken.result());
    } else {
      element("p", "No fit: " + ((Outcome.NotTaken<ChainFit>) result.fit()).reason() + ".");
    }
    for (int i = 0; i < result.corrections().size(); i++) {
      element("h2", "A reading corrected");
      facts(FitWords.correction(result.asked().readings().get(i), result.corrections().get(i)));
      facts(
          List.of(
              new Account.Fact(
                  "Signal assumed",
                  result.asked().readings().get(i).measurement().signal().toString()),
              new Account.Fact(
                  "Setup as stated",
                  result.asked().readings().get(i).measurement().setup().toString())));
    }
    if (!pictures.isEmpty()) {
      element("h2", "Record and chain");
      pictures.forEach(this::figure);
    }
    element("h2", "Signal and setup");
    facts(
        List.of(
            new Account.Fact(
                "Signal recorded",
                result.asked().recordings().get(0).measurement().signal().toString()),
            new Account.Fact(
                "Setup as stated",
                result.asked().recordings().get(0).measurement().setup().toString())));
    html.append("<footer>\n");
    element(
        "p",
        "Uncertainties are those that the noise of the records leaves. What the signal that was taken for known is"
            + " uncertain by comes on top, and so does what the model of the chain lacks.");
    element(
        "p",
        "Every figure is a prediction of a model. It does not replace a calibration, a rated probe or licensed practice"
            + " where a voltage can hurt.");
    html.append("</footer>\n");
    return end();
  }

  private void estimates(ChainFit fit) {
    list(
        "flags",
        "To be read with the estimates",
        fit.notes().stream().map(FitPage::capitalised).toList());
    html.append("<table class=\"answers\">\n<thead><tr><th scope=\"col\">Parameter</th>");
    html.append("<th scope=\"col\">Estimate</th><th scope=\"col\">Standard uncertainty</th>");
    html.append("</tr></thead>\n<tbody>\n");
    for (int j = 0; j < fit.unknowns().size(); j++) {
      FitWords.Pair pair = FitWords.estimate(fit, j);
      html.append("<tr><th scope=\"row\">").append(Xml.escaped(fit.unknowns().get(j).name()));
      html.append("</th><td class=\"number\">").append(unbroken(pair.value()));
      html.append("</td><td class=\"number\">").append(unbroken(pair.uncertainty()));
      html.append("</td></tr>\n");
    }
    html.append("</tbody>\n</table>\n");
    String agreement = FitWords.agreement(fit);
    html.append("<p>").append(typeset(capitalised(agreement))).append(".</p>\n");
    list(
        "found",
        "How the estimates hang together",
        FitWords.correlations(fit).stream().map(FitPage::capitalised).toList());
  }

  private static String capitalised(String sentence) {
    return Character.toUpperCase(sentence.charAt(0)) + sentence.substring(1);
  }

  private void facts(List<Account.Fact> facts) {
    html.append("<table class=\"setup\">\n<tbody>\n");
    for (Account.Fact fact : facts) {
      html.append("<tr><th scope=\"row\">").append(Xml.escaped(fact.what()));
      html.append("</th><td>").append(typeset(fact.words())).append("</td></tr>\n");
    }
    html.append("</tbody>\n</table>\n");
  }
}
