package org.asmeasured.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a report says behind a decision: u = 20 mV of 2 V, closed forms of the normal one. */
class DecidingTest {
  private static final String SCENARIO =
      """
      {"formatVersion": 1, "title": "Two volts, invented",
       "signal": {"kind": "constant", "volts": 2},
       "setup": {"vertical": {"voltsPerDivision": 1}, "sampling": {"rateHz": 1e6, "points": 10}},
       "readings": [{"kind": "mean"}],
       "assessment": {
         "tolerances": [{"parameter": "%s", "distribution": %s}],
         "limits": [{"reading": {"kind": "mean"}, %s}]}}
      """;
  private static final String NORMAL =
      "{\"kind\": \"normal\", \"mean\": 0, \"standardDeviation\": 0.01}";

  @TempDir Path temp;

  private record Pages(String terminal, String html) {}

  private Pages predicted(String parameter, String distribution, String limit) throws Exception {
    Path file = temp.resolve("two-volts.json");
    Files.writeString(file, SCENARIO.formatted(parameter, distribution, limit));
    Path out = temp.resolve("out");
    Run run = Run.of("predict", file, "--out", out);
    assertEquals(0, run.code(), run.err());
    run.out()
        .lines()
        .forEach(line -> assertTrue(line.length() <= 100 || line.startsWith("Report"), line));
    String html = Files.readString(out.resolve("two-volts/report.html"));
    return new Pages(
        run.out().replaceAll("\\s+", " "),
        html.replaceAll("<[^>]*>", " ")
            .replace("&#39;", "'")
            .replace('\u00a0', ' ')
            .replace('\u2212', '-')
            .replaceAll("\\s+", " "));
  }

  private static void says(String page, String words) {
    assertTrue(page.contains(words), () -> "no \"" + words + "\" in: " + page);
  }

  /** Phi(2) = 97.72 %, 1.645 u = 32.9 mV. */
  @Test
  void oneLimit() throws Exception {
    Pages pages = predicted("gainError", NORMAL, "\"upper\": 2.04");
    says(pages.terminal, "Decision at most 2.04 V: passes, risk of a wrong pass 2.3 %");
    says(pages.terminal, "conformance probability 97.7 % as read, 97.7 % corrected;");
    says(pages.terminal, "verifies at most 2.033 V");
    assertFalse(pages.terminal.contains("disagree"), pages.terminal);
    says(pages.html, "mean: conformance probability 97.7 % as read, 97.7 % corrected.");
    says(pages.html, "mean: verifies at most 2.033 V.");
    says(pages.html, "mean: guard band 32.9");
    says(pages.html, "to be accepted are readings of at most 2.007 V (JCGM 106, 8.3.2).");
    says(pages.html, "shortest interval from 1.96");
    assertFalse(pages.html.contains("production"), pages.html);
  }

  /** 1.960 u = 39.2 mV; a limit at the mean of a production of 2 u: atan(1/2)/(2 pi) either way. */
  @Test
  void aProductionAndTwoLimits() throws Exception {
    String production =
        "\"production\": {\"kind\": \"normal\", \"mean\": 2.1, \"standardDeviation\": 0.04}";
    Pages pages = predicted("gainError", NORMAL, "\"lower\": 1.9, \"upper\": 2.1, " + production);
    says(pages.terminal, "verifies 2 V +/- 39.");
    says(
        pages.terminal,
        "production: consumer's risk 7.4 %, producer's risk 7.4 %; with the guard band");
    says(pages.html, "mean: verifies 2 V ± 39.");
    says(pages.html, "to be accepted are readings from 1.933 V to 2.067 V");
    says(pages.html, "producer's risk 7.4 %; with the guard band consumer's risk");
    says(pages.html, "(JCGM 106, 9.5)");
    says(
        predicted("gainError", NORMAL, "\"lower\": 1.99, \"upper\": 2.01").html,
        "mean: no guard band keeps the risk: the tolerance is too narrow for this uncertainty.");
  }

  /** A rectangular distribution ends at 1.73 u, at 95 % at 1.645 u; the law says 1.96 u. */
  @Test
  void endsThatDiffer() throws Exception {
    Pages pages =
        predicted(
            "gainError",
            "{\"kind\": \"rectangular\", \"lower\": -0.02, \"upper\": 0.02}",
            "\"upper\": 2.1");
    String ends = "its lower end -45.3 and -38.0 mV, its upper end 45.3 and 38.0 mV";
    says(pages.terminal, "disagree about the error (JCGM 101, clause 8): " + ends);
    says(
        pages.html,
        "disagree about the error (JCGM 101, clause 8): " + ends + ": trust the trials.");
  }

  @Test
  void aRiskBeyondTheTrials() throws Exception {
    Pages pages = predicted("gainError", NORMAL, "\"upper\": 2.3, \"risk\": 1e-9");
    String why = "too few trials for this risk: 100352 trials show no risk below 0.0030 %";
    says(pages.terminal, "at most 2.3 V: cannot be decided: " + why);
    says(pages.terminal, "conformance probability above 99.9970 % as read");
    assertFalse(pages.terminal.contains("verifies"), pages.terminal);
    says(pages.html, "cannot be decided: " + why + ".");
    assertFalse(pages.html.contains("guard band"), pages.html);
  }

  /** Two digits of what is missing to 0 or to 1, and never more than the trials can tell. */
  @Test
  void probabilities() {
    assertEquals("50 %", Deciding.probability(0.5, 4096));
    assertEquals("97.7 %", Deciding.probability(0.97725, 4096));
    assertEquals("99.87 %", Deciding.probability(0.99865, 4096));
    assertEquals("2.3 %", Deciding.probability(0.02275, 4096));
    assertEquals("above 99.927 %", Deciding.probability(1, 4096));
    assertEquals("below 0.073 %", Deciding.probability(0, 4096));
  }
}
