package org.asmeasured.examples;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.List;
import java.util.regex.Pattern;

/**
 * One HTML page with its pictures inside: it needs no network, no script and no other file. It is
 * well-formed XML too, so that any tool can read it.
 */
final class ReportPage {
  private static final String STYLE = "report.css";

  private static final Pattern MINUS = Pattern.compile("(?<![\\w.)-])-(?=\\d)");
  private static final Pattern BEFORE_UNIT =
      Pattern.compile(
          "(?<=\\d) (?=([afpnuµmkMGTP]?(V|A|W|J|VA|rad|s|Hz|ohm|F)|dB|%|bit|steps?)(\\W|$))");

  private final Account account;
  private final List<Picture.Rendered> ofRecord;
  private final List<Picture.Rendered> details;
  private final List<Picture.Rendered> ofReadings;
  private final StringBuilder html = new StringBuilder(1 << 20);

  ReportPage(
      Account account,
      List<Picture.Rendered> ofRecord,
      List<Picture.Rendered> details,
      List<Picture.Rendered> ofReadings) {
    this.account = account;
    this.ofRecord = ofRecord;
    this.details = details;
    this.ofReadings = ofReadings;
  }

  String html() {
    html.append(
        "<!DOCTYPE html>\n<html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n");
    html.append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n");
    element("title", account.title() + ": as measured");
    html.append("<style>\n").append(style()).append("</style>\n</head>\n<body>\n<main>\n");
    element("h1", account.title());
    for (String note : account.notes()) {
      element("p", note);
    }
    answers();
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
    setup();
    html.append("<footer>\n");
    element(
        "p",
        "True value: the same reading of the signal at the tip, before anything is connected to it, from its closed form."
            + " Off by: as measured less true value. Where it went: each stage of the chain switched in after those before"
            + " it; the parts sum to the whole.");
    element(
        "p",
        "Every figure is a prediction of a model. It does not replace a calibration, a rated probe or licensed practice"
            + " where a voltage can hurt.");
    html.append("</footer>\n</main>\n</body>\n</html>\n");
    return html.toString();
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
        number(reckoning.measuredText(), "");
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

  private void number(String text, String below) {
    html.append("<td class=\"number\">").append(unbroken(text));
    if (!below.isEmpty()) {
      html.append("<br/><small>").append(unbroken(below)).append("</small>");
    }
    html.append("</td>");
  }

  /** A number stays on one line with its unit, and its minus is a minus. */
  static String unbroken(String text) {
    return Xml.escaped(text.replace('-', '−').replace(' ', '\u00a0'));
  }

  /**
   * The same for a sentence of our own: minus signs, and no line break between a number and its
   * unit.
   */
  static String typeset(String sentence) {
    String text = MINUS.matcher(sentence).replaceAll("−");
    return Xml.escaped(BEFORE_UNIT.matcher(text).replaceAll("\u00a0"));
  }

  private void list(String kind, String heading, List<String> sentences) {
    if (sentences.isEmpty()) {
      return;
    }
    html.append("<section class=\"").append(kind).append("\">\n");
    element("h2", heading);
    html.append("<ul>\n");
    sentences.forEach(s -> html.append("<li>").append(typeset(s)).append("</li>\n"));
    html.append("</ul>\n</section>\n");
  }

  private void reckonings() {
    if (!ofReadings.isEmpty()) {
      element("h2", "Where it went");
      ofReadings.forEach(this::figure);
    }
  }

  private void figure(Picture.Rendered rendered) {
    figure(html, rendered);
  }

  static void figure(StringBuilder html, Picture.Rendered rendered) {
    Picture picture = rendered.picture();
    Picture.Size wide = picture.wide();
    Picture.Size narrow = picture.narrow();
    html.append("<figure>\n<h3>").append(Xml.escaped(picture.title())).append("</h3>\n<picture>\n");
    html.append("<source media=\"(max-width: 640px)\" width=\"").append(narrow.width());
    html.append("\" height=\"")
        .append(narrow.height())
        .append("\" srcset=\"")
        .append(data(rendered.narrowSvg()))
        .append("\"/>\n");
    html.append("<img width=\"").append(wide.width()).append("\" height=\"").append(wide.height());
    html.append("\" alt=\"")
        .append(Xml.escaped(picture.title() + ". " + picture.caption()))
        .append("\" src=\"")
        .append(data(rendered.wideSvg()));
    html.append("\"/>\n</picture>\n<figcaption>")
        .append(typeset(picture.caption()))
        .append("</figcaption>\n</figure>\n");
  }

  private static String data(String svg) {
    return "data:image/svg+xml;base64,"
        + Base64.getEncoder().encodeToString(svg.getBytes(StandardCharsets.UTF_8));
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

  private void element(String name, String text) {
    html.append('<')
        .append(name)
        .append('>')
        .append(Xml.escaped(text))
        .append("</")
        .append(name)
        .append(">\n");
  }

  static String style() {
    try (InputStream in = ReportPage.class.getResourceAsStream(STYLE)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
