package org.asmeasured.scenario;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.asmeasured.characterisation.Coherence;
import org.asmeasured.characterisation.HistogramLinearity;
import org.asmeasured.characterisation.HistogramLinearity.Sampling;
import org.asmeasured.measure.Outcome;

/** How the samples of a test of the converter fall on the phases of its signal. */
record Phases(Sampling sampling, List<String> caveats) {

  static Phases of(
      LinearityTest.Stimulus stimulus,
      LinearityCaptures records,
      Outcome<HistogramLinearity> found) {
    int points = records.setup().points();
    if (records.signal().periodSeconds().isEmpty()) {
      return stimulus == LinearityTest.Stimulus.RAMP
          ? new Phases(repeated(points, 1, records), List.of())
          : new Phases(
              Sampling.independent(),
              List.of(
                  "The signal does not repeat: how evenly its samples are spread is not known."));
    }
    double period = records.signal().periodSeconds().getAsDouble();
    Coherence coherence = new Coherence(points, points / records.storedHz() / period);
    if (!coherence.isWhole()) {
      return new Phases(Sampling.independent(), List.of(broken(coherence, found)));
    }
    int passes = coherence.passes();
    List<String> caveats = new ArrayList<>();
    if (passes > 1) {
      caveats.add(
          "Cycles and points share the factor "
              + passes
              + ": only "
              + points / passes
              + " phases of the signal are met.");
    }
    if (records.beginAnywhere()) {
      return new Phases(Sampling.coherent(points, passes, records.noiseSteps()), caveats);
    }
    if (records.captures() > 1) {
      caveats.add(
          "Each capture begins at the same phase of the signal: more of them only lessen what noise"
              + " does.");
    }
    return new Phases(repeated(points, passes, records), caveats);
  }

  private static String broken(Coherence coherence, Outcome<HistogramLinearity> found) {
    String words =
        String.format(
            Locale.ROOT,
            "The record holds %.6g cycles of the signal, no whole number: what is left over counts"
                + " some phases once too often",
            coherence.cycles());
    return found instanceof Outcome.Taken<HistogramLinearity> taken
        ? String.format(
            Locale.ROOT,
            "%s, and a transition level may be off by up to %.2g steps beside what it scatters by.",
            words,
            taken.result().brokenCycleSteps(coherence))
        : words + ".";
  }

  /** Records that all begin at one phase are one record, each of whose phases is met as often. */
  private static Sampling repeated(int points, int passes, LinearityCaptures records) {
    long captures = records.captures();
    return Sampling.coherent(points * captures, passes * captures, records.noiseSteps());
  }
}
