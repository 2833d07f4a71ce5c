package org.asmeasured.examples;

/** Text that goes into a page. */
final class Xml {
  private Xml() {}

  /**
   * Escapes what markup would take for its own, in text and in quoted attributes; drops what XML
   * cannot hold.
   */
  static String escaped(String text) {
    StringBuilder out = new StringBuilder(text.length() + 16);
    text.codePoints().forEach(c -> append(out, c));
    return out.toString();
  }

  private static void append(StringBuilder out, int c) {
    switch (c) {
      case '&' -> out.append("&amp;");
      case '<' -> out.append("&lt;");
      case '>' -> out.append("&gt;");
      case '"' -> out.append("&quot;");
      case '\'' -> out.append("&#39;");
      case '\t', '\n', '\r' -> out.append(' ');
      default -> {
        boolean allowed = c >= 0x20 && c != 0xFFFE && c != 0xFFFF && !(c >= 0xD800 && c <= 0xDFFF);
        if (allowed) {
          out.appendCodePoint(c);
        }
      }
    }
  }
}
