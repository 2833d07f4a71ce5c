package org.asmeasured.examples;

import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The head of an SVG file as a page wants it: a view box to scale by, a title to read out, no
 * document type.
 */
final class SvgText {
  private static final Pattern ROOT = Pattern.compile("<svg\\b[^>]*>", Pattern.DOTALL);
  private static final Pattern ATTRIBUTE = Pattern.compile("([\\w:-]+)=\"[^\"]*\"");

  /** How the drawing starts out; whatever it does not set itself. */
  private static final Set<String> INHERITED =
      Set.of(
          "color-interpolation",
          "color-rendering",
          "fill",
          "fill-opacity",
          "font-family",
          "font-size",
          "font-style",
          "font-weight",
          "image-rendering",
          "shape-rendering",
          "stroke",
          "stroke-dasharray",
          "stroke-dashoffset",
          "stroke-linecap",
          "stroke-linejoin",
          "stroke-miterlimit",
          "stroke-opacity",
          "stroke-width",
          "text-rendering");

  private SvgText() {}

  static String of(String drawn, Picture.Size size, String title) {
    Matcher root = ROOT.matcher(drawn);
    if (!root.find()) {
      throw new IllegalStateException("the drawing has no svg element");
    }
    StringBuilder inherited = new StringBuilder();
    Matcher attribute = ATTRIBUTE.matcher(root.group());
    while (attribute.find()) {
      if (INHERITED.contains(attribute.group(1))) {
        inherited.append(' ').append(attribute.group());
      }
    }
    // A document type would name a definition on the network.
    return "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" width=\""
        + size.width()
        + "\" height=\""
        + size.height()
        + "\" viewBox=\"0 0 "
        + size.width()
        + " "
        + size.height()
        + "\" role=\"img\""
        + inherited
        + ">\n<title>"
        + Xml.escaped(title)
        + "</title>"
        + drawn.substring(root.end()).replace("\r\n", "\n");
  }
}
