package org.asmeasured.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import org.asmeasured.scenario.ScenarioResult;
import org.asmeasured.scenario.Scenarios;
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
        Where it went      in mV: coupling 0   bandwidth -0.30   quantisation +27.40   = +27.10 mV

        Reading            rise time
        True value         1.200 ns
        As measured        not taken: there is no transition in the record

        Flag               3 raw samples lay above the converter's range
        Caution            The ground clip is earth.
        Report             out/report.html
        """;
    assertEquals(expected, TerminalPage.of(ACCOUNT, Path.of("out", "report.html")));
  }

  /**
   * A gain error of 1 % of 2 V, and noise of a step of 1/32 V on each of 100 points: the mean of
   * them scatters by some 3 mV, and the gain is worth 20 mV in both tables.
   */
  @Test
  void showsBothTablesAndTheRandomPart() throws Exception {
    String text =
        """
        {"formatVersion": 1, "title": "t", "captures": 50, "seed": 3,
         "signal": {"kind": "constant", "volts": 2},
         "setup": {"vertical": {"voltsPerDivision": 1, "gainError": 0.01},
                   "converterNoise": {"rmsOfFullScale": 0.00390625},
                   "sampling": {"rateHz": 1e6, "points": 100}},
         "readings": [{"kind": "mean"}]}
        """;
    Account account =
        Accounts.of(ScenarioResult.of(Scenarios.parse(text, Path.of("").toAbsolutePath())));
    StageTables tables = account.outcomes().get(0).tables();
    assertEquals(
        List.of("vertical gain and offset", "sampling", "converter noise"),
        tables.inOrder().stream().map(StageTables.Row::stage).toList());
    assertEquals("+20.00 mV", tables.inOrder().get(0).adds());
    assertEquals("0", tables.inOrder().get(0).randomPart().replaceAll(" .*", ""));
    assertEquals("+20.00 mV", tables.aloneIdeal().get(0).adds());
    assertEquals("", tables.aloneIdeal().get(0).sure());
    assertEquals("2.020 V", tables.aloneIdeal().get(1).reading());
    assertTrue(tables.inOrder().get(2).sure().startsWith("± "), tables::toString);
    Map<String, byte[]> all = Report.files(account, "{}");
    String html = new String(all.get(Report.PAGE), StandardCharsets.UTF_8);
    Document parsed = Markup.parse(html);
    NodeList captions = parsed.getElementsByTagName("caption");
    assertEquals(2, captions.getLength());
    assertTrue(captions.item(0).getTextContent().startsWith("In order: "));
    assertTrue(captions.item(1).getTextContent().startsWith("Each alone ideal, "));
    assertTrue(html.contains("Whiskers: "), html);
    Reckoning reckoning = account.outcomes().get(0).reckoning();
    String line =
        "Random part        "
            + reckoning.randomText()
            + " a capture, "
            + reckoning.sureText()
            + " in the mean, largest share by converter noise\n";
    String terminal = TerminalPage.of(account, Path.of("report.html"));
    assertTrue(terminal.contains(line.replace('µ', 'u')), terminal);
    // Of a single capture nothing is said of scatter.
    Account single =
        Accounts.of(
            ScenarioResult.of(
                Scenarios.parse(
                    text.replace("\"captures\": 50, ", ""), Path.of("").toAbsolutePath())));
    assertFalse(single.outcomes().get(0).tables().scatters());
    String plain = new String(Report.files(single, "{}").get(Report.PAGE), StandardCharsets.UTF_8);
    assertFalse(plain.contains("Whiskers: "));
    assertFalse(TerminalPage.of(single, Path.of("report.html")).contains("Random part"));
  }

  /** Effective bits of a sine have no true value, and a table by stage all the same. */
  @Test
  void showsTablesOfAReadingWithoutATruth() throws Exception {
    String text =
        """
        {"formatVersion": 1, "title": "t",
         "signal": {"kind": "sine", "amplitudeVolts": 3.8, "frequencyHz": 9.7e3},
         "setup": {"vertical": {"voltsPerDivision": 1}, "converter": {"kind": "ideal", "bits": 8},
                   "sampling": {"rateHz": 1e6, "points": 4096}},
         "readings": [{"kind": "effectiveBitsBySineFit", "fullScaleVolts": 8}]}
        """;
    Account account =
        Accounts.of(ScenarioResult.of(Scenarios.parse(text, Path.of("").toAbsolutePath())));
    assertFalse(account.outcomes().get(0).isTaken());
    String html = new String(Report.files(account, "{}").get(Report.PAGE), StandardCharsets.UTF_8);
    Document parsed = Markup.parse(html);
    assertEquals(2, parsed.getElementsByTagName("caption").getLength());
    assertTrue(html.contains("the number of bits has no bound"), html);
    StageTables tables = account.outcomes().get(0).tables();
    assertEquals("quantisation", tables.inOrder().get(1).stage());
    String bits = tables.inOrder().get(1).reading();
    assertTrue(bits.endsWith(" bit"), bits);
    assertEquals(8, Double.parseDouble(bits.replace(" bit", "")), 0.05);
    assertEquals("not taken", tables.inOrder().get(1).adds());
  }

  /**
   * A sine of 1 MHz behind a pole at 30 MHz, 100 samples in 1 us: what each choice costs, and the
   * rules by their names with the figures that they go by (0.2 V of 8 V are 2.5 %).
   */
  @Test
  void showsWhatEachChoiceCostsAndTheRules() throws Exception {
    String text =
        """
        {"formatVersion": 1, "title": "t",
         "signal": {"kind": "sine", "amplitudeVolts": 0.1, "frequencyHz": 1e6},
         "setup": {"bandwidth": {"kind": "singlePole", "bandwidthHz": 30e6},
                   "vertical": {"voltsPerDivision": 1}, "converter": {"kind": "ideal", "bits": 8},
                   "converterNoise": {"rmsOfFullScale": 0.002},
                   "sampling": {"rateHz": 100e6, "points": 100}},
         "readings": [{"kind": "acRms"}],
         "assessment": {"digits": 1, "captures": 2,
           "offers": {"scales": {"leastVoltsPerDivision": 0.05, "greatestVoltsPerDivision": 1},
                      "limits": [{"kind": "unlimited"}, {"kind": "singlePole", "bandwidthHz": 20e6}]}}}
        """;
    ScenarioResult result = ScenarioResult.of(Scenarios.parse(text, Path.of("").toAbsolutePath()));
    Account account = Accounts.of(result);
    List<Helping.Row> rows = account.helping().get(0).rows();
    Helping.Row asked = rows.get(rows.size() - 1);
    assertEquals("as asked", asked.settings());
    assertEquals("1.000 us", asked.time().replace('µ', 'u'));
    assertEquals("30.00 MHz", asked.bandwidth());
    assertEquals(
        List.of(
            "bandwidth of three to five times the signal's: 30 MHz is 30 times the signal's 1 MHz;"
                + " beyond five times there is more noise, and hardly more of the signal"),
        asked.kept());
    assertEquals(
        List.of(
            "fill the screen: fills 2.5 % of the span",
            "sample rate of five times the bandwidth: 100 Msamples/s is 3.33 times the bandwidth"),
        asked.broken());
    assertTrue(rows.get(0).kept().stream().anyMatch(k -> k.startsWith("fill the screen: fills ")));
    String html = new String(Report.files(account, "{}").get(Report.PAGE), StandardCharsets.UTF_8);
    Document parsed = Markup.parse(html);
    String shown = parsed.getDocumentElement().getTextContent().replace('\u00a0', ' ');
    assertTrue(shown.contains("Time to acquireBandwidth"), shown);
    for (Helping.Row row : rows) {
      for (String words : List.of(row.settings(), row.time(), row.bandwidth())) {
        assertTrue(shown.contains(words.replace('-', '−')), words);
      }
      for (List<String> rules : List.of(row.kept(), row.broken())) {
        rules.forEach(rule -> assertTrue(shown.contains(rule), rule));
      }
    }
    assertTrue(shown.contains("Rules of practice broken"), shown);
    assertTrue(shown.contains("Rules of practice kept"), shown);
  }
}
