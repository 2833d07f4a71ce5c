package org.asmeasured.examples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
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
}
