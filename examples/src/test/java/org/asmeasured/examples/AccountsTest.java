package org.asmeasured.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.asmeasured.scenario.ScenarioResult;
import org.asmeasured.scenario.Scenarios;
import org.junit.jupiter.api.Test;

/** What a report says of a setup. */
class AccountsTest {
  private static Account of(String signal, String setup) {
    String text =
        "{'formatVersion': 1, 'title': 't', 'signal': "
            + signal
            + ", 'setup': "
            + setup
            + ", 'readings': [{'kind': 'mean'}]}";
    return Accounts.of(
        ScenarioResult.of(Scenarios.parse(text.replace('\'', '"'), Path.of("").toAbsolutePath())));
  }

  private static Map<String, String> facts(Account account) {
    Map<String, String> facts = new LinkedHashMap<>();
    account.setup().forEach(fact -> facts.put(fact.what(), fact.words()));
    return facts;
  }

  @Test
  void tellsSourceProbeAndInputApart() {
    Map<String, String> facts =
        facts(
            of(
                "{'kind': 'constant', 'volts': 1}",
                "{'sourceOhms': 1e3, 'sourceFarads': 2e-12, 'probe': {'kind': 'passiveDivider', 'attenuation': 10,"
                    + " 'trimmerError': 0.1, 'groundLead': {'henries': 1e-7}, 'rating': {'peakVolts': 400}},"
                    + " 'termination': {'ohms': 1e6, 'farads': 15e-12}, 'inputRating': {'rmsVolts': 300},"
                    + " 'sampling': {'rateHz': 1e6, 'points': 10}}"));
    assertEquals("source of 1 kohm with 2 pF of its own", facts.get("Source"));
    assertTrue(facts.get("Probe").startsWith("passive divider x10, 9 Mohm"), facts::toString);
    assertTrue(facts.get("Probe").contains("trimmer +10 %"), facts::toString);
    assertTrue(facts.get("Probe").contains("ground lead of 100 nH"), facts::toString);
    assertEquals("rated for 400 V peak", facts.get("Rating of the probe"));
    assertEquals("1 Mohm in parallel with 15 pF", facts.get("Termination"));
    assertEquals("rated for 300 V RMS", facts.get("Rating of the input"));
    assertEquals("DC coupling", facts.get("Coupling"));
    assertEquals("ideal", facts.get("Bandwidth"));
  }

  @Test
  void saysNothingOfWhatIsNotStated() {
    Map<String, String> facts =
        facts(
            of("{'kind': 'constant', 'volts': 1}", "{'sampling': {'rateHz': 1e6, 'points': 10}}"));
    assertEquals("ideal source", facts.get("Source"));
    assertEquals("direct connection", facts.get("Probe"));
    assertTrue(facts.keySet().stream().noneMatch(key -> key.startsWith("Rating")), facts::toString);
  }

  /** A capacitor is no stage by itself, but it is AC coupling: 16 nF take off the 2.5 V mean. */
  @Test
  void capacitorIsCoupling() {
    Account account =
        of(
            "{'kind': 'square', 'lowVolts': 2, 'highVolts': 3, 'periodSeconds': 1e-4, 'dutyFactor': 0.5}",
            "{'coupling': {'kind': 'capacitor', 'farads': 16e-9}, 'sampling': {'rateHz': 1e6, 'points': 200, 'startSeconds': 5e-7}}");
    assertEquals("AC coupling by 16 nF", facts(account).get("Coupling"));
    assertEquals(2.5, account.comparison().removedVolts(), 1e-12);
    assertEquals(-2.5, account.outcomes().get(0).reckoning().bias(), 1e-9);
    assertEquals("coupling", account.outcomes().get(0).reckoning().parts().get(0).stage());
  }

  @Test
  void tellsNoiseSamplerTriggerAndSeed() {
    Account account =
        of(
            "{'kind': 'sine', 'amplitudeVolts': 1, 'frequencyHz': 1e4}",
            "{'sourceOhms': 50, 'sourceNoise': {'kind': 'white', 'densityVoltsPerRootHz': 1e-8},"
                + " 'noise': {'densityVoltsPerRootHz': 2e-8}, 'saturation': {'highVolts': 0.8},"
                + " 'bandwidth': {'kind': 'singlePole', 'bandwidthHz': 1e6}, 'vertical': {'voltsPerDivision': 1},"
                + " 'sampler': {'jitterSeconds': 1e-9}, 'converterNoise': {'rmsOfFullScale': 0.001},"
                + " 'sampling': {'rateHz': 1e6, 'points': 200}, 'trigger': {'levelVolts': 0.1},"
                + " 'ensemble': {'kind': 'envelope', 'count': 4}}");
    Map<String, String> facts = facts(account);
    assertEquals("10 nV/sqrt(Hz) of the source", facts.get("Noise of the source"));
    assertEquals("20 nV/sqrt(Hz)", facts.get("Noise of the amplifier"));
    assertEquals("saturation above 800 mV", facts.get("Saturation"));
    assertEquals("sampler with jitter 1 ns", facts.get("Sampler"));
    assertEquals("converter noise of 0.001 of full scale", facts.get("Noise of the converter"));
    assertTrue(facts.get("Trigger").startsWith("rising through 100 mV"), facts::toString);
    assertEquals("envelope of 4 acquisitions", facts.get("Acquisitions"));
    assertEquals("0", facts.get("Seed of all that is random"));
    assertEquals(List.of(), account.flags());
    assertTrue(account.comparison().isEnvelope());
  }

  private static final String NEVER =
      "{'sampling': {'rateHz': 1e6, 'points': 200}, 'trigger': {'levelVolts': 9, 'noEvent': {'kind': '%s',"
          + " 'afterSeconds': 1e-3}}}";
  private static final String SINE = "{'kind': 'sine', 'amplitudeVolts': 1, 'frequencyHz': 1e4}";

  /** Where no event comes there is nothing to draw, and page and terminal say why. */
  @Test
  void nothingRecordedIsSaidWithItsReason() {
    Account account = of(SINE, String.format(NEVER, "waits"));
    assertEquals(1, account.flags().size());
    String flag = account.flags().get(0);
    assertTrue(flag.startsWith("No trigger: no event within 1 ms: "), flag);
    assertEquals("nothing was recorded", facts(account).get("Record"));
    assertEquals("0 V", account.outcomes().get(0).truthText());
    Map<String, byte[]> files = Report.files(account, "{}");
    assertEquals(Set.of(Report.PAGE, Report.RESULT), files.keySet());
    String page = new String(files.get(Report.PAGE), StandardCharsets.UTF_8);
    assertTrue(page.contains("Nothing was recorded."), page);
    assertTrue(page.contains("No trigger: no event within"), page);
    String terminal = TerminalPage.of(account, Path.of("report.html")).replaceAll("\\s+", " ");
    assertTrue(terminal.contains("Flag No trigger: no event within 1 ms"), terminal);
    assertTrue(terminal.contains("not taken: nothing was recorded"), terminal);
  }

  @Test
  void runningFreeIsAFlagAndNoClipping() {
    Account account = of(SINE, String.format(NEVER, "runsFree"));
    assertTrue(account.flags().get(0).startsWith("Ran free: "), account.flags()::toString);
    assertNull(account.comparison().range());
  }
}
