package org.asmeasured.scenario;

import java.util.ArrayList;
import java.util.List;
import org.asmeasured.accuracy.Caution;
import org.asmeasured.capture.Channel;

/** All that whoever would do at a bench what a scenario says must be warned of. */
final class ScenarioCautions {
  private ScenarioCautions() {}

  /** Those of each channel, the further ones by their names, then those between channels. */
  static List<Caution> of(Scenario scenario) {
    List<Caution> all = new ArrayList<>(Caution.asFarAsKnown(scenario.signal(), scenario.setup()));
    scenario.channels().ifPresent(channels -> further(channels, all));
    return all;
  }

  private static void further(FurtherChannels channels, List<Caution> all) {
    List<Channel> set = channels.set().channels();
    for (int c = 1; c < set.size(); c++) {
      String name = set.get(c).name();
      for (Caution one : Caution.asFarAsKnown(channels.signals().get(c), set.get(c).setup())) {
        all.add(new Caution(one.subject(), name + ": " + one.words()));
      }
    }
    all.addAll(Caution.between(set));
  }
}
