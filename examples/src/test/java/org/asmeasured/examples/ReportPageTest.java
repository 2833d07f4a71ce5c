package org.asmeasured.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;

class ReportPageTest {
  private static final Account ACCOUNT =
      Sample.account(Sample.points(new Sample.Sine(0, 1, 120e3), 0, 1e9, 50_000, 0.03));
  private static Map<String, byte[]> files;
  private static String html;
  private static Document page;

  @BeforeAll
  static void write() throws Exception {
    System.setProperty("java.awt.headless", "true");
    files = Report.files(ACCOUNT, "{}\n");
    html = new String(files.get(Report.PAGE), StandardCharsets.UTF_8);
    page = Markup.parse(html);
  }

  @Test
  void isOnePageThatNeedsNothingElse() {
    Markup.assertRefersToNothingOutside(html);
    Markup.assertRefersToNothingOutside(page);
    assertEquals(0, page.getElementsByTagName("script").getLength());
  }

  @Test
  void saysWhatTheUserAsked() {
    String text = page.getDocumentElement().getTextContent();
    for (String words :
        List.of(
            "A rail, invented: <5 V & \"quiet\"",
            "20.00\u00a0mV",
            "47.10\u00a0mV",
            "+27.10\u00a0mV",
            "true value: 1.200\u00a0ns",
            "as measured: not taken: there is no transition in the record",
            "3 raw samples lay above the converter's range",
            "The ground clip is earth.")) {
      assertTrue(text.contains(words), words);
    }
  }

  @Test
  void holdsEveryPictureInBothWidths() throws Exception {
    NodeList images = page.getElementsByTagName("img");
    NodeList sources = page.getElementsByTagName("source");
    long pictures = files.keySet().stream().filter(name -> name.endsWith(".svg")).count();
    assertEquals(pictures, images.getLength());
    assertEquals(pictures, sources.getLength());
    for (int i = 0; i < images.getLength(); i++) {
      Element image = (Element) images.item(i);
      assertFalse(image.getAttribute("alt").isBlank());
      assertEquals(
          image.getAttribute("width"), root(image.getAttribute("src")).getAttribute("width"));
      Element source = (Element) sources.item(i);
      assertEquals(
          source.getAttribute("width"), root(source.getAttribute("srcset")).getAttribute("width"));
    }
  }

  private static Element root(String data) throws Exception {
    byte[] svg = Base64.getDecoder().decode(data.substring(data.indexOf(',') + 1));
    return Markup.parse(new String(svg, StandardCharsets.UTF_8)).getDocumentElement();
  }

  @Test
  void holdsNamesThatTheFolderKnows() {
    for (String name : files.keySet()) {
      assertTrue(Report.isOurs(name), name);
    }
    assertFalse(Report.isOurs("thesis.doc"));
    assertFalse(Report.isOurs("holiday.png"));
  }

  @Test
  void printsTheSameInPlainLetters() {
    String expected =
        """
        A rail, invented: <5 V & "quiet"

        Reading            peak to peak
        True value         20.00 mV
        As measured        47.10 mV      off by +27.10 mV (+136 %)
        Where it went      coupling 0   bandwidth -0.30   quantisation +27.40   = +27.10 mV

        Reading            rise time
        True value         1.200 ns
        As measured        not taken: there is no transition in the record

        Flag               3 raw samples lay above the converter's range
        Caution            The ground clip is earth.
        Report             out/report.html
        """;
    assertEquals(expected, TerminalPage.of(ACCOUNT, Path.of("out", "report.html")));
  }
}
