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
abstract class Page {
  private static final String STYLE = "report.css";

  private static final Pattern MINUS = Pattern.compile("(?<![\\w.)-])-(?=\\d)");
  private static final Pattern MICRO = Pattern.compile("(?<=\\d )u(?=(V|A|W|J|s|F|H|ohm)\\b)");
  private static final Pattern BEFORE_UNIT =
      Pattern.compile(
          "(?<=\\d) (?=([afpnuµmkMGTP]?(V|A|W|J|VA|rad|s|Hz|ohm|F)|dB|%|bit|steps?)(\\W|$))");

  final StringBuilder html = new StringBuilder(1 << 20);

  final void begin(String title) {
    html.append(
        "<!DOCTYPE html>\n<html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n");
    html.append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n");
    element("title", title + ": as measured");
    html.append("<style>\n").append(style()).append("</style>\n</head>\n<body>\n<main>\n");
  }

  final String end() {
    return html.append("</main>\n</body>\n</html>\n").toString();
  }

  final void head(String kind, String... columns) {
    html.append("<table class=\"").append(kind).append("\">\n<thead><tr>");
    for (String column : columns) {
      html.append("<th scope=\"col\">").append(Xml.escaped(column)).append("</th>");
    }
    html.append("</tr></thead>\n<tbody>\n");
  }

  final void number(String text, String below) {
    html.append("<td class=\"number\">").append(unbroken(text));
    if (!below.isEmpty()) {
      html.append("<br/><small>").append(unbroken(below)).append("</small>");
    }
    html.append("</td>");
  }

  /** A number stays on one line with its unit, and its minus is a minus. */
  static String unbroken(String text) {
    return Xml.escaped(withSigns(text).replace('-', '−').replace(' ', '\u00a0'));
  }

  /**
   * The same for a sentence of our own: minus signs, and no line break between a number and its
   * unit.
   */
  static String typeset(String sentence) {
    String text = MINUS.matcher(withSigns(sentence)).replaceAll("−");
    return Xml.escaped(withUnits(text));
  }

  /** What a terminal writes with plain letters. */
  private static String withSigns(String text) {
    return MICRO.matcher(text.replace("+/-", "±")).replaceAll("µ");
  }

  /** A sentence whose numbers do not part from their units. */
  static String withUnits(String sentence) {
    return BEFORE_UNIT.matcher(sentence).replaceAll("\u00a0");
  }

  final void list(String kind, String heading, List<String> sentences) {
    if (sentences.isEmpty()) {
      return;
    }
    html.append("<section class=\"").append(kind).append("\">\n");
    element("h2", heading);
    html.append("<ul>\n");
    sentences.forEach(s -> html.append("<li>").append(typeset(s)).append("</li>\n"));
    html.append("</ul>\n</section>\n");
  }

  final void figure(Picture.Rendered rendered) {
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

  final void element(String name, String text) {
    html.append('<')
        .append(name)
        .append('>')
        .append(Xml.escaped(text))
        .append("</")
        .append(name)
        .append(">\n");
  }

  private static String style() {
    try (InputStream in = Page.class.getResourceAsStream(STYLE)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
